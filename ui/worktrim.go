package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
	"leafmend/mendplan/course"
)

// trimBook lists the edges to trim, ticks them off, and says how each leaf
// goes back: which page numbers must face up.
type trimBook struct {
	w     *Window
	by    *textField
	back  *widget.Label // how the leaf trimmed last goes back
	sum   *widget.Label
	table *wordTable
	list  []mendplan.Trim // what the rows show
	box   fyne.CanvasObject
}

func newTrimBook(w *Window) *trimBook {
	b := &trimBook{w: w, back: heading(""), sum: widget.NewLabel("")}
	b.by = w.nameField()
	b.back.SizeName, b.back.Wrapping = theme.SizeNameSubHeadingText, fyne.TextWrapWord
	b.table = newWordTable([]column{{t("done"), 84}, {t("leaf"), 90}, {t("edge"), 80}, {t("side up"), 80}, {t("from"), 70}, {t("to"), 70},
		{t("hangs over"), 80}, {t("pieces"), 110}, {t("goes back showing"), 120}}, b.tick)
	caution := course.Cautions(mendplan.TrimmedStep)
	words := t("Trim last, when the leaf is dry and flat. From and to are measured as the side up lies before you: from the left at head and tail, from the head at the others. Press an edge to tick it off.")
	for _, c := range caution {
		words += " " + t(c.Words)
	}
	top := tight(small(words), container.NewBorder(nil, nil, widget.NewLabel(t("By")), b.sum, b.by))
	b.box = container.NewBorder(top, b.back, nil, nil, b.table)
	return b
}

func (b *trimBook) content() fyne.CanvasObject { return b.box }

func (b *trimBook) refresh() {
	b.w.fillName(b.by)
	j := b.w.session.Job()
	b.list = mendplan.TrimList(j, b.w.session.Plan().Pieces)
	showing := facesUp(j)
	var rows [][]string
	done := 0
	for _, tr := range b.list {
		leaf, _ := j.Leaf(tr.Leaf)
		mark := ""
		if slices.Contains(leaf.EdgesTrimmed, tr.Key()) {
			mark = t("trimmed")
			done++
		}
		pieces := strings.Join(tr.Pieces, ", ")
		if tr.Bridged {
			pieces += " " + t("(nicks bridged)")
		}
		u := unitsOf(j)
		rows = append(rows, []string{mark, leafTitle(leaf), t(string(tr.Edge)), sideShort(tr.Up), u.Length(tr.From), u.Length(tr.To), u.Length(tr.HangMM), pieces, showing[tr.Leaf]})
	}
	b.table.show(rows)
	b.sum.SetText(t("%d of %d edges are trimmed.", done, len(b.list)))
}

// facesUp tells for each leaf which page numbers face up when it is laid
// back, the outermost sheet first.
func facesUp(j mendplan.Job) map[string]string {
	out := map[string]string{}
	for _, r := range collate.Order(j, collate.OutsideIn) {
		out[r.Leaf] = pagePair(r.Left, r.Right)
	}
	return out
}

// pagePair writes two page numbers as they lie, left and right.
func pagePair(left, right string) string {
	left, right = pageLabel(left), pageLabel(right)
	switch {
	case left == "":
		return right
	case right == "":
		return left
	}
	return left + " | " + right
}

// tick ticks an edge off, or takes the tick back. With the last edge of a
// leaf the step is recorded, once what should be asked was asked.
func (b *trimBook) tick(row int) {
	tr := b.list[row]
	by, ok := b.w.namedIn(b.by)
	if !ok {
		return
	}
	leaf, ok := b.w.session.Job().Leaf(tr.Leaf)
	if !ok {
		return
	}
	was := slices.Contains(leaf.EdgesTrimmed, tr.Key())
	set := func(j mendplan.Job) mendplan.Job {
		l, _ := j.Leaf(tr.Leaf)
		l.EdgesTrimmed = slices.DeleteFunc(slices.Clone(l.EdgesTrimmed), func(k string) bool { return k == tr.Key() })
		if !was {
			l.EdgesTrimmed = append(l.EdgesTrimmed, tr.Key())
		}
		return j.WithLeaf(l)
	}
	if was {
		b.w.session.Do("take back edge", set(b.w.session.Job()))
		b.back.SetText("")
		return
	}
	step := stepNow(tr.Leaf, mendplan.TrimmedStep, by)
	write := func() {
		j := set(b.w.session.Job())
		if b.allDone(j, tr.Leaf) {
			j = j.AddSteps(step)
			b.sayBack(j, tr.Leaf)
		}
		b.w.session.Do("tick edge off", j)
	}
	if asked := course.Questions(b.w.session.Job(), step); len(asked) > 0 {
		b.w.askBefore(asked, write)
		return
	}
	write()
}

// allDone reports whether every edge of a leaf that needs it is ticked off.
func (b *trimBook) allDone(j mendplan.Job, leafID string) bool {
	leaf, _ := j.Leaf(leafID)
	return !slices.ContainsFunc(b.list, func(tr mendplan.Trim) bool {
		return tr.Leaf == leafID && !slices.Contains(leaf.EdgesTrimmed, tr.Key())
	})
}

// sayBack says how a trimmed leaf goes back.
func (b *trimBook) sayBack(j mendplan.Job, leafID string) {
	for _, r := range collate.Order(j, collate.OutsideIn) {
		if r.Leaf != leafID {
			continue
		}
		words := t("Leaf %s is trimmed: it goes back with %s facing up.", r.Mark, pagePair(r.Left, r.Right))
		if r.Below != "" {
			words += " " + t("It is laid on leaf %s.", r.Below)
		}
		b.back.SetText(words)
		return
	}
	leaf, _ := j.Leaf(leafID)
	b.back.SetText(t("Leaf %s is trimmed. It stands in no gathering yet.", leaf.Mark))
}
