package ui

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/export"
)

// exportForm is one open form the plan can be written in.
type exportForm struct {
	words, suffix string
	side          bool // of the side that is shown, rather than of the job
	write         func(io.Writer, mendplan.Job, mendplan.Plan, mendplan.Leaf, mendplan.SideName) error
}

// exportForms lists the forms in the order offered.
func exportForms() []exportForm {
	return []exportForm{
		{t("Table of the pieces (CSV)"), ".csv", false, func(out io.Writer, j mendplan.Job, p mendplan.Plan, _ mendplan.Leaf, _ mendplan.SideName) error {
			return export.WriteCSV(out, j, p)
		}},
		{t("The whole plan for other programs (JSON)"), ".json", false, func(out io.Writer, j mendplan.Job, p mendplan.Plan, _ mendplan.Leaf, _ mendplan.SideName) error {
			e := json.NewEncoder(out)
			e.SetIndent("", " ")
			return e.Encode(export.PlanOf(j, p))
		}},
		{t("This side as a drawing in millimetres (SVG)"), ".svg", true, export.WriteSVG},
		{t("Damages of this side as web annotations (JSON)"), ".json", true, export.WriteAnnotations},
	}
}

// exportDialog asks in which form and where to write the plan.
func (w *Window) exportDialog() {
	forms := exportForms()
	words := make([]string, len(forms))
	for i, f := range forms {
		words[i] = f.words
	}
	pick := widget.NewRadioGroup(words, nil)
	pick.SetSelected(words[0])
	w.ask(t("Export"), t("Write…"), []fyne.CanvasObject{pick}, nil, func() string {
		form := forms[selectedIndex(pick)]
		w.next = func() { w.nameAndExport(form) }
		return ""
	})
}

func (w *Window) nameAndExport(form exportForm) {
	name := "plan"
	if p := w.session.Path(); p != "" {
		name = strings.TrimSuffix(filepath.Base(p), filepath.Ext(p))
	}
	leaf, _ := w.session.Leaf()
	if form.side {
		name += fmt.Sprintf("-%s-%s", leaf.Mark, w.session.Side())
	}
	w.choose(choosing{title: t("Export"), verb: t("Write"), suffix: []string{form.suffix}, name: fileName(name) + form.suffix}, func(paths []string) {
		job, plan, side := w.session.Job(), w.session.Plan(), w.session.Side()
		w.aside(t("Writing"), func(ctx context.Context) error {
			return mendplan.WriteFile(paths[0], func(out io.Writer) error {
				if err := form.write(out, job, plan, leaf, side); err != nil {
					return err
				}
				return ctx.Err() // stopped: what was there stays
			})
		}, func(err error) {
			if err != nil {
				w.tellError(err)
				return
			}
			w.status.say(t("Written: %s", paths[0]))
		})
	})
}
