package pdf_test

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/nest"
	"leafmend/mendplan/pdf"
)

// box returns a rectangle of the leaf frame as an area.
func box(x, y, w, h float64) geom.Area {
	return geom.Area{{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}}
}

// pts makes points of pairs of numbers.
func pts(xy ...float64) []geom.Pt {
	var out []geom.Pt
	for i := 0; i+1 < len(xy); i += 2 {
		out = append(out, geom.Pt{X: xy[i], Y: xy[i+1]})
	}
	return out
}

// twoLeaves is a small job with a plan made by hand: a strip, a piece on the
// back, and a guard longer than a page.
func twoLeaves(paper mendplan.Paper) (mendplan.Job, mendplan.Plan) {
	side := mendplan.Side{Scan: mendplan.Scan{Path: "1f.jpg", Width: 3543, Height: 2480},
		Calibration: mendplan.Calibration{Origin: mendplan.FromFile, MMPerPxX: 25.4 / 300, MMPerPxY: 25.4 / 300}}
	job := mendplan.Job{Title: "Annual of the Lantern Club ạ→≥", Paper: paper,
		Leaves: []mendplan.Leaf{
			{ID: "L1", Mark: "1", Name: "outer sheet", Front: side, Back: side, Damages: []mendplan.Damage{
				{Number: 1, Kind: mendplan.Tear, Side: mendplan.Front, Points: []geom.Pt{{X: 0, Y: 1000}, {X: 900, Y: 1010}}},
				{Number: 2, Kind: mendplan.Loss, Side: mendplan.Back, Points: []geom.Pt{{X: 3000, Y: 100}, {X: 3400, Y: 120}, {X: 3300, Y: 500}}}}},
			{ID: "L2", Mark: "2"},
		},
		Tissues: []mendplan.Tissue{{ID: "T1", Name: "kozo tissue, 5 g/m²", Grammage: 5}},
		Stock:   []mendplan.Stock{{ID: "S1", Tissue: "T1", Kind: mendplan.SheetStock, LengthMM: 970, WidthMM: 640, Count: 2, MarginMM: 10, Price: 6, Currency: "EUR"}}}
	piece := func(label string, damage int, s mendplan.SideName, a geom.Area, l, w, deg float64) mendplan.Piece {
		return mendplan.Piece{Label: label, Leaf: "L1", Damage: damage, Side: s, Tissue: "T1", Style: mendplan.Strips, Role: mendplan.RoleMend, Order: 1,
			Outline: a, AreaMM2: a.Area(), PasteMM2: a.Area(), BlankLengthMM: l, BlankWidthMM: w, BlankDeg: deg, BlankCentre: a[0][0]}
	}
	pieces := []mendplan.Piece{
		piece("1f-1", 1, mendplan.Front, box(0, 80, 76.2, 12.7), 80.2, 16.7, 0),
		piece("1b-2", 2, mendplan.Back, geom.Area{{{X: 10, Y: 5}, {X: 45, Y: 5}, {X: 10, Y: 40}}}, 39, 39, 90),
		piece("1b-3", 2, mendplan.Back, box(140, 0, 20, 412), 416, 24, 90),
	}
	layouts, problems := mendplan.Layouts(context.Background(), job, pieces, -1, nil)
	return job, mendplan.Plan{Pieces: pieces, Layouts: layouts, Problems: problems,
		Estimate: mendplan.Estimate{Tissues: []mendplan.TissueEstimate{{Tissue: "T1", Pieces: 3, Sheets: 1}}, Paste: mendplan.EstimatePaste(8000, mendplan.InForce{})}}
}

func write(t *testing.T, job mendplan.Job, plan mendplan.Plan, opt pdf.Options) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Write(&b, job, plan, opt); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// greyPicture stands in for a scan.
func greyPicture(mendplan.Leaf, mendplan.SideName) (pdf.Picture, error) {
	img := image.NewGray(image.Rect(0, 0, 354, 248))
	for i := range img.Pix {
		img.Pix[i] = 200
	}
	var b bytes.Buffer
	err := jpeg.Encode(&b, img, nil)
	return pdf.Picture{JPEG: b.Bytes(), FullWidth: 3543, FullHeight: 2480}, err
}

