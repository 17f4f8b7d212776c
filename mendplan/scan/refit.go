package scan

import (
	"cmp"
	"image"
	"math"
	"slices"

	"leafmend/mendplan/geom"
)

// Earlier is what a job still knows of a picture whose file has changed.
type Earlier struct {
	Width, Height int     // pixels
	Outline       Outline // as recorded; of one without polygon the true corners alone are used, if they enclose anything
	Look          string  // see [LookOf]; "" means not known
}

// Now is the picture that is there instead. Img is a level of it whose pixels
// measure Scale scan pixels.
type Now struct {
	Width, Height int     // pixels
	Outline       Outline // as found on it; a polygon of fewer than three points means not found
	Img           *image.RGBA
	Scale         float64
}

// Verdict says whether what was traced on one picture belongs on another.
type Verdict string

// Verdicts on a changed picture.
const (
	Fits    Verdict = "fits"    // the traces lie right as they are
	Moves   Verdict = "moves"   // they lie right when moved by the map
	Differs Verdict = "differs" // it shows another leaf, or the leaf otherwise
	Untold  Verdict = "untold"  // neither outline nor look says enough
)

// Refit is one way in which traces of the earlier picture may lie on the one
// there now. Lengths are in pixels of the picture now.
type Refit struct {
	Verdict  Verdict
	Map      geom.Affine // earlier scan pixels to those now
	Turn     int         // quarter turns counter-clockwise as seen, 0 to 3
	Whole    bool        // the whole picture was turned or resized, nothing cut off or moved
	Outlines bool        // both outlines are known, so Residual, Worst and Doubt are
	Residual float64     // mean distance of the outlines
	Worst    float64     // distance that 49 of 50 places keep
	Doubt    float64     // how far a place may come to lie off
	Look     float64     // likeness of the print, −1 to 1
	Looked   bool        // Look is known
}

// How well outlines and looks must agree: mean and worst distance as shares of
// the leaf's longer side, and likeness. Measured on drawn leaves; see the test.
const (
	refitMean  = 0.0022
	refitWorst = 0.008
	refitLike  = 0.80
	refitOther = 0.60 // below: another picture, whatever the outline says
	inPlace    = 0.0008
	mostDrawn  = 1.015 // length in one direction over that in another
)

// RefitPicture proposes how traces of an earlier picture lie on the one there
// now: for each of the four ways up the best map, the most likely first. It
// tries the whole picture turned and resized, the leaf shifted alone (a margin
// cut off), and the outline laid on the outline. It never claims a fit that
// neither outline nor look bears out. There is always at least one answer.
func RefitPicture(was Earlier, now Now) []Refit {
	f := refitter{was: was, now: now, look: readLook(was.Look)}
	if e := was.Outline.TrueEdge; len(was.Outline.Polygon) < 3 && len(now.Outline.Polygon) > 2 && geom.Ring(e[:]).SignedArea() > 0 {
		f.corners = true // they show where it lies, not which leaf it is
		was.Outline.Polygon, now.Outline.Polygon = e[:], slices.Clone(now.Outline.TrueEdge[:])
		f.was, f.now = was, now
	}
	f.outlines = len(was.Outline.Polygon) > 2 && len(now.Outline.Polygon) > 2 && allFinite(was.Outline) && allFinite(now.Outline)
	if f.outlines {
		f.was.Outline.TrueEdge, f.now.Outline.TrueEdge = asDisplayed(was.Outline, was.Width, was.Height), asDisplayed(now.Outline, now.Width, now.Height)
		f.size = longerSide(f.now.Outline.TrueEdge)
		f.old, f.new = evenly(was.Outline.Polygon, 300), evenly(now.Outline.Polygon, 300)
	}
	f.inside = f.insideLeaf()
	var out []Refit
	for turn := range 4 {
		if r, ok := f.bestOf(turn); ok {
			if f.outlines && r.Residual < 4*refitMean*f.size {
				r.Doubt = f.doubt(r)
			}
			out = append(out, r)
		}
	}
	if len(out) == 0 { // nothing to go by
		out = append(out, Refit{Verdict: Untold, Map: geom.Scale(ratio(now.Width, was.Width), ratio(now.Height, was.Height))})
	}
	slices.SortStableFunc(out, func(a, b Refit) int { return cmp.Compare(f.cost(a), f.cost(b)) })
	f.judge(out)
	return out
}

func ratio(a, b int) float64 {
	if a <= 0 || b <= 0 {
		return 1
	}
	return float64(a) / float64(b)
}

func longerSide(e [4]geom.Pt) float64 { return max(e[0].Dist(e[1]), e[0].Dist(e[3]), 1) }

