package pdf_test

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/jpeg"
	"os/exec"
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/pdf"
)

// shade is a picture of one grey.
func shade(grey uint8) func(mendplan.Leaf, mendplan.SideName) (pdf.Picture, error) {
	return func(mendplan.Leaf, mendplan.SideName) (pdf.Picture, error) {
		img := image.NewGray(image.Rect(0, 0, 354, 248))
		for i := range img.Pix {
			img.Pix[i] = grey
		}
		var b bytes.Buffer
		err := jpeg.Encode(&b, img, nil)
		return pdf.Picture{JPEG: b.Bytes(), FullWidth: 3543, FullHeight: 2480}, err
	}
}

func reportText(t *testing.T, job mendplan.Job, plan mendplan.Plan, opt pdf.Options) (text, images string) {
	t.Helper()
	path := save(t, write(t, job, plan, opt))
	out, err := exec.Command(reader(t, "pdftotext"), "-layout", path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	list, err := exec.Command(reader(t, "pdfimages"), "-list", path).Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out), string(list)
}

func TestTheReportShowsBeforeAndAfterAndTheMendsOfEveryLeaf(t *testing.T) {
	job, plan := wholeJob()
	leaf := job.Leaves[0]
	leaf.Front.After, leaf.Back.After = leaf.Front.Scan, leaf.Back.Scan
	job = job.WithLeaf(leaf)
	text, images := reportText(t, job, plan, pdf.Options{Only: []pdf.Part{pdf.Report}, Picture: shade(120), After: shade(220)})
	for _, want := range []string{"Leaf 1: outer sheet", "Mends", "Before treatment", "After treatment"} {
		if !strings.Contains(text, want) {
			t.Errorf("not said: %q\n%s", want, text)
		}
	}
	// Two sides as they were, each drawn for the mends and by itself, and two
	// after: six places.
	if n := strings.Count(images, "image"); n != 6 {
		t.Errorf("%d pictures are placed:\n%s", n, images)
	}
	for _, p := range plan.Pieces {
		if !strings.Contains(text, p.Label) {
			t.Errorf("piece %s is not in the report", p.Label)
		}
	}
	job = job.WithLeaf(func() mendplan.Leaf {
		leaf.Front.After, leaf.Back.After = mendplan.Scan{}, mendplan.Scan{}
		return leaf
	}())
	if text, _ := reportText(t, job, plan, pdf.Options{Only: []pdf.Part{pdf.Report}, Picture: shade(120), After: shade(220)}); !strings.Contains(text, "no picture after treatment") {
		t.Error("a leaf without a picture after treatment is passed over")
	}
}

// Only what is on leaves has been added to the object.
func TestMaterialsAddedAreThoseOfMendedLeavesOnly(t *testing.T) {
	job, plan := wholeJob()
	before, _ := reportText(t, job, plan, pdf.Options{Only: []pdf.Part{pdf.Report}})
	if strings.Contains(before, "kozo tissue, 5 g/m²             ") || strings.Contains(before, "5 g/m²: ") {
		t.Errorf("tissue is reported as added though no leaf is mended:\n%s", before)
	}
	job = job.AddSteps(mendplan.Step{Leaf: "L1", Kind: mendplan.MendedStep, Date: "2026-03-06", By: "A. Bencher", Batch: "P1"})
	after, _ := reportText(t, job, plan, pdf.Options{Only: []pdf.Part{pdf.Report}})
	for _, want := range []string{"5 g/m²: 3 pieces", "12.5 % starch by mass", "used on leaves 1"} {
		if !strings.Contains(after, want) {
			t.Errorf("not said: %q\n%s", want, after)
		}
	}
}

func TestManyLeavesInOneBathAreOneLine(t *testing.T) {
	job, plan := wholeJob()
	job.Steps = nil
	for i := range 60 {
		id := fmt.Sprintf("X%d", i)
		job.Leaves = append(job.Leaves, mendplan.Leaf{ID: id, Mark: fmt.Sprintf("m%d", i)})
		job = job.AddSteps(mendplan.Step{Leaf: id, Kind: mendplan.Washed, Date: "2026-03-04", By: "A. B.", Bath: &mendplan.Bath{Agent: "tap water", Minutes: 20, PHAfter: 7.1}})
	}
	text, _ := reportText(t, job, plan, pdf.Options{Only: []pdf.Part{pdf.Report}})
	if n := strings.Count(text, "tap water"); n != 1 {
		t.Errorf("one bath of sixty leaves is told %d times", n)
	}
	for _, want := range []string{"m0,", "m59", "bath pH ? to 7.1", "60 of 62 leaves"} {
		if !strings.Contains(text, want) {
			t.Errorf("not said: %q\n%s", want, text)
		}
	}
}

func TestTheProposalOffersWaysWithHoursAndCost(t *testing.T) {
	job, plan := wholeJob()
	job.Tissues = append(job.Tissues, mendplan.Tissue{ID: "T2", Name: "kozo tissue, 3.5 g/m²", Grammage: 3.5})
	job.Stock = append(job.Stock, mendplan.Stock{ID: "S2", Tissue: "T2", Kind: mendplan.SheetStock, LengthMM: 970, WidthMM: 640, Count: 1, Price: 4.5, Currency: "EUR"})
	job.Leaves[0].Damages[0].Severity = mendplan.Severe
	plan = mendplan.Assemble(context.Background(), job, plan.Pieces, nil, -1, nil)
	text, _ := reportText(t, job, plan, pdf.Options{Only: []pdf.Part{pdf.Proposal}})
	for _, want := range []string{"Ways to do it", "everything, as planned", "losses left unfilled", "only what is severe or unstable", "another tissue: kozo tissue, 3.5",
		"6.00 EUR", "4.50 EUR", "work at the bench", "getting leaves ready", "tier 1 of 5 (under 1 h)", "put together from"} {
		if !strings.Contains(strings.Join(strings.Fields(text), " "), want) {
			t.Errorf("not said: %q\n%s", want, text)
		}
	}
}

func TestTheEstimateTellsWhatToOrderAndWhatALeafCosts(t *testing.T) {
	job, plan := wholeJob()
	plan = mendplan.Assemble(context.Background(), job, plan.Pieces, nil, -1, nil)
	text, _ := reportText(t, job, plan, pdf.Options{Only: []pdf.Part{pdf.Estimate}})
	for _, want := range []string{"How far each sheet goes", "To have at hand, with 10 % spare", "to order", "Leaf by leaf", "1 outer sheet", "together"} {
		if !strings.Contains(text, want) {
			t.Errorf("not said: %q\n%s", want, text)
		}
	}
}

func TestAHeadingStandsOnThePageOfItsTable(t *testing.T) {
	job, plan := wholeJob()
	pages := 0
	for n := range 40 {
		job.Notes = strings.Repeat("A line of notes that fills the width of the page and a little more of it. ", n)
		text, _ := reportText(t, job, plan, pdf.Options{Only: []pdf.Part{pdf.Report}})
		for _, page := range strings.Split(text, "\f") {
			if i := strings.Index(page, "Losses"); i >= 0 {
				pages++
				if !strings.Contains(page[i:], "mass at") {
					t.Errorf("%d lines of notes: the table of losses is not on the page of its heading:\n%s", n, page)
				}
			}
		}
	}
	if pages != 40 {
		t.Errorf("%d headings were looked at", pages)
	}
}
