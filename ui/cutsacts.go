package ui

import (
	"slices"

	"fyne.io/fyne/v2"

	"leafmend/mendplan"
)

// drawingActs is what the drawing of the sheet asks for.
func (p *cutsPanel) drawingActs() sheetActs {
	return sheetActs{
		look: p.showWhere,
		say:  p.w.status.hover,
		leaf: func(place int) { p.w.pickPieceFrom(p.draw.label(place)) },
		tick: p.tickPiece,
		pin:  p.togglePin,
		put:  p.put,
		menu: p.pieceMenu,
		sheet: func(by int) {
			p.goTo(p.at + by)
		},
		rune: p.w.typedRune,
		key:  func(n fyne.KeyName) { p.w.typedKey(n, currentModifiers()) },
	}
}

// goTo draws another sheet.
func (p *cutsPanel) goTo(i int) {
	if i < 0 || i >= len(p.sheets) {
		return
	}
	p.at = i
	p.showList()
	p.showSheet()
}

// piece finds a piece of the plan by its label.
func (w *Window) piece(label string) (mendplan.Piece, bool) {
	for _, p := range w.session.Plan().Pieces {
		if p.Label == label {
			return p, true
		}
	}
	return mendplan.Piece{}, false
}

// showWhere shows the piece at a place on its leaf; −1 goes back to the piece
// in hand, or to the damages chosen.
func (p *cutsPanel) showWhere(place int) {
	if label := p.draw.label(place); label != "" {
		if piece, ok := p.w.piece(label); ok {
			leaf, _ := p.w.session.Job().Leaf(piece.Leaf)
			p.where.SetText(t("%s on %s, %s", label, leafTitle(leaf), sideShort(piece.Side)))
			p.glance.show(piece.Leaf, piece.Side, map[string]bool{label: true})
			return
		}
	}
	if lit := p.labelsOfChosen(); len(lit) > 0 {
		d, _ := p.w.session.Damage()
		leaf, _, _ := p.w.session.Job().FindDamage(d.Number)
		side, _ := p.w.planned(d)
		p.where.SetText(t("Damage %d on %s, %s", d.Number, leafTitle(leaf), sideShort(side)))
		p.glance.show(leaf.ID, side, lit)
		return
	}
	p.where.SetText(t("Point at a piece to see where it goes."))
	p.glance.show("", "", nil)
}

// labelsOfChosen are the labels of the pieces of the damages that are chosen.
func (p *cutsPanel) labelsOfChosen() map[string]bool {
	lit := map[string]bool{}
	for _, n := range p.w.session.Selected() {
		for _, piece := range p.w.session.PiecesOf(n) {
			lit[piece.Label] = true
		}
	}
	return lit
}

// followChosen lights the pieces of the damages chosen, and when others have
// been chosen goes to the sheet that they lie on.
func (p *cutsPanel) followChosen() {
	lit := p.labelsOfChosen()
	p.draw.light(lit)
	now := p.w.session.Selected()
	if slices.Equal(now, p.chosen) {
		return
	}
	p.chosen = now
	if len(lit) == 0 || p.at < len(p.sheets) && p.carries(p.at, lit) {
		return
	}
	for i := range p.sheets {
		if p.carries(i, lit) {
			p.at = i
			return
		}
	}
}

func (p *cutsPanel) carries(sheet int, labels map[string]bool) bool {
	for _, pl := range p.sheets[sheet].sheet.Places {
		if slices.ContainsFunc(pl.Blanks(), func(b string) bool { return labels[b] }) {
			return true
		}
	}
	return false
}

// pointed lights a piece that is pointed at on the leaf.
func (p *cutsPanel) pointed(label string) {
	lit := p.labelsOfChosen()
	if label != "" {
		lit = map[string]bool{label: true}
		p.w.status.hover(t("Piece %s. Press to find it on its sheet.", label))
	} else {
		p.w.status.hover("")
	}
	p.draw.light(lit)
}

// chooseLabel takes a piece in hand by its label, on whichever sheet it lies.
func (p *cutsPanel) chooseLabel(label string) {
	for i, s := range p.sheets {
		for k, pl := range s.sheet.Places {
			if slices.Contains(pl.Blanks(), label) {
				p.goTo(i)
				p.draw.choose(k)
				return
			}
		}
	}
	p.w.status.say(t("Piece %s is on no sheet.", label))
}

// held returns the number of the held sheet that is shown; one that is not
// held yet is held first, with all sheets of its tissue, in the job that is
// returned: what is being cut must not move.
func (p *cutsPanel) held() (mendplan.Job, int) {
	j, s := p.w.session.Job(), p.sheets[p.at]
	if s.held > 0 {
		return j, s.held
	}
	for _, l := range p.w.session.Plan().Layouts {
		if l.Tissue == s.tissue.ID {
			j = j.HoldLayout(l.Tissue, l.Layout)
		}
	}
	h, _ := j.HeldAt(s.tissue.ID, s.index)
	return j, h.Number
}

// ready reports whether the layout is the job's as it is, so that it can be
// held; it says so when it is not.
func (p *cutsPanel) ready() bool {
	if len(p.sheets) == 0 {
		return false
	}
	if !p.w.session.PlanIsFresh() {
		p.w.status.say(t("The sheets are still being laid out: try again in a moment."))
		return false
	}
	return true
}