// asDisplayed returns the four corners of a leaf beginning at the head-left as
// the picture shows it, however the leaf lay; fitted where none are recorded.
func asDisplayed(o Outline, w, h int) [4]geom.Pt {
	e := o.TrueEdge
	if geom.Ring(e[:]).SignedArea() == 0 {
		return fitTrueEdge(o.Polygon, float64(w), float64(h)).corner
	}
	best := e
	for k := 1; k < 4; k++ {
		turned := [4]geom.Pt{e[k], e[(k+1)%4], e[(k+2)%4], e[(k+3)%4]}
		if d := turned[1].Sub(turned[0]); d.X > best[1].Sub(best[0]).X {
			best = turned
		}
	}
	return best
}

type refitter struct {
	was      Earlier
	now      Now
	outlines bool
	corners  bool      // of the earlier outline only the four true corners are known
	size     float64   // of the leaf, pixels now
	old, new []geom.Pt // places on the outlines
	look     []float64
	inside   []bool
}

// insideLeaf tells which fields of the earlier picture lie on the leaf.
func (f *refitter) insideLeaf() []bool {
	out := make([]bool, lookCells*lookCells)
	ring := geom.Ring(f.was.Outline.Polygon)
	step := float64(max(f.was.Width, f.was.Height)) / lookCells
	for i := range out {
		p := geom.Pt{X: (float64(i%lookCells) + 0.5) / lookCells * float64(f.was.Width), Y: (float64(i/lookCells) + 0.5) / lookCells * float64(f.was.Height)}
		out[i] = len(ring) < 3 || ring.Contains(p) && geom.DistToRing(p, ring) > 0.75*step
	}
	return out
}

// bestOf is the best way in which the picture may have been turned by so many
// quarters.
func (f *refitter) bestOf(turn int) (best Refit, ok bool) {
	least := math.Inf(1)
	for _, c := range f.maps(turn) {
		c.Turn = turn
		f.measure(&c)
		// A plainer explanation is kept unless another fits clearly better.
		if cost := f.cost(c); cost < least {
			best, least, ok = c, cost*0.8, true
		}
	}
	return best, ok
}

// maps lists what may have become of the picture, the plainest first.
func (f *refitter) maps(turn int) []Refit {
	var out []Refit
	w, h := f.was.Width, f.was.Height
	if turn%2 == 1 {
		w, h = h, w
	}
	kx, ky := ratio(f.now.Width, w), ratio(f.now.Height, h)
	if w > 0 && math.Abs(kx/ky-1) < 0.004 {
		out = append(out, Refit{Map: quarterTurn(turn, f.was.Width, f.was.Height).Then(geom.Scale(kx, ky)), Whole: true})
	}
	if !f.outlines {
		return out
	}
	from, to := f.was.Outline.TrueEdge[:], make([]geom.Pt, 4)
	for i := range to {
		to[i] = f.now.Outline.TrueEdge[(i-turn+4)%4]
	}
	shift := quarterTurn(turn, f.was.Width, f.was.Height)
	var d geom.Pt
	for i := range to {
		d = d.Add(to[i].Sub(shift.Apply(from[i])).Mul(0.25))
	}
	out = append(out, Refit{Map: f.shifted(shift.Then(geom.Translate(d)))})
	if t, ok := fitAffine(from, to, nil); ok && t.Det() > 0 {
		if t = pullOnto(t, f.old, geom.Ring(f.now.Outline.Polygon), 0.02*f.size, 25); keepsShape(t) {
			out = append(out, Refit{Map: t})
		}
	}
	return out
}

// keepsShape reports whether a map draws nothing out by more than scanners
// do: else any four corners would fit any others.
func keepsShape(t geom.Affine) bool {
	long := (t.A*t.A + t.B*t.B + t.D*t.D + t.E*t.E) / 2
	far := math.Sqrt(max(0, long*long-t.Det()*t.Det()))
	return long-far > 0 && (long+far)/(long-far) < mostDrawn*mostDrawn
}

// quarterTurn turns a picture of w × h pixels, counter-clockwise as seen, so
// that it begins at 0,0 again.
func quarterTurn(turn, w, h int) geom.Affine {
	switch turn {
	case 1:
		return geom.Affine{B: 1, D: -1, F: float64(w)}
	case 2:
		return geom.Affine{A: -1, C: float64(w), E: -1, F: float64(h)}
	case 3:
		return geom.Affine{B: -1, C: float64(h), D: 1}
	}
	return geom.Identity()
}

