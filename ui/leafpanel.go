package ui

import (
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// leafPanel shows the particulars of the leaf in hand, editable, and all
// damages on it.
type leafPanel struct {
	w                *Window
	scroll           *container.Scroll
	mark, name, note *textField
	weight, fold     *textField
	kind, grain      *choiceField
	mended           *keyCheck
	damp             *keyCheck
	scales           *widget.Label
	damages          *fyne.Container
	quiet            bool
	key              string // of the damages listed
}

func newLeafPanel(w *Window) *leafPanel {
	p := &leafPanel{w: w, damages: tight(), scales: small("")}
	edit := func(label string, change func(*mendplan.Leaf)) {
		w.session.EditLeaf(label, func(l mendplan.Leaf) mendplan.Leaf { change(&l); return l })
	}
	p.mark = newTextField(func(s string) { edit("change mark", func(l *mendplan.Leaf) { l.Mark = strings.TrimSpace(s) }) })
	p.name = newTextField(func(s string) { edit("rename leaf", func(l *mendplan.Leaf) { l.Name = s }) })
	p.note = newTextArea(func(s string) { edit("write note", func(l *mendplan.Leaf) { l.Note = s }) })
	p.note.SetPlaceHolder(t("Note"))
	p.weight = newTextField(func(s string) {
		v, err := parsePositive(s)
		if err != nil {
			w.status.say(sentence(errorIn(err)))
			return
		}
		edit("change weight of leaf", func(l *mendplan.Leaf) { l.Grammage = v })
	})
	p.weight.SetPlaceHolder(t("as the job"))
	p.fold = newTextField(func(s string) {
		v := 0.0
		if strings.TrimSpace(s) != "" {
			var err error
			if v, err = mendplan.ParseLength(s, unitsOf(w.session.Job())); err != nil {
				w.status.say(sentence(errorIn(err)))
				return
			}
		}
		edit("move fold", func(l *mendplan.Leaf) { l.FoldMM = v })
	})
	p.fold.SetPlaceHolder(t("in the middle"))
	p.kind = newChoice(func(id string) {
		edit("change kind of leaf", func(l *mendplan.Leaf) { l.Kind = mendplan.LeafKind(id) })
	})
	p.grain = newChoice(func(id string) { edit("change grain of leaf", func(l *mendplan.Leaf) { l.Grain = mendplan.Grain(id) }) })
	p.mended = newCheck(t("Mended: every mend is on"), func(on bool) {
		if !p.quiet {
			edit("tick leaf off", func(l *mendplan.Leaf) { l.Mended = on })
		}
	})
	p.damp = newCheck(t("This side was scanned damp"), func(on bool) {
		if !p.quiet {
			w.session.EditSide("mark scan damp", func(s mendplan.Side) mendplan.Side { s.Damp = on; return s })
		}
	})
	p.scroll = container.NewVScroll(inScroll(
		labelled(t("Mark"), p.mark), labelled(t("Name"), p.name), labelled(t("What it is"), p.kind),
		labelled(t("Weight"), p.weight), labelled(t("Grain"), p.grain), labelled(t("Fold"), p.fold), wrapping(p.mended),
		heading(t("Scale")), p.scales, wrapping(p.damp), heading(t("Damages")), p.damages, p.note))
	p.scroll.SetMinSize(fyne.NewSize(240, 120))
	return p
}

func (p *leafPanel) content() fyne.CanvasObject { return p.scroll }

func (p *leafPanel) refresh() {
	leaf, ok := p.w.session.Leaf()
	if !ok {
		return
	}
	j := p.w.session.Job()
	p.mark.set(leaf.Mark)
	p.name.set(leaf.Name)
	p.note.set(leaf.Note)
	p.weight.set(showPositive(leaf.Grammage, " g/m²"))
	fold := ""
	if leaf.FoldMM > 0 {
		fold = unitsOf(j).Length(leaf.FoldMM)
	}
	p.fold.set(fold)
	kind := string(leaf.Kind)
	if kind == "" {
		kind = string(mendplan.Bifolium)
	}
	p.kind.set([]string{string(mendplan.Bifolium), string(mendplan.SingleLeaf)}, []string{t("folded sheet (bifolium)"), t("single leaf")}, kind)
	p.grain.set([]string{"", string(mendplan.GrainUpright), string(mendplan.GrainAcross)},
		[]string{t("as the job"), t("head to tail"), t("across")}, string(leaf.Grain))
	p.quiet = true
	p.mended.SetChecked(leaf.Mended)
	p.damp.SetChecked(leaf.SideOf(p.w.session.Side()).Damp)
	p.quiet = false
	var lines []string
	for _, side := range []mendplan.SideName{mendplan.Front, mendplan.Back} {
		s := leaf.SideOf(side)
		words := t("no scan")
		if s.Scan.Present() {
			words = s.Scan.Path + "\n   " + scaleWords(s.Calibration)
		}
		lines = append(lines, sideWord(leaf, side)+": "+words)
	}
	p.scales.SetText(strings.Join(lines, "\n"))
	p.listDamages(j, leaf)
}

// listDamages lists what is on the leaf; a press takes it in hand.
func (p *leafPanel) listDamages(j mendplan.Job, leaf mendplan.Leaf) {
	key := fmt.Sprint(leaf.Damages, len(p.w.session.Plan().Pieces), p.w.session.Selected())
	if key == p.key {
		return
	}
	p.key = key
	p.damages.Objects = nil
	for _, d := range leaf.Damages {
		words := fmt.Sprintf("%d  %s, %s", d.Number, t(string(d.Kind)), sideShort(d.Side))
		if d.Kind.Mended() && !d.NoMend {
			words += fmt.Sprintf("  —  %s, %s", t(string(styleInForce(j, d))), pieceCount(len(p.w.session.PiecesOf(d.Number))))
		}
		l := widget.NewLabel(words)
		l.Truncation = fyne.TextTruncateEllipsis
		row := newPressRow(l, func() { p.w.takeInHand(d.Number); p.w.focusSurface() })
		if refs := p.w.session.Selected(); len(refs) > 0 && refs[0] == d.Number {
			row.choose(true)
		}
		p.damages.Add(row)
	}
	if len(leaf.Damages) == 0 {
		p.damages.Add(small(t("Nothing is traced on this leaf yet.")))
	}
	p.damages.Refresh()
}

func pieceCount(n int) string {
	if n == 1 {
		return t("1 piece")
	}
	return t("%d pieces", n)
}

// parsePositive reads a number of at least nothing; no text is 0. A unit
// after the number is passed over.
func parsePositive(s string) (float64, error) {
	f := strings.Fields(strings.Replace(s, ",", ".", 1))
	if len(f) == 0 {
		return 0, nil
	}
	v, err := strconv.ParseFloat(f[0], 64)
	if err != nil || v < 0 || v > 1e9 {
		return 0, notNumber(s)
	}
	return v, nil
}

// showPositive writes what parsePositive reads; 0 is no text.
func showPositive(v float64, unit string) string {
	if v == 0 {
		return ""
	}
	return catalogue.Decimal(strconv.FormatFloat(v, 'f', -1, 64)) + unit
}
