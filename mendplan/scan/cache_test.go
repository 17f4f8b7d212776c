package scan_test

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"os"
	"path/filepath"
	"testing"
	"time"

	"leafmend/mendplan/scan"
)

// cached opens a picture of 4.2 megapixels twice through a cache and returns
// the second, with the path and the cache's folder.
func cached(t *testing.T, p []byte, name string, opt scan.OpenOptions) (first, second *scan.Picture, path, dir string) {
	t.Helper()
	path, dir = write(t, name, p), t.TempDir()
	opt.Cache = scan.NewCache(dir, 1<<30)
	both := [2]*scan.Picture{}
	for i := range both {
		q, err := scan.Open(context.Background(), path, opt)
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(q.Close)
		opt.Cache.Wait()
		both[i] = q
	}
	return both[0], both[1], path, dir
}

func TestASecondOpeningShowsTheSamePixelsAtEveryLevel(t *testing.T) {
	files := map[string][]byte{"a.jpg": jpegBytes(t, drawn(2101, 2003), 90), "a.png": pngBytes(t, drawn(2101, 2003))}
	for name, p := range files {
		first, second, _, _ := cached(t, p, name, scan.OpenOptions{})
		for i := range first.NumLevels() {
			l := first.Level(i)
			r := image.Rect(0, 0, l.Width, l.Height)
			if !bytes.Equal(first.Region(r, i).Pix, second.Region(r, i).Pix) {
				t.Errorf("%s: level %d differs", name, i)
			}
			if !bytes.Equal(first.Grey(i).Pix, second.Grey(i).Pix) {
				t.Errorf("%s: grey level %d differs", name, i)
			}
		}
		if err := second.Err(); err != nil {
			t.Error(err)
		}
	}
}

func TestALazyPictureStaysCoarseUntilMoreIsWanted(t *testing.T) {
	_, p, _, _ := cached(t, jpegBytes(t, drawn(2101, 2003), 90), "a.jpg", scan.OpenOptions{Lazy: true})
	coarse := p.Bytes()
	frame := image.NewRGBA(image.Rect(0, 0, 300, 300))
	p.Paint(frame, scan.Fit(p.Bounds(), 300, 300), scan.Best)
	select {
	case <-p.Sharp():
		t.Fatal("the full picture was read for a view that does not need it")
	default:
	}
	p.Paint(frame, scan.View{Scale: 1}, scan.Best)
	<-p.Sharp()
	if p.Bytes() < 4*coarse {
		t.Errorf("the full picture is not there: %d bytes, coarse %d", p.Bytes(), coarse)
	}
}

func TestADamagedCacheIsPassedOver(t *testing.T) {
	damage := map[string]func(p []byte) []byte{
		"cut short":         func(p []byte) []byte { return p[:len(p)/2] },
		"empty":             func(p []byte) []byte { return nil },
		"a byte changed":    func(p []byte) []byte { p[len(p)-9]++; return p },
		"sizes changed":     func(p []byte) []byte { return bytes.Replace(p, []byte(`"w":`), []byte(`"w":9`), 1) },
		"something else":    func(p []byte) []byte { return []byte("hello\nworld") },
		"lengths too large": func(p []byte) []byte { return bytes.Replace(p, []byte(`"rgba":`), []byte(`"rgba":99`), 1) },
	}
	for name, change := range damage {
		t.Run(name, func(t *testing.T) {
			first, _, path, dir := cached(t, jpegBytes(t, drawn(2101, 2003), 90), "a.jpg", scan.OpenOptions{})
			for _, e := range entries(t, dir) {
				p, err := os.ReadFile(e)
				if err == nil {
					err = os.WriteFile(e, change(p), 0o600)
				}
				if err != nil {
					t.Fatal(err)
				}
			}
			cache := scan.NewCache(dir, 1<<30)
			defer cache.Wait()
			p, err := scan.Open(context.Background(), path, scan.OpenOptions{Cache: cache})
			if err != nil {
				t.Fatal(err)
			}
			defer p.Close()
			r := image.Rect(500, 500, 700, 600)
			if !bytes.Equal(p.Region(r, 0).Pix, first.Region(r, 0).Pix) {
				t.Error("the picture differs")
			}
			<-p.Sharp() // what is written back has begun by then
		})
	}
}

