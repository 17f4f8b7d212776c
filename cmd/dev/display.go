package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/fnv"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// display is a virtual X display whose picture lies in a file.
type display struct {
	name   string // such as ":91"
	folder string // holds Xvfb_screen0, in the X window dump format
}

// startDisplay starts a virtual display of a size such as "1280x800x24" and
// waits until it takes clients.
func startDisplay(size string) (display, func(), error) {
	folder, err := os.MkdirTemp("", "leafmend-display-")
	if err != nil {
		return display{}, nil, fmt.Errorf("making a folder for the virtual display: %w", err)
	}
	read, write, err := os.Pipe()
	if err != nil {
		return display{}, nil, fmt.Errorf("starting a virtual display: %w", err)
	}
	// Without -noreset the display begins anew when its last client goes,
	// and refuses whoever comes just then.
	cmd := exec.Command("Xvfb", "-noreset", "-displayfd", "3", "-screen", "0", size, "-fbdir", folder, "-nolisten", "tcp")
	cmd.ExtraFiles = []*os.File{write}
	if err := cmd.Start(); err != nil {
		os.RemoveAll(folder)
		return display{}, nil, fmt.Errorf("starting a virtual display: %w", err)
	}
	write.Close()
	stop := func() {
		cmd.Process.Kill()
		cmd.Wait()
		os.RemoveAll(folder)
	}
	read.SetReadDeadline(time.Now().Add(20 * time.Second))
	// The line must be read to its end: a display whose pipe is closed while
	// it still writes is ended by that.
	line, err := bufio.NewReader(read).ReadString('\n')
	read.Close()
	number := strings.TrimSpace(line)
	if err != nil || number == "" {
		stop()
		return display{}, nil, errors.New("the virtual display did not start within 20 seconds")
	}
	return display{":" + number, folder}, stop, nil
}

// whenStill writes a picture of the display to path once something is shown
// and has not changed for three seconds.
func (d display) whenStill(ctx context.Context, path string) <-chan error {
	done := make(chan error, 1)
	go func() {
		var last uint64
		still := 0
		for {
			select {
			case <-ctx.Done():
				done <- errors.New("the window did not come to rest in time")
				return
			case <-time.After(500 * time.Millisecond):
			}
			img, err := d.picture()
			if err != nil || plain(img) {
				continue
			}
			h := fnv.New64a()
			h.Write(img.Pix)
			if sum := h.Sum64(); sum != last {
				last, still = sum, 0
				continue
			}
			if still++; still == 6 {
				done <- savePNG(path, img)
				return
			}
		}
	}()
	return done
}

// plain reports whether every pixel is the same: nothing is shown yet.
func plain(img *image.RGBA) bool {
	for i := 4; i < len(img.Pix); i += 4 {
		if !bytes.Equal(img.Pix[i:i+4], img.Pix[:4]) {
			return false
		}
	}
	return true
}

func savePNG(path string, img image.Image) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return fmt.Errorf("making a folder for the picture: %w", err)
	}
	f, err := os.Create(path)
	if err != nil {
		return fmt.Errorf("writing the picture: %w", err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		return fmt.Errorf("writing the picture: %w", err)
	}
	return f.Close()
}

// picture reads the display's frame from its X window dump: a header of 25
// big-endian words, of which the first is its own length, then the colour
// map (12 bytes an entry), then rows of 32-bit pixels (X Consortium,
// XWDFile.h, version 7).
func (d display) picture() (*image.RGBA, error) {
	data, err := os.ReadFile(filepath.Join(d.folder, "Xvfb_screen0"))
	if err != nil {
		return nil, fmt.Errorf("reading the virtual display: %w", err)
	}
	if len(data) < 100 {
		return nil, errors.New("the virtual display has no picture yet")
	}
	word := func(i int) int { return int(binary.BigEndian.Uint32(data[4*i:])) }
	headerLen, width, height := word(0), word(4), word(5)
	littleEndian, perPixel, perLine, colours := word(7) == 0, word(11), word(12), word(19)
	start := headerLen + 12*colours
	if perPixel != 32 || width < 1 || height < 1 || len(data) < start+perLine*height {
		return nil, errors.New("the virtual display keeps its picture in another form")
	}
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		row := data[start+y*perLine:]
		for x := range width {
			p := row[4*x : 4*x+4]
			c := color.RGBA{p[1], p[2], p[3], 255}
			if littleEndian {
				c = color.RGBA{p[2], p[1], p[0], 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	return img, nil
}
