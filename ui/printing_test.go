package ui

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"leafmend/mendplan/collate"
	"leafmend/mendplan/pdf"
)

func TestThePrinterIsRememberedAndTheTemplatesAreCorrectedByIt(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	trace(t, w)
	fields, take := w.printFields()
	if len(fields) == 0 {
		t.Fatal("no fields")
	}
	across, upright := entryIn(fields[3]), entryIn(fields[4])
	for text, well := range map[string]bool{"99.2": true, "": true, "80": false, "wide": false, "98,5": true} {
		across.SetText(text)
		if words := take(); (words == "") != well {
			t.Errorf("%q: %q", text, words)
		}
	}
	across.SetText("99.2")
	upright.SetText("98.5")
	if words := take(); words != "" {
		t.Fatal(words)
	}
	if p := w.settings.Printer(); p != (pdf.Printer{BarAcross: 99.2, BarUpright: 98.5}) {
		t.Errorf("remembered %+v", p)
	}
	path := filepath.Join(t.TempDir(), "t.pdf")
	w.writePDF(path, w.session.Job(), []pdf.Part{pdf.Templates}, false)
	reader, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not on this machine, so the print cannot be read back")
	}
	out, err := exec.Command(reader, path, "-").Output()
	if err != nil || !strings.Contains(string(out), "Corrected for a printer") {
		t.Errorf("the print is not corrected: %v\n%s", err, out)
	}
	if _, err := os.Stat(path); err != nil {
		t.Error(err)
	}
}

func TestTheOrderIsPrintedForTheWaysChosen(t *testing.T) {
	for ways, n := range map[string]int{"": 1, waysIn: 1, waysOut: 1, waysBoth: 2} {
		got := printWish{ways: ways}.waysOf()
		if len(got) != n || ways == waysOut && got[0] != collate.CentreOutward {
			t.Errorf("%q prints %v", ways, got)
		}
	}
}
