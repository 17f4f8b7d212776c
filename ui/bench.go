package ui

import (
	"fmt"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
	"leafmend/ui/leafview"
)

// benchView is a window of its own for the bench: one leaf in large type, its
// pieces in the order of pasting, read from a metre away. What is ticked off
// is kept in the job.
type benchView struct {
	w       *Window
	win     fyne.Window
	at      int // row in hand
	rows    []mendplan.Piece
	title   *canvas.Text
	sub     *canvas.Text
	caution *widget.Label
	hint    *widget.Label
	list    *fyne.Container
	scroll  *container.Scroll
	view    *leafview.Surface // the leaf with its pieces, only to look at
	seen    string            // leaf and side in view
	open    bool
}

// Sizes of type at the bench. Letters of 34 are 6 mm tall on a usual screen,
// legible from a metre.
const (
	benchTitle = 46
	benchSub   = 26
	benchLabel = 40
	benchWords = 26
	benchLeast = 17 // of long words, so that nothing is cut off
)

// openBench shows the leaf in hand for the bench. There is one such window.
func (w *Window) openBench() {
	if w.bench == nil {
		w.bench = newBenchView(w)
		w.session.planChanged.listen(w.bench.refresh)
		w.session.placeChanged.listen(w.bench.refresh)
		w.session.jobChanged.listen(w.bench.refresh)
	}
	b := w.bench
	if b.open {
		b.win.RequestFocus()
		return
	}
	b.makeWindow()
	b.refresh()
	b.win.Show()
}

func newBenchView(w *Window) *benchView {
	b := &benchView{w: w, title: canvas.NewText("", nil), sub: canvas.NewText("", nil), list: tight(), caution: widget.NewLabel("")}
	b.title.TextSize, b.title.TextStyle.Bold, b.sub.TextSize = benchTitle, true, benchSub
	b.caution.Importance, b.caution.Wrapping, b.caution.SizeName = widget.DangerImportance, fyne.TextWrapWord, theme.SizeNameSubHeadingText
	b.hint = widget.NewLabel(t("Space: tick off and go on.  Backspace: take the tick back.  Up, Down: another piece.  Page down, Page up: another leaf.  Escape: close."))
	b.hint.Wrapping = fyne.TextWrapWord
	b.view = leafview.New()
	habits := leafview.DefaultHabits()
	habits.NavigateOnly = true
	b.view.SetHabits(habits)
	b.view.OnKey = func(name fyne.KeyName, _ fyne.KeyModifier) { b.key(name) }
	b.view.OnRune = func(r rune) {
		if r == ' ' {
			b.key(fyne.KeySpace)
		}
	}
	return b
}

func (b *benchView) makeWindow() {
	b.win, b.open, b.seen = b.w.app.NewWindow(t("Bench view")+" — Leafmend"), true, ""
	b.view.SetLook(b.w.surface.Look())
	turn := func(icon, words string, key fyne.KeyName) fyne.CanvasObject {
		return newPressable(icon, words, func() { b.key(key) })
	}
	turns := container.NewHBox(turn("prev", t("Previous leaf"), fyne.KeyPageUp), turn("next", t("Next leaf"), fyne.KeyPageDown), turn("", t("Close"), fyne.KeyEscape))
	head := container.New(layout.NewCustomPaddedVBoxLayout(0), b.title, container.NewBorder(nil, nil, nil, turns, b.sub), b.caution)
	b.scroll = container.NewVScroll(b.list)
	split := container.NewHSplit(b.scroll, b.view)
	split.Offset = 0.64
	b.win.SetContent(container.New(layout.NewCustomPaddedLayout(12, 8, 18, 18),
		container.NewBorder(head, b.hint, nil, nil, split)))
	b.win.SetOnClosed(func() { b.open = false })
	b.win.Canvas().SetOnTypedKey(func(e *fyne.KeyEvent) { b.key(e.Name) })
	b.win.Resize(fyne.NewSize(1180, 720))
}

