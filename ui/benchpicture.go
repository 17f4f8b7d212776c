package ui

import (
	"context"

	"leafmend/mendplan"
	"leafmend/mendplan/scan"
)

// fetch opens the scan of a side that the bench shows; it is taken when that
// side is still in view.
func (b *benchView) fetch(sc mendplan.Scan, key string) {
	w := b.w
	path := w.session.scanPath(sc)
	var pic *scan.Picture
	w.work.start(func() (err error) {
		pic, err = w.pictures.shelf.Open(context.Background(), path, scan.OpenOptions{Page: sc.Page, Cache: w.pictures.cache})
		return err
	}, func(err error) {
		if err == nil && b.open && b.seen == key {
			b.view.SetPicture(painter{pic})
			b.refresh()
		}
	})
}
