package pdf_test

import (
	"os/exec"
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/pdf"
)

func wholeJob() (mendplan.Job, mendplan.Plan) {
	job, plan := twoLeaves(mendplan.A4)
	job.Owner, job.StartDate = "Lantern Club", "2026-03-05"
	job.Gatherings = []mendplan.Gathering{{ID: "g", Signature: "A", Sheets: []mendplan.SheetPlace{{Leaf: "L1"}, {Leaf: "L2", Missing: mendplan.SecondMissing}}}}
	job.Press = mendplan.PressRoom{Blotters: 4}
	job.Examination = mendplan.Examination{Condition: "Torn along the fore-edge.", Author: "A. Bencher", FinalState: "Whole again."}
	job.Batches = []mendplan.Batch{{ID: "P1", Recipe: "loc", Made: "2026-03-04"}}
	job = job.AddSteps(
		mendplan.Step{Leaf: "L1", Kind: mendplan.Tested, Date: "2026-03-03", By: "A. Bencher", Test: &mendplan.SpotTest{Medium: "red ink", Place: "title", Liquid: "water", Seconds: 30, Result: mendplan.Stable}},
		mendplan.Step{Leaf: "L1", Kind: mendplan.Washed, Date: "2026-03-04", By: "A. Bencher", Departure: "one bath more than planned"})
	return job, plan
}

func textOf(t *testing.T, part pdf.Part) string {
	t.Helper()
	job, plan := wholeJob()
	out, err := exec.Command(reader(t, "pdftotext"), "-layout", save(t, write(t, job, plan, pdf.Options{Only: []pdf.Part{part}})), "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

func TestPartsOfTheWholeJobSayWhatTheyMust(t *testing.T) {
	for _, c := range []struct {
		part pdf.Part
		want []string
	}{
		{pdf.Order, []string{"A⁴ (−A3)", "Gathering A", "missing", "first check", "second check", "inner side (back) up", "lies on"}},
		{pdf.Calendar, []string{"Thu 5 Mar 2026", "Putting together", "Blades", "Local codes"}},
		{pdf.Proposal, []string{"Lantern Club", "Torn along the fore-edge", "tier", "agreed: owner", "iron-gall ink"}},
		{pdf.Report, []string{"red ink, title: water, 30 s: stable", "one bath more than planned", "Departures", "kozo tissue", "Whole again", "wheat starch", "Losses"}},
	} {
		text := textOf(t, c.part)
		for _, w := range c.want {
			if !strings.Contains(text, w) {
				t.Errorf("%s does not say %q:\n%s", c.part, w, text)
			}
		}
	}
}

func TestTheBenchSetLeavesPaperworkOut(t *testing.T) {
	job, plan := wholeJob()
	out, err := exec.Command(reader(t, "pdftotext"), save(t, write(t, job, plan, pdf.Options{})), "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(string(out), "Treatment report") || !strings.Contains(string(out), "Templates at true size") {
		t.Error("the set printed when nothing is chosen is not the bench set")
	}
}

func TestViewersListTheParts(t *testing.T) {
	job, plan := wholeJob()
	path := save(t, write(t, job, plan, pdf.Options{Only: pdf.Parts(), Day: "2026-03-05"}))
	out, err := exec.Command(reader(t, "pdftohtml"), "-xml", "-stdout", "-i", path).CombinedOutput()
	if err != nil || strings.Contains(string(out), "Error") {
		t.Fatalf("%v\n%s", err, out)
	}
	_, outline, ok := strings.Cut(string(out), "<outline>")
	for _, want := range []string{"Proposal for treatment", "Treatment report", "Cut list", "Templates at true size", "Estimate", "Leaves", "Trimming", "Order of the leaves", "Calendar"} {
		if n := strings.Count(outline, ">"+want+"<"); !ok || n != 1 {
			t.Errorf("%q stands %d times in the outline:\n%s", want, n, outline)
		}
	}
}