// shifted settles a map by shifting alone.
func (f *refitter) shifted(t geom.Affine) geom.Affine {
	ring := geom.Ring(f.now.Outline.Polygon)
	for round := range 12 {
		near := max(1, 0.01*f.size*math.Pow(0.7, float64(round)))
		var d geom.Pt
		sum := 0.0
		for _, p := range f.old {
			m := t.Apply(p)
			e := nearestOnRing(m, ring).Sub(m)
			w := 1 / (1 + e.Dot(e)/(near*near))
			d, sum = d.Add(e.Mul(w)), sum+w
		}
		t = t.Then(geom.Translate(d.Mul(2 / sum))) // half the outline runs along the shift and pulls not at all
	}
	return t
}

// measure fills in how well a map fits.
func (f *refitter) measure(c *Refit) {
	if f.outlines {
		c.Outlines = true
		off := f.distances(c.Map)
		for _, d := range off {
			c.Residual += d / float64(len(off))
		}
		slices.Sort(off)
		c.Worst = off[len(off)*49/50]
	}
	if f.look == nil || f.now.Img == nil || !(f.now.Scale > 0) {
		return
	}
	to := geom.Scale(float64(f.was.Width), float64(f.was.Height)).Then(c.Map).Then(geom.Scale(1/f.now.Scale, 1/f.now.Scale))
	c.Look, c.Looked = likeness(f.look, lookThrough(f.now.Img, to), f.inside)
}

// distances are those of either outline from the other, in pixels now.
func (f *refitter) distances(t geom.Affine) []float64 {
	mapped := make([]geom.Pt, len(f.was.Outline.Polygon))
	for i, p := range f.was.Outline.Polygon {
		mapped[i] = t.Apply(p)
	}
	var off []float64
	for _, p := range f.old {
		off = append(off, geom.DistToRing(t.Apply(p), geom.Ring(f.now.Outline.Polygon)))
	}
	for _, p := range f.new {
		off = append(off, geom.DistToRing(p, geom.Ring(mapped)))
	}
	return off
}

// doubt leaves out each quarter of the outline in turn, as [RegisterSides]
// does; a whole picture turned or resized leaves nothing open but the mean
// distance.
func (f *refitter) doubt(c Refit) float64 {
	if c.Whole {
		return c.Residual
	}
	worst, n := c.Residual, len(f.old)
	for k := range 4 {
		without := append(slices.Clone(f.old[:k*n/4]), f.old[(k+1)*n/4:]...)
		u := pullOnto(c.Map, without, geom.Ring(f.now.Outline.Polygon), max(2, 3*c.Residual), 6)
		for i := 0; i < n; i += 8 {
			worst = max(worst, u.Apply(f.old[i]).Dist(c.Map.Apply(f.old[i])))
		}
	}
	return worst
}

// cost weighs a map: less is better.
func (f *refitter) cost(c Refit) float64 {
	v := 0.02
	if c.Outlines {
		v = (c.Residual + 0.3*c.Worst) / f.size
	}
	if f.corners && c.Turn > 0 {
		v += 0.003 // corners fit upside down as well; what was turned is rarer
	}
	if c.Looked {
		v += 0.02 * (1 - c.Look)
	}
	return v + 1e-5
}

// judge gives each way its verdict; only the first can be said to fit.
func (f *refitter) judge(all []Refit) {
	for i := range all {
		c := &all[i]
		c.Verdict = Differs
		edges := c.Outlines && c.Residual <= refitMean*f.size && c.Worst <= refitWorst*f.size
		switch {
		case c.Looked && c.Look < refitOther, c.Outlines && !edges:
		case !c.Outlines && !c.Looked, f.corners && !c.Looked, c.Looked && c.Look < refitLike, i > 0:
			c.Verdict = Untold
		case !c.Looked && len(all) > 1 && f.cost(all[1]) < 1.5*f.cost(*c)+0.0004:
			c.Verdict = Untold // another way up fits as well
		case f.lieRight(*c):
			c.Verdict = Fits
		default:
			c.Verdict = Moves
		}
	}
}

// lieRight reports whether the map moves nothing on the leaf by a length that
// counts.
func (f *refitter) lieRight(c Refit) bool {
	if c.Turn != 0 || f.was.Width != f.now.Width || f.was.Height != f.now.Height {
		return false
	}
	far := 0.0
	for _, p := range []geom.Pt{{}, {X: float64(f.was.Width)}, {Y: float64(f.was.Height)}, {X: float64(f.was.Width), Y: float64(f.was.Height)}} {
		far = max(far, c.Map.Apply(p).Dist(p))
	}
	return far <= max(1, inPlace*float64(max(f.was.Width, f.was.Height)))
}
