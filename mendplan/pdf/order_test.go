package pdf_test

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"os/exec"
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/pdf"
)

// darkLeft is a picture whose left half is dark and whose right half is light.
func darkLeft(mendplan.Leaf, mendplan.SideName) (pdf.Picture, error) {
	img := image.NewGray(image.Rect(0, 0, 354, 248))
	for y := range 248 {
		for x := range 354 {
			img.SetGray(x, y, color.Gray{Y: uint8(60 + 170*(x/177))})
		}
	}
	var b bytes.Buffer
	err := jpeg.Encode(&b, img, nil)
	return pdf.Picture{JPEG: b.Bytes(), FullWidth: 3543, FullHeight: 2480}, err
}

// orderText prints the order alone and reads it back.
func orderText(t *testing.T, job mendplan.Job, plan mendplan.Plan, ways ...collate.Way) string {
	t.Helper()
	out, err := exec.Command(reader(t, "pdftotext"), "-layout", save(t, write(t, job, plan, pdf.Options{Only: []pdf.Part{pdf.Order}, Ways: ways})), "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

func TestTheTickSheetShowsTheSideThatFacesUpAsItLies(t *testing.T) {
	job, plan := wholeJob()
	job.Gatherings[0].Sheets = job.Gatherings[0].Sheets[:1]
	shade := func(edge []geom.Pt) (left, right uint8) {
		leaf := job.Leaves[0]
		leaf.Back.TrueEdge = edge
		img := tenPerMM(t, save(t, write(t, job.WithLeaf(leaf), plan, pdf.Options{Only: []pdf.Part{pdf.Order}, Picture: darkLeft})), 2)
		// The first row's thumbnail is 34 mm wide, from 60 mm on; its middle
		// lies 58 mm below the top or so.
		at := func(x int) uint8 { return color.GrayModel.Convert(img.At(x, 585)).(color.Gray).Y }
		return at(690), at(860)
	}
	if l, r := shade([]geom.Pt{{X: 0, Y: 0}, {X: 3543, Y: 0}, {X: 3543, Y: 2480}, {X: 0, Y: 2480}}); l > 90 || r < 200 {
		t.Errorf("lying straight: left %d, right %d", l, r)
	}
	if l, r := shade([]geom.Pt{{X: 3543, Y: 2480}, {X: 0, Y: 2480}, {X: 0, Y: 0}, {X: 3543, Y: 0}}); l < 200 || r > 90 {
		t.Errorf("lying on its head: left %d, right %d", l, r)
	}
}

func TestTheOrderIsPrintedForBothWays(t *testing.T) {
	job, plan := wholeJob()
	in := orderText(t, job, plan)
	both := orderText(t, job, plan, collate.OutsideIn, collate.CentreOutward)
	if strings.Contains(in, "From the centre outward") || !strings.Contains(both, "From the centre outward") || !strings.Contains(both, "outer side (front) up") {
		t.Errorf("the ways are not printed as asked:\n%s", both)
	}
	for _, r := range collate.Order(job, collate.OutsideIn) {
		for _, n := range []string{r.Left, r.Right} {
			if !strings.Contains(in, n) {
				t.Errorf("page %q is not on the sheet", n)
			}
		}
	}
	if n := strings.Count(in, "1st, time"); n != 1 {
		t.Errorf("%d columns for the first check", n)
	}
}

func TestChecksMadeAreOnThePaperCopy(t *testing.T) {
	job, plan := wholeJob()
	job.Orders = []mendplan.OrderCheck{{Date: "2026-03-09", Time: "10:15", By: "A. Bencher", Result: "in order"},
		{Date: "2026-03-09", Time: "11:40", By: "C. Second", Result: "leaf 2 turned", Wrong: true}}
	text := orderText(t, job, plan)
	for _, want := range []string{"10:15", "C. Second", "not in order: leaf 2 turned"} {
		if !strings.Contains(text, want) {
			t.Errorf("not said: %q\n%s", want, text)
		}
	}
}

// Four layers of 0.1 mm on one half of a sheet near the fold, two on the
// other: nested, they add up to 0.6 mm there.
func TestTheOrderTellsHowThickTheMendsMakeAGathering(t *testing.T) {
	job, plan := wholeJob()
	job.Tissues[0].ThicknessMM = 0.1
	job.Gatherings[0].Sheets = job.Gatherings[0].Sheets[:1]
	p := plan.Pieces[1]
	p.Outline, p.Role = box(150, 80, 10, 40), mendplan.RoleMend // the fold is at 150 mm
	other := p
	other.Outline = box(140, 80, 10, 40)
	plan.Pieces = []mendplan.Piece{p, p, p, p, other, other}
	text := orderText(t, job, plan)
	for _, want := range []string{"Thickness the mends add", "at the fold", "0.60 mm"} {
		if !strings.Contains(text, want) {
			t.Errorf("not said: %q\n%s", want, text)
		}
	}
	if strings.Contains(text, "worked out from its weight") {
		t.Error("a measured thickness is said to be worked out")
	}
}
