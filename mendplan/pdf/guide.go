package pdf

import (
	"fmt"
	"io"

	"golang.org/x/image/font/gofont/goitalic"

	"leafmend/mendplan"
	"leafmend/mendplan/phrase"
)

// Guide is the user guide and how it is printed.
type Guide struct {
	Chapters []GuideChapter
	// Picture returns a picture of the guide by name, a JPEG; nil if there
	// is none.
	Picture func(name string) []byte
	Paper   mendplan.Paper // empty is A4
	Tongue  phrase.Tongue  // of the words round the text; nil is English
	Version string         // of the program; empty leaves it out
}

// BarsPicture is the picture of the guide that is drawn, not placed: the two
// check bars at true size.
const BarsPicture = "bars"

// Measures of the guide, millimetres, and sizes of its type, points.
const (
	guideMargin = 24.0
	guideSize   = 9.5
	guideLead   = 4.7
	guideIndent = 6.0
	leastLines  = 2 // of a paragraph that stand together at the foot or head of a page
)

// guideBook is the guide while it is being made.
type guideBook struct {
	*book
	guide Guide
	y     float64
	pages map[string]int // of the chapters, by id; of the pass before
	links map[string]int
	found map[string]int
}

// WriteGuide prints the user guide to w: a title page, the contents, and the
// chapters. The same guide gives the same bytes. A picture that is not there
// is an error.
func WriteGuide(w io.Writer, g Guide) error {
	// Once to learn the pages of the chapters, once to name them.
	first, err := setGuide(g, map[string]int{})
	if err != nil {
		return err
	}
	last, err := setGuide(g, first.found)
	if err != nil {
		return err
	}
	return last.finish(w)
}

func setGuide(g Guide, pages map[string]int) (*guideBook, error) {
	b, err := newBook(mendplan.Job{Paper: g.Paper}, mendplan.Plan{}, Options{Tongue: g.Tongue, Version: g.Version})
	if err != nil {
		return nil, err
	}
	b.job.Title = b.say("Leafmend: the user guide")
	b.f.SetTitle(b.job.Title, true)
	b.f.AddUTF8FontFromBytes("text", "I", goitalic.TTF)
	gb := &guideBook{book: b, guide: g, pages: pages, links: map[string]int{}, found: map[string]int{}}
	for _, c := range g.Chapters {
		gb.links[c.ID] = b.f.AddLink()
	}
	gb.titlePage()
	gb.contents()
	for _, c := range g.Chapters {
		if err := gb.chapter(c); err != nil {
			return nil, err
		}
	}
	if err := b.f.Error(); err != nil {
		return nil, fmt.Errorf("making the user guide: %w", err)
	}
	return gb, nil
}

func (g *guideBook) titlePage() {
	g.f.AddPage()
	g.colour(black)
	g.font("B", 34)
	g.text(guideMargin, g.h*0.36, "Leafmend")
	g.font("", 16)
	g.text(guideMargin, g.h*0.36+12, g.say("The user guide"))
	g.line(madder, 0.8)
	g.f.Line(guideMargin, g.h*0.36+18, g.w-guideMargin, g.h*0.36+18)
	g.font("", 10)
	y := g.paragraph(guideMargin, g.h*0.36+27, g.w-2*guideMargin, 5,
		g.say("From scans of torn leaves to pieces of tissue, a cut list and an estimate."))
	g.colour(grey)
	if g.guide.Version != "" {
		g.text(guideMargin, y+3, g.say("Version: %s", g.guide.Version))
	}
}

// contents lists the chapters with their pages, each a link.
func (g *guideBook) contents() {
	g.part = g.say("Contents")
	g.newPage()
	g.font("B", 16)
	g.text(guideMargin, g.y+6, g.part)
	g.y += 16
	for i, c := range g.guide.Chapters {
		g.font("", 10.5)
		page := fmt.Sprint(g.pages[c.ID])
		title := fmt.Sprintf("%d  %s", i+1, c.Title)
		end := guideMargin + g.f.GetStringWidth(g.face.printable(title)) + 2
		g.text(guideMargin, g.y+4, title)
		g.textRight(g.w-guideMargin, g.y+4, page)
		g.line(pale, 0.25)
		g.f.SetDashPattern([]float64{0.3, 1.2}, 0)
		g.f.Line(end, g.y+4, g.w-guideMargin-9, g.y+4)
		g.f.Link(guideMargin, g.y, g.w-2*guideMargin, 6, g.links[c.ID])
		g.y += 7.2
	}
	g.y = g.bottom() // the first chapter begins a page
}

// newPage begins a page with head and foot.
func (g *guideBook) newPage() {
	g.page(false)
	g.y = g.top() + 4
}

// room begins a new page unless so many millimetres are left.
func (g *guideBook) room(height float64) {
	if g.y+height > g.bottom() {
		g.newPage()
	}
}

func (g *guideBook) chapter(c GuideChapter) error {
	number := len(g.found) + 1
	g.part, g.marked = c.Title, c.Title // the outline's entry is made below, where the title stands
	g.room(70)
	if g.y > g.top()+4 {
		g.y += 8
	}
	g.found[c.ID] = g.f.PageNo()
	g.f.SetLink(g.links[c.ID], g.y, -1)
	g.f.Bookmark(g.face.printable(c.Title), 0, g.y)
	g.font("B", 15)
	g.colour(black)
	for i, l := range g.lines(fmt.Sprintf("%d  %s", number, c.Title), g.w-2*guideMargin) {
		g.text(guideMargin, g.y+5.5+7*float64(i), l)
		g.y += 7 * float64(min(i, 1))
	}
	g.y += 10
	blocks, err := GuideBlocks(c.Markdown)
	if err != nil {
		return err
	}
	for i, b := range blocks {
		if i > 0 && blocks[i-1].Kind == GuideItem && b.Kind != GuideItem {
			g.y += 1.2
		}
		if err := g.block(b); err != nil {
			return err
		}
	}
	return nil
}
