package ui

import (
	"fmt"
	"io"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/assets"
	"leafmend/mendplan"
	"leafmend/mendplan/pdf"
)

// guidebook is the user guide in the window: chapters on the left, the text of
// one on the right, and a field to search all of them. The field has the
// keyboard: Up and Down go from chapter to chapter, Page up and Page down move
// the text, Enter goes to the next place found.
type guidebook struct {
	w        *Window
	chapters []guideChapter
	at       int
	wanted   string
	found    []guidePlace
	foundAt  int // in found; -1 before the first
	field    *dialogEntry
	list     *keyList
	count    *widget.Label
	head     *widget.Label
	text     *guideText
	dialog   *dialog.CustomDialog
}

// guideChapters reads the guide in the window's language, its keys and numbers
// filled in.
func (w *Window) guideChapters() ([]pdf.GuideChapter, error) {
	var all []pdf.GuideCommand
	for _, c := range w.commands {
		g := pdf.GuideCommand{ID: c.id, Menu: t(string(c.menu)), Words: t(c.words)}
		for _, k := range c.keys {
			g.Keys = append(g.Keys, k.String())
		}
		all = append(all, g)
	}
	return pdf.GuideChapters(assets.Help("guide", language), catalogue, all)
}

// userGuide opens the guide at the chapter of what is shown.
func (w *Window) userGuide() {
	texts, err := w.guideChapters()
	if err != nil {
		w.tellError(err)
		return
	}
	chapters, err := blocksOf(texts)
	if err != nil {
		w.tellError(err)
		return
	}
	b := &guidebook{w: w, chapters: chapters, at: -1, foundAt: -1, count: widget.NewLabel(""), head: heading("")}
	b.head.SizeName, b.head.Wrapping = theme.SizeNameSubHeadingText, fyne.TextWrapWord
	b.text = newGuideText(language)
	b.list = newList(func() int { return len(b.chapters) },
		func() fyne.CanvasObject {
			l := widget.NewLabel("")
			l.Truncation = fyne.TextTruncateEllipsis
			return l
		},
		func(i widget.ListItemID, o fyne.CanvasObject) { o.(*widget.Label).SetText(b.title(i)) })
	b.list.OnSelected = func(i widget.ListItemID) { b.show(i) }
	b.list.at = func() int { return b.at }
	b.field = w.newSearchEntry(t("Search the guide"), b.search, b.nextFound, b)
	d := dialog.NewCustomWithoutButtons(t("User guide"), b.content(), w.win)
	b.dialog = d
	before := w.answerButton(t("Previous chapter"), widget.MediumImportance, func() { b.step(-1) })
	after := w.answerButton(t("Next chapter"), widget.MediumImportance, func() { b.step(1) })
	paper := w.answerButton(t("Print the user guide…"), widget.MediumImportance, func() { d.Hide(); w.printGuide() })
	d.SetButtons([]fyne.CanvasObject{paper, before, after, w.answerButton(t("Close"), widget.MediumImportance, d.Hide)})
	size := w.win.Canvas().Size()
	d.Resize(fyne.NewSize(min(1080, size.Width-40), min(2000, size.Height-40)))
	w.present(d, nil)
	b.step(b.chapterOf(w.guideChapter()) - b.at)
	w.win.Canvas().Focus(b.field)
}

func (b *guidebook) content() fyne.CanvasObject {
	hint := small(t("Up and Down: chapters. Page up and Page down: text. Enter: next place found."))
	b.count.Truncation = fyne.TextTruncateEllipsis
	top := container.NewBorder(nil, hint, nil, nil, container.NewGridWithColumns(2, b.field, b.count))
	split := container.NewHSplit(b.list, container.NewBorder(b.head, nil, nil, nil, b.text.scroll))
	split.Offset = 0.27
	return container.NewBorder(top, nil, nil, nil, split)
}

// title is a chapter's in the list, with how often it holds what is searched.
func (b *guidebook) title(i int) string {
	words := fmt.Sprintf("%d  %s", i+1, b.chapters[i].title)
	n := 0
	for _, p := range b.found {
		if p.chapter == i {
			n++
		}
	}
	if n > 0 {
		words = fmt.Sprintf("%s (%d)", words, n)
	}
	return words
}

