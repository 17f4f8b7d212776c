package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/scan"
)

// relinkRow is one scan looked for, as told to machines.
type relinkRow struct {
	Leaf    string   `json:"leaf"`
	Mark    string   `json:"mark,omitempty"`
	Side    string   `json:"side"`
	After   bool     `json:"after,omitempty"`
	Was     string   `json:"was"`
	Sure    string   `json:"sure"`
	Found   string   `json:"found,omitempty"`
	Others  []string `json:"others,omitempty"`
	Changed bool     `json:"changed,omitempty"`
}

// relink looks for the missing scans of a job in a folder, tells what it found
// and, when asked to, writes the job with the scans named anew. A scan found
// by its name alone stays marked as changed until the traces were looked at.
func relink(ctx context.Context, c call) (bool, error) {
	from := c.flags.String("from", "", "the folder to look in, with the folders in it")
	out := c.flags.String("o", "", "the job file to write; may be the job itself; without it nothing is written")
	only := c.flags.Bool("same", false, "take files of the same bytes only")
	asJSON := c.flags.Bool("json", false, "print JSON")
	path, err := c.one("job")
	if err != nil {
		return false, err
	}
	if *from == "" {
		return false, usagef("say with -from which folder to look in")
	}
	job, _, err := mendplan.LoadFile(path)
	if err != nil {
		return false, err
	}
	folder := filepath.Dir(path)
	missing := mendplan.MissingScans(job, folder)
	links, whole, err := mendplan.FindMoved(ctx, job, folder, missing, *from, scan.SizeOf, nil)
	if err != nil {
		return false, err
	}
	if *only {
		links = sameBytesOnly(links)
	}
	if *asJSON {
		err = printJSON(c.out, relinkRows(job, links))
	} else {
		writeRelinks(c, job, links)
	}
	if err != nil {
		return false, err
	}
	if !whole {
		fmt.Fprintf(c.err, "%s: not all of it could be searched: name a smaller folder if something is not found\n", *from)
	}
	if *out != "" {
		if err := saveRelinked(*out, folder, job.Relinked(folder, links)); err != nil {
			return false, err
		}
	}
	return !allFoundUnchanged(links), nil
}

// sameBytesOnly turns every other proposal down.
func sameBytesOnly(links []mendplan.Relink) []mendplan.Relink {
	for i, l := range links {
		if l.Sure != mendplan.SameBytes {
			links[i].Found, links[i].Changed = "", false
		}
	}
	return links
}

func allFoundUnchanged(links []mendplan.Relink) bool {
	for _, l := range links {
		if l.Found == "" || l.Changed {
			return false
		}
	}
	return true
}

// saveRelinked writes the job to a file, its scans told from the folder of
// that file.
func saveRelinked(out, folder string, job mendplan.Job) error {
	to := filepath.Dir(out)
	if a, err := os.Stat(to); err == nil {
		if b, err := os.Stat(folder); err == nil && os.SameFile(a, b) {
			return mendplan.SaveFile(out, job)
		}
	}
	for _, leaf := range job.Leaves {
		for _, s := range []*mendplan.Scan{&leaf.Front.Scan, &leaf.Front.After, &leaf.Back.Scan, &leaf.Back.After} {
			if s.Present() {
				s.Path = mendplan.RelativeScan(to, mendplan.ScanPath(folder, *s))
			}
		}
		job = job.WithLeaf(leaf)
	}
	return mendplan.SaveFile(out, job)
}

func relinkRows(job mendplan.Job, links []mendplan.Relink) []relinkRow {
	rows := []relinkRow{}
	for _, l := range links {
		leaf, _ := job.Leaf(l.Leaf)
		rows = append(rows, relinkRow{l.Leaf, leaf.Mark, string(l.Side), l.After, l.Scan.Path, string(l.Sure), l.Found, l.Others, l.Changed})
	}
	return rows
}

func writeRelinks(c call, job mendplan.Job, links []mendplan.Relink) {
	found := 0
	for _, l := range links {
		leaf, _ := job.Leaf(l.Leaf)
		place := fmt.Sprintf("leaf %s %s", leaf.Mark, l.Side)
		if l.After {
			place += " after"
		}
		words := string(l.Sure)
		switch {
		case l.Found != "":
			found++
			words += ": " + l.Found
		case l.Sure == mendplan.Several:
			words += ", none is chosen: " + strings.Join(l.Others, ", ")
		case len(l.Others) == 0 && l.Sure != mendplan.NotFound:
			words += ", not taken"
		}
		if l.Changed {
			words += " (changed: compare the traces with the picture)"
		}
		fmt.Fprintf(c.out, "%s: %s: %s\n", place, l.Scan.Path, words)
	}
	fmt.Fprintf(c.out, "%d of %d missing scans found\n", found, len(links))
}
