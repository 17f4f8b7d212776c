package pdf

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/nest"
)

// Pieces that share a blank are drawn where they will be cut: each wholly on
// its own side of the parting line and inside the blank.
func TestPiecesThatShareABlankAreDrawnOnTheirSidesOfTheLine(t *testing.T) {
	shared := 0
	for seed := range uint64(40) {
		rng := rand.New(rand.NewPCG(seed, 5))
		job := mendplan.Job{Tissues: []mendplan.Tissue{{ID: "T", Name: "tissue"}}, Rules: mendplan.Rules{}.With(mendplan.Fringe, mendplan.Num(float64(rng.IntN(3)))),
			Stock: []mendplan.Stock{{ID: "S", Tissue: "T", Kind: mendplan.SheetStock, WidthMM: 90, LengthMM: 130, Count: 20}}}
		var pieces []mendplan.Piece
		of := map[string]mendplan.Piece{}
		for i := range 8 {
			w, h := 20+40*rng.Float64(), 20+40*rng.Float64()
			deg := []float64{90, 0, 30, 117}[rng.IntN(4)]
			tri := geom.Area{{{X: 5, Y: 7}, {X: 5 + w, Y: 7 + 0.2*h*rng.Float64()}, {X: 5 + 0.2*w*rng.Float64(), Y: 7 + h}}}
			r := geom.RectAlong(tri.Points(), deg)
			fringe := (mendplan.InForce{Job: job.Rules}).Number(mendplan.Fringe)
			p := mendplan.Piece{Label: fmt.Sprintf("p%d", i), Leaf: "L", Side: []mendplan.SideName{mendplan.Front, mendplan.Back}[rng.IntN(2)], Tissue: "T", Outline: tri,
				GrainFree: seed%3 == 0, AreaMM2: tri.Area(), BlankLengthMM: r.Length + 2*fringe, BlankWidthMM: r.Width + 2*fringe, BlankDeg: deg, BlankCentre: r.Center}
			pieces, of[p.Label] = append(pieces, p), p
		}
		layouts, _ := mendplan.Layouts(context.Background(), job, pieces, -1, nil)
		for _, s := range layouts[0].Layout.Sheets {
			for _, p := range s.Places {
				if p.Share == nil {
					continue
				}
				shared++
				checkSides(t, seed, p, of[p.Blank], of[p.Share.Blank])
			}
		}
	}
	if shared < 20 {
		t.Errorf("only %d blanks were shared", shared)
	}
}

func checkSides(t *testing.T, seed uint64, p nest.Place, own, other mendplan.Piece) {
	t.Helper()
	s := p.Share
	line := geom.Pt{X: s.X2 - s.X1, Y: s.Y2 - s.Y1}.Unit()
	side := func(q geom.Pt) float64 { return line.Cross(q.Sub(geom.Pt{X: s.X1, Y: s.Y1})) }
	first, second := sharedOutlines(p, own, other)
	for k, rings := range [][][]geom.Pt{first, second} {
		want := side(geom.Pt{X: []nest.XY{s.Own, s.Other}[k].X, Y: []nest.XY{s.Own, s.Other}[k].Y})
		for _, ring := range rings {
			for _, q := range ring {
				if side(q)*want < -0.002*100 {
					t.Errorf("seed %d: %s is drawn across the line that parts it", seed, []string{p.Blank, s.Blank}[k])
					return
				}
				const um = 0.002 // places lie on whole micrometres
				if q.X < p.X-um || q.Y < p.Y-um || q.X > p.X+p.W+um || q.Y > p.Y+p.H+um {
					t.Errorf("seed %d: %s is drawn outside its blank: %v in %+v", seed, []string{p.Blank, s.Blank}[k], q, p)
					return
				}
			}
		}
	}
}
