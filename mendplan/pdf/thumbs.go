package pdf

import (
	"bytes"
	"image"
	"math"

	"codeberg.org/go-pdf/fpdf"
	"github.com/disintegration/imaging"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// thumbLongest is the longer side of a thumbnail in pixels: 45 mm at about
// 270 to the inch.
const thumbLongest = 480

// shown is a picture that was asked for, or why it is not there.
type shown struct {
	pic Picture
	err error
}

// pictureOf asks for the picture of a side, once.
func (b *book) pictureOf(leaf mendplan.Leaf, side mendplan.SideName) (Picture, error) {
	key := leaf.ID + "/" + string(side)
	s, ok := b.shown[key]
	if !ok {
		s.pic, s.err = b.opt.Picture(leaf, side)
		b.shown[key] = s
	}
	return s.pic, s.err
}

// register puts a picture into the file under a name, once.
func (b *book) register(name string, jpeg []byte) bool {
	if b.f.GetImageInfo(name) != nil {
		return true
	}
	info := b.f.RegisterImageOptionsReader(name, fpdf.ImageOptions{ImageType: "JPEG"}, bytes.NewReader(jpeg))
	if info == nil || b.f.Err() {
		return false
	}
	b.images++
	if err := inOrder(info, b.images); err != nil {
		b.f.SetError(err)
		return false
	}
	return true
}

// thumbnail draws one side of a leaf as it lies with its head up, cut to the
// true edge, as large as fits into a box, and returns where it came to lie.
// drawn is false, and the place still told, when there is no picture.
func (b *book) thumbnail(leaf mendplan.Leaf, side mendplan.SideName, x, y, w, h float64) (r rect, drawn bool) {
	c, ok := cornersOf(leaf.SideOf(side))
	if !ok {
		return fitted(1.4, 1, x, y, w, h), false
	}
	across, down := (c[0].Dist(c[1])+c[3].Dist(c[2]))/2, (c[0].Dist(c[3])+c[1].Dist(c[2]))/2
	r = fitted(across, down, x, y, w, h)
	if b.opt.Picture == nil {
		return r, false
	}
	pic, err := b.pictureOf(leaf, side)
	if err != nil || pic.FullWidth <= 0 || pic.FullHeight <= 0 {
		return r, false
	}
	name := "thumb/" + leaf.ID + "/" + string(side)
	if b.f.GetImageInfo(name) == nil {
		small, err := smallJPEG(pic.JPEG)
		if err != nil || !b.register(name, small) {
			return r, false
		}
	}
	k := r.w / across
	middle := c[0].Lerp(c[2], 0.5).Lerp(c[1].Lerp(c[3], 0.5), 0.5)
	cx, cy := r.x+r.w/2, r.y+r.h/2
	turn := math.Atan2(c[1].Y-c[0].Y, c[1].X-c[0].X) * 180 / math.Pi
	b.f.ClipRect(r.x, r.y, r.w, r.h, false)
	b.f.TransformBegin()
	b.f.TransformRotate(turn, cx, cy)
	b.f.ImageOptions(name, cx-middle.X*k, cy-middle.Y*k, float64(pic.FullWidth)*k, float64(pic.FullHeight)*k, false, fpdf.ImageOptions{ImageType: "JPEG"}, 0, "")
	b.f.TransformEnd()
	b.f.ClipEnd()
	return r, true
}

// cornersOf returns the corners of a side in its scan, from head-left round.
func cornersOf(s mendplan.Side) ([4]geom.Pt, bool) {
	w, h := float64(s.Scan.Width), float64(s.Scan.Height)
	c := [4]geom.Pt{{}, {X: w}, {X: w, Y: h}, {Y: h}}
	if len(s.TrueEdge) == 4 {
		c = [4]geom.Pt(s.TrueEdge)
	}
	return c, c[0].Dist(c[1]) > 1 && c[0].Dist(c[3]) > 1
}

// fitted is a rectangle of the shape w0 × h0 as large as fits into a box, in
// its middle.
func fitted(w0, h0, x, y, w, h float64) rect {
	k := min(w/w0, h/h0)
	return rect{x + (w-w0*k)/2, y + (h-h0*k)/2, w0 * k, h0 * k}
}

func smallJPEG(jpeg []byte) ([]byte, error) {
	img, _, err := image.Decode(bytes.NewReader(jpeg))
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	err = imaging.Encode(&out, imaging.Fit(img, thumbLongest, thumbLongest, imaging.Box), imaging.JPEG, imaging.JPEGQuality(80))
	return out.Bytes(), err
}
