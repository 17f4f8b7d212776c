package main

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/nest"
	"leafmend/mendplan/pdf"
	"leafmend/mendplan/scan"
)

// printSet writes the printed set of a job.
func printSet(ctx context.Context, c call) (bool, error) {
	out := c.flags.String("o", "", "the PDF to write")
	only := c.flags.String("only", "", fmt.Sprintf("parts to print, separated by commas, of %v; without it %v", pdf.Parts(), pdf.BenchSet()))
	day := c.flags.String("day", "", "day printed on proposal and report, and the calendar's first, YYYY-MM-DD; the job's own if left out")
	effort := c.flags.Int("effort", nest.DefaultEffort, "budget of work for the layout of each tissue")
	path, err := c.one("job")
	if err != nil {
		return false, err
	}
	if *out == "" {
		return false, usagef("say with -o which PDF to write")
	}
	opt := pdf.Options{Picture: pictures(ctx, filepath.Dir(path)), Day: *day, Version: mendplan.Version}
	for _, part := range strings.FieldsFunc(*only, func(r rune) bool { return r == ',' }) {
		p := pdf.Part(strings.TrimSpace(part))
		if !knownPart(p) {
			return false, usagef("there is no part %q; the parts are %v", part, pdf.Parts())
		}
		opt.Only = append(opt.Only, p)
	}
	job, problems, err := openJob(path)
	if err != nil {
		return false, err
	}
	p := computeWith(ctx, job, *effort)
	p.Problems = append(problems, p.Problems...)
	if err := mendplan.WriteFile(*out, func(w io.Writer) error { return pdf.Write(w, job, p, opt) }); err != nil {
		return false, err
	}
	listProblems(c.err, job, p.Problems)
	return len(p.Problems) > 0, nil
}

func knownPart(p pdf.Part) bool {
	for _, q := range pdf.Parts() {
		if p == q {
			return true
		}
	}
	return false
}

// pictures opens scans and makes them small enough to print.
func pictures(ctx context.Context, folder string) func(mendplan.Leaf, mendplan.SideName) (pdf.Picture, error) {
	return func(leaf mendplan.Leaf, side mendplan.SideName) (pdf.Picture, error) {
		s := leaf.SideOf(side).Scan
		pic, err := scan.Open(ctx, mendplan.ScanPath(folder, s), scan.OpenOptions{Page: s.Page})
		if err != nil {
			return pdf.Picture{}, err
		}
		defer pic.Close()
		return pdf.MakePicture(pic.Thumbnail(pdf.Longest), pic.Info().Width, pic.Info().Height)
	}
}
