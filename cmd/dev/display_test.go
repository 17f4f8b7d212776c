package main

import (
	"encoding/binary"
	"image/color"
	"net"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func TestTheVirtualDisplayTakesClientsAsLongAsItIsHeld(t *testing.T) {
	if !virtualDisplay.has() {
		t.Skip("Xvfb is not on this machine; go run ./cmd/dev test brings it")
	}
	d, stop, err := startDisplay("640x480x24")
	if err != nil {
		t.Fatal(err)
	}
	defer stop()
	for range 3 {
		time.Sleep(300 * time.Millisecond)
		c, err := net.Dial("unix", "/tmp/.X11-unix/X"+strings.TrimPrefix(d.name, ":"))
		if err != nil {
			t.Fatalf("display %s takes no clients: %v", d.name, err)
		}
		c.Close()
	}
	img, err := d.picture()
	if err != nil || img.Bounds().Dx() != 640 || img.Bounds().Dy() != 480 || !plain(img) {
		t.Errorf("an empty display gives no plain picture of 640 × 480: %v", err)
	}
}

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
		if err := os.WriteFile(filepath.Join(dir, "Xvfb_screen0"), data, 0o600); err != nil {
			t.Fatal(err)
		}
		img, err := display{folder: dir}.picture()
		if err != nil {
			t.Fatal(err)
		}
		if got := img.RGBAAt(1, 0); got != (color.RGBA{4, 5, 6, 255}) {
			t.Errorf("little-endian %v: second pixel %v", little, got)
		}
		if err := os.WriteFile(filepath.Join(dir, "Xvfb_screen0"), data[:110], 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := (display{folder: dir}).picture(); err == nil {
			t.Error("a dump cut short was taken for a picture")
		}
	}
}
