package frame_test

import (
	"encoding/binary"
	"image"
	"image/color"
	"os"
	"path/filepath"
	"testing"

	"leafmend/cmd/dev/frame"
)

// A dump of two pixels made by hand after XWDFile.h: a header of 100 bytes,
// one entry of a colour map, one row.
func TestAWindowDumpIsRead(t *testing.T) {
	for _, little := range []bool{true, false} {
		words := make([]uint32, 25)
		words[0], words[1], words[4], words[5], words[11], words[12], words[19] = 100, 7, 2, 1, 32, 8, 1
		pixels := []byte{3, 2, 1, 0, 6, 5, 4, 0}
		if !little {
			words[7] = 1
			pixels = []byte{0, 1, 2, 3, 0, 4, 5, 6}
		}
		var data []byte
		for _, w := range words {
			data = binary.BigEndian.AppendUint32(data, w)
		}
		data = append(append(data, make([]byte, 12)...), pixels...)
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, frame.File), data, 0o600); err != nil {
			t.Fatal(err)
		}
		img, err := frame.Read(filepath.Join(dir, frame.File))
		if err != nil {
			t.Fatal(err)
		}
		if got := img.RGBAAt(1, 0); got != (color.RGBA{4, 5, 6, 255}) {
			t.Errorf("little-endian %v: second pixel %v", little, got)
		}
		if err := os.WriteFile(filepath.Join(dir, frame.File), data[:110], 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := frame.Read(filepath.Join(dir, frame.File)); err == nil {
			t.Error("a dump cut short was taken for a picture")
		}
	}
}

func TestPicturesAreCompared(t *testing.T) {
	a, b := image.NewRGBA(image.Rect(0, 0, 4, 3)), image.NewRGBA(image.Rect(0, 0, 4, 3))
	if n := frame.Differ(a, b); n != 0 || !frame.Plain(a) {
		t.Errorf("two empty pictures differ in %d pixels", n)
	}
	b.SetRGBA(2, 1, color.RGBA{1, 0, 0, 255})
	b.SetRGBA(3, 2, color.RGBA{0, 0, 9, 255})
	if n := frame.Differ(a, b); n != 2 || frame.Plain(b) {
		t.Errorf("they differ in %d pixels, want 2", n)
	}
	if n := frame.Differ(a, image.NewRGBA(image.Rect(0, 0, 3, 4))); n != -1 {
		t.Errorf("pictures of two sizes give %d", n)
	}
	path := filepath.Join(t.TempDir(), "deep", "a.png")
	if err := frame.Save(path, b); err != nil {
		t.Fatal(err)
	}
	if st, err := os.Stat(path); err != nil || st.Size() == 0 {
		t.Errorf("nothing was written: %v", err)
	}
}
