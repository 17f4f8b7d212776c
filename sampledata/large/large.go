// Package large invents jobs as large as wanted, to measure and to try the
// program on: leaves of 200 × 280 mm on the bench of a workshop that has
// tissue enough. Nothing in them was ever printed. They have scans' sizes and
// scales but no pictures.
//
// Of ten damages seven are long tears (a third mended by shaped pieces, the
// others by strips, half of them on both sides), two are losses and one is a
// weak area: about four pieces each. The same numbers give the same job.
package large

import (
	"fmt"
	"math"
	"math/rand/v2"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// leafW and leafH are the size of a leaf in mm; pxMM that of a pixel at
// 300 ppi.
const leafW, leafH, pxMM = 200.0, 280.0, 25.4 / 300

// Job has the given number of leaves with so many damages on each.
func Job(leaves, damages int) mendplan.Job {
	j := mendplan.Job{Title: fmt.Sprintf("Almanac of %d leaves", leaves),
		Tissues: []mendplan.Tissue{
			{ID: "T1", Name: "kozo tissue, 5 g/m²", Grammage: 5, Use: mendplan.ForTears},
			{ID: "T2", Name: "kozo paper, 40 g/m²", Grammage: 40, Use: mendplan.ForInfills},
		}}
	for i, t := range j.Tissues {
		j.Stock = append(j.Stock, mendplan.Stock{ID: fmt.Sprintf("S%d", i+1), Tissue: t.ID, Kind: mendplan.SheetStock,
			LengthMM: 980, WidthMM: 630, Count: 1 + leaves*damages})
	}
	for k := range leaves {
		mark := fmt.Sprint(k + 1)
		j.Leaves = append(j.Leaves, mendplan.Leaf{ID: "L" + mark, Mark: mark, Kind: mendplan.SingleLeaf,
			Front: side(), Back: side(), Grammage: 80, Grain: mendplan.GrainUpright})
		leaf := &j.Leaves[k]
		for range damages {
			j.LastNumber++
			d := Damage(j.LastNumber)
			d.Number = j.LastNumber
			leaf.Damages = append(leaf.Damages, d)
		}
	}
	return j
}

func side() mendplan.Side {
	return mendplan.Side{
		Scan:        mendplan.Scan{Width: int(math.Round(leafW / pxMM)), Height: int(math.Round(leafH / pxMM))},
		TrueEdge:    inPixels([]geom.Pt{{}, {X: leafW}, {X: leafW, Y: leafH}, {Y: leafH}}),
		Calibration: mendplan.Calibration{Origin: mendplan.FromRuler, MMPerPxX: pxMM, MMPerPxY: pxMM, Words: "the ruler in the picture"},
	}
}

// Damage is the damage of a seed, without a number.
func Damage(seed int) mendplan.Damage {
	r := rand.New(rand.NewPCG(uint64(seed), 20251125))
	switch seed % 10 {
	case 7, 8:
		return ring(r, mendplan.Loss)
	case 9:
		return ring(r, mendplan.WeakArea)
	}
	from := geom.Pt{X: between(r, 20, leafW-20), Y: between(r, 20, leafH-20)}
	d := mendplan.Damage{Kind: mendplan.Tear, Side: mendplan.Front, Points: inPixels(walk(r, from, 40+r.IntN(40)))}
	if seed%3 != 0 {
		d.Mends = []mendplan.Mend{{Style: mendplan.Strips}}
	}
	if seed%2 == 0 { // a second mend on the other side
		if len(d.Mends) == 0 {
			d.Mends = []mendplan.Mend{{}}
		}
		d.Mends = append(d.Mends, mendplan.Mend{Style: mendplan.Strips})
	}
	return d
}

// walk goes n steps as a hand would; it may leave the leaf, then it ends.
func walk(r *rand.Rand, p geom.Pt, n int) []geom.Pt {
	out := []geom.Pt{p}
	heading := 2 * math.Pi * r.Float64()
	step, wander, rough := between(r, 0.8, 5), between(r, 0, 0.5), between(r, 0, 0.4)
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

// ring draws a loss or a weak area: a rough blob, a third of them at an edge.
func ring(r *rand.Rand, kind mendplan.DamageKind) mendplan.Damage {
	c := geom.Pt{X: between(r, 30, leafW-30), Y: between(r, 30, leafH-30)}
	if r.IntN(3) == 0 {
		c.X = float64(r.IntN(2)) * leafW
	}
	n, size := 5+r.IntN(20), between(r, 2, 20)
	pts := make([]geom.Pt, n)
	for k := range pts {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(n))
		pts[k] = c.Add(geom.Pt{X: cos, Y: sin}.Mul(size * between(r, 0.6, 1.2)))
	}
	return mendplan.Damage{Kind: kind, Side: mendplan.Front, Points: inPixels(pts)}
}

func inPixels(mm []geom.Pt) []geom.Pt {
	out := make([]geom.Pt, len(mm))
	for i, p := range mm {
		out[i] = geom.Pt{X: p.X / pxMM, Y: p.Y / pxMM}
	}
	return out
}

func between(r *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
