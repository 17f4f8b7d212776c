package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strconv"

	"leafmend/mendplan"
	"leafmend/mendplan/phrase"
	"leafmend/mendplan/scan"
)

// newJob makes a job from scans: one leaf for each pair, calibrated where the
// file's resolution can be trusted.
func newJob(ctx context.Context, c call) (bool, error) {
	out := c.flags.String("o", "", "the job file to make; its name ends in "+mendplan.FileSuffix)
	pair := c.flags.String("pair", string(mendplan.AllFronts), "how scans go together: name, order or fronts")
	title := c.flags.String("title", "", "title of the publication")
	edges := c.flags.Bool("edges", false, "take the leaf's true edge from the picture where it can be found")
	scans, err := c.parse()
	if err != nil {
		return false, err
	}
	how := mendplan.Pairing(*pair)
	switch {
	case *out == "":
		return false, usagef("say with -o which job file to make")
	case len(scans) == 0:
		return false, usagef("name at least one scan")
	case how != mendplan.ByName && how != mendplan.ByOrder && how != mendplan.AllFronts:
		return false, usagef("-pair may be name, order or fronts, not %q", *pair)
	}
	if _, err := os.Stat(*out); err == nil {
		return false, &mendplan.FileError{Path: *out, Words: phrase.Of("there is such a file already"), Remedy: phrase.Of("choose another name, or move it away first")}
	}
	job := mendplan.Job{Title: *title}
	job.Tissues, job.Stock = mendplan.StarterTissues()
	folder := filepath.Dir(*out)
	for i, p := range mendplan.PairScans(scans, how) {
		leaf := mendplan.Leaf{ID: job.FreshLeafID(), Mark: strconv.Itoa(i + 1), Kind: mendplan.Bifolium}
		for _, scan := range []struct {
			side mendplan.SideName
			path string
		}{{mendplan.Front, p.Front}, {mendplan.Back, p.Back}} {
			if scan.path == "" {
				continue
			}
			s, err := sideFrom(ctx, folder, scan.path, *edges)
			if err != nil {
				return false, err
			}
			leaf = leaf.WithSide(scan.side, s)
		}
		job = job.WithLeaf(leaf)
	}
	if err := mendplan.SaveFile(*out, job); err != nil {
		return false, err
	}
	fmt.Fprintf(c.out, "%s: %d leaves\n", *out, len(job.Leaves))
	problems := computeWith(ctx, job, firstLayout).Problems
	listProblems(c.err, job, problems)
	return len(problems) > 0, nil
}

// sideFrom describes one scan as a side of a leaf.
func sideFrom(ctx context.Context, folder, path string, edges bool) (mendplan.Side, error) {
	info, err := scan.Inspect(path)
	if err != nil {
		return mendplan.Side{}, err
	}
	sum, err := mendplan.ChecksumFile(path)
	if err != nil {
		return mendplan.Side{}, err
	}
	s := mendplan.Side{
		Scan:        mendplan.Scan{Path: mendplan.RelativeScan(folder, path), Width: info.Width, Height: info.Height, SHA256: sum},
		Calibration: calibrationFrom(info),
	}
	if !edges {
		return s, nil
	}
	found, err := analyse(ctx, path, 0)
	if err != nil {
		return s, err
	}
	if found.fault == "" {
		s.TrueEdge, s.Outline = found.outline.TrueEdge[:], found.outline.Polygon
	}
	return s, nil
}

// calibrationFrom takes the resolution of the file if it can be trusted.
func calibrationFrom(info scan.Info) mendplan.Calibration {
	r, trusted := info.Best()
	if !trusted {
		return mendplan.Calibration{}
	}
	return mendplan.FileCalibration(r.DPIX, r.DPIY, r.DoubtPercent, r.Source)
}