func TestTheSamePlanGivesTheSameBytes(t *testing.T) {
	job, plan := twoLeaves(mendplan.A4)
	first := write(t, job, plan, pdf.Options{Picture: greyPicture})
	for range 3 {
		if !bytes.Equal(first, write(t, job, plan, pdf.Options{Picture: greyPicture})) {
			t.Fatal("a second print of the same plan differs")
		}
	}
}

func TestEveryPartGivesTheSameBytesEachTime(t *testing.T) {
	job, plan := wholeJob()
	opt := pdf.Options{Only: pdf.Parts(), Picture: darkLeft, After: greyPicture, Day: "2026-03-05", Wet: true, Printer: pdf.Printer{BarAcross: 99}}
	leaf := job.Leaves[0]
	leaf.Front.After, leaf.Back.After = leaf.Front.Scan, leaf.Back.Scan
	job = job.WithLeaf(leaf)
	// Pictures of one width and of different greys: the library would put
	// them into the file in a chance order.
	opt.Picture = func(_ mendplan.Leaf, side mendplan.SideName) (pdf.Picture, error) {
		return shade(map[mendplan.SideName]uint8{mendplan.Front: 40, mendplan.Back: 80}[side])(leaf, side)
	}
	opt.After = func(_ mendplan.Leaf, side mendplan.SideName) (pdf.Picture, error) {
		return shade(map[mendplan.SideName]uint8{mendplan.Front: 120, mendplan.Back: 160}[side])(leaf, side)
	}
	first := write(t, job, plan, opt)
	for range 12 {
		if !bytes.Equal(first, write(t, job, plan, opt)) {
			t.Fatal("a second print of the same job differs")
		}
	}
}

func TestPartsAreChosen(t *testing.T) {
	job, plan := twoLeaves(mendplan.A4)
	all := write(t, job, plan, pdf.Options{})
	one := write(t, job, plan, pdf.Options{Only: []pdf.Part{pdf.Estimate}})
	if len(one) >= len(all) {
		t.Error("one part is as long as the whole set")
	}
	var b bytes.Buffer
	if err := pdf.Write(&b, job, plan, pdf.Options{Only: []pdf.Part{"poem"}}); err == nil || b.Len() > 0 {
		t.Errorf("an unknown part gave %d bytes and %v", b.Len(), err)
	}
	if err := pdf.Write(&b, mendplan.Job{}, mendplan.Plan{}, pdf.Options{}); err == nil || b.Len() > 0 {
		t.Errorf("nothing to print gave %d bytes and %v", b.Len(), err)
	}
}

// reader finds one of the tools of the Poppler project, an independent reader
// of PDF; cmd/dev installs them for the tests.
func reader(t *testing.T, name string) string {
	t.Helper()
	p, err := exec.LookPath(name)
	if err != nil {
		t.Skipf("%s is not on this machine, so the file cannot be read back by an outside reader", name)
	}
	return p
}

func save(t *testing.T, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "out.pdf")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// A4 is 210 × 297 mm (ISO 216), US Letter 8½ × 11 in (ANSI/ASME Y14.1).
func TestPagesHaveTheSizeOfThePaper(t *testing.T) {
	info := reader(t, "pdfinfo")
	for _, c := range []struct {
		paper mendplan.Paper
		w, h  float64 // points
	}{{mendplan.A4, 210 / 25.4 * 72, 297 / 25.4 * 72}, {mendplan.Letter, 8.5 * 72, 11 * 72}} {
		job, plan := twoLeaves(c.paper)
		out, err := exec.Command(info, "-f", "1", "-l", "99", save(t, write(t, job, plan, pdf.Options{}))).CombinedOutput()
		if err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		sizes := regexp.MustCompile(`size:\s+([\d.]+) x ([\d.]+) pts`).FindAllStringSubmatch(string(out), -1)
		if len(sizes) < 5 {
			t.Fatalf("%d pages, want at least five\n%s", len(sizes), out)
		}
		for _, s := range sizes {
			w, _ := strconv.ParseFloat(s[1], 64)
			h, _ := strconv.ParseFloat(s[2], 64)
			if math.Abs(w-c.w) > 0.05 || math.Abs(h-c.h) > 0.05 {
				t.Errorf("%s: a page of %v × %v points, want %.2f × %.2f", c.paper, w, h, c.w, c.h)
			}
		}
	}
}

