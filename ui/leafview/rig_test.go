package leafview

import (
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"leafmend/mendplan/geom"
)

// pictures, when given, is a folder to keep the pictures of tests in, for
// looking at.
var pictures = flag.String("pictures", "", "folder to keep pictures in")

// screen is how many device pixels a unit has, beyond what a test says: every
// test of this package runs on a plain and on a doubly fine screen.
var screen float32 = 1

func TestMain(m *testing.M) {
	flag.Parse()
	code := m.Run()
	if f := flag.Lookup("test.bench"); code == 0 && (f == nil || f.Value.String() == "") {
		screen = 2
		fmt.Println("the same on a screen of scale 2")
		code = m.Run()
	}
	os.Exit(code)
}

// rig is a surface in a window of the toolkit's test driver, with hands.
type rig struct {
	t     *testing.T
	s     *Surface
	win   fyne.Window
	edits []Edit
	clock time.Time
	mods  fyne.KeyModifier
	last  fyne.Position
}

// newRig opens a surface of w×h units on a screen of the given scale, with a
// picture of 1000×800 pixels, one scan pixel to a unit, scan (0,0) at (0,0).
func newRig(t *testing.T, w, h, scale float32) *rig {
	t.Helper()
	test.NewTempApp(t)
	r := &rig{t: t, s: New(), clock: time.Unix(0, 0)}
	r.s.now = func() time.Time { return r.clock }
	r.s.mods = func() fyne.KeyModifier { return r.mods }
	r.s.OnEdit = func(e Edit) { r.edits = append(r.edits, e) }
	r.win = test.NewWindow(r.s)
	t.Cleanup(r.win.Close)
	r.win.SetPadded(false)
	r.win.Canvas().(test.WindowlessCanvas).SetScale(scale * screen)
	r.win.Resize(fyne.NewSize(w, h))
	r.frame()
	r.s.SetPicture(Blank{W: 1000, H: 800})
	l := r.s.Look()
	l.Overview = false // it would lie under some presses
	r.s.SetLook(l)
	r.plain()
	return r
}

// plain makes a unit a scan pixel, with both origins in one place.
func (r *rig) plain() {
	r.s.fitted = false
	r.s.view = View{Scale: r.s.px}
	r.s.layers.dropAll()
}

// frame paints one frame as the toolkit would.
func (r *rig) frame() *image.RGBA {
	size, k := r.s.Size(), r.win.Canvas().Scale()
	w := int(math.Ceil(float64(size.Width * k)))
	h := int(math.Ceil(float64(size.Height * k)))
	return r.s.frame(w, h).(*image.RGBA)
}

// dev returns what units are in device pixels.
func (r *rig) dev(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y}.Mul(r.s.px) }

// at makes an event at a position in units.
func (r *rig) at(x, y float64, b desktop.MouseButton) *desktop.MouseEvent {
	r.last = fyne.NewPos(float32(x), float32(y))
	return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: r.last, AbsolutePosition: r.last},
		Button: b, Modifier: r.mods}
}

// move hovers to a position.
func (r *rig) move(x, y float64) { r.s.MouseMoved(r.at(x, y, 0)) }

// press presses and lets go of the left button, long after the last press.
func (r *rig) press(x, y float64) {
	r.clock = r.clock.Add(time.Second)
	r.move(x, y)
	r.s.MouseDown(r.at(x, y, desktop.MouseButtonPrimary))
	r.s.MouseUp(r.at(x, y, desktop.MouseButtonPrimary))
}

// double presses twice in quick succession.
func (r *rig) double(x, y float64) {
	r.press(x, y)
	r.clock = r.clock.Add(100 * time.Millisecond)
	r.s.MouseDown(r.at(x, y, desktop.MouseButtonPrimary))
	r.s.MouseUp(r.at(x, y, desktop.MouseButtonPrimary))
}

// dragBy drags with a button through positions x, y, x, y, …, as the toolkit
// tells it: press, drags, release, end of drag.
func (r *rig) dragBy(b desktop.MouseButton, xy ...float64) {
	r.clock = r.clock.Add(time.Second)
	r.move(xy[0], xy[1])
	r.s.MouseDown(r.at(xy[0], xy[1], b))
	for i := 2; i+1 < len(xy); i += 2 {
		r.pull(xy[i], xy[i+1])
	}
	n := len(xy)
	r.s.MouseUp(r.at(xy[n-2], xy[n-1], b))
	r.s.DragEnd()
}

// pull moves while a button is held.
func (r *rig) pull(x, y float64) {
	e := r.at(x, y, 0)
	r.s.Dragged(&fyne.DragEvent{PointEvent: e.PointEvent})
}

// drag drags with the left button.
func (r *rig) drag(xy ...float64) { r.dragBy(desktop.MouseButtonPrimary, xy...) }

// key types a key once.
func (r *rig) key(k fyne.KeyName) {
	r.s.KeyDown(&fyne.KeyEvent{Name: k})
	r.s.TypedKey(&fyne.KeyEvent{Name: k})
	r.s.KeyUp(&fyne.KeyEvent{Name: k})
}

