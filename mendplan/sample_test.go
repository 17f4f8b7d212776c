package mendplan_test

import (
	"io/fs"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/sampledata"
)

func sampleJob(t *testing.T) mendplan.Job {
	t.Helper()
	data, err := fs.ReadFile(sampledata.Files(), sampledata.JobFile)
	if err != nil {
		t.Fatal(err)
	}
	job, problems, err := mendplan.Decode(data)
	if err != nil || len(problems) > 0 {
		t.Fatalf("%v %v", err, problems)
	}
	return job
}

// leastMargin is the margin a damage of the sample must have about it within
// the leaf, by the rules in force.
func leastMargin(job mendplan.Job, d mendplan.Damage, pieces []mendplan.Piece) float64 {
	rules := mendplan.InForce{Job: job.Rules}
	if len(d.Mends) > 0 {
		rules.Mend = d.Mends[0].Rules
	}
	switch {
	case d.Kind == mendplan.Loss:
		return rules.Number(mendplan.FillOverlap)
	case d.Kind == mendplan.Nicks:
		return rules.Number(mendplan.NickDepth) / 2
	case pieces[0].Style == mendplan.Strips:
		return min(rules.Number(mendplan.SideMargin), rules.Number(mendplan.StripWidth)/2, rules.Number(mendplan.EndMargin))
	}
	return rules.Number(mendplan.SideMargin)
}

// Every damage of the sample lies in its pieces with the margin to spare, by
// an independent geometry library (peterstace/simplefeatures).
func TestTheSamplesPiecesKeepTheirMargin(t *testing.T) {
	job := sampleJob(t)
	all, _ := mendplan.Pieces(job)
	n := 0
	for _, leaf := range job.Leaves {
		for _, d := range leaf.Damages {
			if d.NoMend {
				continue
			}
			var own []mendplan.Piece
			for _, p := range all {
				if p.Damage == d.Number {
					own = append(own, p)
				}
			}
			if len(own) == 0 {
				t.Errorf("damage %d has no piece", d.Number)
				continue
			}
			frame, sheet, problem := mendplan.FrameOf(leaf, d.Side)
			if problem != nil {
				t.Fatal(problem.Words)
			}
			clip := asked(t, geom.FromRing(sheet.Ring()))
			for _, px := range append([][]geom.Pt{d.Points}, d.Forks...) {
				path := frame.PathToLeaf(px)
				if d.Kind.Closed() {
					path = append(path, path[0])
				}
				n++
				if left := uncovered(t, cover(t, own), path, leastMargin(job, d, own)-0.002, clip); left > slackMM2 {
					t.Errorf("leaf %s, %s %d: %.3f mm² of the margin lies outside its pieces", leaf.Mark, d.Kind, d.Number, left)
				}
			}
		}
	}
	if n < 20 {
		t.Errorf("only %d damages were looked at", n)
	}
}
