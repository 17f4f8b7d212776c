package mendplan

import (
	"fmt"
	"math"
	"strconv"
)

// Lab is a colour in CIE L*a*b*, D65 white.
type Lab struct{ L, A, B float64 }

// LabOf returns the colour of an sRGB value, 0 to 255 each (IEC 61966-2-1,
// white point D65).
func LabOf(r, g, b float64) Lab {
	r, g, b = linear(r/255), linear(g/255), linear(b/255)
	x := (0.4124564*r + 0.3575761*g + 0.1804375*b) / 0.95047
	y := 0.2126729*r + 0.7151522*g + 0.0721750*b
	z := (0.0193339*r + 0.1191920*g + 0.9503041*b) / 1.08883
	fx, fy, fz := cube(x), cube(y), cube(z)
	return Lab{L: 116*fy - 16, A: 500 * (fx - fy), B: 200 * (fy - fz)}
}

func linear(c float64) float64 {
	if c <= 0.04045 {
		return c / 12.92
	}
	return math.Pow((c+0.055)/1.055, 2.4)
}

func cube(t float64) float64 {
	if t > 216.0/24389 {
		return math.Cbrt(t)
	}
	return (24389.0/27*t + 16) / 116
}

// LabOfHex reads "#rrggbb"; anything else is an error.
func LabOfHex(s string) (Lab, error) {
	if len(s) != 7 || s[0] != '#' {
		return Lab{}, fmt.Errorf("reading a colour: want #rrggbb, have %.20q", s)
	}
	v, err := strconv.ParseUint(s[1:], 16, 32)
	if err != nil {
		return Lab{}, fmt.Errorf("reading a colour: want #rrggbb, have %.20q", s)
	}
	return LabOf(float64(v>>16), float64(v>>8&255), float64(v&255)), nil
}

// DeltaE returns the colour difference CIEDE2000 (ISO/CIE 11664-6; G. Sharma,
// W. Wu, E. N. Dalal, "The CIEDE2000 color-difference formula", Color Research
// and Application 30 (2005) 21–30) with all weights one: about 1 is just to
// be seen, 2 hardly noticed on a repaired leaf.
func DeltaE(p, q Lab) float64 {
	c7 := math.Pow((math.Hypot(p.A, p.B)+math.Hypot(q.A, q.B))/2, 7)
	g := 1 + 0.5*(1-math.Sqrt(c7/(c7+pow25to7)))
	c1, h1 := polar(p.A*g, p.B)
	c2, h2 := polar(q.A*g, q.B)
	dh, meanH := hues(c1, h1, c2, h2)
	meanL, meanC := (p.L+q.L)/2, (c1+c2)/2

	t := 1 - 0.17*cosDeg(meanH-30) + 0.24*cosDeg(2*meanH) + 0.32*cosDeg(3*meanH+6) - 0.20*cosDeg(4*meanH-63)
	l50 := (meanL - 50) * (meanL - 50)
	sl := 1 + 0.015*l50/math.Sqrt(20+l50)
	sc := 1 + 0.045*meanC
	sh := 1 + 0.015*meanC*t
	mc7 := math.Pow(meanC, 7)
	turn := 30 * math.Exp(-math.Pow((meanH-275)/25, 2))
	rt := -2 * math.Sqrt(mc7/(mc7+pow25to7)) * math.Sin(2*turn*math.Pi/180)

	l, c := (q.L-p.L)/sl, (c2-c1)/sc
	h := 2 * math.Sqrt(c1*c2) * math.Sin(dh/2*math.Pi/180) / sh
	return math.Sqrt(l*l + c*c + h*h + rt*c*h)
}

const pow25to7 = 6103515625 // 25⁷

// polar returns chroma and hue, the hue in [0, 360), 0 for greys.
func polar(a, b float64) (c, h float64) {
	if a == 0 && b == 0 {
		return 0, 0
	}
	h = math.Atan2(b, a) * 180 / math.Pi
	if h < 0 {
		h += 360
	}
	return math.Hypot(a, b), h
}

// hues returns the difference and the mean of two hues the short way round.
func hues(c1, h1, c2, h2 float64) (diff, mean float64) {
	if c1*c2 == 0 {
		return 0, h1 + h2
	}
	diff, mean = h2-h1, (h1+h2)/2
	switch {
	case math.Abs(diff) <= 180:
	case h1+h2 < 360:
		mean += 180
	default:
		mean -= 180
	}
	if diff > 180 {
		diff -= 360
	} else if diff < -180 {
		diff += 360
	}
	return diff, mean
}

func cosDeg(d float64) float64 { return math.Cos(d * math.Pi / 180) }
