package scan_test

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"leafmend/mendplan/scan"
)

// twoPages is a TIFF of a grey page of 40 × 30 and one of 20 × 10, with a
// smaller copy (tag 254) of the first between them.
func twoPages() []byte {
	page := func(w, h, value uint32, subfile uint32) ([]tag, []byte) {
		tags := append([]tag{{254, 4, []uint32{subfile}}}, greyTags(w, h)...)
		return tags, bytes.Repeat([]byte{byte(value)}, int(w*h))
	}
	var p []byte
	for _, q := range [][4]uint32{{400, 300, 50, 0}, {40, 30, 77, 1}, {20, 10, 200, 0}} {
		tags, data := page(q[0], q[1], q[2], q[3])
		one := tiffBytes(tags, data)
		if p == nil {
			p = one
			continue
		}
		p = joinTIFF(p, one)
	}
	return p
}

func TestThePageOfATIFFCanBeChosen(t *testing.T) {
	path := write(t, "pages.tif", twoPages())
	first, err := scan.Inspect(path)
	if err != nil {
		t.Fatal(err)
	}
	if first.Pages != 2 || first.Width != 400 {
		t.Errorf("got %d pages, the first %d wide; a smaller copy is no page", first.Pages, first.Width)
	}
	second, err := scan.InspectPage(path, 1)
	if err != nil {
		t.Fatal(err)
	}
	if second.Width != 20 || second.Page != 1 {
		t.Errorf("second page: got %+v", second)
	}
	p, err := scan.Open(context.Background(), path, scan.OpenOptions{Page: 1})
	if err != nil {
		t.Fatal(err)
	}
	defer p.Close()
	if got := p.Pixel(5, 5); got != (color.RGBA{200, 200, 200, 255}) {
		t.Errorf("got %v", got)
	}
	for _, page := range []int{2, -1} {
		if r := refused(t, path, scan.OpenOptions{Page: page}); !strings.Contains(r.What.String(), "the file has 2") {
			t.Errorf("page %d: got %q", page, r.What)
		}
	}
}

func TestTheSmallerCopyInATIFFIsAFirstLook(t *testing.T) {
	look, ok := scan.FirstLook(write(t, "pages.tif", twoPages()), scan.OpenOptions{})
	if !ok || look.Rect != image.Rect(0, 0, 40, 30) || look.RGBAAt(3, 3).R != 77 {
		t.Errorf("got %v, %v", look, ok)
	}
}

// An Exif thumbnail is turned with its picture, and its bars are cut off.
func TestTheExifThumbnailIsAFirstLook(t *testing.T) {
	thumb := image.NewGray(image.Rect(0, 0, 160, 120)) // bars of black above and below 160 × 80
	for y := 20; y < 100; y++ {
		for x := range 160 {
			thumb.Pix[y*thumb.Stride+x] = byte(60 + x)
		}
	}
	jpg := withSegment(jpegBytes(t, drawn(1200, 600), 80), 0xe1, exifThumb([]tag{{274, 3, []uint32{6}}}, jpegBytes(t, thumb, 95)))
	look, ok := scan.FirstLook(write(t, "a.jpg", jpg), scan.OpenOptions{})
	if !ok || look.Rect != image.Rect(0, 0, 80, 160) {
		t.Fatalf("got %v, %v", look, ok)
	}
	// Orientation 6: the stored left is shown at the top.
	if top, bottom := look.RGBAAt(40, 3).R, look.RGBAAt(40, 156).R; top > 80 || bottom < 200 {
		t.Errorf("top %d, bottom %d", top, bottom)
	}
}

func TestAFirstLookIsMissingWithoutFault(t *testing.T) {
	broken := withSegment(jpegBytes(t, drawn(1200, 600), 80), 0xe1, exifThumb(nil, []byte("this is no picture at all, only bytes")))
	for name, p := range map[string][]byte{"plain.jpg": jpegBytes(t, drawn(50, 50), 80), "broken.jpg": broken, "text.jpg": []byte("no picture")} {
		if _, ok := scan.FirstLook(write(t, name, p), scan.OpenOptions{}); ok {
			t.Errorf("%s: something was shown", name)
		}
	}
	if _, ok := scan.FirstLook(filepath.Join(t.TempDir(), "gone.jpg"), scan.OpenOptions{}); ok {
		t.Error("a missing file was shown")
	}
}

// Orientation written by an independent tool turns pixels as well as size.
func TestOrientationOfAnotherWriterTurnsThePicture(t *testing.T) {
	tool, err := exec.LookPath("exiftool")
	if err != nil {
		t.Skip("exiftool is not installed; orientations are tested on their own tags elsewhere")
	}
	m := drawn(300, 200)
	for n, corner := range map[string]image.Point{"1": {0, 0}, "3": {299, 199}, "6": {0, 199}, "8": {299, 0}} {
		path := write(t, "a.jpg", jpegBytes(t, m, 98))
		if report, err := exec.Command(tool, "-n", "-Orientation="+n, path).CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, report)
		}
		p := open(t, path)
		got, want := p.Pixel(0, 0), m.RGBAAt(corner.X, corner.Y)
		if d := int(got.R) - int(want.R); d > 9 || d < -9 {
			t.Errorf("orientation %s: top left is %v, want the stored pixel %v: %v", n, got, corner, want)
		}
		if d := int(got.G) - int(want.G); d > 9 || d < -9 {
			t.Errorf("orientation %s: top left is %v, want the stored pixel %v: %v", n, got, corner, want)
		}
	}
}

func TestAChecksumIsThatOfTheBytes(t *testing.T) {
	// SHA-256 of "abc", FIPS 180-4, example 1.
	got, err := scan.Checksum(write(t, "abc", []byte("abc")))
	if want := "sha256:ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"; err != nil || got != want {
		t.Errorf("got %q, %v, want %q", got, err, want)
	}
	if _, err := scan.Checksum(filepath.Join(t.TempDir(), "gone")); !os.IsNotExist(unwrapAll(err)) {
		t.Errorf("got %v", err)
	}
}

func unwrapAll(err error) error {
	for {
		u, ok := err.(interface{ Unwrap() error })
		if !ok || u.Unwrap() == nil || os.IsNotExist(err) {
			return err
		}
		err = u.Unwrap()
	}
}
