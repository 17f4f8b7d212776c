package scan

import (
	"image"
	"math"
)

// labPlane is a working picture in CIELAB (D65), made from a level of the
// pyramid by averaging whole blocks of its pixels. step is the size of one of
// its pixels in full scan pixels, so that pixel (i,j) covers the full-scan
// square from (i·step, j·step) to ((i+1)·step, (j+1)·step).
type labPlane struct {
	w, h    int
	step    float64
	l, a, b []float32
}

// newLabPlane averages img down until its longer side is at most longest.
// scale is the size of one pixel of img in full scan pixels.
func newLabPlane(img *image.RGBA, scale float64, longest int) *labPlane {
	r := img.Bounds()
	k := 1
	for max(r.Dx(), r.Dy()) > longest*k {
		k++
	}
	return blockPlane(img, r, scale, k)
}

// blockPlane averages blocks of k×k pixels of img within r.
func blockPlane(img *image.RGBA, r image.Rectangle, scale float64, k int) *labPlane {
	w, h := (r.Dx()+k-1)/k, (r.Dy()+k-1)/k
	p := emptyPlane(w, h, scale*float64(k))
	conv := labTable()
	sum := make([]int32, 4*w)
	for y := 0; y < h; y++ {
		clear(sum)
		for yy := y * k; yy < min((y+1)*k, r.Dy()); yy++ {
			row := img.Pix[img.PixOffset(r.Min.X, r.Min.Y+yy):]
			for x := 0; x < r.Dx(); x++ {
				s, q := sum[4*(x/k):], row[4*x:]
				s[0] += int32(q[0])
				s[1] += int32(q[1])
				s[2] += int32(q[2])
				s[3]++
			}
		}
		for x := 0; x < w; x++ {
			s, n := sum[4*x:], float32(sum[4*x+3])
			i := y*w + x
			p.l[i], p.a[i], p.b[i] = conv.lab(float32(s[0])/n, float32(s[1])/n, float32(s[2])/n)
		}
	}
	return p
}

func emptyPlane(w, h int, step float64) *labPlane {
	all := make([]float32, 3*w*h)
	n := w * h
	return &labPlane{w, h, step, all[:n:n], all[n : 2*n : 2*n], all[2*n:]}
}

// shrink averages p further until its longer side is at most longest.
func (p *labPlane) shrink(longest int) *labPlane {
	k := 1
	for max(p.w, p.h) > longest*k {
		k++
	}
	if k == 1 {
		return p
	}
	w, h := (p.w+k-1)/k, (p.h+k-1)/k
	q := emptyPlane(w, h, p.step*float64(k))
	for y := 0; y < h; y++ {
		for x := 0; x < w; x++ {
			var c lab
			n := float32(0)
			for yy := y * k; yy < min((y+1)*k, p.h); yy++ {
				for xx := x * k; xx < min((x+1)*k, p.w); xx++ {
					c = c.add(p.at(yy*p.w + xx))
					n++
				}
			}
			q.set(y*w+x, c.mul(1/n))
		}
	}
	return q
}

func (p *labPlane) at(i int) lab     { return lab{p.l[i], p.a[i], p.b[i]} }
func (p *labPlane) set(i int, c lab) { p.l[i], p.a[i], p.b[i] = c.l, c.a, c.b }

// lab is one colour: L* from 0 to 100, a* and b* about −100 to 100.
type lab struct{ l, a, b float32 }

func (c lab) add(d lab) lab     { return lab{c.l + d.l, c.a + d.a, c.b + d.b} }
func (c lab) sub(d lab) lab     { return lab{c.l - d.l, c.a - d.a, c.b - d.b} }
func (c lab) mul(k float32) lab { return lab{c.l * k, c.a * k, c.b * k} }

// dist is the plain CIELAB colour difference (CIE 1976).
func (c lab) dist(d lab) float32 {
	e := c.sub(d)
	return float32(math.Sqrt(float64(e.l*e.l + e.a*e.a + e.b*e.b)))
}

// labConv turns sRGB bytes into CIELAB by table: linear light per byte
// (IEC 61966-2-1) and the cube root of CIE 15 sampled in 4096 steps.
type labConv struct {
	lin  [256]float32
	root [4097]float32
}

func labTable() *labConv {
	c := new(labConv)
	for i := range c.lin {
		v := float64(i) / 255
		if v <= 0.04045 {
			c.lin[i] = float32(v / 12.92)
		} else {
			c.lin[i] = float32(math.Pow((v+0.055)/1.055, 2.4))
		}
	}
	for i := range c.root {
		t := float64(i) / 4096
		if t > 216.0/24389 {
			c.root[i] = float32(math.Cbrt(t))
		} else {
			c.root[i] = float32((24389.0/27*t + 16) / 116)
		}
	}
	return c
}

// linear interpolates the table for a mean of bytes.
func (c *labConv) linear(v float32) float32 {
	i := int(v)
	if i >= 255 {
		return c.lin[255]
	}
	t := v - float32(i)
	return c.lin[i] + t*(c.lin[i+1]-c.lin[i])
}

func (c *labConv) f(t float32) float32 {
	x := min(max(t, 0), 1) * 4096
	i := min(int(x), 4095)
	return c.root[i] + (x-float32(i))*(c.root[i+1]-c.root[i])
}

// lab converts means of sRGB bytes (0 to 255).
func (c *labConv) lab(r, g, b float32) (l, a, bb float32) {
	r, g, b = c.linear(r), c.linear(g), c.linear(b)
	fx := c.f((0.4124564*r + 0.3575761*g + 0.1804375*b) / 0.95047)
	fy := c.f(0.2126729*r + 0.7151522*g + 0.0721750*b)
	fz := c.f((0.0193339*r + 0.1191920*g + 0.9503041*b) / 1.08883)
	return 116*fy - 16, 500 * (fx - fy), 200 * (fy - fz)
}
