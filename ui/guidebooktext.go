package ui

import (
	"bytes"
	"image"
	_ "image/jpeg" // pictures of the guide
	"regexp"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/assets"
	"leafmend/mendplan/pdf"
)

// guideChapter is a chapter cut into blocks: headings, paragraphs, lists and
// pictures, so that each can be found and shown.
type guideChapter struct {
	id, title string
	blocks    []guideBlock
}

// guideBlock is Markdown, or a picture with its caption.
type guideBlock struct{ markdown, picture, caption string }

// guidePlace is a block that holds what is searched.
type guidePlace struct{ chapter, block int }

var guidePicture = regexp.MustCompile(`(?s)^!\[(.*)\]\(([a-z-]+)\)$`)

// blocksOf cuts chapters at their empty lines.
func blocksOf(texts []pdf.GuideChapter) []guideChapter {
	out := make([]guideChapter, len(texts))
	for i, c := range texts {
		out[i] = guideChapter{id: c.ID, title: c.Title, blocks: []guideBlock{{markdown: "# " + c.Title}}}
		for _, part := range strings.Split(c.Markdown, "\n\n") {
			part = strings.TrimSpace(part)
			if m := guidePicture.FindStringSubmatch(part); m != nil {
				out[i].blocks = append(out[i].blocks, guideBlock{caption: strings.Join(strings.Fields(m[1]), " "), picture: m[2]})
			} else if part != "" {
				out[i].blocks = append(out[i].blocks, guideBlock{markdown: part})
			}
		}
	}
	return out
}

// findIn lists the blocks that hold all words, in the order of reading.
func findIn(chapters []guideChapter, words string) []guidePlace {
	wanted := strings.Fields(strings.ToLower(words))
	var out []guidePlace
	for i, c := range chapters {
		for j, b := range c.blocks {
			held := strings.ToLower(b.markdown + b.caption)
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
	g := &guideText{lang: lang}
	g.rows = container.New(&guideFlow{})
	g.scroll = container.NewVScroll(g.rows)
	return g
}

func (g *guideText) set(c guideChapter) {
	g.rows.RemoveAll()
	g.marks = nil
	for _, b := range c.blocks {
		mark := canvas.NewRectangle(theme.Color(theme.ColorNamePrimary))
		mark.SetMinSize(fyne.NewSize(4, 1))
		mark.Hide()
		g.marks = append(g.marks, mark)
		g.rows.Add(container.New(guideRow{}, mark, g.block(b)))
	}
	g.scroll.Refresh()
	g.scroll.ScrollToTop()
}

func (g *guideText) block(b guideBlock) fyne.CanvasObject {
	if b.picture == "" {
		text := widget.NewRichTextFromMarkdown(b.markdown)
		text.Wrapping = fyne.TextWrapWord
		return text
	}
	caption := small(b.caption)
	caption.TextStyle.Italic = true
	img, _, err := image.Decode(bytes.NewReader(assets.GuidePicture(b.picture, g.lang)))
	if err != nil { // the bars, which mean something on paper only
		return caption
	}
	pic := canvas.NewImageFromImage(img)
	pic.FillMode = canvas.ImageFillContain
	return container.New(guideFigure{img.Bounds().Dx(), img.Bounds().Dy()}, pic, caption)
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

// turn moves the text by most of what is seen.
func (g *guideText) turn(by float32) {
	at := g.scroll.Offset.Y + by*g.scroll.Size().Height*0.85
	g.scroll.ScrollToOffset(fyne.NewPos(0, max(at, 0)))
}

// guideFlow stacks objects whose height follows from their width.
type guideFlow struct{ width float32 }

// MinSize implements [fyne.Layout].
func (l *guideFlow) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var h float32
	for _, o := range objects {
		if l.width > 0 && o.Size().Width != l.width {
			o.Resize(fyne.NewSize(l.width, o.MinSize().Height))
		}
		h += o.MinSize().Height
	}
	return fyne.NewSize(200, h)
}

// Layout implements [fyne.Layout].
func (l *guideFlow) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	var y float32
	for _, o := range objects {
		o.Resize(fyne.NewSize(size.Width, o.MinSize().Height)) // once for the width …
		h := o.MinSize().Height
		o.Resize(fyne.NewSize(size.Width, h)) // … and once for the height that follows
		o.Move(fyne.NewPos(0, y))
		y += h
	}
}

// guideRow puts a mark at the left of a block.
type guideRow struct{}

const guideMark = 6

// MinSize implements [fyne.Layout].
func (guideRow) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(100, o[1].MinSize().Height)
}

// Layout implements [fyne.Layout].
func (guideRow) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[1].Move(fyne.NewPos(guideMark, 0))
	o[1].Resize(fyne.NewSize(size.Width-guideMark, size.Height))
	o[0].Resize(fyne.NewSize(4, size.Height))
}

// guideFigure puts a picture above its caption, never larger than it is.
type guideFigure struct{ w, h int }

func (f guideFigure) height(width float32) float32 {
	return min(width, float32(f.w)*0.8) * float32(f.h) / float32(f.w)
}

// MinSize implements [fyne.Layout].
func (f guideFigure) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(100, f.height(max(o[1].Size().Width, 100))+o[1].MinSize().Height+theme.Padding())
}

// Layout implements [fyne.Layout].
func (f guideFigure) Layout(o []fyne.CanvasObject, size fyne.Size) {
	h := f.height(size.Width)
	o[0].Resize(fyne.NewSize(min(size.Width, float32(f.w)*0.8), h))
	o[1].Resize(fyne.NewSize(size.Width, o[1].MinSize().Height))
	o[1].Resize(fyne.NewSize(size.Width, o[1].MinSize().Height))
	o[1].Move(fyne.NewPos(0, h))
}