func (b *benchView) key(name fyne.KeyName) {
	switch name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		if !b.ticked() { // a press too many must not take anything back
			b.tick()
		}
		return
	case fyne.KeyBackspace, fyne.KeyDelete:
		if b.ticked() {
			b.tick()
		}
		return
	case fyne.KeyDown:
		b.at = min(b.at+1, max(len(b.rows)-1, 0))
	case fyne.KeyUp:
		b.at = max(b.at-1, 0)
	case fyne.KeyPageDown:
		b.at = 0
		b.w.stepLeaf(1)
	case fyne.KeyPageUp:
		b.at = 0
		b.w.stepLeaf(-1)
	case fyne.KeyEscape:
		b.win.Close()
		return
	}
	b.refresh()
}

// ticked reports whether the piece in hand is on.
func (b *benchView) ticked() bool {
	leaf, ok := b.w.session.Leaf()
	return ok && b.at < len(b.rows) && slices.Contains(leaf.PiecesOn, b.rows[b.at].Label)
}

// tick ticks the piece in hand off, or takes its tick back, as one step of
// the job. With its last piece the leaf is mended.
func (b *benchView) tick() {
	leaf, ok := b.w.session.Leaf()
	if !ok || b.at >= len(b.rows) {
		return
	}
	label := b.rows[b.at].Label
	was := slices.Contains(leaf.PiecesOn, label)
	leaf.PiecesOn = slices.DeleteFunc(slices.Clone(leaf.PiecesOn), func(l string) bool { return l == label })
	if was {
		leaf.Mended = false
		b.w.session.Do("take back piece", b.w.session.Job().WithLeaf(leaf))
		return
	}
	leaf.PiecesOn = append(leaf.PiecesOn, label)
	all := !slices.ContainsFunc(b.rows, func(p mendplan.Piece) bool { return !slices.Contains(leaf.PiecesOn, p.Label) })
	if b.at < len(b.rows)-1 {
		b.at++
	}
	if all {
		b.finish(leaf)
		return
	}
	b.w.session.Do("tick piece off", b.w.session.Job().WithLeaf(leaf))
}

// finish ticks a leaf off whose pieces are all on, and records the step when
// it is known who works here.
func (b *benchView) finish(leaf mendplan.Leaf) {
	leaf.Mended = true
	j := b.w.session.Job().WithLeaf(leaf)
	by := b.w.settings.Person()
	words := t("Leaf %s is mended. Write your name under Work, and the step is recorded by itself.", leaf.Mark)
	if by != "" && !course.Done(j, leaf.ID, mendplan.MendedStep) {
		step := stepNow(leaf.ID, mendplan.MendedStep, by)
		step.Batch = course.WorthCooking(j, b.w.session.Plan(), step.Date).Have
		j = j.AddSteps(step)
		words = t("Leaf %s is mended; recorded for %s.", leaf.Mark, by)
	}
	b.w.session.Do("tick leaf off", j)
	b.w.status.say(words)
}

// refresh shows the leaf in hand: pieces of the front first, then the back,
// each in its order of application.
func (b *benchView) refresh() {
	leaf, ok := b.w.session.Leaf()
	if !ok || !b.open {
		return
	}
	b.title.Text, b.title.Color = leafTitle(leaf), shade(theme.ColorNameForeground)
	b.sub.Color = shade(colourQuiet)
	b.rows = b.rows[:0]
	for _, side := range []mendplan.SideName{mendplan.Front, mendplan.Back} {
		for _, p := range b.w.session.Plan().Pieces {
			if p.Leaf == leaf.ID && p.Side == side {
				b.rows = append(b.rows, p)
			}
		}
	}
	b.at = min(b.at, max(len(b.rows)-1, 0))
	ticked := 0
	b.list.Objects = nil
	for i, p := range b.rows {
		on := slices.Contains(leaf.PiecesOn, p.Label)
		if on {
			ticked++
		}
		b.list.Add(b.row(i, p, on))
	}
	b.sub.Text = t("%d of %d pieces are on", ticked, len(b.rows))
	b.warn(leaf, ticked < len(b.rows))
	b.show(leaf)
	b.title.Refresh()
	b.sub.Refresh()
	b.list.Refresh()
	b.follow()
}

