package scan

import (
	"image"
	"math"
	"slices"

	"leafmend/mendplan/geom"
)

// FollowOptions steer path following. The zero value is the usual choice.
type FollowOptions struct {
	Strength float64 // how hard the path clings to what it sees: near 0 almost straight, 1 hardest; 0 means UsualStrength
	Straight bool    // follow nothing: every path is a straight line
	PxPerMM  float64 // full scan pixels per millimetre; 0 takes 300 pixels per inch
}

// UsualStrength is how hard a path clings to what it sees unless told
// otherwise.
const UsualStrength = 0.6

// WithStrength returns o at a strength from 0, the straight line, to 1, the
// hardest: what a slider or a flag gives. Values beyond are brought inside.
func (o FollowOptions) WithStrength(v float64) FollowOptions {
	o.Strength, o.Straight = min(v, 1), !(v > 0)
	return o
}

func (o FollowOptions) strength() float64 {
	if !(o.Strength > 0) {
		return UsualStrength
	}
	return min(o.Strength, 1)
}

func (o FollowOptions) pxPerMM() float64 {
	if !(o.PxPerMM > 0) || math.IsInf(o.PxPerMM, 0) {
		return 300 / 25.4
	}
	return o.PxPerMM
}

// Follower finds paths along a tear on one stretch of a scan. Making one and
// seeding it ([Follower.From]) is work for the background; asking for a path
// ([Follower.To]) is quick enough for every move of the pointer. A Follower is
// not safe for use from two goroutines at once.
type Follower struct {
	w, h     int
	origin   geom.Pt // full-scan place of the window's corner
	scale    float64 // full scan pixels per window pixel
	tol      float64 // simplification, full scan pixels
	straight bool    // nothing is followed
	cost     []uint8 // of crossing a pixel, 1 to 255
	back     []uint8 // direction to the predecessor plus one; 0 not reached or seed
	seed     int     // −1 before From
	from     geom.Pt
}

// NewFollower reads what there is to follow on img, a window of a level of
// the pyramid whose corner lies at origin and whose pixels measure scale, both
// in full scan pixels. An empty window is allowed and gives straight lines.
func NewFollower(img *image.RGBA, origin geom.Pt, scale float64, opt FollowOptions) *Follower {
	b := img.Bounds()
	if !(scale > 0) || math.IsInf(scale, 0) {
		scale = 1
	}
	f := &Follower{w: b.Dx(), h: b.Dy(), origin: origin, scale: scale, seed: -1}
	f.tol, f.straight = 0.1*opt.pxPerMM(), opt.Straight
	if f.w > 0 && f.h > 0 && !f.straight {
		f.cost = followCost(img, opt.pxPerMM()/scale, opt.strength())
	}
	return f
}

// From seeds the follower at p (full scan pixels): it floods the window by
// least cost. A p outside the window is moved to its nearest pixel.
func (f *Follower) From(p geom.Pt) {
	f.from = p
	f.seed = f.pixel(p)
	if f.seed >= 0 && !f.straight {
		f.flood()
	}
}

// To returns the path from the seed to p, both included exactly, in full scan
// pixels, simplified to a tenth of a millimetre. Before From it is p alone.
func (f *Follower) To(p geom.Pt) []geom.Pt {
	i := f.pixel(p)
	if f.seed < 0 && f.back == nil {
		if f.from == (geom.Pt{}) {
			return []geom.Pt{p}
		}
		return []geom.Pt{f.from, p}
	}
	if i < 0 || f.straight {
		return []geom.Pt{f.from, p}
	}
	chain := f.taut(f.chainTo(i))
	chain[0] = f.from
	if len(chain) == 1 {
		chain = append(chain, p)
	}
	chain[len(chain)-1] = p
	return simplifyPath(unstair(chain), f.tol)
}

// chainTo lists the pixels from the seed to pixel i.
func (f *Follower) chainTo(i int) []int {
	var c []int
	for n := 0; i != f.seed && f.back[i] != 0 && n <= len(f.back); n++ {
		c = append(c, i)
		i += f.step(f.back[i] - 1)
	}
	c = append(c, f.seed)
	slices.Reverse(c)
	return c
}

