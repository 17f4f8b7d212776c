package mendplan_test

import (
	"fmt"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// busyJob has the given number of damages, 500 on 48 leaves: of ten, seven
// long tears (a third shaped, the others in strips, half of them mended on
// both sides), two losses and a weak area; about four pieces each.
func busyJob(damages int) mendplan.Job {
	j := bench()
	j.Leaves = nil
	for k := range damages {
		id := fmt.Sprintf("L%d", k*48/500+1)
		if len(j.Leaves) == 0 || j.Leaves[len(j.Leaves)-1].ID != id {
			j = j.WithLeaf(mendplan.Leaf{ID: id, Mark: id[1:], Kind: mendplan.SingleLeaf,
				Front: side300(leafW, leafH), Back: side300(leafW, leafH), Grammage: 80, Grain: mendplan.GrainUpright})
		}
		j, _ = j.AddDamage(id, busyDamage(k))
	}
	return j
}

func busyDamage(k int) mendplan.Damage {
	r := seeded(k)
	switch k % 10 {
	case 7, 8:
		return randomRing(r, mendplan.Loss)
	case 9:
		return randomRing(r, mendplan.WeakArea)
	}
	d := traced(mendplan.Tear, walk(r, geom.Pt{X: between(r, 20, 180), Y: between(r, 20, 260)}, r.Float64()*6.28, 40+r.IntN(40))...)
	if k%3 != 0 {
		d.Mends = []mendplan.Mend{{Style: mendplan.Strips}}
	}
	if k%2 == 0 { // a second mend on the other side
		d.Mends = append(append([]mendplan.Mend{}, d.Mends...), mendplan.Mend{Style: mendplan.Strips})
		if len(d.Mends) == 1 {
			d.Mends = []mendplan.Mend{{}, d.Mends[0]}
		}
	}
	return d
}

// BenchmarkPieces computes the pieces of whole jobs from nothing.
func BenchmarkPieces(b *testing.B) {
	for _, n := range []int{50, 500, 5000} {
		j := busyJob(n)
		b.Run(fmt.Sprintf("%d damages", n), func(b *testing.B) {
			b.ReportAllocs()
			pieces := 0
			for b.Loop() {
				p, _ := mendplan.Pieces(j)
				pieces = len(p)
			}
			b.ReportMetric(float64(pieces), "pieces")
			b.ReportMetric(float64(len(j.Leaves)), "leaves")
		})
	}
}

// BenchmarkEditedDamage moves one point of one damage in a job of 500 and
// computes again with a memo.
func BenchmarkEditedDamage(b *testing.B) {
	j := busyJob(500)
	var memo mendplan.Memo
	memo.Pieces(j)
	leaf := j.Leaves[20]
	d := leaf.Damages[0]
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		d.Points = append([]geom.Pt(nil), d.Points...)
		d.Points[len(d.Points)-1].X += float64(i%2)*2 - 1
		memo.Pieces(j.WithDamage(leaf.ID, d))
	}
}
