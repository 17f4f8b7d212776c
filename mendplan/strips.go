package mendplan

import (
	"math"
	"slices"

	"leafmend/mendplan/geom"
)

// stripRules are the limits of a chain of strips, mm and degrees.
type stripRules struct {
	margins
	least   float64 // margin kept each side: the side margin, or half the strip's width if that is less
	width   float64 // of a strip on a straight tear, and the least of any
	widest  float64 // a strip may be
	longest float64 // a strip may be, tab included
	overlap float64 // of neighbours
	turn    float64 // degrees a tear may turn under one strip
	tab     float64
}

// stripRulesOf reads them. A strip is as wide as its rule says, and wider
// where the tear wanders under it, so that both its sides keep the margin:
// stretch + 2·least. A narrow strip width means a smaller margin, half of it.
func stripRulesOf(r InForce, second bool) stripRules {
	k := stripRules{
		margins: marginsOf(r, second),
		width:   r.Number(StripWidth),
		widest:  r.Number(WidestStrip),
		longest: r.Number(LongestStrip),
		overlap: r.Number(PieceOverlap),
		turn:    r.Number(TurnAngle),
		tab:     r.Number(TabLength),
	}
	k.least = min(k.side, k.width/2)
	if second {
		extra := r.Number(SecondMargin)
		k.least = min(k.side-extra, k.width/2) + extra
		k.width += 2 * extra
		k.widest += 2 * extra
	}
	k.widest = max(k.widest, k.width, 2*k.least)
	return k
}

// leastBend is the least, in mm, that a tear must wander from a straight line
// before that counts as a change of direction.
const leastBend = 1.0

// bend is how far, in mm, a tear may wander before that counts as a change of
// direction: what the widest strip has to spare each side of it. A zigzag
// that one straight strip takes is the tear's own roughness, no turn.
func (k stripRules) bend() float64 { return max(leastBend, k.widest/2-k.least) }

// breakEvery is the spacing, in mm, of the places between bends where one
// strip may end and the next begin.
const breakEvery = 5.0

// strip is one straight strip over a stretch of a path: a rectangle given in
// its own frame, u along from its origin and v across.
type strip struct {
	from, to int     // places of the chain it runs between
	dir      geom.Pt // unit, from from to to
	lo, hi   float64 // extent of the stretch along dir, mm
	mid      float64 // middle of the stretch across dir
	width    float64
	head     float64 // added before lo
	tail     float64 // added after hi
	tab      float64 // of it bare, at the tail
}

func (s strip) length() float64 { return s.hi - s.lo + s.head + s.tail + s.tab }

// across is the unit vector a quarter turn from dir.
func (s strip) across() geom.Pt { return geom.Pt{X: -s.dir.Y, Y: s.dir.X} }

// ring returns the corners of the strip.
func (s strip) ring() geom.Ring {
	return s.part(s.lo-s.head, s.hi+s.tail+s.tab)
}

// part returns the corners of the strip between two places along it.
func (s strip) part(a, b float64) geom.Ring {
	n, h := s.across(), s.width/2
	at := func(u, v float64) geom.Pt { return s.dir.Mul(u).Add(n.Mul(v)) }
	return geom.Ring{at(a, s.mid-h), at(b, s.mid-h), at(b, s.mid+h), at(a, s.mid+h)}
}

// holds reports whether q lies within the pasted part of the strip.
func (s strip) holds(q geom.Pt) bool {
	const eps = 1e-9
	u, v := q.Dot(s.dir), q.Dot(s.across())-s.mid
	return u >= s.lo-s.head-eps && u <= s.hi+s.tail+eps && math.Abs(v) <= s.width/2+eps
}

// chain is a path prepared for breaking into strips.
type chain struct {
	rules      stripRules
	line       geom.Path // as traced, with the places put in
	places     []int     // indices into line: where strips may begin and end
	headings   []float64 // direction from place i to i+1, degrees, unwound
	byHand     []int     // places where a strip must end, as the user set them
	start, end pathEnd
	// hidden holds for each stretch of the line where the edge beneath it
	// runs; nil unless the torn faces overlap. See [Scarf].
	hidden []geom.Ring
}

// chainOf chooses the places: the bends of the path and, between them, points
// no more than breakEvery apart. breaks are shares of the path's length at
// which the user wants one strip to end and the next to begin.
func chainOf(p tearPath, k stripRules, breaks []float64) chain {
	c := chain{rules: k, start: p.start, end: p.end, line: geom.Path{p.line[0]}, places: []int{0}}
	length, from := p.line.Length(), 0.0
	for _, share := range slices.Sorted(slices.Values(breaks)) {
		if at := share * length; at > from+geom.Grid && at < length-geom.Grid {
			c.section(p.line.Cut(from, at))
			c.byHand = append(c.byHand, len(c.places)-1)
			from = at
		}
	}
	c.section(p.line.Cut(from, length))
	return c
}

// section appends a stretch between forced breaks, bend by bend.
func (c *chain) section(line geom.Path) {
	bends := geom.Simplify(line, c.rules.bend())
	from := 0
	for b := 1; b < len(bends); b++ {
		to := len(line) - 1
		if b < len(bends)-1 {
			to = from + 1 + slices.Index(line[from+1:], bends[b])
		}
		c.add(line[from:to+1], geom.AngleOf(bends[b].Sub(bends[b-1])))
		from = to
	}
}

// add appends a stretch between two bends, broken into even steps.
func (c *chain) add(stretch geom.Path, heading float64) {
	if n := len(c.headings); n > 0 {
		heading = c.headings[n-1] + wrap(heading-c.headings[n-1])
	}
	length := stretch.Length()
	n := max(1, int(math.Ceil(length/min(breakEvery, c.rules.longest/6)-1e-9)))
	for i := range n {
		part := stretch.Cut(length*float64(i)/float64(n), length*float64(i+1)/float64(n))
		c.line = append(c.line, part[1:]...)
		c.places = append(c.places, len(c.line)-1)
		c.headings = append(c.headings, heading)
	}
}

// wrap brings an angle to (−180, 180].
func wrap(deg float64) float64 {
	deg = math.Mod(deg, 360)
	if deg > 180 {
		deg -= 360
	}
	if deg <= -180 {
		deg += 360
	}
	return deg
}

// brokenByHand reports whether the user set the break at a place.
func (c *chain) brokenByHand(place int) bool { return slices.Contains(c.byHand, place) }

// turned returns by how much the tear turns between places i and j.
func (c *chain) turned(i, j int) float64 {
	return slices.Max(c.headings[i:j]) - slices.Min(c.headings[i:j])
}