// chapterOf returns the number of the chapter with that id; 0 if there is
// none.
func (b *guidebook) chapterOf(id string) int {
	for i, c := range b.chapters {
		if c.id == id {
			return i
		}
	}
	return 0
}

// step goes to another chapter.
func (b *guidebook) step(by int) {
	if at := b.at + by; at >= 0 && at < len(b.chapters) {
		b.list.Select(at) // shows it too
	}
}

func (b *guidebook) show(i int) {
	if i == b.at {
		return
	}
	b.at = i
	b.head.SetText(b.chapters[i].title)
	b.text.set(b.chapters[i])
	b.mark()
}

// search looks for words in all chapters and goes to the first place.
func (b *guidebook) search(words string) {
	b.wanted, b.foundAt = words, -1
	b.found = findIn(b.chapters, words)
	b.list.Refresh()
	b.count.SetText("")
	if words != "" && len(b.found) == 0 {
		b.count.SetText(t("Not found."))
	}
	b.mark()
	b.nextFound()
}

// nextFound goes to the next place that holds what is searched.
func (b *guidebook) nextFound() {
	if len(b.found) == 0 {
		return
	}
	b.foundAt = (b.foundAt + 1) % len(b.found)
	p := b.found[b.foundAt]
	b.step(p.chapter - b.at)
	b.text.showBlock(p.block)
	b.count.SetText(t("%d of %d", b.foundAt+1, len(b.found)))
}

// mark draws a bar beside every block that holds what is searched.
func (b *guidebook) mark() {
	blocks := map[int]bool{}
	for _, p := range b.found {
		if p.chapter == b.at {
			blocks[p.block] = true
		}
	}
	b.text.mark(blocks)
}

// lead goes to another chapter, or moves the text, by a key; false for keys
// that do not.
func (b *guidebook) lead(name fyne.KeyName) bool {
	switch name {
	case fyne.KeyUp:
		b.step(-1)
	case fyne.KeyDown:
		b.step(1)
	case fyne.KeyPageUp, fyne.KeyPageDown:
		return leadScroll(b.text.scroll, name)
	default:
		return false
	}
	return true
}

// guideChapter is the id of the chapter that belongs to what is shown.
func (w *Window) guideChapter() string {
	switch w.stage {
	case stageMends:
		return "margins"
	case stageCuts:
		return "cut-list"
	case stageEstimate:
		return "plan"
	case stageStock:
		return "tissue"
	case stageJob:
		return "margins"
	case stageOrder:
		return "order"
	case stageWork:
		if p, ok := w.panels[stageWork].(*workPanel); ok {
			return [...]string{workBefore: "work", workSteps: "work", workPaste: "paste", workDays: "drying", workTrim: "trimming", workPapers: "report"}[p.page]
		}
		return "work"
	}
	leaf, ok := w.session.Leaf()
	switch {
	case !ok:
		return "first-job"
	case !leaf.SideOf(w.session.Side()).Calibration.Known():
		return "scale"
	}
	return "tracing"
}

// printGuide asks where to write the guide as a PDF, and writes it.
func (w *Window) printGuide() {
	w.choose(choosing{title: t("Write the PDF"), verb: t("Write"), suffix: []string{".pdf"}, name: fileName(t("User guide")) + ".pdf"}, func(paths []string) {
		w.writeGuide(paths[0], true)
	})
}

// writeGuide writes the guide as a PDF on the job's paper.
func (w *Window) writeGuide(path string, show bool) {
	texts, err := w.guideChapters()
	if err != nil {
		w.tellError(err)
		return
	}
	code := language // of now: the work is done aside
	g := pdf.Guide{Chapters: texts, Paper: w.session.Job().Paper, Tongue: catalogue, Version: w.opt.Version,
		Picture: func(name string) []byte { return assets.GuidePicture(name, code) }}
	w.work.start(func() error {
		return mendplan.WriteFile(path, func(out io.Writer) error { return pdf.WriteGuide(out, g) })
	}, func(err error) {
		if err != nil {
			w.tellError(err)
			return
		}
		w.written(path, show)
	})
}
