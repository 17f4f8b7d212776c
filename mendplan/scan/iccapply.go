package scan

import "strings"

// describeProfile finds what is to be done about colour and says it in words.
func (h *header) describeProfile() {
	inks := strings.HasPrefix(h.Colour, "CMYK") || h.Colour == "YCCK"
	lab := strings.HasSuffix(h.Colour, "LAB")
	switch {
	case h.icc == nil && inks:
		h.Profile = "none: inks turned into sRGB by simple arithmetic"
		return
	case h.icc == nil && lab:
		h.Profile = "none needed: CIELAB turned into sRGB"
		return
	case h.icc == nil:
		h.Profile = "none: shown as sRGB"
		return
	}
	p, ok := parseICC(h.icc)
	grey := strings.HasPrefix(h.Colour, "grey")
	switch {
	case !ok:
		h.Profile = "damaged: shown as sRGB"
		h.problem("the colour profile is damaged; colours are shown as sRGB")
	case lab:
		h.Profile = p.name + ": not needed, CIELAB turned into sRGB"
	case inks:
		h.Profile = p.name + ": not applied, inks turned into sRGB by simple arithmetic"
		h.problem("colours are approximate: profiles of inks are not applied")
	case p.space == "GRAY" && grey && p.curve[0] != nil, p.space == "RGB " && !grey && p.curve[2] != nil:
		if h.convert = newConverter(p); h.convert.same() {
			h.convert, h.Profile = nil, p.name+": as sRGB"
		} else {
			h.Profile = p.name + ": converted to sRGB"
		}
	case p.space == "RGB " && grey:
		h.Profile = p.name + ": not for grey, shown as sRGB"
	default:
		h.Profile = p.name + ": not applied, shown as sRGB"
		h.problem("colours are approximate: the profile works by tables, which are not applied")
	}
}

// converter turns stored colours into sRGB.
type converter struct {
	grey   *[256]byte
	linear [3][256]float32
	m      [3][3]float32
}

func newConverter(p *profile) *converter {
	c := &converter{}
	if p.space == "GRAY" {
		c.grey = new([256]byte)
		for i, v := range p.curve[0] {
			c.grey[i] = encodeSRGB(v)
		}
		return c
	}
	m := xyzToSRGB.after(p.cols)
	for i := range 3 {
		for k := range 256 {
			c.linear[i][k] = float32(p.curve[i][k])
		}
		for k := range 3 {
			c.m[i][k] = float32(m[i][k])
		}
	}
	return c
}

// same tells whether the conversion moves no colour by more than two steps of
// 255: a profile of sRGB itself, in whichever version, needs none.
func (c *converter) same() bool {
	if c.grey != nil {
		for i, v := range c.grey {
			if max(int(v)-i, i-int(v)) > 2 {
				return false
			}
		}
		return true
	}
	for r := 0; r < 256; r += 51 {
		for g := 0; g < 256; g += 51 {
			for b := 0; b < 256; b += 51 {
				p := [4]byte{byte(r), byte(g), byte(b)}
				c.row(p[:])
				if max(int(p[0])-r, r-int(p[0]), int(p[1])-g, g-int(p[1]), int(p[2])-b, b-int(p[2])) > 2 {
					return false
				}
			}
		}
	}
	return true
}

// row converts pixels of RGBA in place.
func (c *converter) row(p []byte) {
	const top = float32(len(sRGBTable) - 1)
	encode := func(v float32) byte { return sRGBTable[int(max(0, min(top, v*top+0.5)))] }
	for i := 0; i+3 < len(p); i += 4 {
		q := p[i : i+3 : i+3]
		r, g, b := c.linear[0][q[0]], c.linear[1][q[1]], c.linear[2][q[2]]
		q[0] = encode(c.m[0][0]*r + c.m[0][1]*g + c.m[0][2]*b)
		q[1] = encode(c.m[1][0]*r + c.m[1][1]*g + c.m[1][2]*b)
		q[2] = encode(c.m[2][0]*r + c.m[2][1]*g + c.m[2][2]*b)
	}
}

// apply converts a raster that nobody else uses yet. Luma and chroma become
// RGBA, because a profile speaks of red, green and blue.
func (c *converter) apply(r *raster) *raster {
	switch {
	case c.grey != nil && r.rgba == nil && r.cb == nil:
		bands(len(r.y), func(from, to int) {
			for i, v := range r.y[from:to] {
				r.y[from+i] = c.grey[v]
			}
		})
		return r
	case c.grey != nil:
		return r
	}
	out := r
	if r.rgba == nil {
		out = newRGBA(r.w, r.h, make([]byte, 4*r.w*r.h))
	}
	bands(r.h, func(y0, y1 int) {
		for y := y0; y < y1; y++ {
			row := out.rgba[4*r.w*y:][:4*r.w]
			if out != r {
				r.row(row, 0, y, r.w)
			}
			c.row(row)
		}
	})
	return out
}
