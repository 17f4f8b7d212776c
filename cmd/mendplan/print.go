package main

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"leafmend/assets"
	"leafmend/mendplan"
	"leafmend/mendplan/collate"
	"leafmend/mendplan/nest"
	"leafmend/mendplan/pdf"
	"leafmend/mendplan/scan"
)

// printSet writes the printed set of a job.
func printSet(ctx context.Context, c call) (bool, error) {
	out := c.flags.String("o", "", "the PDF to write")
	effort := c.flags.Int("effort", nest.DefaultEffort, "budget of work for the layout of each tissue")
	options := printOptions(c)
	path, err := c.one("job")
	if err != nil {
		return false, err
	}
	if *out == "" {
		return false, usagef("say with -o which PDF to write")
	}
	opt, err := options()
	if err != nil {
		return false, err
	}
	opt.Picture, opt.After = pictures(ctx, filepath.Dir(path), before), pictures(ctx, filepath.Dir(path), after)
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

// printOptions defines the flags of the print and returns what reads them once
// they are parsed.
func printOptions(c call) func() (pdf.Options, error) {
	only := c.flags.String("only", "", fmt.Sprintf("parts to print, separated by commas, of %v; without it %v", pdf.Parts(), pdf.BenchSet()))
	day := c.flags.String("day", "", "day printed on proposal and report, and the calendar's first, YYYY-MM-DD; the job's own if left out")
	across := c.flags.Float64("bar-across", 0, "what the 100 mm bar across measured on an earlier print, mm; corrects the templates")
	upright := c.flags.Float64("bar-upright", 0, "the same of the upright bar, mm")
	wet := c.flags.Bool("wet", false, "print infills once more as they must be on a wet leaf")
	way := c.flags.String("way", "in", "order of the leaves: in (from the outermost sheet inwards), out (from the centre outward) or both")
	lang := c.flags.String("lang", "en", "language of the print: "+languageCodes())
	return func() (pdf.Options, error) {
		opt := pdf.Options{Day: *day, Version: mendplan.Version, Wet: *wet, Printer: pdf.Printer{BarAcross: *across, BarUpright: *upright}}
		if err := opt.Printer.Check(); err != nil {
			return opt, usageError{err.Error()}
		}
		var err error
		if opt.Tongue, err = tongueOf(*lang); err != nil {
			return opt, err
		}
		if opt.Ways, err = waysOf(*way); err != nil {
			return opt, err
		}
		for _, part := range strings.FieldsFunc(*only, func(r rune) bool { return r == ',' }) {
			p := pdf.Part(strings.TrimSpace(part))
			if !slices.Contains(pdf.Parts(), p) {
				return opt, usagef("there is no part %q; the parts are %v", part, pdf.Parts())
			}
			opt.Only = append(opt.Only, p)
		}
		return opt, nil
	}
}

// tongueOf returns the words of a language; English has none of its own.
func tongueOf(code string) (map[string]string, error) {
	if code == "en" {
		return nil, nil
	}
	words, err := assets.Words(code)
	if err != nil {
		return nil, usagef("-lang may be %s, not %q", languageCodes(), code)
	}
	return words, nil
}

// languageCodes lists the languages there are words for.
func languageCodes() string {
	var codes []string
	for _, l := range assets.Languages() {
		codes = append(codes, l.Code)
	}
	return strings.Join(codes, ", ")
}

// waysOf reads the ways of piling the leaves.
func waysOf(word string) ([]collate.Way, error) {
	switch word {
	case "in":
		return []collate.Way{collate.OutsideIn}, nil
	case "out":
		return []collate.Way{collate.CentreOutward}, nil
	case "both":
		return []collate.Way{collate.OutsideIn, collate.CentreOutward}, nil
	}
	return nil, usagef("-way may be in, out or both, not %q", word)
}

func before(s mendplan.Side) mendplan.Scan { return s.Scan }
func after(s mendplan.Side) mendplan.Scan  { return s.After }

// pictures opens scans and makes them small enough to print.
func pictures(ctx context.Context, folder string, which func(mendplan.Side) mendplan.Scan) func(mendplan.Leaf, mendplan.SideName) (pdf.Picture, error) {
	return func(leaf mendplan.Leaf, side mendplan.SideName) (pdf.Picture, error) {
		s := which(leaf.SideOf(side))
		pic, err := scan.Open(ctx, mendplan.ScanPath(folder, s), scan.OpenOptions{Page: s.Page})
		if err != nil {
			return pdf.Picture{}, err
		}
		defer pic.Close()
		return pdf.MakePicture(pic.Thumbnail(pdf.Longest), pic.Info().Width, pic.Info().Height)
	}
}
