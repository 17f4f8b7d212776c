package draw

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
)

// Pt is a point: millimetres in the leaf frame or pixels of a scan, as said
// where it is used. In JSON it is the pair [x, y].
type Pt struct{ X, Y float64 }

// MarshalJSON writes [x, y] to a hundredth.
func (p Pt) MarshalJSON() ([]byte, error) {
	return fmt.Appendf(nil, "[%.2f,%.2f]", p.X, p.Y), nil
}

// UnmarshalJSON reads [x, y].
func (p *Pt) UnmarshalJSON(b []byte) error {
	var pair [2]float64
	if err := json.Unmarshal(b, &pair); err != nil {
		return fmt.Errorf("reading a point: %w", err)
	}
	p.X, p.Y = pair[0], pair[1]
	return nil
}

func (p Pt) add(q Pt) Pt           { return Pt{p.X + q.X, p.Y + q.Y} }
func (p Pt) sub(q Pt) Pt           { return Pt{p.X - q.X, p.Y - q.Y} }
func (p Pt) times(k float64) Pt    { return Pt{p.X * k, p.Y * k} }
func (p Pt) length() float64       { return math.Hypot(p.X, p.Y) }
func (p Pt) left() Pt              { return Pt{p.Y, -p.X} } // a quarter turn to the left as seen
func (p Pt) to(q Pt, t float64) Pt { return Pt{p.X + (q.X-p.X)*t, p.Y + (q.Y-p.Y)*t} }
func polar(r, degrees float64) Pt {
	s, c := math.Sincos(degrees * math.Pi / 180)
	return Pt{r * c, -r * s}
}
func (p Pt) unit() Pt {
	if l := p.length(); l > 0 {
		return p.times(1 / l)
	}
	return Pt{1, 0}
}

// rough returns the path with its segments broken again and again at the
// middle, each time pushed sideways by about amount times the segment's
// length, down to segments of finest. That is how torn paper runs.
func rough(path []Pt, amount, finest float64, rng *rand.Rand) []Pt {
	for {
		out := make([]Pt, 0, 2*len(path))
		long := false
		for i, p := range path[:len(path)-1] {
			q := path[i+1]
			d := q.sub(p)
			out = append(out, p)
			if l := d.length(); l > finest {
				long = long || l > 2*finest
				push := max(-2, min(2, rng.NormFloat64())) * amount * l
				out = append(out, p.to(q, 0.5).add(d.unit().left().times(push)))
			}
		}
		path = append(out, path[len(path)-1])
		if !long {
			return path
		}
	}
}

// lengths returns the distance along the path at each of its points.
func lengths(path []Pt) []float64 {
	out := make([]float64, len(path))
	for i := 1; i < len(path); i++ {
		out[i] = out[i-1] + path[i].sub(path[i-1]).length()
	}
	return out
}

// beside shifts each point of the path to its left by what width says at
// that distance along it, in the path's own units.
func beside(path []Pt, width func(along float64) float64) []Pt {
	along := lengths(path)
	out := make([]Pt, len(path))
	for i, p := range path {
		a, b := path[max(0, i-6)], path[min(len(path)-1, i+6)]
		out[i] = p.add(b.sub(a).unit().left().times(width(along[i])))
	}
	return out
}

// between joins two sides of a ribbon into a ring.
func between(a, b []Pt) []Pt {
	out := append(make([]Pt, 0, len(a)+len(b)), a...)
	for i := len(b) - 1; i >= 0; i-- {
		out = append(out, b[i])
	}
	return out
}

// thin drops points that lie within tolerance of the line between those that
// stay (the method of Douglas and Peucker).
func thin(path []Pt, tolerance float64) []Pt {
	if len(path) < 3 {
		return path
	}
	a, b := path[0], path[len(path)-1]
	worst, far := 0, 0.0
	for i := 1; i < len(path)-1; i++ {
		if d := toSegment(path[i], a, b); d > far {
			worst, far = i, d
		}
	}
	if far <= tolerance {
		return []Pt{a, b}
	}
	return append(thin(path[:worst+1], tolerance), thin(path[worst:], tolerance)[1:]...)
}

func toSegment(p, a, b Pt) float64 {
	d := b.sub(a)
	l2 := d.X*d.X + d.Y*d.Y
	if l2 == 0 {
		return p.sub(a).length()
	}
	e := p.sub(a)
	t := max(0, min(1, (e.X*d.X+e.Y*d.Y)/l2))
	return p.sub(a.to(b, t)).length()
}

// bezier returns points of a cubic curve.
func bezier(a, b, c, d Pt, n int) []Pt {
	out := make([]Pt, n+1)
	for i := range out {
		t := float64(i) / float64(n)
		ab, bc, cd := a.to(b, t), b.to(c, t), c.to(d, t)
		out[i] = ab.to(bc, t).to(bc.to(cd, t), t)
	}
	return out
}

// arc returns points of a circle's arc, degrees counter-clockwise as seen.
func arc(centre Pt, r, from, to float64) []Pt {
	n := max(6, int(math.Abs(to-from)/4))
	out := make([]Pt, n+1)
	for i := range out {
		out[i] = centre.add(polar(r, from+(to-from)*float64(i)/float64(n)))
	}
	return out
}
