package ui

import (
	"fyne.io/fyne/v2"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
	"leafmend/mendplan/pdf"
)

// Ways of the order in print.
const (
	waysIn   = "in"
	waysOut  = "out"
	waysBoth = "both"
)

// printWish is how the set is to be printed, kept while the window is open.
type printWish struct {
	wet  bool
	ways string
}

// waysOf returns the ways of piling the leaves that are to be printed.
func (p printWish) waysOf() []collate.Way {
	switch p.ways {
	case waysOut:
		return []collate.Way{collate.CentreOutward}
	case waysBoth:
		return []collate.Way{collate.OutsideIn, collate.CentreOutward}
	}
	return []collate.Way{collate.OutsideIn}
}

// printFields are the fields of the print dialog beside the parts. take reads
// them when the user agrees and returns words of complaint, or "".
func (w *Window) printFields() (fields []fyne.CanvasObject, take func() string) {
	wet := newCheck(t("Infills once more, for the wet leaf"), nil)
	wet.Checked = w.printing.wet
	ways := newChoice(func(id string) { w.printing.ways = id })
	ways.set([]string{waysIn, waysOut, waysBoth}, []string{t("from the outermost sheet inwards"), t("from the centre outward"), t("both ways")}, w.printing.ways)
	if w.printing.ways == "" {
		ways.SetSelectedIndex(0)
	}
	across, upright := w.newEntry(), w.newEntry()
	show := func(e *dialogEntry, mm float64) {
		e.SetPlaceHolder("100 mm")
		if mm > 0 {
			e.SetText(figures("%g", mm))
		}
	}
	was := w.settings.Printer()
	show(across, was.BarAcross)
	show(upright, was.BarUpright)
	fields = []fyne.CanvasObject{wet, labelled(t("Order"), ways),
		small(t("What the bars of 100 mm measured on your last print; the templates are corrected by it. Leave empty for a printer that is true.")),
		labelled(t("Bar across"), across), labelled(t("Bar upright"), upright)}
	return fields, func() string {
		a, err := barOf(across.Text)
		b, err2 := barOf(upright.Text)
		if err != nil || err2 != nil {
			return t("Write what a bar measured in millimetres, such as 99.2, or leave it empty.")
		}
		printer := pdf.Printer{BarAcross: a, BarUpright: b}
		if printer.Check() != nil {
			return t("A bar measures between 90 and 110 mm. Beyond that the page was fitted to the paper: print it unscaled and measure again.")
		}
		w.settings.SetPrinter(printer)
		w.printing.wet = wet.Checked
		return ""
	}
}

// barOf reads the length of a bar; nothing is 0.
func barOf(text string) (float64, error) {
	if text == "" {
		return 0, nil
	}
	return mendplan.ParseLength(text, mendplan.Millimetres)
}

// Printer is what the check bars measured on the user's printer; it belongs to
// the printer and not to a job.
func (s settings) Printer() pdf.Printer {
	return pdf.Printer{BarAcross: s.p.FloatWithFallback("bar_across_mm", 0), BarUpright: s.p.FloatWithFallback("bar_upright_mm", 0)}
}

func (s settings) SetPrinter(p pdf.Printer) {
	s.p.SetFloat("bar_across_mm", p.BarAcross)
	s.p.SetFloat("bar_upright_mm", p.BarUpright)
}
