package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"leafmend/mendplan"
)

// outsideRead reads a file with the standard library of another language:
// its CSV, JSON and XML readers share nothing with ours. It prints how many
// rows, members or elements there are, and fails on what it cannot read.
const outsideRead = `
import csv, json, sys, xml.dom.minidom
for path in sys.argv[1:]:
    text = open(path, encoding="utf-8", newline="").read()
    if path.endswith(".csv"):
        rows = list(csv.reader(text.splitlines(keepends=True), strict=True))
        assert len({len(r) for r in rows}) == 1, "rows of different lengths"
        for r in rows:
            for c in r:
                assert not c or c[0] not in "=+-@\t\r" or c.lstrip("+-").replace(".", "", 1).isdigit(), "a formula: %r" % c
                assert not any(ord(k) < 32 or ord(k) == 127 for k in c), "control characters: %r" % c
        print("csv", len(rows) - 1)
    elif path.endswith(".json"):
        print("json", len(json.loads(text)))
    else:
        doc = xml.dom.minidom.parseString(text.encode("utf-8"))
        print("xml", doc.documentElement.localName, len(doc.getElementsByTagName("*")))
`

// hostileJob is the small job with words that try to break every form.
func hostileJob(t *testing.T, dir string) string {
	t.Helper()
	path := smallJob(t, dir)
	job, _, err := mendplan.LoadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	bad := "=HYPERLINK(\"x\")\x01\x0b\x1b\u2028,;\n\t]]><!--&\"'\u0000"
	job.Title, job.Number, job.Owner, job.Notes = bad, "@1", "+1", "-x"
	job.Leaves[0].Mark, job.Leaves[0].Name, job.Leaves[0].Note = "=1+1\x02", bad, bad
	for i := range job.Leaves[0].Damages {
		job.Leaves[0].Damages[i].Note = bad
	}
	for i := range job.Tissues {
		job.Tissues[i].Name = bad
	}
	for i := range job.Stock {
		job.Stock[i].Currency = "@EUR"
	}
	job.Gatherings = []mendplan.Gathering{{ID: "g", Signature: "=A\"<&\x03", Sheets: []mendplan.SheetPlace{{Leaf: job.Leaves[0].ID, Note: bad}}, Pages: map[int]string{1: bad}}}
	job.Examination = mendplan.Examination{Object: bad, Condition: bad, Author: bad, Risks: bad}
	job = job.AddSteps(mendplan.Step{Leaf: job.Leaves[0].ID, Kind: mendplan.Washed, Date: "2026-03-02", By: bad, Note: bad, Departure: bad, Bath: &mendplan.Bath{Agent: bad}})
	if err := mendplan.SaveFile(path, job); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestOutsideReadersOpenEveryForm(t *testing.T) {
	python, err := exec.LookPath("python3")
	if err != nil {
		t.Skip("python3 is not on this machine, so the forms cannot be read back by its libraries")
	}
	dir := t.TempDir()
	job := hostileJob(t, dir)
	for format, out := range map[string]string{"json": "plan.json", "csv": "pieces.csv", "record": "record.csv", "svg": "svg", "annotations": "anno", "tei": "tei.xml"} {
		if r := mendplanRun("export", "-effort", "20", "-as", format, "-o", filepath.Join(dir, out), job); r.code > exitProblems {
			t.Fatalf("%s gave %+v", format, r)
		}
	}
	files := []string{filepath.Join(dir, "plan.json"), filepath.Join(dir, "pieces.csv"), filepath.Join(dir, "record.csv"), filepath.Join(dir, "tei.xml")}
	for _, folder := range []string{"svg", "anno"} {
		found, err := filepath.Glob(filepath.Join(dir, folder, "*"))
		if err != nil || len(found) == 0 {
			t.Fatalf("nothing in %s: %v", folder, err)
		}
		files = append(files, found...)
	}
	out, err := exec.Command(python, append([]string{"-c", outsideRead}, files...)...).CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	for _, want := range []string{"json 11", "csv 2", "csv 1", "xml svg", "xml collation"} {
		if !strings.Contains(string(out), want) {
			t.Errorf("the outside readers found\n%s, want %q", out, want)
		}
	}
	if lint, err := exec.LookPath("xmllint"); err == nil {
		for _, f := range files {
			if strings.HasSuffix(f, ".json") || strings.HasSuffix(f, ".csv") {
				continue
			}
			if out, err := exec.Command(lint, "--noout", "--nonet", f).CombinedOutput(); err != nil {
				t.Errorf("%s: %v\n%s", filepath.Base(f), err, out)
			}
		}
	}
}

func TestThePrintBearsHostileWords(t *testing.T) {
	info, err := exec.LookPath("pdfinfo")
	if err != nil {
		t.Skip("pdfinfo is not on this machine, so the file cannot be read back by an outside reader")
	}
	dir := t.TempDir()
	job := hostileJob(t, dir)
	file := filepath.Join(dir, "all.pdf")
	if r := mendplanRun("print", "-effort", "20", "-wet", "-way", "both", "-day", "2026-03-02", "-only", "proposal,report,cutlist,templates,estimate,leaves,trimming,order,calendar", "-o", file, job); r.code > exitProblems {
		t.Fatalf("print gave %+v", r)
	}
	out, err := exec.Command(info, file).CombinedOutput()
	if err != nil || strings.Contains(string(out), "rror") || !strings.Contains(string(out), "=HYPERLINK") {
		t.Errorf("%v\n%s", err, out)
	}
	text, err := exec.Command("pdftotext", "-layout", file, "-").CombinedOutput()
	if err != nil || strings.ContainsAny(string(text), "\x01\x02\x03\x0b\x1b") || strings.Contains(string(text), "rror:") {
		t.Errorf("control characters or errors in the print: %v", err)
	}
	if _, err := os.Stat(file); err != nil {
		t.Error(err)
	}
}
