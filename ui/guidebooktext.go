package ui

import (
	"bytes"
	"image"
	_ "image/jpeg" // pictures of the guide
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"leafmend/assets"
	"leafmend/mendplan/pdf"
)

// guideChapter is a chapter as blocks, so that each can be found and shown.
type guideChapter struct {
	id, title string
	blocks    []pdf.GuideBlock
}

// guidePlace is a block that holds what is searched.
type guidePlace struct{ chapter, block int }

// blocksOf reads the chapters.
func blocksOf(texts []pdf.GuideChapter) ([]guideChapter, error) {
	out := make([]guideChapter, len(texts))
	for i, c := range texts {
		blocks, err := pdf.GuideBlocks(c.Markdown)
		if err != nil {
			return nil, err
		}
		out[i] = guideChapter{id: c.ID, title: c.Title, blocks: blocks}
	}
	return out, nil
}

// findIn lists the blocks that hold all words, in the order of reading.
func findIn(chapters []guideChapter, words string) []guidePlace {
	wanted := strings.Fields(strings.ToLower(words))
	var out []guidePlace
	for i, c := range chapters {
		for j, b := range c.blocks {
			held := strings.ToLower(b.Plain())
			all := len(wanted) > 0
			for _, w := range wanted {
				all = all && strings.Contains(held, w)
			}
			if all {
				out = append(out, guidePlace{i, j})
			}
		}
	}
	return out
}

// guideText shows the blocks of one chapter, one below the other.
type guideText struct {
	lang   string
	rows   *fyne.Container
	marks  []*canvas.Rectangle
	scroll *container.Scroll
}

func newGuideText(lang string) *guideText {
	g := &guideText{lang: lang, rows: container.New(&guideFlow{})}
	g.scroll = container.NewVScroll(g.rows)
	return g
}

func (g *guideText) set(c guideChapter) {
	g.rows.RemoveAll()
	g.marks = nil
	for _, b := range c.blocks {
		mark := canvas.NewRectangle(theme.Color(theme.ColorNamePrimary))
		mark.Hide()
		g.marks = append(g.marks, mark)
		g.rows.Add(container.New(guideRow{}, mark, g.block(b)))
	}
	g.scroll.Refresh()
	g.scroll.ScrollToTop()
}

func (g *guideText) block(b pdf.GuideBlock) fyne.CanvasObject {
	if b.Kind != pdf.GuideFigure {
		return newGuideWords(b)
	}
	caption := newGuideWords(pdf.GuideBlock{Runs: []pdf.GuideRun{{Style: "I", Words: b.Plain()}}})
	img, _, err := image.Decode(bytes.NewReader(assets.GuidePicture(b.Picture, g.lang)))
	if err != nil { // the bars, which mean something on paper only
		return caption
	}
	pic := canvas.NewImageFromImage(img)
	pic.FillMode = canvas.ImageFillContain
	return container.New(guideFigure{float32(img.Bounds().Dx()), float32(img.Bounds().Dy())}, pic, caption)
}

// mark shows a bar beside the blocks named.
func (g *guideText) mark(blocks map[int]bool) {
	for i, m := range g.marks {
		show(m, blocks[i])
	}
}

// showBlock moves the text so that a block can be seen.
func (g *guideText) showBlock(i int) {
	if i < len(g.rows.Objects) {
		g.scroll.ScrollToOffset(fyne.NewPos(0, max(g.rows.Objects[i].Position().Y-20, 0)))
	}
}
