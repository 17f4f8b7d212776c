package ui

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/scan"
)

// scaleSource is one thing that tells a side's scale.
type scaleSource struct {
	from  string // in words
	why   string // what speaks for or against it
	scale mendplan.Calibration
	inUse bool
}

// scaleFromFile shows everything that tells the scale of the side, side by
// side with what the leaf would measure by it, and takes one if the user says
// so.
func (w *Window) scaleFromFile() {
	leaf, _ := w.session.Leaf()
	side := leaf.SideOf(w.session.Side())
	info, err := scan.InspectPage(w.session.scanPath(side.Scan), side.Scan.Page)
	if err != nil {
		w.tellError(err)
		return
	}
	sources := scaleSources(leaf, w.session.Side(), info.Resolutions)
	if len(sources) == 0 {
		w.ask(t("The file tells no resolution"), t("Set it by two points"),
			[]fyne.CanvasObject{small(t("Nothing in the file says how large its pixels are. Use a ruler in the picture or the leaf's size."))}, nil,
			func() string {
				w.next = func() { w.pickTool("calibrate") }
				return ""
			})
		return
	}
	body := tight()
	for _, s := range sources {
		body.Add(w.sourceRow(side, s, sources[0]))
		body.Add(widget.NewSeparator())
	}
	w.showSized(t("What tells the scale"), container.NewVScroll(body), fyne.NewSize(620, 460))
}

// scaleSources lists the scale in use first, then what the file tells and what
// the other side has.
func scaleSources(leaf mendplan.Leaf, name mendplan.SideName, told []scan.Resolution) []scaleSource {
	var out []scaleSource
	if c := leaf.SideOf(name).Calibration; c.Known() {
		out = append(out, scaleSource{from: t("In use: %s", c.Words), scale: c, inUse: true})
	}
	for _, r := range told {
		worth := t("may be trusted")
		if !r.Trusted {
			worth = t("not to be trusted")
		}
		if !r.Why.IsZero() {
			worth += ": " + say(r.Why)
		}
		out = append(out, scaleSource{from: r.Source, why: worth, scale: mendplan.FileCalibration(r.DPIX, r.DPIY, r.DoubtPercent, r.Source)})
	}
	if c := leaf.SideOf(name.Other()).Calibration; c.Known() && c.MMPerPxX > 0 {
		c.Points, c.LengthsMM = nil, nil
		out = append(out, scaleSource{from: t("The other side: %s", c.Words), why: t("holds if both were scanned alike"), scale: c})
	}
	return out
}

// sourceRow shows one source: what it says, what the leaf would measure, and
// how that agrees with the first.
func (w *Window) sourceRow(side mendplan.Side, s, first scaleSource) fyne.CanvasObject {
	title := widget.NewLabel(s.from)
	title.TextStyle.Bold = true
	title.Wrapping = fyne.TextWrapWord
	words := scaleShort(s.scale)
	if s.scale.DoubtPercent > 0 {
		words += figures(" ± %.2g %%", s.scale.DoubtPercent)
	}
	if width, height, ok := measured(side, s.scale); ok {
		words += " — " + t("the leaf would measure %s", unitsOf(w.session.Job()).Size(width, height))
	}
	lines := container.New(layout.NewCustomPaddedVBoxLayout(-8), title, wrapped(words))
	if s.why != "" {
		lines.Add(small(s.why))
	}
	if off, doubt, ok := disagreement(side, s.scale, first.scale); ok && off > doubt {
		l := wrapped(t("It differs from the first by %.2g %%, more than both doubts together allow (%.2g %%): one of them is wrong.", off, doubt))
		l.Importance = widget.WarningImportance
		lines.Add(l)
	}
	if s.inUse {
		return lines
	}
	take := newButton(t("Take this"), func() {
		w.closeDialog()
		w.setScale(s.scale, "set scale from file")
	})
	return container.NewBorder(nil, nil, nil, container.NewVBox(take), lines)
}

func wrapped(words string) *widget.Label {
	l := widget.NewLabel(words)
	l.Wrapping = fyne.TextWrapWord
	return l
}

// measured is the size of the leaf by a scale, in mm.
func measured(side mendplan.Side, c mendplan.Calibration) (width, height float64, ok bool) {
	side.Calibration = c
	_, sheet, fault := mendplan.FrameOf(mendplan.Leaf{ID: "x", Front: side}, mendplan.Front)
	if fault != nil {
		return 0, 0, false
	}
	width, height = sheet.Size()
	return width, height, true
}

// disagreement is by how many per cent two scales differ where they differ
// most, and by how many they may, each being as doubtful as it is.
func disagreement(side mendplan.Side, a, b mendplan.Calibration) (off, doubt float64, ok bool) {
	w1, h1, ok1 := measured(side, a)
	w2, h2, ok2 := measured(side, b)
	if !ok1 || !ok2 {
		return 0, 0, false
	}
	off = 100 * math.Max(math.Abs(w1/w2-1), math.Abs(h1/h2-1))
	return off, a.DoubtPercent + b.DoubtPercent, true
}
