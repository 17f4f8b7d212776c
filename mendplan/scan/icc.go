package scan

import (
	"math"
	"strings"
	"unicode/utf16"
)

// ICC profiles (ICC.1): those of the kind "matrix and curves", which scanners
// and cameras embed, and grey ones with a curve are converted to sRGB. What
// works by tables in three or four dimensions is named and left.

// profile is what is used of an ICC profile.
type profile struct {
	name  string
	space string       // "RGB ", "GRAY", "CMYK", …
	curve [3][]float64 // 256 values each, from stored to linear; nil when there are none
	cols  matrix       // linear to XYZ under D50
}

// parseICC reads a profile; ok is false when it is damaged. A profile that
// works by tables alone has no curves.
func parseICC(p []byte) (prof *profile, ok bool) {
	if len(p) < 132 || string(p[36:40]) != "acsp" {
		return nil, false
	}
	prof = &profile{space: string(p[16:20]), name: profileName(iccTag(p, "desc"))}
	switch prof.space {
	case "GRAY":
		prof.curve[0] = iccCurve(iccTag(p, "kTRC"))
	case "RGB ":
		for i, tags := range [3][2]string{{"rXYZ", "rTRC"}, {"gXYZ", "gTRC"}, {"bXYZ", "bTRC"}} {
			xyz := iccTag(p, tags[0])
			prof.curve[i] = iccCurve(iccTag(p, tags[1]))
			if len(xyz) < 20 || string(xyz[:4]) != "XYZ " || prof.curve[i] == nil {
				prof.curve = [3][]float64{}
				return prof, true
			}
			for k := range 3 {
				prof.cols[k][i] = fixed16(xyz[8+4*k:])
			}
		}
	}
	return prof, true
}

// iccTag returns a tag's data, nil when it is not there or not inside.
func iccTag(p []byte, name string) []byte {
	n := min(int(be.Uint32(p[128:])), 256)
	for i := range n {
		at := 132 + 12*i
		if len(p) < at+12 {
			return nil
		}
		if string(p[at:at+4]) != name {
			continue
		}
		off, size := uint64(be.Uint32(p[at+4:])), uint64(be.Uint32(p[at+8:]))
		if off+size > uint64(len(p)) {
			return nil
		}
		return p[off : off+size]
	}
	return nil
}

func fixed16(p []byte) float64 { return float64(int32(be.Uint32(p))) / 65536 }

// iccCurve reads a curve (types curv and para) as 256 values.
func iccCurve(p []byte) []float64 {
	if len(p) < 12 {
		return nil
	}
	var f func(x float64) float64
	switch string(p[:4]) {
	case "curv":
		n := int(be.Uint32(p[8:]))
		if n < 0 || n > 1<<16 || len(p) < 12+2*n {
			return nil
		}
		f = sampledCurve(p[12:12+2*n], n)
	case "para":
		f = parametricCurve(p)
	}
	if f == nil {
		return nil
	}
	c := make([]float64, 256)
	for i := range c {
		v := f(float64(i) / 255)
		if math.IsNaN(v) {
			return nil
		}
		c[i] = max(0, min(1, v))
	}
	return c
}

// sampledCurve is linear without samples, a power with one, else a table.
func sampledCurve(p []byte, n int) func(float64) float64 {
	switch n {
	case 0:
		return func(x float64) float64 { return x }
	case 1:
		gamma := float64(be.Uint16(p)) / 256
		return func(x float64) float64 { return math.Pow(x, gamma) }
	}
	return func(x float64) float64 {
		at := x * float64(n-1)
		i := min(int(at), n-2)
		a, b := float64(be.Uint16(p[2*i:])), float64(be.Uint16(p[2*i+2:]))
		return (a + (b-a)*(at-float64(i))) / 65535
	}
}

// parametricCurve is one of the five forms of ICC.1, section 10.18.
func parametricCurve(p []byte) func(float64) float64 {
	form := int(be.Uint16(p[8:]))
	counts := []int{1, 3, 4, 5, 7}
	if form >= len(counts) || len(p) < 12+4*counts[form] {
		return nil
	}
	var v [7]float64 // g a b c d e f
	for i := range counts[form] {
		v[i] = fixed16(p[12+4*i:])
	}
	g, a, b, c, d, e, f := v[0], v[1], v[2], v[3], v[4], v[5], v[6]
	switch form {
	case 0:
		a, d = 1, 0
	case 1, 2:
		e, f, c, d = c, c, 0, -b/a // c is added to both parts
		if form == 1 {
			e, f = 0, 0
		}
	}
	return func(x float64) float64 {
		if x >= d {
			return math.Pow(a*x+b, g) + e
		}
		return c*x + f
	}
}

// profileName reads the description (types desc and mluc).
func profileName(p []byte) string {
	name := ""
	switch {
	case len(p) > 12 && string(p[:4]) == "desc":
		n := int(be.Uint32(p[8:]))
		name = string(p[12:min(len(p), 12+max(0, n))])
	case len(p) >= 28 && string(p[:4]) == "mluc":
		n, at := uint64(be.Uint32(p[20:])), uint64(be.Uint32(p[24:]))
		if at+n <= uint64(len(p)) && n < 512 {
			var u []uint16
			for i := at; i+1 < at+n; i += 2 {
				u = append(u, be.Uint16(p[i:]))
			}
			name = string(utf16.Decode(u))
		}
	}
	name = strings.TrimSpace(strings.Map(func(r rune) rune {
		if r < ' ' || r == 0xfffd {
			return -1
		}
		return r
	}, name))
	if name == "" {
		return "an unnamed profile"
	}
	return name[:min(len(name), 100)]
}