// with holds modifiers while do runs.
func (r *rig) with(m fyne.KeyModifier, do func()) {
	r.mods = m
	do()
	r.mods = 0
}

// one returns the only edit since the last call, of the type wanted.
func one[E Edit](r *rig) E {
	r.t.Helper()
	var e E
	if len(r.edits) != 1 {
		r.t.Fatalf("%d edits %v, want one", len(r.edits), r.edits)
	}
	e, ok := r.edits[0].(E)
	if !ok {
		r.t.Fatalf("edit %#v, want a %T", r.edits[0], e)
	}
	r.edits = nil
	return e
}

// none fails when there was an edit.
func (r *rig) none() {
	r.t.Helper()
	if len(r.edits) != 0 {
		r.t.Fatalf("edits %v, want none", r.edits)
	}
}

// path makes points of numbers.
func path(xy ...float64) []geom.Pt {
	var out []geom.Pt
	for i := 0; i+1 < len(xy); i += 2 {
		out = append(out, geom.Pt{X: xy[i], Y: xy[i+1]})
	}
	return out
}

// samePath fails unless the points agree to a hundredth of a pixel.
func samePath(t *testing.T, what string, got, want []geom.Pt) {
	t.Helper()
	same := len(got) == len(want)
	for i := 0; same && i < len(got); i++ {
		same = got[i].Dist(want[i]) < 0.01
	}
	if !same {
		t.Fatalf("%s: got %v, want %v", what, got, want)
	}
}

// keep writes a picture to the folder of pictures, if there is one.
func keep(t *testing.T, name string, img image.Image) {
	t.Helper()
	if *pictures == "" {
		return
	}
	f, err := os.Create(filepath.Join(*pictures, name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
}

// printed is a picture of an invented printed leaf: paper with grain, lines
// of text as grey bars, a dark image block and a torn, missing corner.
type printed struct{ img *image.RGBA }

func newPrinted(w, h int) printed {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			n := noise(x, y)
			v := 226 + 10*n + 5*noise(x/7, y/7)
			c := [3]float64{v, v * 0.965, v * 0.88}
			if u := float64(x) / float64(w); (y/14)%2 == 0 && u > 0.1 && u < 0.9 && y > h/8 && y < h*7/10 && noise(x/9, y/28+900) > -0.55 && noise(x/3, y/14+50) > -0.4 {
				c = [3]float64{58 + 20*n, 54 + 20*n, 56 + 20*n}
			}
			if x > w*15/100 && x < w*55/100 && y > h*72/100 && y < h*94/100 {
				d := 70 + 60*math.Sin(float64(x)/23)*math.Cos(float64(y)/31) + 12*n
				c = [3]float64{d, d * 0.9, d * 0.8}
			}
			if float64(w-x)*1.2+float64(h-y)*0.9 < float64(w)*0.17+5*noise(x/5, y/5)+2*noise(x/2, y/2) || x < w*3/100 || y < h*35/1000 || x > w*97/100 || y > h*965/1000 {
				c = [3]float64{30, 31, 33}
			}
			img.SetRGBA(x, y, color.RGBA{uint8(c[0]), uint8(c[1]), uint8(c[2]), 255})
		}
	}
	return printed{img}
}

// noise is a hash of a place to −1…1.
func noise(x, y int) float64 {
	h := uint32(x)*374761393 + uint32(y)*668265263
	h = (h ^ h>>13) * 1274126177
	return float64(h^h>>16)/float64(math.MaxUint32)*2 - 1
}

func (p printed) Size() (w, h int) { return p.img.Rect.Dx(), p.img.Rect.Dy() }

// Paint implements Painter by the nearest pixel, in fixed steps.
func (p printed) Paint(dst *image.RGBA, v View, _ bool) {
	w, h := p.Size()
	r := pictureRect(w, h, v).Intersect(dst.Rect)
	for y := r.Min.Y; y < r.Max.Y; y++ {
		sy := min(max(int((float64(y)+0.5-v.Offset.Y)/v.Scale), 0), h-1)
		src, out := p.img.Pix[p.img.PixOffset(0, sy):], dst.Pix[dst.PixOffset(0, y):]
		step, at := 1/v.Scale, (float64(r.Min.X)+0.5-v.Offset.X)/v.Scale
		for x := r.Min.X; x < r.Max.X; x++ {
			sx := min(max(int(at), 0), w-1)
			copy(out[4*x:4*x+4], src[4*sx:4*sx+4])
			at += step
		}
	}
}

// sameEdit fails unless there is one edit, equal to want.
func sameEdit(t *testing.T, edits []Edit, want Edit) {
	t.Helper()
	if len(edits) != 1 {
		t.Fatalf("%d edits %v, want %#v", len(edits), edits, want)
	}
	if diff := cmp.Diff(want, edits[0], cmpopts.EquateApprox(0, 0.01), cmpopts.EquateEmpty()); diff != "" {
		t.Fatalf("the edit differs (-want +got):\n%s", diff)
	}
}
