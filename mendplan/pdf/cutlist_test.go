package pdf_test

import (
	"context"
	"fmt"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/pdf"
)

// blankJob is a job of rectangles to be cut from sheets of 300 × 200 mm, a
// millimetre apart.
func blankJob(lots ...[3]float64) (mendplan.Job, mendplan.Plan) {
	job := mendplan.Job{Title: "Strips", Leaves: []mendplan.Leaf{{ID: "L1", Mark: "1"}},
		Tissues: []mendplan.Tissue{{ID: "T1", Name: "kozo tissue, 5 g/m²", Grammage: 5}},
		Stock:   []mendplan.Stock{{ID: "S1", Tissue: "T1", Kind: mendplan.SheetStock, LengthMM: 300, WidthMM: 200, Count: 20, MarginMM: 5}}}
	job = job.WithRule(mendplan.CutGap, mendplan.Num(1))
	var pieces []mendplan.Piece
	for _, lot := range lots {
		for range int(lot[0]) {
			n := len(pieces) + 1
			a := box(0, 0, lot[2], lot[1])
			pieces = append(pieces, mendplan.Piece{Label: fmt.Sprintf("1b-%da", n), Leaf: "L1", Damage: n, Side: mendplan.Back, Tissue: "T1", Role: mendplan.RoleMend,
				Outline: a, AreaMM2: a.Area(), BlankLengthMM: lot[1], BlankWidthMM: lot[2], BlankDeg: 90, BlankCentre: geom.Pt{X: lot[2] / 2, Y: lot[1] / 2}})
		}
	}
	layouts, problems := mendplan.Layouts(context.Background(), job, pieces, -1, nil)
	return job, mendplan.Plan{Pieces: pieces, Layouts: layouts, Problems: problems}
}