// pixel is the index of the pixel at or nearest to p, −1 in an empty window
// or for a place that is not finite.
func (f *Follower) pixel(p geom.Pt) int {
	if f.w == 0 || f.h == 0 || !p.Finite() {
		return -1
	}
	q := p.Sub(f.origin).Mul(1 / f.scale)
	x := int(max(0, min(float64(f.w-1), math.Floor(q.X))))
	y := int(max(0, min(float64(f.h-1), math.Floor(q.Y))))
	return y*f.w + x
}

func (f *Follower) place(i int) geom.Pt {
	return geom.Pt{X: float64(i%f.w) + 0.5, Y: float64(i/f.w) + 0.5}.Mul(f.scale).Add(f.origin)
}

// unstair takes the steps of the pixel grid out of a path, ends kept.
func unstair(p []geom.Pt) []geom.Pt {
	out := append([]geom.Pt(nil), p...)
	for i := 1; i < len(p)-1; i++ {
		r := min(2, i, len(p)-1-i)
		var s geom.Pt
		for j := i - r; j <= i+r; j++ {
			s = s.Add(p[j])
		}
		out[i] = s.Mul(1 / float64(2*r+1))
	}
	return out
}

// Follow returns one path through all of pts in order, each stretch following
// the tear as [Follower] does, simplified to a tenth of a millimetre. img is
// the scan at full size, its corner the scan's (0,0). Fewer than two points
// come back as they are, a point that is not finite is left out.
func Follow(img *image.RGBA, pts []geom.Pt, opt FollowOptions) []geom.Pt {
	var given []geom.Pt
	for _, p := range pts {
		if p.Finite() {
			given = append(given, p)
		}
	}
	if len(given) < 2 {
		return given
	}
	out := []geom.Pt{given[0]}
	for i := 1; i < len(given); i++ {
		out = append(out, followLeg(img, given[i-1], given[i], opt)[1:]...)
	}
	return out
}

// followLeg follows between two points in a window about them. A window of
// more than eight million pixels is read at a coarser step.
func followLeg(img *image.RGBA, a, b geom.Pt, opt FollowOptions) []geom.Pt {
	box := followBox(a, []geom.Pt{b}, opt)
	r := img.Bounds()
	within := image.Rect(clampInt(box.Min.X, 0, r.Dx()), clampInt(box.Min.Y, 0, r.Dy()),
		clampInt(box.Max.X+1, 0, r.Dx()), clampInt(box.Max.Y+1, 0, r.Dy())).Add(r.Min)
	if within.Empty() {
		return []geom.Pt{a, b}
	}
	k := 1
	for within.Dx()/k*(within.Dy()/k) > 8e6 {
		k++
	}
	win := coarser(img.SubImage(within).(*image.RGBA), k)
	o := within.Min.Sub(r.Min)
	f := NewFollower(win, geom.Pt{X: float64(o.X), Y: float64(o.Y)}, float64(k), opt)
	f.From(a)
	return f.To(b)
}

func clampInt(v float64, lo, hi int) int {
	return int(max(float64(lo), min(float64(hi), math.Floor(v))))
}

// coarser averages blocks of k×k pixels.
func coarser(img *image.RGBA, k int) *image.RGBA {
	if k <= 1 {
		return img
	}
	r := img.Bounds()
	out := image.NewRGBA(image.Rect(0, 0, max(1, r.Dx()/k), max(1, r.Dy()/k)))
	for y := 0; y < out.Rect.Dy(); y++ {
		for x := 0; x < out.Rect.Dx(); x++ {
			var s [4]int
			n := 0
			for yy := y * k; yy < min((y+1)*k, r.Dy()); yy++ {
				for xx := x * k; xx < min((x+1)*k, r.Dx()); xx++ {
					o := img.PixOffset(r.Min.X+xx, r.Min.Y+yy)
					for c := range s {
						s[c] += int(img.Pix[o+c])
					}
					n++
				}
			}
			o := out.PixOffset(x, y)
			for c := range s {
				out.Pix[o+c] = uint8(s[c] / n)
			}
		}
	}
	return out
}
