package export_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"
	"unicode/utf8"

	"leafmend/mendplan"
	"leafmend/mendplan/export"
	"leafmend/mendplan/geom"
)

// nasty are names as someone might give, or slip in, that break a form which
// is written without care.
var nasty = []string{
	"=1+1", "+1+1", "-1+1", "@SUM(A1)", "\t=1+1", "\r=1+1", "\n=1+1", "  =1+1", `=HYPERLINK("x","y")`,
	"a\x00b", "a\x1b[31mb", "a\x7fb", "one\r\ntwo", "one\u2028two", "right\u202eto left", "\u2066isolate", "\ufeffmark", "bad \xff\xfe bytes",
	`"quoted"`, "it's", "a,b;c|d", `back\slash`, "<script>alert(1)</script>", "]]>", "-->", "&amp;&#0;", "<!DOCTYPE x>", "javascript:x",
	"../../etc/passwd", `C:\x\y`, "BEGIN:VEVENT", "x\nEND:VCALENDAR", "%s%n", "(a) Tj ET", strings.Repeat("long ", 400),
}

// nastyJob puts a name wherever a job has room for words.
func nastyJob(name string) mendplan.Job {
	side := mendplan.Side{Scan: mendplan.Scan{Path: name, Width: 2000, Height: 1500}, Calibration: mendplan.FileCalibration(254, 254, 0.2, name)}
	job := mendplan.Job{Title: name, Number: name, Owner: name, Notes: name, Leaves: []mendplan.Leaf{{ID: "L1", Mark: name, Name: name, Note: name, Kind: mendplan.SingleLeaf, Front: side}}}
	job.Tissues, job.Stock = mendplan.StarterTissues()
	for i := range job.Tissues {
		job.Tissues[i].Name, job.Tissues[i].Fibre = name, name
	}
	job, _ = job.AddDamage("L1", mendplan.Damage{Kind: mendplan.Tear, Side: mendplan.Front, Points: []geom.Pt{{X: 0, Y: 500}, {X: 400, Y: 520}}, Note: name})
	return job.AddSteps(mendplan.Step{Leaf: "L1", Kind: mendplan.MendedStep, Date: "2026-03-02", By: name, Note: name})
}

// each form is written with a name and read back by a reader that is not ours.
var forms = []struct {
	name  string
	write func(io.Writer, mendplan.Job, mendplan.Plan) error
	read  func([]byte) error
}{
	{"CSV", export.WriteCSV, tableIsTame},
	{"SVG", func(w io.Writer, j mendplan.Job, p mendplan.Plan) error {
		return export.WriteSVG(w, j, p, j.Leaves[0], mendplan.Front)
	}, markupIsTame},
	{"JSON of the plan", func(w io.Writer, j mendplan.Job, p mendplan.Plan) error {
		return json.NewEncoder(w).Encode(export.PlanOf(j, p))
	}, jsonIsTame},
	{"annotations", func(w io.Writer, j mendplan.Job, p mendplan.Plan) error {
		return export.WriteAnnotations(w, j, p, j.Leaves[0], mendplan.Front)
	}, jsonIsTame},
	{"record", func(w io.Writer, j mendplan.Job, _ mendplan.Plan) error { return export.WriteRecord(w, j) }, tableIsTame},
}

func tableIsTame(b []byte) error {
	rows, err := csv.NewReader(bytes.NewReader(b)).ReadAll()
	if err != nil {
		return err
	}
	for _, row := range rows {
		if len(row) != len(rows[0]) {
			return fmt.Errorf("a line of %d cells among lines of %d", len(row), len(rows[0]))
		}
		for _, cell := range row {
			text := strings.TrimSpace(cell)
			if strings.HasPrefix(text, "=") || strings.HasPrefix(text, "@") || strings.HasPrefix(text, "+") || strings.HasPrefix(text, "-1+1") {
				return fmt.Errorf("a spreadsheet runs %q", cell)
			}
			if strings.ContainsAny(cell, "\x00\x1b\x7f\t\r") {
				return fmt.Errorf("%q holds control characters", cell)
			}
		}
	}
	return nil
}

func markupIsTame(b []byte) error {
	d := xml.NewDecoder(bytes.NewReader(b))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		if e, ok := token.(xml.StartElement); ok && e.Name.Local == "script" {
			return errors.New("a name became an element")
		}
	}
}

func jsonIsTame(b []byte) error {
	if !json.Valid(b) {
		return errors.New("not well-formed")
	}
	return nil
}

func TestNoNameBreaksAnOpenForm(t *testing.T) {
	for _, f := range forms {
		t.Run(f.name, func(t *testing.T) {
			for _, name := range nasty {
				job := nastyJob(name)
				plan := mendplan.Compute(job)
				if len(plan.Pieces) == 0 {
					t.Fatal("no pieces to write")
				}
				var b bytes.Buffer
				if err := f.write(&b, job, plan); err != nil {
					t.Errorf("%.40q: %v", name, err)
					continue
				}
				if !utf8.Valid(b.Bytes()) {
					t.Errorf("%.40q: what was written is no UTF-8", name)
				}
				if err := f.read(b.Bytes()); err != nil {
					t.Errorf("%.40q: %v", name, err)
				}
			}
		})
	}
}