func entries(t *testing.T, dir string) []string {
	t.Helper()
	all, err := filepath.Glob(filepath.Join(dir, "*"))
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func TestAChangedFileIsNotTakenFromTheCache(t *testing.T) {
	_, _, path, dir := cached(t, jpegBytes(t, drawn(2101, 2003), 90), "a.jpg", scan.OpenOptions{})
	blank := image.NewGray(image.Rect(0, 0, 2101, 2003))
	if err := os.WriteFile(path, jpegBytes(t, blank, 90), 0o600); err != nil {
		t.Fatal(err)
	}
	cache := scan.NewCache(dir, 1<<30)
	defer cache.Wait()
	p, err := scan.Open(context.Background(), path, scan.OpenOptions{Cache: cache})
	if err != nil {
		t.Fatal(err)
	}
	defer p.Close()
	if got := p.Pixel(1000, 1000); got != (color.RGBA{0, 0, 0, 255}) {
		t.Errorf("got %v, want the new file's black", got)
	}
}

func TestTheCacheKeepsItsLimitAndDropsFinePixelsFirst(t *testing.T) {
	dir := t.TempDir()
	cache := scan.NewCache(dir, 8<<20) // one picture is 6.3 MB fine, 1.4 MB coarse
	strange := filepath.Join(dir, "notes.txt")
	if err := os.WriteFile(strange, []byte("not ours"), 0o600); err != nil {
		t.Fatal(err)
	}
	jpg := jpegBytes(t, drawn(2101, 2003), 90)
	for _, name := range []string{"a.jpg", "b.jpg", "c.jpg"} {
		p, err := scan.Open(context.Background(), write(t, name, jpg), scan.OpenOptions{Cache: cache})
		if err != nil {
			t.Fatal(err)
		}
		p.Close()
		cache.Wait()
		time.Sleep(5 * time.Millisecond) // so that times of use differ
	}
	total, coarse := int64(0), 0
	for _, e := range entries(t, dir) {
		st, err := os.Stat(e)
		if err != nil {
			t.Fatal(err)
		}
		total += st.Size()
		if filepath.Ext(e) == ".coarse" {
			coarse++
		}
	}
	if total > 8<<20+100 || coarse != 3 {
		t.Errorf("kept %d bytes and %d coarse entries, want at most %d and 3", total, coarse, 8<<20)
	}
	if err := cache.Clear(); err != nil {
		t.Fatal(err)
	}
	if left := entries(t, dir); len(left) != 1 || left[0] != strange {
		t.Errorf("after clearing: %v, want the stranger's file alone", left)
	}
}

func TestAClosedPicturePaintsNothingAndDoesNotHang(t *testing.T) {
	_, p, path, dir := cached(t, jpegBytes(t, drawn(2101, 2003), 90), "a.jpg", scan.OpenOptions{Lazy: true})
	p.Close()
	p.Close()
	frame := image.NewRGBA(image.Rect(0, 0, 50, 50))
	p.Paint(frame, scan.View{Scale: 1, Around: color.RGBA{9, 9, 9, 255}}, scan.Best)
	if got := frame.RGBAAt(20, 20); got != (color.RGBA{9, 9, 9, 255}) {
		t.Errorf("painted %v", got)
	}
	p.Region(image.Rect(0, 0, 10, 10), 0)
	<-p.Sharp()
	// The file going away shows as an error of the picture, not a panic.
	fine := entries(t, dir)
	q, err := scan.Open(context.Background(), path, scan.OpenOptions{Cache: scan.NewCache(dir, 1<<30), Lazy: true})
	if err != nil {
		t.Fatal(err)
	}
	defer q.Close()
	for _, e := range append(fine, path) {
		if err := os.Remove(e); err != nil {
			t.Fatal(err)
		}
	}
	if got := q.Region(image.Rect(0, 0, 100, 100), 0); got.RGBAAt(50, 50).A != 255 {
		t.Error("the coarse level should stand in for the missing one")
	}
	if q.Err() == nil {
		t.Error("the picture should tell that its file is gone")
	}
}

func TestAShelfClosesWhatWasUnusedLongest(t *testing.T) {
	shelf := scan.NewShelf(20 << 20) // two pictures of 8.4 MB
	t.Cleanup(shelf.Close)
	jpg := jpegBytes(t, drawn(2101, 2003), 90)
	paths := []string{write(t, "a.jpg", jpg), write(t, "b.jpg", jpg), write(t, "c.jpg", jpg)}
	for _, path := range []string{paths[0], paths[1], paths[0], paths[2]} {
		if _, err := shelf.Open(context.Background(), path, scan.OpenOptions{}); err != nil {
			t.Fatal(err)
		}
	}
	if shelf.Peek(paths[1], 0) != nil {
		t.Error("the picture unused for longest is still open")
	}
	if shelf.Peek(paths[2], 0) == nil {
		t.Error("the latest picture is not on the shelf")
	}
	shelf.Drop(paths[2])
	if shelf.Peek(paths[2], 0) != nil {
		t.Error("a dropped picture is still there")
	}
}
