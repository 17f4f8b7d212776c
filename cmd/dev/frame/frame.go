// Package frame reads what a virtual X display shows. Xvfb, told by -fbdir,
// keeps its picture in a file in the X window dump form; nothing else is
// needed to look at it, no client and no tool.
package frame

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
)

// File is the name of the file in the folder given to -fbdir, for screen 0.
const File = "Xvfb_screen0"

// Read reads the picture in a file in the X window dump form: a header of 25
// big-endian words, of which the first is its own length, then the colour map
// (12 bytes an entry), then rows of 32-bit pixels (X Consortium, XWDFile.h,
// version 7).
func Read(path string) (*image.RGBA, error) {
	data, err := os.ReadFile(path)
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

// Plain reports whether every pixel is the same: nothing is shown yet.
func Plain(img *image.RGBA) bool {
	for i := 4; i < len(img.Pix); i += 4 {
		if !bytes.Equal(img.Pix[i:i+4], img.Pix[:4]) {
			return false
		}
	}
	return true
}

// Differ counts the pixels in which two pictures of one size differ; -1 when
// their sizes do.
func Differ(a, b *image.RGBA) int {
	if a.Rect != b.Rect {
		return -1
	}
	n := 0
	for i := 0; i < len(a.Pix); i += 4 {
		if !bytes.Equal(a.Pix[i:i+4], b.Pix[i:i+4]) {
			n++
		}
	}
	return n
}

// Save writes a picture as PNG, with the folders above it.
func Save(path string, img image.Image) error {
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
