package pdf

import (
	"bytes"
	"encoding/gob"
	"fmt"

	"codeberg.org/go-pdf/fpdf"
)

// widthStep tells pictures apart that are equally wide, in pixels. Widths are
// written into the file as whole numbers, so it never shows.
const widthStep = 1e-7

// inOrder gives a picture its place among those of the same width. The library
// that writes the file sorts pictures by width alone and takes those of one
// width in the chance order of a map, so that the same print would come out in
// other bytes each time. Its own serial form of a picture lets us make every
// width a little larger than the one before.
func inOrder(info *fpdf.ImageInfoType, n int) error {
	data, err := info.GobEncode()
	if err != nil {
		return fmt.Errorf("putting pictures in order: %w", err)
	}
	var (
		pixels, mask, palette []byte
		number, depth         int
		width, height         float64
		space, filter, parms  string
		transparent           []int
		scale, dpi            float64
	)
	fields := []any{&pixels, &mask, &number, &width, &height, &space, &palette, &depth, &filter, &parms, &transparent, &scale, &dpi}
	from := gob.NewDecoder(bytes.NewReader(data))
	for _, f := range fields {
		if err := from.Decode(f); err != nil {
			return fmt.Errorf("putting pictures in order: %w", err)
		}
	}
	width += widthStep * float64(n)
	var out bytes.Buffer
	to := gob.NewEncoder(&out)
	for _, f := range fields {
		if err := to.Encode(f); err != nil {
			return fmt.Errorf("putting pictures in order: %w", err)
		}
	}
	if err := info.GobDecode(out.Bytes()); err != nil {
		return fmt.Errorf("putting pictures in order: %w", err)
	}
	return nil
}
