package mendplan_test

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/nest"
)

// cornerFills are triangular pieces of legs w and h, their grain along h, on
// either side of the leaf in turn.
func cornerFills(n int, w, h, fringe float64, free bool) []mendplan.Piece {
	var out []mendplan.Piece
	for i := range n {
		side := mendplan.Front
		if i%2 == 1 {
			side = mendplan.Back
		}
		tri := geom.Area{{{X: 0, Y: 0}, {X: w, Y: 0}, {X: 0, Y: h}}}
		out = append(out, mendplan.Piece{Label: fmt.Sprintf("%df-%da", i, i), Leaf: "L", Damage: i + 1, Side: side, Tissue: "T", Outline: tri,
			GrainDeg: 90, GrainFree: free, AreaMM2: w * h / 2, PasteMM2: w * h / 2, BlankLengthMM: h + 2*fringe, BlankWidthMM: w + 2*fringe,
			BlankDeg: 90, BlankCentre: geom.Pt{X: w / 2, Y: h / 2}})
	}
	return out
}

func fillJob(width, length float64, count int) mendplan.Job {
	return mendplan.Job{Tissues: []mendplan.Tissue{{ID: "T", Name: "tissue"}},
		Stock: []mendplan.Stock{{ID: "S", Tissue: "T", Kind: mendplan.SheetStock, WidthMM: width, LengthMM: length, Count: count, GrainAlong: "length"}}}
}

func TestTwoCornerFillsShareOneBlank(t *testing.T) {
	for _, c := range []struct {
		say           string
		width, length float64
		fringe        float64
		free          bool
	}{
		{"cut with a blade", 66, 41, 0, false},
		{"torn with a fringe", 75, 52, 2, false},
		{"turned where the grain is free", 41, 66, 0, true},
	} {
		pieces := cornerFills(4, 60, 40, c.fringe, c.free)
		job := fillJob(c.width, c.length, 9)
		l := lay(job, pieces)[0].Layout
		if len(l.Sheets) != 2 || len(l.Unplaced) > 0 || l.Gain() < 2*0.1*2400 {
			t.Errorf("%s: %d sheets, want 2 with two pieces on each; saved %.0f mm²", c.say, len(l.Sheets), l.Gain())
			continue
		}
		for _, s := range l.Sheets {
			for _, p := range s.Places {
				if p.Share == nil {
					t.Fatalf("%s: %s shares its blank with no other", c.say, p.Blank)
				}
				partsWell(t, c.say, p)
			}
		}
	}
}

// partsWell checks that the parting line runs from edge to edge of the place,
// with one piece's middle on each side.
func partsWell(t *testing.T, say string, p nest.Place) {
	t.Helper()
	onEdge := func(x, y float64) bool {
		d := math.Min(math.Min(math.Abs(x-p.X), math.Abs(x-p.X-p.W)), math.Min(math.Abs(y-p.Y), math.Abs(y-p.Y-p.H)))
		return d < 1e-6 && x > p.X-1e-6 && x < p.X+p.W+1e-6 && y > p.Y-1e-6 && y < p.Y+p.H+1e-6
	}
	s := p.Share
	if !onEdge(s.X1, s.Y1) || !onEdge(s.X2, s.Y2) {
		t.Errorf("%s: the line %g, %g to %g, %g does not run from edge to edge of %+v", say, s.X1, s.Y1, s.X2, s.Y2, p)
	}
	side := func(q nest.XY) float64 { return (q.X-s.X1)*(s.Y2-s.Y1) - (q.Y-s.Y1)*(s.X2-s.X1) }
	if side(s.Own)*side(s.Other) >= 0 {
		t.Errorf("%s: both pieces lie on one side of the line", say)
	}
}

func TestPiecesDoNotShareWhereItSavesNoSheet(t *testing.T) {
	job := fillJob(150, 150, 1) // too small for any remnant worth keeping
	job.Rules = mendplan.Rules{}.With(mendplan.KeepWidth, mendplan.Num(200))
	l := lay(job, cornerFills(2, 60, 40, 0, false))[0].Layout
	if len(l.Sheets) != 1 || l.Gain() > 0 {
		t.Errorf("two pieces share a blank and save %.0f mm², but no tissue", l.Gain())
	}
}

func TestSharedBlanksAreHeldAndComeBackFromTheFile(t *testing.T) {
	pieces := cornerFills(4, 60, 40, 0, false)
	job := fillJob(66, 41, 9)
	layouts := lay(job, pieces)
	job = job.HoldLayout("T", layouts[0].Layout)
	data, err := mendplan.Encode(job)
	if err != nil {
		t.Fatal(err)
	}
	back, problems, err := mendplan.Decode(data)
	if err != nil || len(problems) > 0 {
		t.Fatal(err, problems)
	}
	again := lay(back, pieces)
	if got, want := labelsOn(again), labelsOn(layouts); !reflect.DeepEqual(got, want) || len(got) != 4 {
		t.Errorf("held are %v, laid out were %v", got, want)
	}
	for _, s := range again[0].Layout.Sheets {
		if p := s.Places[0]; p.Share == nil || !p.Pinned {
			t.Errorf("%s came back as %+v", s.Stock, p)
		}
	}
	grown := append([]mendplan.Piece(nil), pieces...)
	grown[3].BlankWidthMM += 1
	if n := len(labelsOn(lay(back, grown))); n != 5 {
		t.Errorf("%d pieces are laid when one of a pair grew, want it once more", n)
	}
}
