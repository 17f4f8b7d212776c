package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
	"leafmend/mendplan/course"
	"leafmend/mendplan/export"
	"leafmend/mendplan/nest"
	"leafmend/mendplan/phrase"
)

const exportFormats = "json, csv, record, svg, annotations, calendar or tei"

// exportJob writes an open form of a job and its plan. SVG and annotations
// are a folder with a file for each side, the others one file.
func exportJob(ctx context.Context, c call) (bool, error) {
	as := c.flags.String("as", "", exportFormats)
	out := c.flags.String("o", "", "the file, or for svg and annotations the folder, to write")
	day := c.flags.String("day", "", "first day at the bench for the calendar, YYYY-MM-DD; the job's own if left out")
	effort := c.flags.Int("effort", nest.DefaultEffort, "budget of work for the layout of each tissue")
	lang := c.flags.String("lang", "en", "language of the calendar: "+languageCodes())
	path, err := c.one("job")
	if err != nil {
		return false, err
	}
	if *out == "" {
		return false, usagef("say with -o where to write")
	}
	tongue, err := tongueOf(*lang)
	if err != nil {
		return false, err
	}
	write, ok := exporters[*as]
	if !ok {
		return false, usagef("-as may be %s, not %q", exportFormats, *as)
	}
	job, problems, err := openJob(path)
	if err != nil {
		return false, err
	}
	p := computeWith(ctx, job, *effort)
	if err := write(exportTo{*out, *day, tongue}, job, p); err != nil {
		return false, err
	}
	problems = append(problems, p.Problems...)
	listProblems(c.err, job, problems)
	return len(problems) > 0, nil
}

// exportTo is where an open form goes, and the calendar's first day and words.
type exportTo struct {
	path, day string
	tongue    map[string]string
}

// exporters writes each form.
var exporters = map[string]func(exportTo, mendplan.Job, mendplan.Plan) error{
	"json": func(to exportTo, job mendplan.Job, p mendplan.Plan) error {
		return mendplan.WriteFile(to.path, func(w io.Writer) error { return printJSON(w, export.PlanOf(job, p)) })
	},
	"csv": func(to exportTo, job mendplan.Job, p mendplan.Plan) error {
		return mendplan.WriteFile(to.path, func(w io.Writer) error { return export.WriteCSV(w, job, p) })
	},
	"record": func(to exportTo, job mendplan.Job, _ mendplan.Plan) error {
		return mendplan.WriteFile(to.path, func(w io.Writer) error { return export.WriteRecord(w, job) })
	},
	"svg": func(to exportTo, job mendplan.Job, p mendplan.Plan) error {
		return exportSides(to.path, ".svg", job, p, export.WriteSVG)
	},
	"annotations": func(to exportTo, job mendplan.Job, p mendplan.Plan) error {
		return exportSides(to.path, ".json", job, p, export.WriteAnnotations)
	},
	"calendar": func(to exportTo, job mendplan.Job, p mendplan.Plan) error {
		return exportCalendar(to, job, p)
	},
	"tei": func(to exportTo, job mendplan.Job, _ mendplan.Plan) error {
		return mendplan.WriteFile(to.path, func(w io.Writer) error { _, err := io.WriteString(w, collate.TEI(job)); return err })
	},
}

// exportCalendar writes the days of mending and drying as iCalendar.
func exportCalendar(to exportTo, job mendplan.Job, p mendplan.Plan) error {
	day := to.day
	if day == "" {
		day = job.StartDate
	}
	start, err := course.ParseDay(day)
	if err != nil {
		return usagef("say with -day on which day work begins: %v", err)
	}
	s := course.Plan(job, p, start, course.WorkOrder(job), true)
	return mendplan.WriteFile(to.path, func(w io.Writer) error { return course.WriteCalendar(w, job, s, to.tongue) })
}

type sideWriter func(w io.Writer, job mendplan.Job, plan mendplan.Plan, leaf mendplan.Leaf, side mendplan.SideName) error

// exportSides writes one file for each side that has a scan, named by the
// leaf's mark and side.
func exportSides(folder, suffix string, job mendplan.Job, p mendplan.Plan, write sideWriter) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return &mendplan.FileError{Path: folder, Words: phrase.Of("the folder could not be made"), Remedy: phrase.Of("choose a folder you may write to"), Err: err}
	}
	for _, leaf := range job.Leaves {
		for _, side := range []mendplan.SideName{mendplan.Front, mendplan.Back} {
			if !leaf.SideOf(side).Scan.Present() {
				continue
			}
			name := filepath.Join(folder, fileName(leaf)+"-"+string(side)+suffix)
			err := mendplan.WriteFile(name, func(w io.Writer) error { return write(w, job, p, leaf, side) })
			if err != nil {
				return fmt.Errorf("exporting the %s of leaf %s: %w", side, leaf.Mark, err)
			}
		}
	}
	return nil
}

// fileName makes a name for a leaf that is safe on every system and not used
// by another leaf: its mark where that is plain, and always its identifier.
func fileName(leaf mendplan.Leaf) string {
	plain := strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' {
			return r
		}
		return '-'
	}, leaf.Mark+"-"+leaf.ID)
	return "leaf-" + strings.Trim(plain, "-")
}
