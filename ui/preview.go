package ui

import (
	"context"
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"leafmend/mendplan/scan"
)

// previewSide is the longer side of a preview, pixels: enough to read page
// numbers by.
const previewSide = 900

// preview is a picture of one side of a leaf, larger than a thumbnail. It is
// made aside; until it has come, the thumbnail or plain paper stands for it.
type preview struct {
	w     *Window
	image *canvas.Image
	blank *canvas.Rectangle
	key   string // of what is shown
	box   fyne.CanvasObject
}

func (w *Window) newPreview() *preview {
	p := &preview{w: w, image: canvas.NewImageFromImage(nil), blank: canvas.NewRectangle(shade(theme.ColorNameInputBackground))}
	p.image.FillMode, p.image.ScaleMode = canvas.ImageFillContain, canvas.ImageScaleSmooth
	p.box = container.NewStack(p.blank, p.image)
	return p
}

// show has the preview of a scan made; an empty path shows plain paper.
func (p *preview) show(path string, page int) {
	key := pictureKey(path, page)
	if key == p.key {
		return
	}
	p.key = key
	if path == "" {
		p.put(nil)
		return
	}
	if img, ok := p.w.previews.have[key]; ok {
		p.put(img)
		return
	}
	p.put(p.w.pictures.thumbnail(path, page, func() {}))
	p.w.previews.make(p.w, path, page, func(img image.Image) {
		if p.key == key && img != nil {
			p.put(img)
		}
	})
}

func (p *preview) put(img image.Image) {
	p.blank.FillColor = shade(theme.ColorNameInputBackground)
	p.image.Image = img
	p.image.Hidden, p.blank.Hidden = img == nil, img != nil
	p.image.Refresh()
	p.blank.Refresh()
}

// previews keeps the last pictures made, so that going back is at once.
type previews struct {
	have  map[string]image.Image
	order []string
}

// mostPreviews are kept; each is about 2.5 MB.
const mostPreviews = 24

// make opens a scan aside and keeps a small picture of it; then gets it, nil
// when it cannot be read.
func (s *previews) make(w *Window, path string, page int, then func(image.Image)) {
	var img image.Image
	w.work.start(func() error {
		pic, err := scan.Open(context.Background(), path, scan.OpenOptions{Page: page, Cache: w.pictures.cache, Lazy: true})
		if err != nil {
			return err
		}
		defer pic.Close()
		img = pic.Thumbnail(previewSide)
		return nil
	}, func(error) {
		if img != nil {
			s.keep(pictureKey(path, page), img)
		}
		then(img)
	})
}

func (s *previews) keep(key string, img image.Image) {
	if s.have == nil {
		s.have = map[string]image.Image{}
	}
	s.have[key] = img
	if s.order = append(s.order, key); len(s.order) > mostPreviews {
		delete(s.have, s.order[0])
		s.order = s.order[1:]
	}
}
