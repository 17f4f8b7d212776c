package main

import (
	"net"
	"strings"
	"testing"
	"time"

	"leafmend/cmd/dev/frame"
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
	if err != nil || img.Bounds().Dx() != 640 || img.Bounds().Dy() != 480 || !frame.Plain(img) {
		t.Errorf("an empty display gives no plain picture of 640 × 480: %v", err)
	}
}
