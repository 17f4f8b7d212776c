package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"hash/fnv"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	"leafmend/cmd/dev/frame"
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
			if err != nil || frame.Plain(img) {
				continue
			}
			h := fnv.New64a()
			h.Write(img.Pix)
			if sum := h.Sum64(); sum != last {
				last, still = sum, 0
				continue
			}
			if still++; still == 6 {
				done <- frame.Save(path, img)
				return
			}
		}
	}()
	return done
}

// picture is what the display shows.
func (d display) picture() (*image.RGBA, error) { return frame.Read(d.file()) }

// file is where the display keeps its picture.
func (d display) file() string { return filepath.Join(d.folder, frame.File) }
