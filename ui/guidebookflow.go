package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"leafmend/mendplan/pdf"
)

// guideWords sets running text word by word. The toolkit's own rich text cuts
// a word into letters where little room is left behind bold words.
type guideWords struct {
	indent float32
	above  float32 // free before the first line
	words  []guideWord
	mark   *canvas.Text
}

// guideWord is what stays on one line: parts in several styles.
type guideWord struct {
	parts []*canvas.Text
	space float32 // behind it, when more follows on the line
}

// newGuideWords makes the words of a block.
func newGuideWords(b pdf.GuideBlock) *fyne.Container {
	size, style, above := theme.TextSize(), fyne.TextStyle{}, theme.TextSize()*0.6
	switch b.Kind {
	case pdf.GuideHeading:
		size, style, above = theme.Size(theme.SizeNameSubHeadingText), fyne.TextStyle{Bold: true}, size*1.1
	case pdf.GuideItem:
		above = size * 0.3
	}
	l := &guideWords{above: above}
	c := container.New(l)
	add := func(words string, style fyne.TextStyle) *canvas.Text {
		text := canvas.NewText(words, theme.Color(theme.ColorNameForeground))
		text.TextSize, text.TextStyle = size, style
		c.Add(text)
		return text
	}
	if b.Kind == pdf.GuideItem {
		l.mark, l.indent = add(b.Mark, style), size*1.8
	}
	for _, word := range pdf.GuideWords(b.Runs) {
		var w guideWord
		for _, r := range word {
			s := fyne.TextStyle{Bold: style.Bold || r.Style == "B", Italic: r.Style == "I"}
			bare := strings.TrimRight(r.Words, " ")
			w.parts = append(w.parts, add(bare, s))
			if bare != r.Words {
				w.space = fyne.MeasureText(" ", size, s).Width
			}
		}
		l.words = append(l.words, w)
	}
	return c
}

// lay puts the words where they belong in that width, if they are to be put,
// and returns the height.
func (l *guideWords) lay(width float32, put bool) float32 {
	x, y, high := l.indent, l.above, float32(0)
	if l.mark != nil && put {
		l.mark.Resize(l.mark.MinSize())
		l.mark.Move(fyne.NewPos(0, y))
	}
	for _, w := range l.words {
		wide := float32(0)
		for _, p := range w.parts {
			wide += p.MinSize().Width
			high = max(high, p.MinSize().Height)
		}
		if x > l.indent && x+wide > width {
			x, y = l.indent, y+high
		}
		for _, p := range w.parts {
			if put {
				p.Resize(p.MinSize())
				p.Move(fyne.NewPos(x, y))
			}
			x += p.MinSize().Width
		}
		x += w.space
	}
	return y + high
}

// MinSize implements [fyne.Layout].
func (l *guideWords) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(l.indent, 0) }

// Layout implements [fyne.Layout].
func (l *guideWords) Layout(_ []fyne.CanvasObject, size fyne.Size) { l.lay(size.Width, true) }

// tall is implemented by layouts whose height follows from the width.
type tall interface {
	lay(width float32, put bool) float32
}

// heightAt is how high an object gets in a width.
func heightAt(o fyne.CanvasObject, width float32) float32 {
	if c, ok := o.(*fyne.Container); ok {
		switch l := c.Layout.(type) {
		case tall:
			return l.lay(width, false)
		case guideRow:
			return heightAt(c.Objects[1], width-guideMark-guideRight)
		case guideFigure:
			return l.picture(width).Height + heightAt(c.Objects[1], width) + theme.Padding()
		}
	}
	return o.MinSize().Height
}

// guideFlow stacks objects whose height follows from their width.
type guideFlow struct{ width float32 }

// MinSize implements [fyne.Layout].
func (l *guideFlow) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var h float32
	for _, o := range objects {
		h += heightAt(o, max(l.width, 200))
	}
	return fyne.NewSize(200, h+theme.TextSize())
}

// Layout implements [fyne.Layout].
func (l *guideFlow) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	var y float32
	for _, o := range objects {
		h := heightAt(o, size.Width)
		o.Resize(fyne.NewSize(size.Width, h))
		o.Move(fyne.NewPos(0, y))
		y += h
	}
}

// guideRow puts a mark at the left of a block, and leaves the bar of the
// scroll free at its right.
type guideRow struct{}

const guideMark, guideRight = 10, 14

// MinSize implements [fyne.Layout].
func (guideRow) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(100, 0) }

// Layout implements [fyne.Layout].
func (guideRow) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Resize(fyne.NewSize(4, size.Height))
	o[1].Move(fyne.NewPos(guideMark, 0))
	o[1].Resize(fyne.NewSize(size.Width-guideMark-guideRight, size.Height))
}

// guideFigure puts a picture of that many pixels above its caption.
type guideFigure struct{ w, h float32 }

// highestFigure is how high a picture may get, so that one is seen whole.
const highestFigure = 420

// picture is how large the picture is shown in a width.
func (f guideFigure) picture(width float32) fyne.Size {
	k := min(width/f.w, highestFigure/f.h, 1)
	return fyne.NewSize(f.w*k, f.h*k)
}

// MinSize implements [fyne.Layout].
func (f guideFigure) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(100, 0) }

// Layout implements [fyne.Layout].
func (f guideFigure) Layout(o []fyne.CanvasObject, size fyne.Size) {
	pic := f.picture(size.Width)
	o[0].Move(fyne.NewPos(0, theme.Padding()))
	o[0].Resize(pic)
	o[1].Move(fyne.NewPos(0, pic.Height+theme.Padding()))
	o[1].Resize(fyne.NewSize(size.Width, heightAt(o[1], size.Width)))
}
