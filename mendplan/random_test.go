package mendplan_test

import (
	"math"
	"math/rand/v2"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// leafW and leafH are the size of the test jobs' leaf, mm.
const leafW, leafH = 200.0, 280.0

// seeded gives every case its own repeatable source.
func seeded(n int) *rand.Rand { return rand.New(rand.NewPCG(uint64(n), 20251125)) }

func between(r *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }

// randomTear draws a tear as a hand and a mouse would: a wandering walk with
// roughness, sometimes straight, sometimes from or to an edge, sometimes
// with a trace that goes on beyond the edge, sometimes forked.
func randomTear(r *rand.Rand) mendplan.Damage {
	path := walk(r, geom.Pt{X: between(r, 15, leafW-15), Y: between(r, 15, leafH-15)}, r.Float64()*2*math.Pi, 2+r.IntN(25))
	d := traced(mendplan.Tear, path...)
	for range r.IntN(3) {
		from := path[r.IntN(len(path))]
		d.Forks = append(d.Forks, at300(walk(r, from, r.Float64()*2*math.Pi, 2+r.IntN(6))...))
		if r.IntN(2) == 0 {
			break
		}
	}
	if r.IntN(3) > 0 {
		d.Forks = nil
	}
	return d
}

// walk goes n steps from p; it may leave the leaf at the end, never return.
func walk(r *rand.Rand, p geom.Pt, heading float64, n int) []geom.Pt {
	out := []geom.Pt{p}
	step, wander, rough := between(r, 0.8, 9), between(r, 0, 0.5), between(r, 0, 0.4)
	for range n {
		heading += wander * r.NormFloat64()
		sin, cos := math.Sincos(heading)
		p = p.Add(geom.Pt{X: step * cos, Y: step * sin})
		out = append(out, p.Add(geom.Pt{X: rough * r.NormFloat64(), Y: rough * r.NormFloat64()}))
		if p.X < -3 || p.Y < -3 || p.X > leafW+3 || p.Y > leafH+3 {
			break
		}
	}
	return out
}

// randomRing draws a loss or a weak area: a rough blob, often at an edge.
func randomRing(r *rand.Rand, kind mendplan.DamageKind) mendplan.Damage {
	c := geom.Pt{X: between(r, 0, leafW), Y: between(r, 0, leafH)}
	switch r.IntN(3) {
	case 0:
		c.X = float64(r.IntN(2)) * leafW
	case 1:
		c = geom.Pt{X: between(r, 30, leafW-30), Y: between(r, 30, leafH-30)}
	}
	n := 3 + r.IntN(20)
	size := between(r, 2, 25)
	var pts []geom.Pt
	for k := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(n))
		pts = append(pts, c.Add(geom.Pt{X: cos, Y: sin}.Mul(size*between(r, 0.5, 1.2))))
	}
	return traced(kind, pts...)
}

// randomRules departs from some defaults, within their ranges.
func randomRules(r *rand.Rand) mendplan.Rules {
	var out mendplan.Rules
	for _, key := range []mendplan.RuleKey{mendplan.SideMargin, mendplan.StripWidth, mendplan.EndMargin, mendplan.EdgeOverhang,
		mendplan.LongestStrip, mendplan.PieceOverlap, mendplan.TurnAngle, mendplan.FillOverlap, mendplan.FillEdgeOverlap, mendplan.FillOverhang,
		mendplan.OverlayMargin, mendplan.ShapeTolerance, mendplan.ShapeRadius, mendplan.Fringe, mendplan.GrainTolerance} {
		if r.IntN(3) > 0 {
			continue
		}
		rule, _ := mendplan.RuleFor(key)
		out = out.With(key, mendplan.Num(math.Round(between(r, rule.Min, rule.Max)*10)/10))
	}
	return out
}

// onLeafMM returns the traced points in mm that lie on the leaf, as runs.
func onLeafMM(px []geom.Pt) [][]geom.Pt {
	var out [][]geom.Pt
	var run []geom.Pt
	for _, p := range px {
		q := p.Mul(px300)
		if q.X < 0 || q.Y < 0 || q.X > leafW || q.Y > leafH {
			if len(run) > 0 {
				out = append(out, run)
			}
			run = nil
			continue
		}
		run = append(run, q)
	}
	if len(run) > 0 {
		out = append(out, run)
	}
	return out
}
