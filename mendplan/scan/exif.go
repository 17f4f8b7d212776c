package scan

import "leafmend/mendplan/phrase"

// readExif takes from Exif data what matters here: orientation, resolution,
// whether a camera wrote it, the size it was written for, and the thumbnail.
// Exif data (CIPA DC-008) is a small TIFF file. Damaged data is no reason to
// refuse a picture: what can be read is taken.
func (h *header) readExif(b blob) (c claim, ok bool) {
	t, err := openTIFF(b)
	if err != nil || t.readDirs() != nil {
		h.problem("the Exif data is damaged and was passed over")
		return claim{}, false
	}
	main := t.dirs[0]
	h.Orientation = t.number(main, tagOrientation, h.Orientation)
	c, ok = t.claim(main, "Exif")
	if at := t.number(main, tagExif, 0); at > 0 {
		if d, err := t.readDir(int64(at)); err == nil {
			c.note = h.readCamera(t, d, c.note)
		}
	}
	if len(t.dirs) > 1 {
		at, n := t.number(t.dirs[1], tagThumbAt, 0), t.number(t.dirs[1], tagThumbLength, 0)
		h.thumb = b.part(int64(at), int64(n))
	}
	return c, ok
}

// readCamera reads the Exif directory proper: signs of a camera, and the size
// of the picture the data was written for. When that differs from the file's
// the resolution is stale.
func (h *header) readCamera(t *tiffFile, d tiffDir, note phrase.Phrase) phrase.Phrase {
	for _, tag := range []uint16{tagExposure, tagFNumber, tagFocalLength} {
		if v, ok := t.fraction(d, tag); ok && v > 0 {
			h.Camera = true
		}
	}
	w, ht := t.number(d, tagExifWidth, 0), t.number(d, tagExifHeight, 0)
	same := w == h.rawW && ht == h.rawH || w == h.rawH && ht == h.rawW
	if w > 0 && ht > 0 && h.rawW > 0 && !same && note.IsZero() {
		h.problem("the Exif data was written for a picture of %d × %d pixels, the file holds %d × %d", w, ht, h.rawW, h.rawH)
		if !sameShape(w, ht, h.rawW, h.rawH) {
			return note // cropped: a crop keeps the resolution
		}
		return phrase.Of("it was written before the picture was made larger or smaller")
	}
	return note
}

// sameShape tells whether two sizes have the same proportions within 1 %, as
// after scaling and seldom after cropping.
func sameShape(w, h, w2, h2 int) bool {
	a, b := float64(w)*float64(h2), float64(w2)*float64(h)
	return differPercent(a, b) < 1
}
