package mendplan_test

import (
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// trimJob is one leaf of 200 × 100 mm with pieces made by hand.
func trimJob(pieces ...mendplan.Piece) []mendplan.Trim {
	return mendplan.TrimList(trimLeaf(nil), pieces)
}

func trimLeaf(rules mendplan.Rules) mendplan.Job {
	side := mendplan.Side{Scan: mendplan.Scan{Path: "a", Width: 2000, Height: 1000}, Calibration: mendplan.Calibration{Origin: mendplan.FromFile, MMPerPxX: 0.1, MMPerPxY: 0.1}}
	return mendplan.Job{Rules: rules, Leaves: []mendplan.Leaf{{ID: "L1", Mark: "1", Front: side, Back: side,
		Damages: []mendplan.Damage{{Number: 7, Kind: mendplan.Nicks}}}}}
}

func at(label string, side mendplan.SideName, x0, y0, x1, y1 float64) mendplan.Piece {
	return mendplan.Piece{Label: label, Leaf: "L1", Damage: 1, Side: side, Outline: geom.Area{{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}}}
}

func TestTrimsAreMeasuredAsTheSideUpLies(t *testing.T) {
	for _, c := range []struct {
		name     string
		piece    mendplan.Piece
		edge     mendplan.EdgeName
		from, to float64
		hang     float64
	}{
		{"head, front: from the left", at("a", mendplan.Front, 30, -10, 45, 20), mendplan.HeadEdge, 30, 45, 10},
		{"head, back: turned over, left and right change", at("a", mendplan.Back, 30, -10, 45, 20), mendplan.HeadEdge, 155, 170, 10},
		{"tail, front: from the left", at("a", mendplan.Front, 30, 80, 45, 108), mendplan.TailEdge, 30, 45, 8},
		{"right edge: from the head", at("a", mendplan.Front, 180, 20, 206, 50), mendplan.RightEdge, 20, 50, 6},
		{"left edge: from the head, on either side", at("a", mendplan.Back, -5, 20, 10, 50), mendplan.LeftEdge, 20, 50, 5},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := trimJob(c.piece)
			if len(got) != 1 {
				t.Fatalf("%d trims: %+v", len(got), got)
			}
			g := got[0]
			if g.Edge != c.edge || !near(g.From, c.from, 0.01) || !near(g.To, c.to, 0.01) || !near(g.HangMM, c.hang, 0.01) || g.Side != c.piece.Side || g.Up != c.piece.Side {
				t.Errorf("got %+v", g)
			}
		})
	}
}

func TestWhatStaysOnTheLeafIsNotTrimmed(t *testing.T) {
	if got := trimJob(at("a", mendplan.Front, 30, 10, 45, 20), at("b", mendplan.Front, 30, -0.1, 45, 20)); len(got) != 0 {
		t.Errorf("got %+v", got)
	}
}

func TestACornerPieceIsTrimmedAtBothEdges(t *testing.T) {
	got := trimJob(at("a", mendplan.Front, 180, -10, 210, 20))
	if len(got) != 2 || got[0].Edge != mendplan.HeadEdge || got[1].Edge != mendplan.RightEdge || !near(got[0].To, 200, 0.01) || !near(got[1].From, 0, 0.01) {
		t.Errorf("got %+v", got)
	}
}

func TestNeighboursAreCutAsOneStretchAndSidesApart(t *testing.T) {
	nick := at("c", mendplan.Front, 47, -4, 60, 5)
	nick.Damage = 7
	got := trimJob(at("a", mendplan.Front, 30, -10, 45, 20), nick, at("b", mendplan.Back, 44, -10, 50, 20), at("d", mendplan.Front, 90, -3, 95, 3))
	if len(got) != 3 {
		t.Fatalf("got %+v", got)
	}
	if g := got[0]; len(g.Pieces) != 2 || !g.Bridged || !near(g.From, 30, 0.01) || !near(g.To, 60, 0.01) || !near(g.HangMM, 10, 0.01) {
		t.Errorf("got %+v", g)
	}
}

func TestLeafUpTurnsTheSide(t *testing.T) {
	job := trimLeaf(mendplan.Rules{mendplan.TrimUp: mendplan.Choice(mendplan.TrimLeafUp)})
	got := mendplan.TrimList(job, []mendplan.Piece{at("a", mendplan.Back, 30, -10, 45, 20)})
	if len(got) != 1 || got[0].Side != mendplan.Back || got[0].Up != mendplan.Front || !near(got[0].From, 30, 0.01) {
		t.Errorf("got %+v", got)
	}
}
