package pdf_test

import (
	"bytes"
	"context"
	"fmt"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
	"leafmend/mendplan/course"
	"leafmend/mendplan/pdf"
)

// hundredLeaves is a job of a hundred bifolia in eight gatherings, a tear and
// a corner lost on each, half of them mended.
func hundredLeaves() (mendplan.Job, mendplan.Plan) {
	job := mendplan.Job{Title: "Annual in eight parts", StartDate: "2026-03-02", LeafPaper: mendplan.LeafDefaults{Grammage: 80, Grain: mendplan.GrainUpright}}
	job.Tissues, job.Stock = mendplan.StarterTissues()
	for i := range job.Stock {
		job.Stock[i].Count = 20
	}
	var gs []mendplan.Gathering
	for g := range 8 {
		gathering := mendplan.Gathering{ID: fmt.Sprint("g", g)}
		for i := range 13 {
			n := g*13 + i + 1
			if n > 100 {
				break
			}
			id := fmt.Sprint("L", n)
			side := mendplan.Side{Scan: mendplan.Scan{Path: id + ".jpg", Width: 3543, Height: 2480}, Calibration: mendplan.FileCalibration(254, 254, 0.2, "x")}
			job.Leaves = append(job.Leaves, mendplan.Leaf{ID: id, Mark: fmt.Sprint(n), Front: side, Back: side})
			gathering.Sheets = append(gathering.Sheets, mendplan.SheetPlace{Leaf: id})
			at := float64(40 * (n % 50))
			job, _ = job.AddDamage(id, mendplan.Damage{Kind: mendplan.Tear, Side: mendplan.Front, Points: pts(0, 300+at, 250, 320+at)})
			job, _ = job.AddDamage(id, mendplan.Damage{Kind: mendplan.Loss, Side: mendplan.Front, Points: pts(3543, 2480, 3400, 2480, 3420, 2400, 3543, 2360)})
			if n <= 50 {
				job = job.AddSteps(mendplan.Step{Leaf: id, Kind: mendplan.MendedStep, Date: "2026-03-02", By: "A. B."})
			}
		}
		gs = append(gs, gathering)
	}
	job.Gatherings = collate.Signed(gs)
	job.Press = mendplan.PressRoom{Openings: 12, LengthMM: 500, WidthMM: 400, Blotters: 60}
	pieces, problems := mendplan.Pieces(job)
	return job, mendplan.Assemble(context.Background(), job, pieces, problems, -1, nil)
}

func TestAHundredLeavesInEightGatheringsArePrintedWhole(t *testing.T) {
	job, plan := hundredLeaves()
	if len(job.Leaves) != 100 || len(job.Gatherings) != 8 || len(plan.Pieces) < 200 {
		t.Fatalf("%d leaves, %d gatherings, %d pieces", len(job.Leaves), len(job.Gatherings), len(plan.Pieces))
	}
	text := map[pdf.Part]string{}
	for _, part := range pdf.Parts() {
		path := save(t, write(t, job, plan, pdf.Options{Only: []pdf.Part{part}}))
		out, err := exec.Command(reader(t, "pdftotext"), "-layout", path, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		text[part] = string(out)
	}
	// Order: every sheet once, its page numbers on the line of the sheet.
	rows := collate.Order(job, collate.OutsideIn)
	if len(rows) != 100 {
		t.Fatalf("%d rows", len(rows))
	}
	for _, r := range rows {
		if n := len(regexp.MustCompile(`(?m)\b`+r.Mark+`\b.*\b`+r.Left+`\b.*\b`+r.Right+`\b`).FindAllString(text[pdf.Order], -1)); n == 0 {
			t.Errorf("leaf %s with pages %s and %s is on no line", r.Mark, r.Left, r.Right)
		}
	}
	// Every piece on list, template and report; every leaf with its own page
	// of the report.
	for _, p := range plan.Pieces {
		for _, part := range []pdf.Part{pdf.CutList, pdf.Templates, pdf.Report} {
			if !strings.Contains(text[part], p.Label) {
				t.Errorf("piece %s is not in the %s", p.Label, part)
			}
		}
	}
	if n := len(regexp.MustCompile(`(?m)^\s*Leaf \d+$`).FindAllString(text[pdf.Report], -1)); n != 100 {
		t.Errorf("%d leaves have a page in the report", n)
	}
	c := course.Count(job, plan)
	for _, want := range []string{"50 of 100 mended", "50 of 100 leaves", fmt.Sprintf("%d of %d", c.PiecesDone, c.Pieces), "1–50"} {
		if !strings.Contains(text[pdf.Report], want) {
			t.Errorf("the report does not say %q", want)
		}
	}
	start, _ := course.ParseDay(job.StartDate)
	s := course.Plan(job, plan, start, course.WorkOrder(job), true)
	if n := len(regexp.MustCompile(`\(\d+\s+dry`).FindAllString(text[pdf.Calendar], -1)); n != len(s.Slots) || n == 0 {
		t.Errorf("%d lots in the calendar, want %d", n, len(s.Slots))
	}
}

// Printing a hundred leaves must not grow with their square.
func BenchmarkPrintHundredLeaves(b *testing.B) {
	job, plan := hundredLeaves()
	for b.Loop() {
		var out bytes.Buffer
		if err := pdf.Write(&out, job, plan, pdf.Options{Only: pdf.Parts()}); err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(out.Len())/1e6, "MB")
	}
}