// tenPerMM draws a page at 254 dots to the inch: ten to the millimetre.
func tenPerMM(t *testing.T, path string, page int) image.Image {
	t.Helper()
	base := filepath.Join(t.TempDir(), "page")
	out, err := exec.Command(reader(t, "pdftoppm"), "-r", "254", "-png", "-gray", "-f", fmt.Sprint(page), "-singlefile", path, base).CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	f, err := os.Open(base + ".png")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return img
}

func dark(img image.Image, x, y int) bool {
	return color.GrayModel.Convert(img.At(x, y)).(color.Gray).Y < 128
}

// longestRun returns the longest dark run along rows (across) or columns.
func longestRun(img image.Image, across bool) int {
	b := img.Bounds()
	outer, inner := b.Dx(), b.Dy()
	if across {
		outer, inner = inner, outer
	}
	best := 0
	for o := range outer {
		run := 0
		for i := range inner {
			x, y := o, i
			if across {
				x, y = i, o
			}
			if run++; !dark(img, x, y) {
				run = 0
			}
			best = max(best, run)
		}
	}
	return best
}

func TestTheCheckBarsMeasureAHundredMillimetres(t *testing.T) {
	job, plan := twoLeaves(mendplan.A4)
	plan.Pieces = plan.Pieces[1:2] // a small piece, so that the bars are the longest lines
	path := save(t, write(t, job, plan, pdf.Options{Only: []pdf.Part{pdf.Templates}}))
	img := tenPerMM(t, path, 1)
	if w, h := img.Bounds().Dx(), img.Bounds().Dy(); math.Abs(float64(w)-2100) > 1 || math.Abs(float64(h)-2970) > 1 {
		t.Fatalf("the page is %d × %d tenths of a millimetre", w, h)
	}
	// A line 0.2 mm thick with square or butt ends: 100 to 100.3 mm.
	for _, across := range []bool{true, false} {
		if run := longestRun(img, across); run < 998 || run > 1005 {
			t.Errorf("bar across %v: %d tenths of a millimetre, want 1000", across, run)
		}
	}
}

func TestATemplateIsTrueToSizeAndGrainRunsUp(t *testing.T) {
	job, plan := twoLeaves(mendplan.A4)
	plan.Pieces = plan.Pieces[:1] // 76.2 × 12.7 mm, grain across the leaf
	img := tenPerMM(t, save(t, write(t, job, plan, pdf.Options{Only: []pdf.Part{pdf.Templates}})), 1)
	// The piece lies in the upper left corner, upright.
	x0, x1, y0, y1 := 9999, 0, 9999, 0
	for y := 240; y < 1018; y++ {
		for x := 110; x < 260; x++ {
			if dark(img, x, y) {
				x0, x1, y0, y1 = min(x0, x), max(x1, x), min(y0, y), max(y1, y)
			}
		}
	}
	if w, h := x1-x0, y1-y0; math.Abs(float64(w)-128) > 3 || math.Abs(float64(h)-763) > 3 {
		t.Errorf("the template measures %.1f × %.1f mm, want 12.7 × 76.2", float64(w)/10, float64(h)/10)
	}
}