// warn shows what speaks against paste on this leaf, while any is to come.
func (b *benchView) warn(leaf mendplan.Leaf, toDo bool) {
	words := ""
	if toDo {
		today := time.Now().Format(time.DateOnly)
		step := mendplan.Step{Leaf: leaf.ID, Kind: mendplan.MendedStep, Date: today}
		for _, q := range course.Questions(b.w.session.Job(), step) {
			words += "! " + q.Words.In(catalogue) + " "
		}
	}
	b.caution.SetText(words)
	show(b.caution, words != "")
}

// follow scrolls so that the row in hand is in view.
func (b *benchView) follow() {
	if b.at >= len(b.list.Objects) {
		return
	}
	row := b.list.Objects[b.at]
	top, height := row.Position().Y, row.Size().Height
	switch {
	case top < b.scroll.Offset.Y:
		b.scroll.ScrollToOffset(fyne.NewPos(0, top))
	case top+height > b.scroll.Offset.Y+b.scroll.Size().Height:
		b.scroll.ScrollToOffset(fyne.NewPos(0, top+height-b.scroll.Size().Height))
	}
}

// show draws the leaf from the side that is up for the piece in hand.
func (b *benchView) show(leaf mendplan.Leaf) {
	side := b.w.session.Side()
	var chosen []int
	if b.at < len(b.rows) {
		side, chosen = b.rows[b.at].Side, []int{b.rows[b.at].Damage}
	}
	if key := leaf.ID + string(side); key != b.seen {
		b.seen = key
		sc := leaf.SideOf(side).Scan
		b.view.SetPicture(blankFor(leaf, side))
		if pic, ok := b.w.pictures.get(b.w.session.scanPath(sc), sc.Page); ok {
			b.view.SetPicture(painter{pic})
		} else if sc.Present() {
			b.fetch(sc, leaf.ID+string(side))
		}
	}
	b.view.SetScene(sceneOf(leaf, side, b.w.session.Plan(), chosen))
	b.view.Select(chosen...)
}

// row is one piece: two lines, the second what it is and where it goes.
func (b *benchView) row(i int, p mendplan.Piece, on bool) fyne.CanvasObject {
	mark, colour := "box", fyne.ThemeColorName(theme.ColorNameForeground)
	if on {
		mark, colour = "boxed", theme.ColorNameSuccess
	}
	sign := canvas.NewImageFromResource(iconIn(mark, colour))
	sign.FillMode = canvas.ImageFillContain
	sign.SetMinSize(fyne.NewSquareSize(benchLabel))
	text := func(words string, size float32, bold bool) *canvas.Text {
		c := canvas.NewText(words, shade(colour))
		c.TextSize, c.TextStyle.Bold = size, bold
		return c
	}
	ts, _ := b.w.session.Job().Tissue(p.Tissue)
	ground := canvas.NewRectangle(nil)
	if i == b.at {
		ground.FillColor = shade(colourChosen)
	}
	first := container.NewHBox(sign, text(fmt.Sprintf("%d. ", i+1), benchLabel, true), text(p.Label, benchLabel, true))
	words := text("      "+t("%s up", sideShort(p.Side))+" · "+unitsOf(b.w.session.Job()).Size(p.BlankLengthMM, p.BlankWidthMM)+" · "+ts.Name, benchWords, false)
	for room := b.scroll.Size().Width - 24; room > 300 && words.TextSize > benchLeast && words.MinSize().Width > room; {
		words.TextSize--
	}
	body := container.New(layout.NewCustomPaddedVBoxLayout(-4), first, words)
	return newPressRow(container.NewStack(ground, body), func() { b.at = i; b.tick() })
}

// showMenu opens a menu at a place of the window.
func showMenu(menu *fyne.Menu, c fyne.Canvas, at fyne.Position) {
	widget.ShowPopUpMenuAtPosition(menu, c, at)
}
