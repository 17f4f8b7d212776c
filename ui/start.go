package ui

import (
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/assets"
)

// startPanel is shown while the job has no leaf: it says what to do.
type startPanel struct {
	w      *Window
	recent *fyne.Container
	frame  *canvas.Rectangle
	box    fyne.CanvasObject
}

func newStartPanel(w *Window) *startPanel {
	p := &startPanel{w: w, recent: tight(), frame: canvas.NewRectangle(nil)}
	mark := canvas.NewImageFromResource(fyne.NewStaticResource("leafmend-icon.svg", assets.AppIcon()))
	mark.FillMode = canvas.ImageFillContain
	mark.SetMinSize(fyne.NewSquareSize(64))
	title := widget.NewLabel("Leafmend")
	title.TextStyle.Bold, title.SizeName = true, theme.SizeNameHeadingText
	line := widget.NewLabel(t("From scans of torn leaves to pieces of tissue, a cut list and an estimate."))
	head := container.NewHBox(mark, container.NewVBox(layout.NewSpacer(), tight(title, line), layout.NewSpacer()))

	drop := widget.NewLabel(t("Drop scans of the leaves here"))
	drop.Alignment, drop.TextStyle.Bold, drop.SizeName = fyne.TextAlignCenter, true, theme.SizeNameSubHeadingText
	note := widget.NewLabel(t("Single pictures or a whole folder: JPEG, PNG, TIFF, BMP or WebP, best at 300 ppi or more. Fronts and backs are paired by their names, and you see how before anything is added."))
	note.Alignment, note.Wrapping = fyne.TextAlignCenter, fyne.TextWrapWord
	buttons := container.NewCenter(container.NewHBox(p.button("add-scans", widget.HighImportance), p.button("add-folder", widget.MediumImportance)))
	p.frame.StrokeWidth, p.frame.CornerRadius = 2, 8
	well := container.NewStack(p.frame, container.New(layout.NewCustomPaddedLayout(18, 18, 24, 24),
		container.NewVBox(drop, note, buttons)))
	others := container.NewGridWithColumns(3, p.button("open", widget.MediumImportance),
		p.button("sample", widget.MediumImportance), p.button("guide", widget.MediumImportance))
	column := container.NewVBox(head, gapOf(8), well, gapOf(4), others, gapOf(4), p.recent)
	p.box = container.NewCenter(container.New(&columnLayout{width: 660}, column))
	return p
}

func (p *startPanel) button(id string, importance widget.Importance) *keyButton {
	c := p.w.command(id)
	b := newButton(t(c.words), func() { p.w.Run(id) })
	b.Importance = importance
	return b
}

// gapOf is empty height.
func gapOf(h float32) fyne.CanvasObject {
	r := canvas.NewRectangle(nil)
	r.SetMinSize(fyne.NewSize(1, h))
	return r
}

func (p *startPanel) content() fyne.CanvasObject { return p.box }

// refresh lists the jobs opened last.
func (p *startPanel) refresh() {
	p.frame.StrokeColor, p.frame.FillColor = shade(theme.ColorNamePrimary), shade(theme.ColorNameInputBackground)
	p.frame.Refresh()
	p.recent.Objects = nil
	if list := p.w.settings.Recent(); len(list) > 0 {
		p.recent.Add(heading(t("Open again")))
		for i, path := range list {
			if i == 4 {
				break
			}
			l := widget.NewLabel(filepath.Base(path) + "   " + filepath.Dir(path))
			l.Truncation = fyne.TextTruncateEllipsis
			p.recent.Add(newPressRow(l, func() { p.w.leaving(func() { p.w.openPath(path) }) }))
		}
	}
	p.recent.Refresh()
}

// columnLayout gives its one object a width, or less when there is less.
type columnLayout struct{ width float32 }

// MinSize implements [fyne.Layout].
func (l *columnLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(l.width, o[0].MinSize().Height)
}

// Layout implements [fyne.Layout].
func (l *columnLayout) Layout(o []fyne.CanvasObject, size fyne.Size) { o[0].Resize(size) }
