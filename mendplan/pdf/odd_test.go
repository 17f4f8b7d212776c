package pdf_test

import (
	"bytes"
	"context"
	"math"
	"math/rand/v2"
	"os/exec"
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/pdf"
)

// oddJob makes a job as untidy as a half-done one can be: leaves without
// scale, traces of one point or far outside, pieces without tissue, gatherings
// with gaps, steps of leaves that are gone.
func oddJob(rng *rand.Rand) mendplan.Job {
	job := mendplan.Job{Units: []mendplan.Units{"", mendplan.Inches, "ells"}[rng.IntN(3)], Paper: []mendplan.Paper{"", mendplan.Letter}[rng.IntN(2)]}
	job.Tissues, job.Stock = mendplan.StarterTissues()
	words := []string{"", "x", "ein sehr langes Wort " + strings.Repeat("Donaudampfschiffahrt", 9), "\x00\xff\u202e≠", strings.Repeat("viele Wörter ", 80)}
	any := func() string { return words[rng.IntN(len(words))] }
	job.Title, job.Owner, job.Number, job.Notes = any(), any(), any(), any()
	job.Examination = mendplan.Examination{Object: any(), Condition: any(), Purpose: any(), Author: any(), Options: any()}
	job.StartDate = []string{"", "2026-03-02", "soon"}[rng.IntN(3)]
	number := func() float64 {
		return []float64{0, -5, 17, 3000, 1e6, 1e-9, rng.Float64() * 4000}[rng.IntN(7)]
	}
	g := mendplan.Gathering{ID: "g", Signature: any(), Cover: rng.IntN(5) == 0}
	for i := range rng.IntN(7) {
		id := string(rune('a' + i))
		side := mendplan.Side{}
		if rng.IntN(4) > 0 {
			side.Scan = mendplan.Scan{Path: any() + ".jpg", Width: int(number()), Height: int(number())}
			side.Calibration = mendplan.Calibration{Origin: mendplan.FromFile, MMPerPxX: number() / 1000, MMPerPxY: number() / 1000}
			side.TrueEdge = pts(number(), number(), number(), number(), number(), number(), number(), number())
		}
		job.Leaves = append(job.Leaves, mendplan.Leaf{ID: id, Mark: any(), Name: any(), Note: any(), Front: side, Back: side})
		g.Sheets = append(g.Sheets, mendplan.SheetPlace{Leaf: []string{id, "gone", ""}[rng.IntN(3)], Half: []mendplan.Half{"", mendplan.FirstHalf, "third"}[rng.IntN(3)], Note: any()})
		for range rng.IntN(3) {
			var trace []geom.Pt
			for range rng.IntN(6) {
				trace = append(trace, geom.Pt{X: number(), Y: number()})
			}
			kinds := append(mendplan.MendedKinds(), mendplan.NotedKinds()...)
			job, _ = job.AddDamage(id, mendplan.Damage{Kind: kinds[rng.IntN(len(kinds))], Side: mendplan.Front, Points: trace, Note: any()})
		}
		job = job.AddSteps(mendplan.Step{Leaf: []string{id, "gone"}[rng.IntN(2)], Kind: mendplan.MendedStep, Date: any(), By: any(), Batch: "none"})
	}
	job.Gatherings = []mendplan.Gathering{g, {ID: "empty"}}
	job.Press = mendplan.PressRoom{Openings: rng.IntN(3) - 1, Blotters: rng.IntN(3) - 1, LengthMM: number(), WidthMM: number(), Boards: rng.IntN(2)}
	return job
}

func TestNoJobIsTooOddToPrint(t *testing.T) {
	check := reader(t, "pdfinfo")
	for seed := range uint64(36) {
		rng := rand.New(rand.NewPCG(seed, 3))
		job := oddJob(rng)
		pieces, problems := mendplan.Pieces(job)
		plan := mendplan.Assemble(context.Background(), job, pieces, problems, -1, nil)
		opt := pdf.Options{Only: pdf.Parts(), Wet: true, Ways: []collate.Way{collate.OutsideIn, collate.CentreOutward}, Picture: greyPicture, After: greyPicture,
			Day: []string{"", "2026-03-02", "never"}[rng.IntN(3)], Tongue: map[string]string{"leaf": "Blatt"}}
		var b bytes.Buffer
		err := pdf.Write(&b, job, plan, opt)
		if err == pdf.ErrNothing && len(job.Leaves) == 0 {
			continue
		}
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if bytes.Contains(b.Bytes(), []byte("NaN")) || bytes.Contains(b.Bytes(), []byte("+Inf")) {
			t.Errorf("seed %d: a coordinate is no number", seed)
		}
		if seed%10 == 0 {
			if out, err := exec.Command(check, save(t, b.Bytes())).CombinedOutput(); err != nil || bytes.Contains(out, []byte("rror")) {
				t.Errorf("seed %d: an outside reader finds fault: %v\n%s", seed, err, out)
			}
		}
	}
}

func TestSizesThatAreNoNumbersAreStillPrinted(t *testing.T) {
	job, plan := twoLeaves(mendplan.A4)
	plan.Pieces[0].Outline = nil
	plan.Pieces[1].Outline = geom.Area{{{X: math.NaN(), Y: 1}, {X: 2, Y: math.Inf(1)}, {X: 3, Y: 4}}}
	var b bytes.Buffer
	if err := pdf.Write(&b, job, plan, pdf.Options{Only: pdf.Parts(), Wet: true, Day: "2026-03-02"}); err != nil {
		t.Errorf("%v", err)
	}
}
