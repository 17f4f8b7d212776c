package scan

import (
	"bytes"
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/image/ccitt"
)

// seeds adds the masters whose names end so.
func seeds(f *testing.F, ends ...string) {
	f.Helper()
	for _, end := range ends {
		paths, err := filepath.Glob(filepath.Join("testdata", "formats", "*."+end))
		if err != nil || len(paths) == 0 {
			f.Fatalf("no masters *.%s: %v", end, err)
		}
		for _, path := range paths {
			p, err := os.ReadFile(path)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(p)
		}
	}
}

// tryFile reads any bytes as a picture: it must give a picture of the size
// the header tells, or a refusal in words, and our own readers must not be
// saved by the net under them.
func tryFile(t *testing.T, p []byte) {
	b := blob{bytes.NewReader(p), int64(len(p))}
	h, err := readHeader(b, 0)
	var r *raster
	if err == nil {
		r, err = h.decode(context.Background(), b, OpenOptions{MaxPixels: 1 << 18})
	}
	if err == nil {
		if r.w != h.Width || r.h != h.Height {
			t.Fatalf("the header says %d × %d, the pixels %d × %d", h.Width, h.Height, r.w, r.h)
		}
		for _, l := range pyramid(r, buffers.get) {
			l.row(make([]byte, 4*l.w), 0, l.h-1, l.w)
		}
		return
	}
	var refusal *Refusal
	if !errors.As(refuse("name", err), &refusal) || refusal.What.IsZero() || refusal.Remedy.IsZero() {
		t.Fatalf("an error without words or remedy: %v", err)
	}
	if refusal.Err != nil && strings.Contains(refusal.Err.Error(), "decoder stopped") && h != nil && h.tiff != nil {
		t.Fatalf("the TIFF reader panicked: %v", refusal.Err)
	}
}

func FuzzTIFF(f *testing.F) {
	seeds(f, "tif", "tiff")
	f.Fuzz(tryFile)
}

func FuzzJPEG(f *testing.F) {
	seeds(f, "jpg")
	f.Fuzz(tryFile)
}

func FuzzPNG(f *testing.F) {
	seeds(f, "png")
	f.Fuzz(tryFile)
}

func FuzzBMPAndWebP(f *testing.F) {
	seeds(f, "bmp", "webp")
	f.Fuzz(tryFile)
}

func FuzzICC(f *testing.F) {
	for _, name := range []string{"png-profile-wide.png", "jpg-profile-sRGB.jpg", "tif-profile-grey.tif"} {
		p, err := os.ReadFile(filepath.Join("testdata", "formats", name))
		if err != nil {
			f.Fatal(err)
		}
		h, err := readHeader(blob{bytes.NewReader(p), int64(len(p))}, 0)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(h.icc)
	}
	f.Fuzz(func(t *testing.T, p []byte) {
		prof, ok := parseICC(p)
		if ok && prof.curve[2] != nil {
			newConverter(prof).same()
		}
	})
}

func FuzzCacheEntry(f *testing.F) {
	base := &raster{w: 37, h: 21, y: make([]byte, 37*21), yStride: 37, cb: make([]byte, 19*11), cr: make([]byte, 19*11), cSpan: 19, sx: 1, sy: 1}
	var b bytes.Buffer
	if err := writeLevels(&b, []*raster{base}); err != nil {
		f.Fatal(err)
	}
	f.Add(b.Bytes())
	path := filepath.Join(f.TempDir(), "entry") // one for all: a folder for each takes seconds to settle
	f.Fuzz(func(t *testing.T, p []byte) {
		if err := os.WriteFile(path, p, 0o600); err != nil {
			t.Fatal(err)
		}
		levels, err := readLevels(path, 37, 21)
		if err != nil {
			return
		}
		for _, l := range levels {
			for y := range l.h {
				l.row(make([]byte, 4*l.w), 0, y, l.w)
			}
		}
	})
}

// FuzzFax holds our Group 4 reader against that of golang.org/x/image: where
// both read all rows, they must agree.
func FuzzFax(f *testing.F) {
	f.Add([]byte{0x26, 0xa1, 0xb2, 0xff, 0x00, 0x10, 0x01}, 61)
	f.Add([]byte{0xff, 0xff, 0xff, 0xff, 0xff, 0xff}, 8)
	f.Fuzz(func(t *testing.T, p []byte, width int) {
		const rows = 12
		if width < 1 || width > 300 {
			return
		}
		for _, scheme := range []int{2, 3} { // these need only end without a panic
			for options := range 2 {
				r := newFaxReader(bytes.NewReader(p), width, scheme, options)
				for range rows {
					if _, err := r.next(); err != nil {
						break
					}
				}
			}
		}
		theirs, err := io.ReadAll(ccitt.NewReader(bytes.NewReader(p), ccitt.MSB, ccitt.Group4, width, rows, &ccitt.Options{Invert: true}))
		if err != nil || len(theirs) != rows*((width+7)/8) {
			return
		}
		r := newFaxReader(bytes.NewReader(p), width, 4, 0)
		for y := range rows {
			row, err := r.next()
			if err != nil {
				return
			}
			want := theirs[y*len(row):][:len(row)]
			if width&7 != 0 { // padding means nothing
				mask := byte(0xff) << (8 - width&7)
				if (row[len(row)-1]^want[len(row)-1])&mask != 0 {
					t.Fatalf("row %d: got %x, want %x", y, row, want)
				}
				row, want = row[:len(row)-1], want[:len(row)-1]
			}
			if !bytes.Equal(row, want) {
				t.Fatalf("row %d: got %x, want %x", y, row, want)
			}
		}
	})
}
