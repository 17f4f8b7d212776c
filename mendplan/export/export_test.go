package export_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/export"
	"leafmend/mendplan/geom"
)

// hostile is a job whose words try to break every form.
func hostile() mendplan.Job {
	side := mendplan.Side{Scan: mendplan.Scan{Path: "a\"<&>.jpg", Width: 2000, Height: 1500}, Calibration: mendplan.FileCalibration(254, 254, 0.2, "x")}
	job := mendplan.Job{Title: "<script>&\"'\x00\x1b]]>", Leaves: []mendplan.Leaf{{ID: "L1", Mark: "=1+1", Kind: mendplan.SingleLeaf, Front: side, Back: side}}}
	job.Tissues, job.Stock = mendplan.StarterTissues()
	job.Tissues[0].Name = "@SUM(A1)\n;"
	job, _ = job.AddDamage("L1", mendplan.Damage{Kind: mendplan.Tear, Side: mendplan.Front, Points: []geom.Pt{{X: 0, Y: 500}, {X: 400, Y: 520}}, Note: "-->\x07 \"quoted\""})
	job, _ = job.AddDamage("L1", mendplan.Damage{Kind: mendplan.Loss, Side: mendplan.Back, Points: []geom.Pt{{X: 900, Y: 700}, {X: 1100, Y: 700}, {X: 1000, Y: 900}}})
	return job
}

func TestFormsAreWellFormedWhateverTheWords(t *testing.T) {
	job := hostile()
	plan := mendplan.Compute(job)
	if len(plan.Pieces) < 2 {
		t.Fatalf("%d pieces", len(plan.Pieces))
	}
	for _, side := range []mendplan.SideName{mendplan.Front, mendplan.Back} {
		var svg, anno bytes.Buffer
		if err := export.WriteSVG(&svg, job, plan, job.Leaves[0], side); err != nil {
			t.Fatal(err)
		}
		d := xml.NewDecoder(&svg)
		for {
			if _, err := d.Token(); err == io.EOF {
				break
			} else if err != nil {
				t.Fatalf("the SVG of the %s is not well-formed: %v", side, err)
			}
		}
		if err := export.WriteAnnotations(&anno, job, plan, job.Leaves[0], side); err != nil {
			t.Fatal(err)
		}
		checkAnnotations(t, anno.Bytes())
	}
	var table bytes.Buffer
	if err := export.WriteCSV(&table, job, plan); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&table).ReadAll()
	if err != nil || len(rows) != 1+len(plan.Pieces) {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for _, row := range rows {
		for _, cell := range row {
			if _, err := strconv.ParseFloat(cell, 64); err != nil && cell != "" && strings.ContainsRune("=+-@", rune(cell[0])) {
				t.Errorf("a spreadsheet would run %q", cell)
			}
			if strings.ContainsAny(cell, "\x00\x07\x1b\n") {
				t.Errorf("control characters in %q", cell)
			}
		}
	}
}

// Web Annotation Data Model, W3C Recommendation of 23 February 2017: a page
// has a context, a type and items; an annotation a type and a target; an SVG
// selector a value that is SVG.
func checkAnnotations(t *testing.T, data []byte) {
	t.Helper()
	var page struct {
		Context string `json:"@context"`
		Type    string
		Items   []struct {
			ID, Type, Motivation string
			Body                 []struct{ Type, Value string }
			Target               struct {
				Source   string
				Selector struct{ Type, Value string }
			}
		}
	}
	if err := json.Unmarshal(data, &page); err != nil {
		t.Fatal(err)
	}
	if page.Context != "http://www.w3.org/ns/anno.jsonld" || page.Type != "AnnotationPage" || len(page.Items) != 2 {
		t.Errorf("context %q, type %q, %d items", page.Context, page.Type, len(page.Items))
	}
	for _, a := range page.Items {
		if a.Type != "Annotation" || a.ID == "" || a.Target.Source == "" || a.Target.Selector.Type != "SvgSelector" || len(a.Body) == 0 {
			t.Errorf("not an annotation: %+v", a)
		}
		if err := xml.Unmarshal([]byte(a.Target.Selector.Value), new(struct{})); err != nil || !strings.Contains(a.Target.Selector.Value, "<path d=\"M") {
			t.Errorf("the selector is not SVG: %v %s", err, a.Target.Selector.Value)
		}
	}
}