func TestALongPieceIsTiledWithMarksOnBothPages(t *testing.T) {
	job, plan := twoLeaves(mendplan.A4)
	plan.Pieces = plan.Pieces[2:]
	path := save(t, write(t, job, plan, pdf.Options{Only: []pdf.Part{pdf.Templates}}))
	out, err := exec.Command(reader(t, "pdftotext"), "-layout", path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	text := string(out)
	for _, want := range []string{"tile 1 of 2", "tile 2 of 2", "1b-3", "True size"} {
		if !strings.Contains(text, want) {
			t.Errorf("the tiles do not say %q:\n%s", want, text)
		}
	}
	if n := strings.Count(text, "B1"); n != 2 {
		t.Errorf("the mark between the tiles stands on %d pages, want both", n)
	}
}

func TestTheBackIsPrintedMirrored(t *testing.T) {
	job, plan := twoLeaves(mendplan.A4)
	plan.Pieces = plan.Pieces[1:2] // right angle at the leaf frame's upper left
	img := tenPerMM(t, save(t, write(t, job, plan, pdf.Options{Only: []pdf.Part{pdf.Templates}})), 1)
	// Seen from the back, and grain already upright, the right angle lies at
	// the upper right: the right edge is a full-length line.
	left, right := 0, 0
	for y := 230; y < 590; y++ {
		for d := -3; d <= 3; d++ {
			if dark(img, 120+d, y) {
				left++
				break
			}
		}
		for d := -3; d <= 3; d++ {
			if dark(img, 470+d, y) {
				right++
				break
			}
		}
	}
	if right < 300 || left > 60 {
		t.Errorf("dark along the left %d, along the right %d of 360: the back is not mirrored", left, right)
	}
}

func TestPrintDialogsAreAskedNotToScale(t *testing.T) {
	job, plan := twoLeaves(mendplan.A4)
	data := write(t, job, plan, pdf.Options{})
	if !bytes.Contains(data, []byte("/PrintScaling /None")) {
		t.Error("the file does not ask for no scaling")
	}
	out, err := exec.Command(reader(t, "pdfinfo"), save(t, data)).CombinedOutput()
	if err != nil || bytes.Contains(out, []byte("rror")) {
		t.Errorf("an outside reader finds fault with the file: %v\n%s", err, out)
	}
}

func TestEveryPieceStandsOnListSheetAndTemplate(t *testing.T) {
	job, plan := twoLeaves(mendplan.Letter)
	path := save(t, write(t, job, plan, pdf.Options{Picture: greyPicture}))
	out, err := exec.Command(reader(t, "pdftotext"), "-layout", path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range plan.Pieces {
		if n := strings.Count(string(out), p.Label); n < 4 {
			t.Errorf("piece %s stands %d times in the set, want list, sheet, step, template and leaf", p.Label, n)
		}
	}
}

func TestAPictureThatIsGoneIsSaidInItsPlace(t *testing.T) {
	job, plan := twoLeaves(mendplan.A4)
	gone := func(mendplan.Leaf, mendplan.SideName) (pdf.Picture, error) {
		return pdf.Picture{}, fmt.Errorf("1f.jpg: the file is not there")
	}
	path := save(t, write(t, job, plan, pdf.Options{Picture: gone, Only: []pdf.Part{pdf.Leaves}}))
	out, err := exec.Command(reader(t, "pdftotext"), path, "-").Output()
	if err != nil || !strings.Contains(string(out), "The picture is not here") {
		t.Errorf("%v\n%s", err, out)
	}
}

func TestCutsAreListedInTheOrderOfTheLayout(t *testing.T) {
	job, plan := twoLeaves(mendplan.A4)
	var sheet nest.Sheet
	for _, l := range plan.Layouts {
		sheet = l.Layout.Sheets[0]
	}
	if len(sheet.Cuts) == 0 {
		t.Fatal("the layout has no cuts")
	}
	out, err := exec.Command(reader(t, "pdftotext"), "-layout", save(t, write(t, job, plan, pdf.Options{Only: []pdf.Part{pdf.CutList}})), "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	at := 0
	for _, c := range sheet.Cuts {
		i := regexp.MustCompile(fmt.Sprintf(`(?m)^\s+%d\s+(the sheet|part %d)`, c.Step, c.Part)).FindStringIndex(string(out[at:]))
		if i == nil {
			t.Fatalf("step %d is not listed after the one before it:\n%s", c.Step, out)
		}
		at += i[0]
	}
}

func TestPicturesAreMadeSmallForPrint(t *testing.T) {
	p, err := pdf.MakePicture(image.NewRGBA(image.Rect(0, 0, 3000, 1500)), 12000, 6000)
	if err != nil || p.FullWidth != 12000 || p.FullHeight != 6000 {
		t.Fatalf("%+v, %v", p, err)
	}
	c, err := jpeg.DecodeConfig(bytes.NewReader(p.JPEG))
	if err != nil || c.Width != pdf.Longest || c.Height != pdf.Longest/2 {
		t.Errorf("made %d × %d, %v", c.Width, c.Height, err)
	}
}
