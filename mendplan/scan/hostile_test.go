package scan_test

import (
	"bytes"
	"compress/zlib"
	"context"
	"encoding/binary"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"leafmend/mendplan/scan"
)

// refused opens a file that must be refused, and returns the refusal.
func refused(t *testing.T, path string, opt scan.OpenOptions) *scan.Refusal {
	t.Helper()
	p, err := scan.Open(context.Background(), path, opt)
	var r *scan.Refusal
	if !errors.As(err, &r) {
		if err == nil {
			p.Close()
		}
		t.Fatalf("got %v, want a refusal", err)
	}
	if r.Path != path || r.Remedy.IsZero() || !strings.Contains(r.Error(), filepath.Base(path)) {
		t.Errorf("the refusal does not name file and remedy: %q", r.Error())
	}
	return r
}

func TestDamagedFilesAreRefusedInWords(t *testing.T) {
	jpg, pn := jpegBytes(t, drawn(300, 200), 90), pngBytes(t, drawn(300, 200))
	cases := map[string]struct {
		name  string
		bytes []byte
		words string
	}{
		"a JPEG cut short":               {"a.jpg", jpg[:len(jpg)/2], "cut short"},
		"a JPEG without pixels":          {"a.jpg", jpg[:30], "cut short before its pixels"},
		"a JPEG overwritten":             {"a.jpg", append(bytes.Clone(jpg[:20]), make([]byte, 500)...), "damaged at byte"},
		"a PNG cut short":                {"a.png", pn[:len(pn)/2], "cut short"},
		"a PNG with its header alone":    {"a.png", pn[:33], "cut short before its pixels"},
		"a PNG with a byte changed":      {"a.png", changed(pn, len(pn)/2), "cannot be read"},
		"a text renamed to JPEG":         {"a.jpg", []byte("Dear reader, this is not a picture."), "not a picture of a kind that is read"},
		"a web page renamed to PNG":      {"a.png", []byte("<!doctype html><title>404</title>"), "web page"},
		"a PDF":                          {"a.pdf", []byte("%PDF-1.7\n"), "PDF files are not read"},
		"a HEIC picture":                 {"a.heic", []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"), "HEIC pictures are not read"},
		"a JPEG XL picture":              {"a.jxl", []byte("\xff\x0a\xfa\x7f\x00\x00"), "JPEG XL pictures are not read"},
		"a JPEG 2000 stream":             {"a.j2k", []byte("\xff\x4f\xff\x51\x00\x2f"), "JPEG 2000 pictures are not read"},
		"an AVIF picture":                {"a.avif", []byte("\x00\x00\x00\x1cftypavif\x00\x00\x00\x00"), "AVIF pictures are not read"},
		"a raw camera picture":           {"a.cr2", []byte("II*\x00\x10\x00\x00\x00CR\x02\x00"), "raw camera picture"},
		"an archive":                     {"a.zip", []byte("PK\x03\x04\x14\x00\x00\x00"), "archive"},
		"a placeholder for a large file": {"a.tif", []byte("version https://git-lfs.github.com/spec/v1\n"), "placeholder"},
		"nothing but zeros":              {"a.tif", make([]byte, 4096), "nothing but zeros"},
		"an empty file":                  {"a.jpg", nil, "empty"},
		"a TIFF of 8 bytes":              {"a.tif", []byte("II*\x00\x08\x00\x00\x00"), "outside the file"},
		"a TIFF whose chain is a ring":   {"a.tif", []byte("II*\x00\x08\x00\x00\x00\x01\x00\x00\x01\x03\x00\x01\x00\x00\x00\x05\x00\x00\x00\x08\x00\x00\x00"), "size of 5 × 0"},
		"a TIFF without its strips":      {"a.tif", tiffBytes(greyTags(40, 30), nil), "pixels are missing from row 1"},
		"a TIFF with a strip cut short":  {"a.tif", tiffBytes(greyTags(40, 30), make([]byte, 500)), "pixels are missing from row 13"},
		"a BMP cut short":                {"a.bmp", []byte("BM\x00\x00\x00\x00\x00\x00\x00\x00\x36\x00\x00\x00\x28\x00\x00\x00\x10\x00\x00\x00\x10\x00\x00\x00\x01\x00\x18\x00" + strings.Repeat("\x00", 100)), "too short"},
		"a WebP cut short":               {"a.webp", []byte("RIFF\x10\x00\x00\x00WEBPVP8 "), "cut short"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			if r := refused(t, write(t, c.name, c.bytes), scan.OpenOptions{}); !strings.Contains(r.Error(), c.words) {
				t.Errorf("got %q, want the words %q", r.Error(), c.words)
			}
		})
	}
}

func changed(p []byte, at int) []byte {
	p = bytes.Clone(p)
	p[at] ^= 0x55
	return p
}

// greyTags are the tags of an uncompressed grey TIFF of one strip.
func greyTags(w, h uint32) []tag {
	return []tag{{256, 4, []uint32{w}}, {257, 4, []uint32{h}}, {258, 3, []uint32{8}}, {259, 3, []uint32{1}},
		{262, 3, []uint32{1}}, {273, 4, []uint32{0}}, {277, 3, []uint32{1}}, {278, 4, []uint32{h}}, {279, 4, []uint32{w * h}}}
}

func TestMissingFilesAndFoldersAreRefusedInWords(t *testing.T) {
	dir := t.TempDir()
	if r := refused(t, filepath.Join(dir, "gone.jpg"), scan.OpenOptions{}); !strings.Contains(r.What.String(), "not there") {
		t.Errorf("got %q", r.What)
	}
	if r := refused(t, dir, scan.OpenOptions{}); !strings.Contains(r.What.String(), "not a plain file") {
		t.Errorf("got %q", r.What)
	}
	if _, err := scan.Inspect(filepath.Join(dir, "gone.jpg")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a missing file should be os.ErrNotExist underneath, got %v", err)
	}
}

