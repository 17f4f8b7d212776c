package scan

import (
	"fmt"

	"leafmend/mendplan/phrase"
)

// header is Info and what the readers need besides.
type header struct {
	Info
	rawW, rawH int        // as stored, before the orientation
	icc        []byte     // ICC profile, nil when none
	convert    *converter // from the profile to sRGB; nil when nothing is to be done
	thumb      blob       // a JPEG inside the Exif data; size 0 when none
	bits       int        // bits a pixel of a BMP
	data       int64      // bytes that can hold pixels, for the check of bombs
	tiff       *tiffFile
	jpeg       *jpegHead
}

// maxSide bounds what any header may claim for width or height.
const maxSide = 1 << 20

// readHeader finds out what kind of file it is and reads its headers.
func readHeader(b blob, page int) (*header, error) {
	k := sniff(b.head(0, sniffBytes))
	if k.read == nil {
		return nil, k.refusal()
	}
	h := &header{data: b.size}
	h.Format, h.Bytes, h.Orientation, h.Pages, h.Page = k.name, b.size, 1, 1, page
	claims, err := k.read(h, b)
	if err != nil {
		return nil, err
	}
	if page < 0 || page >= h.Pages {
		return nil, &Refusal{What: phrase.Of("there is no page %d; the file has %d", page+1, h.Pages), Remedy: phrase.Of("choose another page")}
	}
	if h.rawW <= 0 || h.rawH <= 0 {
		return nil, damaged("the header gives a size of %d × %d pixels", h.rawW, h.rawH)
	}
	if h.rawW > maxSide || h.rawH > maxSide {
		return nil, damaged("the header gives a size of %d × %d pixels, which no scan has", h.rawW, h.rawH)
	}
	if h.Orientation < 1 || h.Orientation > 8 {
		h.problem("orientation %d is not one of 1 to 8; shown as stored", h.Orientation)
		h.Orientation = 1
	}
	h.Width, h.Height = h.rawW, h.rawH
	if h.Orientation >= 5 {
		h.Width, h.Height = h.rawH, h.rawW
	}
	h.describeProfile()
	h.settle(claims)
	return h, nil
}

// problem notes what is odd about the file.
func (h *header) problem(format string, args ...any) {
	h.Problems = append(h.Problems, fmt.Sprintf(format, args...))
}
