package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// paperBook is what comes of the work: the tally, the pictures before and
// after, and the papers for owner and file.
type paperBook struct {
	w     *Window
	tally *fyne.Container
	sides *wordTable
	at    []sideAt // what the rows of sides show
	key   string
	box   fyne.CanvasObject
}

// sideAt is one side of a leaf.
type sideAt struct {
	leaf string
	side mendplan.SideName
}

func newPaperBook(w *Window) *paperBook {
	b := &paperBook{w: w, tally: tight()}
	buttons := tight()
	for _, id := range paperCommands() {
		c := w.command(id)
		button := newButton(t(c.words)+"   "+c.keys[0].String(), func() { w.Run(id) })
		button.Alignment = widget.ButtonAlignLeading
		buttons.Add(button)
	}
	b.sides = newWordTable([]column{{t("leaf"), 130}, {t("side"), 80}, {t("before"), 130}, {t("after"), 130}}, b.chooseAfter)
	left := container.NewBorder(nil, buttons, nil, nil, container.NewVScroll(b.tally))
	right := container.NewBorder(tight(heading(t("Pictures before and after")), small(t("Press a side to give it its picture after treatment. The report shows both."))), nil, nil, nil, b.sides)
	split := container.NewHSplit(left, right)
	split.Offset = 0.5
	b.box = split
	return b
}

func (b *paperBook) content() fyne.CanvasObject { return b.box }

func (b *paperBook) refresh() {
	j, plan := b.w.session.Job(), b.w.session.Plan()
	b.showTally(j, plan)
	var rows [][]string
	b.at = b.at[:0]
	for _, l := range j.Leaves {
		for _, side := range []mendplan.SideName{mendplan.Front, mendplan.Back} {
			s := l.SideOf(side)
			b.at = append(b.at, sideAt{l.ID, side})
			rows = append(rows, []string{leafTitle(l), sideShort(side), scanWord(s.Scan), scanWord(s.After)})
		}
	}
	b.sides.show(rows)
}

// scanWord names a scan, or says that there is none.
func scanWord(s mendplan.Scan) string {
	if !s.Present() {
		return "—"
	}
	return s.Path
}

// showTally writes what was done and used so far, a line each.
func (b *paperBook) showTally(j mendplan.Job, plan mendplan.Plan) {
	var lines []string
	c := course.Count(j, plan)
	lines = append(lines, t("Pieces on mended leaves: %d of %d", c.PiecesDone, c.Pieces))
	for _, s := range c.Steps {
		if s.Leaves > 0 {
			lines = append(lines, fmt.Sprintf("%s: %d / %d", sentenceCase(t(string(s.Kind))), s.Leaves, c.Leaves))
		}
	}
	lines = append(lines, "## "+t("Mends by kind"))
	for _, m := range c.Mends {
		lines = append(lines, fmt.Sprintf("%s: %d / %d", sentenceCase(t(string(m.Kind))), m.Done, m.Count))
	}
	lines = append(lines, "## "+t("Tissue in the pieces"))
	for _, x := range c.Tissue {
		ts, _ := j.Tissue(x.Tissue)
		lines = append(lines, t("%s: %d pieces, %.0f cm², %.2f g", ts.Name, x.Pieces, x.AreaMM2/100, x.MassG))
	}
	lines = append(lines, "## "+t("Time at the bench"))
	hours := 0.0
	for _, l := range course.Hours(j, plan) {
		hours += l.Minutes() / 60
	}
	lines = append(lines, t("%.1f hours by leaf and piece; tier %d of 5", hours, course.Tier(hours)))
	if key := strings.Join(lines, "\n"); key != b.key {
		b.key = key
		b.tally.Objects = nil
		for _, l := range lines {
			if head, ok := strings.CutPrefix(l, "## "); ok {
				b.tally.Add(heading(head))
				continue
			}
			label := widget.NewLabel(l)
			label.Wrapping = fyne.TextWrapWord
			b.tally.Add(label)
		}
		b.tally.Refresh()
	}
}

// chooseAfter gives a side its picture after treatment.
func (b *paperBook) chooseAfter(row int) {
	at := b.at[row]
	b.w.session.Show(at.leaf, at.side)
	b.w.afterScanDialog()
}