// TestBombsAreRefusedWithoutTheirMemory opens small files that claim to be
// large and watches what is allocated.
func TestBombsAreRefusedWithoutTheirMemory(t *testing.T) {
	size := func(p []byte, at int, w, h uint32) []byte {
		p = bytes.Clone(p)
		binary.BigEndian.PutUint32(p[at:], w)
		binary.BigEndian.PutUint32(p[at+4:], h)
		return p
	}
	jpg := jpegBytes(t, drawn(16, 16), 90)
	sof := bytes.Index(jpg, []byte{0xff, 0xc0})
	jpegSize := func(w, h int) []byte {
		p := bytes.Clone(jpg)
		copy(p[sof+5:], []byte{byte(h >> 8), byte(h), byte(w >> 8), byte(w)})
		return p
	}
	pn := pngBytes(t, drawn(16, 16))
	var deflate bytes.Buffer
	z := zlib.NewWriter(&deflate)
	z.Write(make([]byte, 1<<20))
	z.Close()
	deep := greyTags(15000, 15000)
	deep[3].values[0] = 8
	cases := map[string]struct {
		name  string
		bytes []byte
		words string
	}{
		"a JPEG of 65500 × 65500":          {"a.jpg", jpegSize(65500, 65500), "the limit is 250 million"},
		"a JPEG of 15000 × 15000":          {"a.jpg", jpegSize(15000, 15000), "far too short"},
		"a PNG of 40000 × 40000":           {"a.png", size(pn, 16, 40000, 40000), "the limit is 250 million"},
		"a PNG of 15000 × 15000":           {"a.png", size(pn, 16, 15000, 15000), "far too short"},
		"a PNG of 2147483647 × 1":          {"a.png", size(pn, 16, 1<<31-1, 1), "size of 2147483647 × 1"},
		"a TIFF of 40000 × 40000":          {"a.tif", tiffBytes(greyTags(40000, 40000), nil), "the limit is 250 million"},
		"a TIFF of 15000 × 15000":          {"a.tif", tiffBytes(greyTags(15000, 15000), nil), "far too short"},
		"a deflated TIFF of 15000 × 15000": {"a.tif", tiffBytes(deep, deflate.Bytes()), "far too short"},
		"a TIFF with enormous counts": {"a.tif", []byte("II*\x00\x08\x00\x00\x00\x02\x00\x00\x01\x04\x00\x01\x00\x00\x00\x05\x00\x00\x00\x11\x01\x04\x00\xff\xff\xff\x7f\x08\x00\x00\x00\x00\x00\x00\x00"),
			"size of 5 × 0"},
		"a JPEG of a thousand scans": {"a.jpg", manyScans(t), "more than 64 scans"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			path := write(t, c.name, c.bytes)
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			r := refused(t, path, scan.OpenOptions{})
			runtime.ReadMemStats(&after)
			if !strings.Contains(r.Error(), c.words) {
				t.Errorf("got %q, want the words %q", r.Error(), c.words)
			}
			if used := after.TotalAlloc - before.TotalAlloc; used > 32<<20 {
				t.Errorf("%d MB were allocated for a file of %d bytes", used>>20, len(c.bytes))
			}
		})
	}
}

// manyScans repeats the one scan of a small JPEG.
func manyScans(t *testing.T) []byte {
	p := jpegBytes(t, drawn(16, 16), 90)
	sos := bytes.Index(p, []byte{0xff, 0xda})
	one := p[sos : len(p)-2]
	return append(append(bytes.Clone(p[:sos]), bytes.Repeat(one, 1000)...), 0xff, 0xd9)
}

func TestTheLimitOfPixelsCanBeSet(t *testing.T) {
	path := write(t, "a.png", pngBytes(t, drawn(100, 100)))
	refused(t, path, scan.OpenOptions{MaxPixels: 9999})
	if p, err := scan.Open(context.Background(), path, scan.OpenOptions{MaxPixels: 10000}); err != nil {
		t.Error(err)
	} else {
		p.Close()
	}
}

func TestOpeningStopsWhenItsContextEnds(t *testing.T) {
	for _, path := range []string{write(t, "a.jpg", jpegBytes(t, drawn(2000, 2000), 95)), write(t, "a.png", pngBytes(t, drawn(2000, 2000)))} {
		ctx, cancel := context.WithCancel(context.Background())
		_, err := scan.Open(ctx, path, scan.OpenOptions{Progress: func(done float64) {
			if done > 0.2 {
				cancel()
			}
		}})
		if !errors.Is(err, context.Canceled) {
			t.Errorf("%s: got %v, want the context's error", filepath.Base(path), err)
		}
	}
	gone, cancel := context.WithDeadline(context.Background(), time.Unix(0, 0))
	defer cancel()
	if _, err := scan.Open(gone, write(t, "a.tif", tiffBytes(greyTags(100, 100), make([]byte, 10000))), scan.OpenOptions{}); err == nil {
		t.Error("a context that ended before should stop the opening")
	}
}

func TestProgressRunsForward(t *testing.T) {
	last, calls := 0.0, 0
	p, err := scan.Open(context.Background(), write(t, "a.jpg", jpegBytes(t, drawn(2000, 2000), 95)), scan.OpenOptions{Progress: func(done float64) {
		if done < last || done > 1 {
			t.Errorf("progress went from %v to %v", last, done)
		}
		last, calls = done, calls+1
	}})
	if err != nil {
		t.Fatal(err)
	}
	defer p.Close()
	if calls < 10 || last < 0.9 {
		t.Errorf("%d calls up to %v", calls, last)
	}
}
