package main

import (
	"bytes"
	"context"
	"encoding/binary"
	"encoding/json"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// result is what one run of the program gave.
type result struct {
	code      int
	out, errs string
}

func mendplanRun(args ...string) result {
	var out, errs bytes.Buffer
	code := run(context.Background(), args, &out, &errs)
	return result{code, out.String(), errs.String()}
}

// leafOnDark is a light leaf on a dark backing, 600 × 400 pixels.
func leafOnDark() image.Image {
	img := image.NewRGBA(image.Rect(0, 0, 600, 400))
	for y := range 400 {
		for x := range 600 {
			c := color.RGBA{25, 25, 27, 255}
			if x >= 40 && x < 560 && y >= 30 && y < 370 {
				c = color.RGBA{235, 226, 205, 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	return img
}

// leafPNG is that leaf, in a file that says 300
// pixels to the inch (11811 to the metre, PNG pHYs).
func leafPNG(t *testing.T, path string) {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, leafOnDark()); err != nil {
		t.Fatal(err)
	}
	phys := []byte{0, 0, 0, 9, 'p', 'H', 'Y', 's', 0, 0, 0x2e, 0x23, 0, 0, 0x2e, 0x23, 1}
	phys = binary.BigEndian.AppendUint32(phys, crc32.ChecksumIEEE(phys[4:]))
	data := b.Bytes()
	at := 8 + 25 // signature and header chunk
	data = bytes.Join([][]byte{data[:at], phys, data[at:]}, nil)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
}

// smallJob makes a job with one traced tear and one loss in dir.
func smallJob(t *testing.T, dir string) string {
	t.Helper()
	leafPNG(t, filepath.Join(dir, "1f.png"))
	path := filepath.Join(dir, "job.leafmend")
	if r := mendplanRun("new", "-o", path, "-edges", filepath.Join(dir, "1f.png")); r.code != exitProblems && r.code != exitDone {
		t.Fatalf("new gave %+v", r)
	}
	job, _, err := mendplan.LoadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	job, _ = job.AddDamage("L1", mendplan.Damage{Kind: mendplan.Tear, Side: mendplan.Front, Points: []geom.Pt{{X: 40, Y: 200}, {X: 120, Y: 210}, {X: 200, Y: 190}}})
	job, _ = job.AddDamage("L1", mendplan.Damage{Kind: mendplan.Loss, Side: mendplan.Front, Points: []geom.Pt{{X: 300, Y: 150}, {X: 360, Y: 150}, {X: 350, Y: 200}}})
	if err := mendplan.SaveFile(path, job); err != nil {
		t.Fatal(err)
	}
	return path
}

// German words are longer: nothing in the print may be cut short for them.
func TestTheGermanPrintIsWholeAndGerman(t *testing.T) {
	reader, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not on this machine, so the print cannot be read back")
	}
	dir := t.TempDir()
	job := smallJob(t, dir)
	j, _, err := mendplan.LoadFile(job)
	if err != nil {
		t.Fatal(err)
	}
	j.Press = mendplan.PressRoom{Openings: 2, Blotters: 8}
	j.Gatherings = []mendplan.Gathering{{ID: "c", Cover: true, Sheets: []mendplan.SheetPlace{{Missing: mendplan.AllMissing}}}, {ID: "g", Sheets: []mendplan.SheetPlace{{Leaf: j.Leaves[0].ID}}}}
	j = j.AddSteps(mendplan.Step{Leaf: j.Leaves[0].ID, Kind: mendplan.SurfaceCleaned, Date: "2026-03-02", By: "A. B."})
	if err := mendplan.SaveFile(job, j); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(dir, "de.pdf")
	if r := mendplanRun("print", "-lang", "de", "-effort", "20", "-wet", "-way", "both", "-day", "2026-03-02", "-bar-across", "99",
		"-only", "proposal,report,cutlist,templates,estimate,leaves,trimming,order,calendar", "-o", file, job); r.code > exitProblems {
		t.Fatalf("print gave %+v", r)
	}
	out, err := exec.Command(reader, "-layout", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"Vorschlag zur Behandlung", "Behandlungsbericht", "Schnittliste", "März 2026", "trocken gereinigt", "U2", "Lage Umschlag", "Verschnitt"} {
		if !strings.Contains(string(out), want) {
			t.Errorf("the German print does not say %q", want)
		}
	}
	for _, line := range strings.Split(string(out), "\n") {
		if strings.Contains(line, "…") {
			t.Errorf("cut short: %q", line)
		}
	}
	if r := mendplanRun("print", "-lang", "xx", "-o", file, job); r.code != exitUsage {
		t.Errorf("an unknown language gave %+v", r)
	}
}

func TestPrintRefusesWhatNoPrinterDoes(t *testing.T) {
	dir := t.TempDir()
	job := smallJob(t, dir)
	for _, args := range [][]string{{"-bar-across", "80"}, {"-bar-upright", "x"}, {"-way", "sideways"}, {"-only", "poem"}} {
		if r := mendplanRun(append([]string{"print", "-o", filepath.Join(dir, "x.pdf"), job}, args...)...); r.code != exitUsage {
			t.Errorf("%v gave %+v", args, r)
		}
	}
	if r := mendplanRun("print", "-effort", "20", "-wet", "-way", "both", "-bar-across", "99.2", "-bar-upright", "98.5", "-o", filepath.Join(dir, "x.pdf"), job); r.code > exitProblems {
		t.Errorf("print gave %+v", r)
	}
}

func TestFromScanToPrintedSet(t *testing.T) {
	dir := t.TempDir()
	job := smallJob(t, dir)
	r := mendplanRun("plan", "-json", "-effort", "20", job)
	var plan struct {
		Pieces []struct {
			Label     string
			OutlineMM [][][2]float64 `json:"outline_mm"`
			AreaMM2   float64        `json:"area_mm2"`
		}
		Sheets []struct {
			Placements []struct{ Label string }
			Cuts       []struct{ Step int }
		}
		Estimate struct {
			Paste struct {
				BatchG float64 `json:"batch_g"`
			}
		}
	}
	if err := json.Unmarshal([]byte(r.out), &plan); err != nil {
		t.Fatalf("exit %d: %v\n%s%s", r.code, err, r.out, r.errs)
	}
	if len(plan.Pieces) < 2 || len(plan.Sheets) == 0 || plan.Estimate.Paste.BatchG < 80 {
		t.Errorf("the plan is not complete:\n%s", r.out)
	}
	for _, p := range plan.Pieces {
		if p.AreaMM2 <= 0 || len(p.OutlineMM) == 0 {
			t.Errorf("piece %s has no outline or no area", p.Label)
		}
	}
	file := filepath.Join(dir, "set.pdf")
	words := mendplanRun("plan", "-effort", "20", job).out
	for _, want := range []string{"why 1b-1a: on the back: ", "missing at damage 2 of leaf 1: ", "swell of the bifolia, nested: "} {
		if !strings.Contains(words, want) {
			t.Errorf("the plan in words does not tell %q:\n%s", want, words)
		}
	}
	if r := mendplanRun("print", "-effort", "20", "-o", file, job); r.code > exitProblems {
		t.Fatalf("print gave %+v", r)
	}
	if data, err := os.ReadFile(file); err != nil || !bytes.HasPrefix(data, []byte("%PDF-")) {
		t.Errorf("there is no PDF: %v", err)
	}
	for _, format := range []string{"json", "csv", "svg", "annotations", "calendar", "tei"} {
		if r := mendplanRun("export", "-effort", "20", "-day", "2026-03-05", "-as", format, "-o", filepath.Join(dir, "out-"+format), job); r.code > exitProblems {
			t.Errorf("export as %s gave %+v", format, r)
		}
	}
}

func TestInspectTellsScaleAndOutline(t *testing.T) {
	dir := t.TempDir()
	leafPNG(t, filepath.Join(dir, "a.png"))
	r := mendplanRun("inspect", "-json", filepath.Join(dir, "a.png"))
	var got []struct {
		Format           string
		Width, Height    int
		Orientation      int
		DPIX             float64 `json:"dpi_x"`
		ResolutionSource string  `json:"resolution_source"`
		Outline          [][2]float64
		Losses           []any
		Problems         []string
	}
	if err := json.Unmarshal([]byte(r.out), &got); err != nil || len(got) != 1 {
		t.Fatalf("%v\n%+v", err, r)
	}
	g := got[0]
	if g.Format != "PNG" || g.Width != 600 || g.Height != 400 || g.Orientation != 1 || g.DPIX < 299.9 || g.DPIX > 300.1 || !strings.Contains(g.ResolutionSource, "pHYs") {
		t.Errorf("got %+v", g)
	}
	if len(g.Outline) < 4 || g.Losses == nil {
		t.Errorf("outline %v, losses %v", g.Outline, g.Losses)
	}
}

func TestTheLayoutAloneFromTables(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		p := filepath.Join(dir, name)
		if err := os.WriteFile(p, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return p
	}
	stockHead := "tissue,kind,length_mm,width_mm,count,grain_along,margin_mm,price\n"
	pieces := write("p.csv", "label,tissue,length_mm,width_mm,count,grain\nA,T,300,20,3,along\nB,T,50,40,2,across\nC,T,60,60,1,free\n")
	stock := write("s.csv", stockHead+"T,sheet,940,640,2,width,10,4\nT,remnant,120,90,1,length,0,0\n")
	r := mendplanRun("cutlist", "-json", "-effort", "20", "-gap", "3", "-pieces", pieces, "-stock", stock)
	if r.code != exitDone {
		t.Fatalf("got %+v", r)
	}
	var got struct {
		Sheets []struct {
			Stock      string
			WidthMM    float64 `json:"width_mm"`
			LengthMM   float64 `json:"length_mm"`
			GrainAlong string  `json:"grain_along"`
			Placements []struct {
				Label  string
				X      float64 `json:"x_mm"`
				Y      float64 `json:"y_mm"`
				W      float64 `json:"width_mm"`
				L      float64 `json:"length_mm"`
				Turned bool
			}
		}
		Unplaced []any
	}
	if err := json.Unmarshal([]byte(r.out), &got); err != nil {
		t.Fatal(err)
	}
	count := map[string]int{}
	for _, s := range got.Sheets {
		for _, p := range s.Placements {
			count[p.Label]++
			if p.X < 0 || p.Y < 0 || p.X+p.W > s.WidthMM+1e-6 || p.Y+p.L > s.LengthMM+1e-6 {
				t.Errorf("%s leaves its sheet: %+v on %+v", p.Label, p, s)
			}
			// The length of A runs with the grain; on S1 that is the width.
			if p.Label == "A" && s.GrainAlong == "width" && (p.W != 300 || p.L != 20 || !p.Turned) {
				t.Errorf("A lies against the grain: %+v", p)
			}
		}
	}
	if count["A"] != 3 || count["B"] != 2 || count["C"] != 1 || len(got.Unplaced) > 0 {
		t.Errorf("placed %v", count)
	}
	big := write("big.csv", "label,tissue,length_mm,width_mm,count,grain\nX,T,2000,20,1,along\n")
	if r := mendplanRun("cutlist", "-effort", "20", "-pieces", big, "-stock", stock); r.code != exitProblems || !strings.Contains(r.out, "not placed: 1 × X") {
		t.Errorf("a piece too long gave %+v", r)
	}
	for name, want := range map[string]string{
		"label,tissue,length_mm,width_mm,count\nA,T,3,3,1\n":                    "no column \"grain\"",
		"label,tissue,length_mm,width_mm,count,grain\nA,T,ten,3,1,along\n":      "line 2",
		"label,tissue,length_mm,width_mm,count,grain\nA,T,3,3,1,sideways\n":     "along, across or free",
		"label,tissue,length_mm,width_mm,count,grain\nA,T,3,3,1,\nA,T,3,3,1,\n": "line 2 already",
		"label,tissue,length_mm,width_mm,count,grain\nA,T,NaN,3,1,\n":           "not a number",
		"": "empty",
		"label,tissue,length_mm,width_mm,count,grain\n\"A,T,3,3,1,along\n": "not CSV",
	} {
		if r := mendplanRun("cutlist", "-effort", "20", "-pieces", write("bad.csv", name), "-stock", stock); r.code != exitFile || !strings.Contains(r.errs, want) {
			t.Errorf("table %q gave %+v, want %q", name, r, want)
		}
	}
}

func TestWrongUsageIsToldAndGivesCode2(t *testing.T) {
	for _, args := range [][]string{
		{"paint"}, {"new"}, {"new", "-o", "x.leafmend"}, {"new", "-pair", "luck", "-o", "x.leafmend", "a.jpg"}, {"plan"}, {"plan", "a", "b"},
		{"print", "job"}, {"print", "-o", "x.pdf", "-only", "poem", "job"}, {"export", "-o", "x", "job"}, {"export", "-as", "poem", "-o", "x", "job"},
		{"cutlist"}, {"cutlist", "-pieces", "p.csv"}, {"follow", "a.jpg", "1,1"}, {"follow", "a.jpg", "1,1", "here"}, {"inspect"}, {"plan", "-fast", "job"},
	} {
		if r := mendplanRun(args...); r.code != exitUsage || r.out != "" || r.errs == "" {
			t.Errorf("%v gave %+v, want code 2 and a message", args, r)
		}
	}
}

func TestFilesThatCannotBeReadGiveCode3AndWriteNothing(t *testing.T) {
	dir := t.TempDir()
	bad := filepath.Join(dir, "bad.leafmend")
	if err := os.WriteFile(bad, []byte(`{"format":"leafmend job"`), 0o600); err != nil {
		t.Fatal(err)
	}
	notAPicture := filepath.Join(dir, "n.jpg")
	if err := os.WriteFile(notAPicture, []byte("hello"), 0o600); err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(dir, "out.pdf")
	for _, args := range [][]string{
		{"plan", filepath.Join(dir, "none.leafmend")}, {"check", bad}, {"print", "-o", out, bad}, {"export", "-as", "csv", "-o", out, bad},
		{"inspect", notAPicture}, {"new", "-o", filepath.Join(dir, "new.leafmend"), notAPicture}, {"new", "-o", bad, notAPicture},
		{"cutlist", "-pieces", "none.csv", "-stock", "none.csv"},
	} {
		r := mendplanRun(args...)
		if r.code != exitFile || r.out != "" || strings.TrimSpace(r.errs) == "" {
			t.Errorf("%v gave %+v, want code 3 and a message", args, r)
		}
	}
	for _, name := range []string{out, filepath.Join(dir, "new.leafmend")} {
		if _, err := os.Stat(name); err == nil {
			t.Errorf("%s was written", name)
		}
	}
}

func TestAJobWhoseScanMovedOrChangedStillPlans(t *testing.T) {
	dir := t.TempDir()
	job := smallJob(t, dir)
	before, err := os.ReadFile(job)
	if err != nil {
		t.Fatal(err)
	}
	scan := filepath.Join(dir, "1f.png")
	if err := os.Rename(scan, scan+".moved"); err != nil {
		t.Fatal(err)
	}
	if r := mendplanRun("check", job); r.code != exitProblems || !strings.Contains(r.out, "1f.png is not there") {
		t.Errorf("a moved scan gave %+v", r)
	}
	if r := mendplanRun("plan", "-effort", "20", job); r.code != exitProblems || !strings.Contains(r.out, "1b-1") {
		t.Errorf("without its scan the job does not plan: %+v", r)
	}
	if err := os.WriteFile(scan, []byte("another picture"), 0o600); err != nil {
		t.Fatal(err)
	}
	if r := mendplanRun("check", job); r.code != exitProblems || !strings.Contains(r.out, "not the file the damages were traced on") {
		t.Errorf("a changed scan gave %+v", r)
	}
	if after, _ := os.ReadFile(job); !bytes.Equal(before, after) {
		t.Error("the job file was changed")
	}
}

func TestNewNeverOverwritesAJob(t *testing.T) {
	dir := t.TempDir()
	job := smallJob(t, dir)
	before, _ := os.ReadFile(job)
	if r := mendplanRun("new", "-o", job, filepath.Join(dir, "1f.png")); r.code != exitFile || !strings.Contains(r.errs, "already") {
		t.Errorf("got %+v", r)
	}
	if after, _ := os.ReadFile(job); !bytes.Equal(before, after) {
		t.Error("the job was overwritten")
	}
}

func TestFollowGoesThroughItsPoints(t *testing.T) {
	dir := t.TempDir()
	leafPNG(t, filepath.Join(dir, "a.png"))
	r := mendplanRun("follow", "-json", filepath.Join(dir, "a.png"), "40,100", "40,200", "40,300")
	var got struct{ Points [][2]float64 }
	if err := json.Unmarshal([]byte(r.out), &got); err != nil || r.code != exitDone {
		t.Fatalf("%v %+v", err, r)
	}
	first, last := got.Points[0], got.Points[len(got.Points)-1]
	if first != [2]float64{40, 100} || last != [2]float64{40, 300} {
		t.Errorf("the path leads from %v to %v", first, last)
	}
	for _, p := range got.Points {
		if p[0] < 34 || p[0] > 46 {
			t.Errorf("the path strays from the edge it follows: %v", p)
		}
	}
	if r := mendplanRun("follow", filepath.Join(dir, "a.png"), "40,100", "4000,1"); r.code != exitUsage {
		t.Errorf("a point outside the picture gave %+v", r)
	}
}

func TestACalendarNeedsItsFirstDay(t *testing.T) {
	dir := t.TempDir()
	job, out := smallJob(t, dir), filepath.Join(dir, "c.ics")
	if r := mendplanRun("export", "-effort", "20", "-as", "calendar", "-o", out, job); r.code != exitUsage || !strings.Contains(r.errs, "-day") {
		t.Errorf("got %+v", r)
	}
	if r := mendplanRun("export", "-effort", "20", "-as", "calendar", "-day", "2026-03-05", "-o", out, job); r.code > exitProblems {
		t.Errorf("got %+v", r)
	}
	if data, err := os.ReadFile(out); err != nil || !strings.Contains(string(data), "DTSTART:20260305T090000") {
		t.Errorf("%v\n%s", err, data)
	}
}

func TestHelpNamesEveryVerb(t *testing.T) {
	if v := mendplanRun("version"); v.out != "mendplan "+mendplan.Version+"\n" {
		t.Errorf("version says %q", v.out)
	}
	r := mendplanRun("help")
	for _, v := range verbs {
		if !strings.Contains(r.out, "mendplan "+v.name) {
			t.Errorf("help does not name %s", v.name)
		}
		if h := mendplanRun(v.name, "-h"); h.code != exitDone || !strings.Contains(h.out, v.does) {
			t.Errorf("%s -h gave %+v", v.name, h)
		}
	}
}
