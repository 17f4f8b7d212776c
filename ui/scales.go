package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// doubtful says whether the scale of a side should be looked at: its doubt is
// above what two-point or ruler scales reach.
func doubtful(c mendplan.Calibration) bool { return c.Known() && c.DoubtPercent > 3 }

// scaleShort writes a scale in pixels per inch.
func scaleShort(c mendplan.Calibration) string {
	if c.MMPerPxX <= 0 || c.MMPerPxY <= 0 {
		return t("photograph")
	}
	x, y := 25.4/c.MMPerPxX, 25.4/c.MMPerPxY
	if x/y > 1.005 || y/x > 1.005 {
		return fmt.Sprintf("%.0f × %.0f ppi", x, y)
	}
	return fmt.Sprintf("%.0f ppi", x)
}

// scaleWords says what a scale rests on and how far it may be off.
func scaleWords(c mendplan.Calibration) string {
	if !c.Known() {
		return t("no scale")
	}
	words := c.Words
	if c.DoubtPercent > 0 {
		words += figures(" (± %.2g %%)", c.DoubtPercent)
	}
	return words
}

// ask shows a small form and calls then when the user agrees; then returns
// words of complaint, or "" when all is well and the form may close. What
// opens another dialog is left in w.next: it must wait until this one is gone.
func (w *Window) ask(title, verb string, fields []fyne.CanvasObject, focus fyne.Focusable, then func() string) {
	w.askSized(460, title, verb, fields, focus, then)
}

// askWide is ask with room for two columns of fields.
func (w *Window) askWide(title, verb string, fields []fyne.CanvasObject, focus fyne.Focusable, then func() string) {
	w.askSized(760, title, verb, fields, focus, then)
}

func (w *Window) askSized(width float32, title, verb string, fields []fyne.CanvasObject, focus fyne.Focusable, then func() string) {
	complaint := widget.NewLabel("")
	complaint.Importance, complaint.Wrapping = widget.DangerImportance, fyne.TextWrapWord
	box := tight(fields...)
	box.Add(complaint)
	d := dialog.NewCustomWithoutButtons(title, box, w.win)
	finish := func() {
		if words := then(); words != "" {
			complaint.SetText(words)
			return
		}
		d.Hide()
		if next := w.next; next != nil {
			w.next = nil
			next()
		}
	}
	for _, f := range fields {
		if e := entryIn(f); e != nil {
			e.OnSubmitted = func(string) { finish() }
		}
	}
	ok := w.answerButton(verb, widget.HighImportance, finish)
	d.SetButtons([]fyne.CanvasObject{w.answerButton(t("Cancel"), widget.MediumImportance, d.Hide), ok})
	d.Resize(fyne.NewSize(min(width, w.win.Canvas().Size().Width-40), 0))
	w.present(d, nil)
	if focus == nil {
		focus = ok
	}
	w.win.Canvas().Focus(focus)
}

// entryIn finds the entry of a labelled field.
func entryIn(o fyne.CanvasObject) *widget.Entry {
	switch o := o.(type) {
	case *dialogEntry:
		return &o.Entry
	case *fyne.Container:
		for _, c := range o.Objects {
			if e := entryIn(c); e != nil {
				return e
			}
		}
	}
	return nil
}

// scaleByPoints asks how far apart two points of the scan are.
func (w *Window) scaleByPoints(a, b geom.Pt) {
	length := w.newEntry()
	length.SetPlaceHolder(t("for example 100 mm or 4 in"))
	marks := w.proposeGraduation(a, b, func(mm float64) { length.SetText(figures("%g mm", mm)) })
	w.ask(t("How far apart are the two points?"), t("Set the scale"), []fyne.CanvasObject{
		small(t("The longer the distance, the better: 100 mm or more, best along a ruler.")), labelled(t("Distance"), length), marks}, length,
		func() string {
			mm, err := mendplan.ParseLength(length.Text, unitsOf(w.session.Job()))
			if err != nil {
				return sentence(errorIn(err))
			}
			c, err := mendplan.CalibrateByPoints(a, b, mm, w.pixelRatio())
			if err != nil {
				return sentence(errorIn(err))
			}
			w.setScale(c, "set scale by two points")
			w.pickTool("select")
			return ""
		})
}

// pixelRatio is how much taller than wide the scan's pixels are.
func (w *Window) pixelRatio() float64 {
	leaf, _ := w.session.Leaf()
	c := leaf.SideOf(w.session.Side()).Calibration
	if c.MMPerPxX > 0 && c.MMPerPxY > 0 {
		return c.MMPerPxY / c.MMPerPxX
	}
	return 1
}

func (w *Window) setScale(c mendplan.Calibration, label string) {
	w.session.EditSide(label, func(s mendplan.Side) mendplan.Side { s.Calibration = c; return s })
	w.status.say(t("The scale rests on: %s.", scaleWords(c)))
	w.guide.did(guideScaled)
}

// scaleBySize asks for the leaf's measured size.
func (w *Window) scaleBySize() {
	leaf, _ := w.session.Leaf()
	side := leaf.SideOf(w.session.Side())
	corners := side.TrueEdge
	hint := t("The four corners of the true edge are taken for the leaf's.")
	if len(corners) != 4 {
		cw, ch := float64(side.Scan.Width), float64(side.Scan.Height)
		corners = []geom.Pt{{}, {X: cw}, {X: cw, Y: ch}, {Y: ch}}
		hint = t("The true edge is not set, so the whole picture is taken for the leaf. If there is background round it, set the true edge first (E).")
	}
	width, height := w.newEntry(), w.newEntry()
	u := unitsOf(w.session.Job())
	w.ask(t("How large is the leaf?"), t("Set the scale"), []fyne.CanvasObject{small(hint),
		labelled(t("Width"), width), labelled(t("Height"), height)}, width, func() string {
		x, err := mendplan.ParseLength(width.Text, u)
		if err != nil {
			return sentence(errorIn(err))
		}
		y, err := mendplan.ParseLength(height.Text, u)
		if err != nil {
			return sentence(errorIn(err))
		}
		c, err := mendplan.CalibrateBySize(corners, x, y)
		if err != nil {
			return sentence(errorIn(err))
		}
		w.setScale(c, "set scale by leaf size")
		return ""
	})
}

// scaleAll gives this side's scale to every scan without one.
func (w *Window) scaleAll() {
	leaf, _ := w.session.Leaf()
	c := leaf.SideOf(w.session.Side()).Calibration
	c.Points, c.LengthsMM = nil, nil
	j, n := w.session.Job(), 0
	for _, l := range j.Leaves {
		for _, name := range []mendplan.SideName{mendplan.Front, mendplan.Back} {
			if s := l.SideOf(name); s.Scan.Present() && !s.Calibration.Known() {
				s.Calibration = c
				l = l.WithSide(name, s)
				n++
			}
		}
		j = j.WithLeaf(l)
	}
	if n == 0 {
		w.status.say(t("Every scan has a scale already."))
		return
	}
	w.session.Do("give scale to all", j)
	w.status.say(t("%d scans have got this scale. It holds only if they were scanned alike.", n))
}
