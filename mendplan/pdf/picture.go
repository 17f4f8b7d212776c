package pdf

import (
	"bytes"
	"fmt"
	"image"

	"github.com/disintegration/imaging"
)

// Longest is the longer side of a leaf's picture in print, in pixels: 250 mm
// at about 200 to the inch.
const Longest = 2000

// sharpen is how much a picture made small is sharpened, so that fine tears
// still show in print: the standard deviation of the blur taken off, pixels.
const sharpen = 0.6

// MakePicture makes a picture of a scan of the given full size ready for
// print: no longer than [Longest], sharpened a little, as JPEG.
func MakePicture(img image.Image, fullWidth, fullHeight int) (Picture, error) {
	small := imaging.Sharpen(imaging.Fit(img, Longest, Longest, imaging.Lanczos), sharpen)
	var b bytes.Buffer
	if err := imaging.Encode(&b, small, imaging.JPEG, imaging.JPEGQuality(85)); err != nil {
		return Picture{}, fmt.Errorf("making a picture ready for print: %w", err)
	}
	return Picture{JPEG: b.Bytes(), FullWidth: fullWidth, FullHeight: fullHeight}, nil
}