// The drawing is at true size: its own width in mm and the box of its units
// must agree, and a piece must keep its size.
func TestTheSVGIsInMillimetres(t *testing.T) {
	job := hostile()
	plan := mendplan.Compute(job)
	var b bytes.Buffer
	if err := export.WriteSVG(&b, job, plan, job.Leaves[0], mendplan.Front); err != nil {
		t.Fatal(err)
	}
	m := regexp.MustCompile(`width="([\d.]+)mm" height="([\d.]+)mm" viewBox="[-\d.]+ [-\d.]+ ([\d.]+) ([\d.]+)"`).FindStringSubmatch(b.String())
	// 2000 × 1500 pixels at 254 to the inch are 200 × 150 mm, and a rim.
	if m == nil || m[1] != m[3] || m[2] != m[4] || m[1] != "240.00" || m[2] != "190.00" {
		t.Errorf("size %v", m)
	}
}

func TestSheetsWhoseGrainRunsAlongTheWidthAreToldInTheirOwnAxes(t *testing.T) {
	job := hostile()
	for i := range job.Stock {
		job.Stock[i].GrainAlong = "width"
	}
	p := export.PlanOf(job, mendplan.Compute(job))
	if len(p.Sheets) == 0 {
		t.Fatal("no sheets")
	}
	for _, s := range p.Sheets {
		if s.GrainAlong != "width" || s.LengthMM < s.WidthMM {
			t.Errorf("sheet %d: %v × %v, grain along the %s", s.Number, s.LengthMM, s.WidthMM, s.GrainAlong)
		}
		for _, q := range s.Placements {
			if q.XMM < 0 || q.YMM < 0 || q.XMM+q.WidthMM > s.WidthMM+1e-9 || q.YMM+q.LengthMM > s.LengthMM+1e-9 {
				t.Errorf("%s leaves its sheet", q.Label)
			}
		}
		for _, c := range s.Cuts {
			if along := c.X1MM == c.X2MM; along != (c.Line == "along the length") {
				t.Errorf("cut %d from (%v,%v) to (%v,%v) is said to run %s", c.Step, c.X1MM, c.Y1MM, c.X2MM, c.Y2MM, c.Line)
			}
		}
	}
}

func TestThePlanTellsWhatToOrderAndWhatALeafTakes(t *testing.T) {
	job := hostile()
	plan := mendplan.Compute(job)
	p := export.PlanOf(job, plan)
	if len(p.Order) != len(plan.Layouts) || len(p.Leaves) != 1 {
		t.Fatalf("%d lines to order for %d tissues, %d leaves", len(p.Order), len(plan.Layouts), len(p.Leaves))
	}
	if l := p.Leaves[0]; l.Leaf != "L1" || l.Pieces != len(plan.Pieces) || l.Minutes < 15 {
		t.Errorf("the leaf takes %+v", l)
	}
	for i, o := range p.Order {
		if o.Opened != plan.Estimate.Tissues[i].Sheets || o.Order < 0 {
			t.Errorf("%+v, the estimate opens %d", o, plan.Estimate.Tissues[i].Sheets)
		}
	}
	if data, err := json.Marshal(export.LayoutOf(job)); err != nil || bytes.Contains(data, []byte("order_list")) {
		t.Errorf("a layout alone tells costs: %s %v", data, err)
	}
}

func TestTheRecordKeepsEveryFigureAndLeavesOutWhatIsNotKnown(t *testing.T) {
	job := hostile().AddSteps(
		mendplan.Step{Leaf: "L1", Kind: mendplan.Washed, Date: "2026-03-02", By: "=A. B.", Departure: "one bath\nmore", Bath: &mendplan.Bath{Agent: "calcium hydroxide", PHAfter: 7.3, Baths: 3, ReservePercent: 2}},
		mendplan.Step{Leaf: "L1", Kind: mendplan.Tested, Date: "2026-03-01", By: "A. B.", Test: &mendplan.SpotTest{Medium: "red, ink", Place: "title", Liquid: "water", Seconds: 30, Result: mendplan.Bleeds}})
	var b bytes.Buffer
	if err := export.WriteRecord(&b, job); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil || len(rows) != 3 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	cell := func(row int, column string) string {
		for i, h := range rows[0] {
			if h == column {
				return rows[row][i]
			}
		}
		t.Fatalf("there is no column %s", column)
		return ""
	}
	for _, c := range []struct {
		row          int
		column, want string
	}{{1, "step", "washed"}, {1, "by", "'=A. B."}, {1, "bath_ph_after", "7.3"}, {1, "bath_ph_before", ""}, {1, "baths", "3"}, {1, "alkaline_reserve_percent", "2"},
		{1, "departure", "one bath more"}, {1, "test_s", ""}, {2, "test_medium", "red, ink"}, {2, "test_s", "30"}, {2, "test_result", "bleeds"}, {2, "mark", "'=1+1"}} {
		if got := cell(c.row, c.column); got != c.want {
			t.Errorf("row %d, %s: %q, want %q", c.row, c.column, got, c.want)
		}
	}
}