func (p *cutsPanel) tickStep(step int) {
	if !p.ready() {
		return
	}
	off := p.cutsOff()[step]
	j, n := p.held()
	p.draw.marked = step
	p.w.session.Do("tick cut off", j.TickStep(n, step, !off))
}

func (p *cutsPanel) tickPiece(place int) {
	if !p.ready() || place < 0 || place >= len(p.draw.sheet.Places) {
		return
	}
	cut := p.draw.sheet.Places[place].Cut
	j, n := p.held()
	p.w.session.Do("tick piece off", j.TickPiece(n, place, !cut))
}

// movable reports whether a piece of the sheet shown can be held elsewhere.
func (p *cutsPanel) movable() bool {
	if !p.ready() {
		return false
	}
	if p.sheets[p.at].held > 0 {
		p.w.status.say(t("This sheet is held as it is: release it to move its pieces."))
		return false
	}
	return true
}

// put holds a piece at another place; the layout is made round it.
func (p *cutsPanel) put(place int, x, y float64) {
	if !p.movable() {
		return
	}
	s, pl := p.sheets[p.at].sheet, p.draw.sheet.Places[place]
	if pl.X == x && pl.Y == y {
		return
	}
	for i, o := range s.Places {
		if i != place && o.Pinned && max(x-o.X-o.W, o.X-x-pl.W, y-o.Y-o.H, o.Y-y-pl.H) < s.Gap {
			p.w.status.say(t("It would lie too close to piece %s, which is held.", o.Blank))
			return
		}
	}
	p.w.session.Do("hold piece", p.w.session.Job().PinOn(pl.Blank, s, x, y, pl.Turned))
	p.w.status.say(t("Piece %s is held there; the others are laid out round it.", pl.Blank))
}

// togglePin holds a piece where it lies, or lets it go.
func (p *cutsPanel) togglePin(place int) {
	if !p.movable() {
		return
	}
	j, pl := p.w.session.Job(), p.draw.sheet.Places[place]
	if _, pinned := j.PinOf(pl.Blank); pinned {
		p.w.session.Do("let piece go", j.WithoutPin(pl.Blank))
		return
	}
	p.w.session.Do("hold piece", j.PinOn(pl.Blank, p.sheets[p.at].sheet, pl.X, pl.Y, pl.Turned))
}

// pieceMenu offers what can be done with a piece.
func (p *cutsPanel) pieceMenu(place int, at fyne.Position) {
	if place < 0 {
		return
	}
	label := p.draw.label(place)
	_, pinned := p.w.session.Job().PinOf(label)
	pin := fyne.NewMenuItem(t("Hold it where it lies"), func() { p.togglePin(place) })
	if pinned {
		pin.Label = t("Let it go")
	}
	tick := fyne.NewMenuItem(t("Tick it off as cut"), func() { p.tickPiece(place) })
	if p.draw.sheet.Places[place].Cut {
		tick.Label = t("It is not cut yet")
	}
	showMenu(fyne.NewMenu("", fyne.NewMenuItem(t("Show on its leaf"), func() { p.w.pickPieceFrom(label) }), pin, tick), p.w.win.Canvas(), at)
}

// toggleHold holds all sheets of the tissue, or releases the one shown.
func (p *cutsPanel) toggleHold() {
	if !p.ready() {
		return
	}
	if s := p.sheets[p.at]; s.held > 0 {
		p.w.session.Do("release sheet", p.w.session.Job().ReleaseSheet(s.held))
		return
	}
	j, _ := p.held()
	p.w.session.Do("hold sheets", j)
	p.w.status.say(t("The sheets of this tissue stay as they are, whatever is added."))
}

// toggleDone marks the sheet shown as cut, or takes that back.
func (p *cutsPanel) toggleDone() {
	if !p.ready() {
		return
	}
	if s := p.sheets[p.at]; s.done {
		j, ok := p.w.session.Job().UncutSheet(s.held)
		if !ok {
			p.w.status.say(t("A piece is laid on a remnant of this sheet and held there: release that sheet first."))
			return
		}
		p.w.session.Do("sheet is not cut", j)
		return
	}
	j, n := p.held()
	j = j.CutSheet(n)
	p.w.session.Do("sheet is cut", j)
	p.w.status.say(remnantWords(j, n))
}

// remnantWords says which remnants entered the stock and what to write on
// them.
func remnantWords(j mendplan.Job, number int) string {
	h, _ := j.HeldSheet(number)
	words := ""
	for _, r := range h.Rests {
		if r.Stock != "" {
			if words != "" {
				words += ", "
			}
			words += r.Stock + " (" + unitsOf(j).Size(r.LengthMM, r.WidthMM) + ")"
		}
	}
	if words == "" {
		return t("The sheet is cut; nothing of it is worth keeping.")
	}
	return t("The sheet is cut. Write on what is left of it: %s.", words)
}

// pickPieceFrom shows a piece on its leaf.
func (w *Window) pickPieceFrom(label string) {
	if p, ok := w.piece(label); ok {
		w.takeInHand(p.Damage)
		w.pickPiece(label)
		w.focusSurface()
	}
}