func cutText(t *testing.T, job mendplan.Job, plan mendplan.Plan) string {
	t.Helper()
	out, err := exec.Command(reader(t, "pdftotext"), "-layout", save(t, write(t, job, plan, pdf.Options{Only: []pdf.Part{pdf.CutList}})), "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

func TestSheetsCutAlikeAreDrawnOnceWithAllTheirPieces(t *testing.T) {
	job, plan := blankJob([3]float64{27, 280, 20}) // nine to a sheet
	if n := len(plan.Layouts[0].Layout.Sheets); n != 3 {
		t.Fatalf("%d sheets, want 3", n)
	}
	text := cutText(t, job, plan)
	for _, want := range []string{"Sheets 1 to 3", "3 sheets are cut alike", "piece no. 9", "pieces, in the order of sheets 1 to 3"} {
		if !strings.Contains(text, want) {
			t.Errorf("not said: %q", want)
		}
	}
	if strings.Contains(text, "Sheet 2:") || strings.Contains(text, "Sheet 3:") {
		t.Error("a sheet that is cut like another is drawn again")
	}
	for _, p := range plan.Pieces {
		if n := len(regexp.MustCompile(`\b`+regexp.QuoteMeta(p.Label)+`\b`).FindAllString(text, -1)); n != 2 {
			t.Errorf("piece %s stands %d times, want the list of pieces and the list by sheet", p.Label, n)
		}
	}
}

func TestStepsSayWhatGoesTogetherAndWhenTheRulerStays(t *testing.T) {
	job, plan := blankJob([3]float64{8, 150, 20}, [3]float64{8, 110, 20})
	s := plan.Layouts[0].Layout.Sheets[0]
	with, again, band := 0, 0, 0
	for _, c := range s.Cuts {
		if c.With > 0 {
			with++
		}
		if c.Again {
			again++
		}
		if c.Band > 0 {
			band++
		}
	}
	if with == 0 || again == 0 || band == 0 {
		t.Fatalf("the layout has %d cuts together, %d at the same setting, %d with a band: nothing to print", with, again, band)
	}
	text := cutText(t, job, plan)
	band++ // once in the words above the drawing
	for what, n := range map[string]int{"as cut": with, "ruler stays": again, "band": band} {
		if got := strings.Count(text, what); got != n {
			t.Errorf("%q stands %d times, the layout has %d", what, got, n)
		}
	}
	if !strings.Contains(text, "lay on part") {
		t.Error("the first of equal parts does not say which are laid on it")
	}
}

// Every measure printed must lead to the pieces when followed with a ruler
// from the paper alone: the sizes of parts and the places of lines are read
// back from the print and cut again.
func TestFollowingThePrintedStepsGivesThePieces(t *testing.T) {
	job, plan := blankJob([3]float64{5, 120, 30}, [3]float64{4, 75, 20}, [3]float64{3, 40, 44})
	text := cutText(t, job, plan)
	row := regexp.MustCompile(`(?m)^\s+(\d+)\s+(the sheet|part (\d+), ([\d.]+) × ([\d.]+) mm)\s+(top|left) edge\s+([\d.]+) mm\s+(\S.*)$`)
	side := regexp.MustCompile(`part (\d+), ([\d.]+) × ([\d.]+) mm|piece (\S+)|keep (\S+)|waste`)
	num := func(s string) float64 { v, _ := strconv.ParseFloat(s, 64); return v }
	parts := map[string][2]float64{"": {300, 200}} // along the grain, across
	freed := map[string][2]float64{}
	steps := 0
	for _, m := range row.FindAllStringSubmatch(text, -1) {
		steps++
		if n := int(num(m[1])); n != steps {
			t.Fatalf("step %d follows step %d", n, steps-1)
		}
		p, ok := parts[m[3]]
		if !ok || m[3] != "" && (num(m[4]) != p[0] || num(m[5]) != p[1]) {
			t.Fatalf("step %d asks for a part of %s × %s mm; what lies there is %v", steps, m[4], m[5], p)
		}
		delete(parts, m[3])
		at := num(m[7])
		near, far := p, p
		axis := 0
		if m[6] == "left" {
			axis = 1
		}
		near[axis], far[axis] = at, p[axis]-at
		sides := side.FindAllStringSubmatch(m[8], 2)
		for i, s := range sides {
			r := [][2]float64{near, far}[i]
			switch {
			case s[1] != "":
				r[axis] = min(r[axis], []float64{num(s[2]), num(s[3])}[axis]) // less the band
				parts[s[1]] = r
			case s[4] != "":
				freed[s[4]] = r
			}
		}
	}
	if steps == 0 || steps != len(plan.Layouts[0].Layout.Sheets[0].Cuts) {
		t.Fatalf("%d steps read, the layout has %d:\n%s", steps, len(plan.Layouts[0].Layout.Sheets[0].Cuts), text)
	}
	for _, p := range plan.Pieces {
		r, ok := freed[p.Label]
		if !ok || r[0] < p.BlankLengthMM-0.06 || r[1] < p.BlankWidthMM-0.06 || r[0] > p.BlankLengthMM+1.06 || r[1] > p.BlankWidthMM+1.06 {
			t.Errorf("piece %s comes out as %v mm, want %g × %g", p.Label, r, p.BlankLengthMM, p.BlankWidthMM)
		}
	}
	if !strings.Contains(text, "keep S1-1a") || !strings.Contains(text, "Back to stock") {
		t.Error("the remnant has no name to write on it")
	}
}

func TestTinyPiecesKeepTheirLabelsBesideTheSheet(t *testing.T) {
	job, plan := blankJob([3]float64{6, 280, 20}, [3]float64{30, 5, 3})
	text := cutText(t, job, plan)
	for _, p := range plan.Pieces {
		if n := strings.Count(text, p.Label); n < 3 {
			t.Errorf("piece %s stands %d times, want list, drawing and step", p.Label, n)
		}
	}
}

// A triangle in a square blank: its long side runs from corner to corner of
// the blank as drawn, where the drawing of a full square has nothing.
func TestTheShapeToBeCutStandsInItsBlank(t *testing.T) {
	job, plan := blankJob([3]float64{1, 180, 180})
	ink := func(outline geom.Area) int {
		plan.Pieces[0].Outline, plan.Pieces[0].AreaMM2 = outline, outline.Area()
		img := tenPerMM(t, save(t, write(t, job, plan, pdf.Options{Only: []pdf.Part{pdf.CutList}})), 2)
		n := 0
		for y := 400; y < 1700; y++ {
			for x := 130; x < 1400; x++ {
				if g, _, _, _ := img.At(x, y).RGBA(); g < 0xb000 {
					n++
				}
			}
		}
		return n
	}
	square := ink(box(0, 0, 176, 176))
	triangle := ink(geom.Area{{{X: 0, Y: 0}, {X: 176, Y: 176}, {X: 0, Y: 176}}})
	if triangle < square+300 {
		t.Errorf("%d dark dots with the square, %d with the triangle", square, triangle)
	}
}

func TestPiecesThatShareABlankAreToldHowToPart(t *testing.T) {
	job, plan := blankJob([3]float64{2, 60, 80})
	for i := range plan.Pieces {
		p := &plan.Pieces[i]
		p.Outline = geom.Area{{{X: 0, Y: 0}, {X: 80, Y: 0}, {X: 0, Y: 60}}}
		p.Role, p.AreaMM2 = mendplan.RoleFill, p.Outline.Area()
	}
	job.Stock[0].WidthMM, job.Stock[0].LengthMM = 100, 80 // room for one rectangle, not for two
	plan.Layouts, plan.Problems = mendplan.Layouts(context.Background(), job, plan.Pieces, -1, nil)
	if s := plan.Layouts[0].Layout.Sheets; len(s) != 1 || s[0].Places[0].Share == nil {
		t.Fatalf("the pieces do not share a blank: %+v", s)
	}
	text := strings.Join(strings.Fields(cutText(t, job, plan)), " ")
	for _, want := range []string{"two in one, see below", "part each with one straight cut", "edge,", "2 pieces,"} {
		if !strings.Contains(text, want) {
			t.Errorf("not said: %q\n%s", want, text)
		}
	}
	for _, p := range plan.Pieces {
		if n := strings.Count(text, p.Label); n < 4 {
			t.Errorf("piece %s stands %d times, want list, drawing, step and parting", p.Label, n)
		}
	}
}
