package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"leafmend/mendplan"
	"leafmend/mendplan/phrase"
)

// lost is what is told of a damaged job as JSON.
type lost struct {
	Line  int    `json:"line,omitempty"`
	Place string `json:"place,omitempty"`
	Words string `json:"words"`
}

// damaged is what check tells as JSON of a job file that is not whole.
type damaged struct {
	Fault   string `json:"fault"`
	Leaves  int    `json:"leaves_read"`
	Damages int    `json:"damages_read"`
	Lost    []lost `json:"lost"`
}

// checkDamaged tells what can be read of a job file that could not be opened,
// and writes it to another file when one is named. The damaged file stays.
func checkDamaged(c call, path, rescue string, asJSON bool, fault error) (bool, error) {
	job, parts, err := mendplan.SalvageFile(path)
	if err != nil || len(job.Leaves) == 0 && rescue == "" {
		return false, fault // nothing worth it can be read: the first fault says why
	}
	if rescue != "" {
		if err := writeRescued(rescue, path, job); err != nil {
			return false, err
		}
	}
	told := damaged{Fault: fault.Error(), Leaves: len(job.Leaves), Lost: []lost{}}
	for _, l := range job.Leaves {
		told.Damages += len(l.Damages)
	}
	for _, p := range parts {
		told.Lost = append(told.Lost, lost{p.Line, p.Place.String(), p.Words.String()})
	}
	if asJSON {
		return true, printJSON(c.out, told)
	}
	fmt.Fprintln(c.out, told.Fault)
	fmt.Fprintf(c.out, "what could be read: %d leaves, %d damages\n", told.Leaves, told.Damages)
	for _, p := range parts {
		fmt.Fprintf(c.out, "lost: %s\n", p.Phrase())
	}
	if rescue != "" {
		fmt.Fprintf(c.out, "what could be read is in %s; the damaged file is as it was\n", rescue)
	} else {
		fmt.Fprintln(c.out, "to keep what could be read: mendplan check -rescue NEW JOB")
	}
	return true, nil
}

// writeRescued writes a salvaged job to a new file. Scans are named as they
// are found from there.
func writeRescued(to, from string, job mendplan.Job) error {
	_, err := os.Lstat(to)
	switch {
	case err == nil:
		return &mendplan.FileError{Path: to, Words: phrase.Of("there is a file of this name already"), Remedy: phrase.Of("name a file that is not there yet"), Err: fs.ErrExist}
	case !errors.Is(err, fs.ErrNotExist):
		return &mendplan.FileError{Path: to, Words: phrase.Of("the file could not be opened"), Remedy: phrase.Of("check the name and the folder"), Err: err}
	}
	old, folder := filepath.Dir(from), filepath.Dir(to)
	move := func(s mendplan.Scan) mendplan.Scan {
		if s.Present() {
			s.Path = mendplan.RelativeScan(folder, mendplan.ScanPath(old, s))
		}
		return s
	}
	for _, l := range job.Leaves {
		l.Front.Scan, l.Back.Scan = move(l.Front.Scan), move(l.Back.Scan)
		l.Front.After, l.Back.After = move(l.Front.After), move(l.Back.After)
		job = job.WithLeaf(l)
	}
	return mendplan.SaveFile(to, job)
}

// check lists what is wrong with a job, its scans included; of a damaged job
// file, what of it can be read.
func check(ctx context.Context, c call) (bool, error) {
	asJSON := c.flags.Bool("json", false, "print JSON")
	rescue := c.flags.String("rescue", "", "write what can be read of a damaged job to this `file`, which must not be there yet")
	path, err := c.one("job")
	if err != nil {
		return false, err
	}
	job, problems, err := openJob(path)
	if err != nil {
		return checkDamaged(c, path, *rescue, *asJSON, err)
	}
	if *rescue != "" {
		return false, usagef("the job is whole: there is nothing to rescue")
	}
	return checkWhole(ctx, c, job, problems, *asJSON)
}
