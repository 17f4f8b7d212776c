package ui

import (
	"bytes"
	"context"
	"errors"
	"io"
	"net/url"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/pdf"
	"leafmend/mendplan/scan"
)

// partWords names the parts of the printed set for the user.
func partWords(p pdf.Part) string {
	switch p {
	case pdf.CutList:
		return t("Cut list, with a drawing of each sheet")
	case pdf.Templates:
		return t("Templates at true size")
	case pdf.Estimate:
		return t("Estimate of tissue and paste")
	case pdf.Leaves:
		return t("Leaves with damages and pieces")
	case pdf.Trimming:
		return t("Edges to trim")
	case pdf.Order:
		return t("Order of the leaves")
	case pdf.Calendar:
		return t("Calendar")
	case pdf.Proposal:
		return t("Proposal for the owner")
	case pdf.Report:
		return t("Report for the owner and the file")
	}
	return string(p)
}

// printDialog asks what to print and writes it as a PDF.
func (w *Window) printDialog() {
	var checks []*keyCheck
	head := small(t("The set is written as a PDF and opened in your viewer. Print it at 100 %, not “fit to page”, and measure the bar of 100 mm."))
	parts := container.NewVBox()
	bench := map[pdf.Part]bool{}
	for _, p := range pdf.BenchSet() {
		bench[p] = true
	}
	for _, p := range pdf.Parts() {
		c := newCheck(partWords(p), nil)
		c.Checked = bench[p]
		checks = append(checks, c)
		parts.Add(c)
	}
	paper := widget.NewRadioGroup([]string{string(mendplan.A4), string(mendplan.Letter)}, nil)
	paper.Horizontal = true
	paper.SetSelected(string(mendplan.A4))
	if w.session.Job().Paper == mendplan.Letter {
		paper.SetSelected(string(mendplan.Letter))
	}
	show := newCheck(t("Open it when it is written"), nil)
	show.Checked = true
	more, take := w.printFields()
	more = append([]fyne.CanvasObject{labelled(t("Paper"), paper)}, append(more, show)...)
	hold, held := w.heldBack()
	fields := []fyne.CanvasObject{head, hold, container.NewGridWithColumns(2, parts, container.NewVBox(more...))}
	w.askWide(t("Print"), t("Write the PDF…"), fields, nil, func() string {
		var only []pdf.Part
		for i, p := range pdf.Parts() {
			if checks[i].Checked {
				only = append(only, p)
			}
		}
		if len(only) == 0 {
			return t("Choose at least one part.")
		}
		if words := held(only); words != "" {
			return words
		}
		if words := take(); words != "" {
			return words
		}
		job := w.session.Job()
		job.Paper = mendplan.Paper(paper.Selected)
		w.next = func() { w.nameAndPrint(job, only, show.Checked) }
		return ""
	})
}

// nameAndPrint asks where to write once the form before has gone.
func (w *Window) nameAndPrint(job mendplan.Job, only []pdf.Part, show bool) {
	name := "cut list.pdf"
	if p := w.session.Path(); p != "" {
		base := filepath.Base(p)
		name = base[:len(base)-len(filepath.Ext(base))] + ".pdf"
	}
	w.choose(choosing{title: t("Write the PDF"), verb: t("Write"), suffix: []string{".pdf"}, name: name}, func(paths []string) {
		w.writePDF(paths[0], job, only, show)
	})
}

// writePDF prints aside, with progress and a way to stop; a file that was
// there stays until the new one is whole.
func (w *Window) writePDF(path string, job mendplan.Job, only []pdf.Part, show bool) {
	ctx, stop := context.WithCancel(context.Background())
	plan, base := w.session.Plan(), w.session.base
	fresh := w.session.PlanIsFresh()
	sides := 0
	opt := pdf.Options{Only: only, Version: w.opt.Version, Tongue: catalogue,
		Printer: w.settings.Printer(), Wet: w.printing.wet, Ways: w.printing.waysOf()}
	w.status.begin(t("Writing the PDF"), stop)
	w.work.start(func() error {
		if !fresh {
			pieces, problems := w.looks.pieces(job)
			plan = w.looks.finish(ctx, mendplan.Search{Effort: quickEffort}, job, pieces, problems)
		}
		opt.Picture = func(leaf mendplan.Leaf, side mendplan.SideName) (pdf.Picture, error) {
			sides++
			w.work.report(func() { w.status.done(float64(sides) / float64(2*len(job.Leaves)+1)) })
			return smallPicture(ctx, mendplan.ScanPath(base, leaf.SideOf(side).Scan), leaf.SideOf(side).Scan.Page)
		}
		opt.After = func(leaf mendplan.Leaf, side mendplan.SideName) (pdf.Picture, error) {
			after := leaf.SideOf(side).After
			return smallPicture(ctx, mendplan.ScanPath(base, after), after.Page)
		}
		var b bytes.Buffer
		if err := pdf.Write(&b, job, plan, opt); err != nil {
			return err
		}
		if ctx.Err() != nil {
			return ctx.Err()
		}
		return mendplan.WriteFile(path, func(out io.Writer) error { _, err := out.Write(b.Bytes()); return err })
	}, func(err error) {
		w.status.end()
		stop()
		switch {
		case errors.Is(err, context.Canceled):
			w.status.say(t("Stopped; nothing was written."))
		case err != nil:
			w.tellError(err)
		default:
			w.printed(path, show)
		}
	})
}

// printed tells where the set is and opens it with the system's viewer.
func (w *Window) printed(path string, show bool) {
	w.log().Info("printed")
	w.guide.did(guidePrinted)
	w.written(path, show)
}

// written tells where a PDF is and opens it if that is wanted.
func (w *Window) written(path string, show bool) {
	w.status.say(t("Written: %s", path))
	if !show {
		return
	}
	if err := w.app.OpenURL(&url.URL{Scheme: "file", Path: filepath.ToSlash(path)}); err != nil {
		w.status.say(t("Written: %s. No viewer could be opened; open it yourself.", path))
	}
}

// smallPicture makes a scan small enough to print.
func smallPicture(ctx context.Context, path string, page int) (pdf.Picture, error) {
	pic, err := scan.Open(ctx, path, scan.OpenOptions{Page: page})
	if err != nil {
		return pdf.Picture{}, err
	}
	defer pic.Close()
	return pdf.MakePicture(pic.Thumbnail(pdf.Longest), pic.Info().Width, pic.Info().Height)
}
