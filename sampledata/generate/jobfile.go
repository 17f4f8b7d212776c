package main

import (
	"cmp"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/sampledata/draw"
)

// leftToTrace is the leaf whose damages the sample leaves to its user.
const leftToTrace = "4"

// handTolerance is how closely a person clicks along a tear, in pixels at 300
// to the inch: about half a millimetre.
const handTolerance = 6.0

// writeJob writes the sample job: leaves with scale and true edge, damages
// traced on all leaves but one, tissues, stock with remnants, gathering.
func writeJob(folder string, truths []draw.Truth) error {
	job := mendplan.Job{
		Title: "Winter programme of the Quillhaven Musical Society", Number: "Q-31", Owner: "Quillhaven Musical Society",
		Notes:     "An invented job, to try the program on. Leaf 4 is left to trace.",
		LeafPaper: mendplan.LeafDefaults{Grammage: 90, Grain: mendplan.GrainUpright},
		Tissues:   sampleTissues(), Stock: sampleStock(),
		StartDate: "2026-03-02", Press: mendplan.PressRoom{Openings: 6, PerOpening: 1, Blotters: 16, Interleaves: 20, Boards: 8, LengthMM: 400, WidthMM: 300},
		Examination: mendplan.Examination{
			Object:    "Programme of sixteen pages in a printed cover, saddle-sewn, invented for this sample",
			Materials: "machine-made wove paper, letterpress in black, red and blue",
			Condition: "Sewing rusted through at four holes; folds split at head and tail; tears from the edges, corners and edge pieces lost; a tideline on the first sheet.",
			Cause:     "handling, a wet cup, wire corroding",
			Purpose:   "To mend tears and splits, fill losses, and make the programme fit to be handled and sewn again.",
			Options:   "Leaving the losses unfilled, with the edges held by light tissue alone.",
			Risks:     "The red and blue inks may bleed; no wet step without a test.",
		},
	}
	cover := mendplan.Gathering{ID: "cover", Cover: true}
	body := mendplan.Gathering{ID: "A", Signature: "A", FirstPage: 1}
	for i := 0; i+1 < len(truths); i += 2 {
		front, back := truths[i], truths[i+1]
		leaf, err := sampleLeaf(folder, front, back)
		if err != nil {
			return err
		}
		job = job.WithLeaf(leaf)
		if front.Leaf == "C" {
			cover.Sheets = append(cover.Sheets, mendplan.SheetPlace{Leaf: leaf.ID})
		} else {
			body.Sheets = append(body.Sheets, mendplan.SheetPlace{Leaf: leaf.ID})
		}
		if front.Leaf != leftToTrace {
			job = traced(job, leaf.ID, front)
		}
	}
	job.Gatherings = []mendplan.Gathering{cover, body}
	return mendplan.SaveFile(filepath.Join(folder, "job", "programme"+mendplan.FileSuffix), job)
}

func sampleLeaf(folder string, front, back draw.Truth) (mendplan.Leaf, error) {
	leaf := mendplan.Leaf{ID: "L" + front.Leaf, Mark: front.Leaf, Kind: mendplan.Bifolium, Name: "pages " + pages(front) + " / " + pages(back)}
	if front.Leaf == "C" {
		leaf.Name = "cover"
	}
	for _, t := range []draw.Truth{front, back} {
		sum, err := mendplan.ChecksumFile(filepath.Join(folder, t.File))
		if err != nil {
			return leaf, fmt.Errorf("making the sample job: %w", err)
		}
		side := mendplan.Side{
			Scan:        mendplan.Scan{Path: filepath.Base(t.File), Width: t.WidthPx, Height: t.HeightPx, SHA256: sum},
			Calibration: mendplan.FileCalibration(t.DPI, t.DPI, 2, sourceOf(t.File)),
			TrueEdge:    points(t.TrueEdge[:]),
		}
		leaf = leaf.WithSide(mendplan.SideName(t.Side), side)
	}
	return leaf, nil
}

func pages(t draw.Truth) string { return t.Pages[0] + ", " + t.Pages[1] }

// sourceOf says where the resolution of a scan stands in its file.
func sourceOf(file string) string {
	switch {
	case strings.HasSuffix(file, ".png"):
		return "PNG pHYs"
	case strings.HasSuffix(file, ".tif"):
		return "TIFF tags"
	}
	return "JFIF"
}

// traced adds what a person would have traced on the front of a leaf.
func traced(job mendplan.Job, leaf string, t draw.Truth) mendplan.Job {
	add := func(d mendplan.Damage) { d.Side = mendplan.Front; job, _ = job.AddDamage(leaf, d) }
	nicks, tears := apart(t.Tears)
	if len(nicks) > 0 {
		add(mendplan.Damage{Kind: mendplan.Nicks, Points: rounded(nicks)})
	}
	for _, tear := range tears {
		d := mendplan.Damage{Kind: mendplan.Tear, Points: byHand(tear.Path)}
		for _, fork := range tear.Forks {
			d.Forks = append(d.Forks, byHand(fork))
		}
		if tear.Kind == "split" {
			d.Kind = mendplan.Split
		}
		if tear.Length > 80 {
			d.Severity = mendplan.Severe
			d.Mends = []mendplan.Mend{{Style: mendplan.Strips}}
		}
		add(d)
	}
	for _, loss := range t.Losses {
		add(mendplan.Damage{Kind: mendplan.Loss, Points: ringByHand(loss.Ring)})
	}
	for _, stain := range t.Stains {
		add(mendplan.Damage{Kind: mendplan.Tideline, Points: ringByHand(stain.Ring), NoMend: true, Severity: mendplan.Slight, Note: "a wet cup; not treated"})
	}
	return job
}

// apart takes a run of three or more short tears out of the others, as one
// line through their mouths along the edge.
func apart(all []draw.TrueTear) (mouths geom.Path, others []draw.TrueTear) {
	const short = 12 // mm
	for _, tear := range all {
		if tear.Kind == "tear" && tear.Length < short {
			mouths = append(mouths, points(tear.Path[:1])...)
		} else {
			others = append(others, tear)
		}
	}
	if len(mouths) < 3 {
		return nil, all
	}
	slices.SortFunc(mouths, func(a, b geom.Pt) int { return cmp.Compare(a.X, b.X) })
	return mouths, others
}

// byHand thins a path to the clicks a person would make, whole pixels.
func byHand(path []draw.Pt) []geom.Pt { return rounded(geom.Simplify(points(path), handTolerance)) }

func ringByHand(ring []draw.Pt) []geom.Pt {
	return rounded(geom.Path(geom.SimplifyRing(geom.Ring(points(ring)), handTolerance)))
}

func rounded(path geom.Path) []geom.Pt {
	out := make([]geom.Pt, len(path))
	for i, p := range path {
		out[i] = geom.Pt{X: math.Round(p.X), Y: math.Round(p.Y)}
	}
	return out
}

func points(path []draw.Pt) []geom.Pt {
	out := make([]geom.Pt, len(path))
	for i, p := range path {
		out[i] = geom.Pt{X: p.X, Y: p.Y}
	}
	return out
}

// fromMemory marks sizes and weights that nobody measured here.
const fromMemory = "from memory: check against your own sheet"

func sampleTissues() []mendplan.Tissue {
	return []mendplan.Tissue{
		{ID: "T1", Name: "kozo tissue, 5 g/m²", Fibre: "kozo", Grammage: 5, ThicknessMM: 0.03, Colour: "#f1e8d3", Use: mendplan.ForTears},
		{ID: "T2", Name: "kozo tissue, 9 g/m²", Fibre: "kozo", Grammage: 9, ThicknessMM: 0.04, Colour: "#efe4c9", Use: mendplan.ForTears},
		{ID: "T3", Name: "kozo paper, 45 g/m², toned", Fibre: "kozo", Grammage: 45, ThicknessMM: 0.12, Colour: "#e6d6b0", Use: mendplan.ForInfills},
	}
}

func sampleStock() []mendplan.Stock {
	return []mendplan.Stock{
		{ID: "R1", Tissue: "T1", Kind: mendplan.Remnant, LengthMM: 210, WidthMM: 62, Count: 1, GrainAlong: "length", Note: "left from an earlier job"},
		{ID: "S1", Tissue: "T1", Kind: mendplan.SheetStock, LengthMM: 970, WidthMM: 640, Count: 2, GrainAlong: "length", Price: 4.2, Currency: "EUR", Note: fromMemory},
		{ID: "S2", Tissue: "T2", Kind: mendplan.Roll, LengthMM: 4000, WidthMM: 970, Count: 1, GrainAlong: "length", Price: 7.5, Currency: "EUR", Note: fromMemory},
		{ID: "R2", Tissue: "T3", Kind: mendplan.Remnant, LengthMM: 120, WidthMM: 70, Count: 1, GrainAlong: "length", Note: "left from an earlier job"},
		{ID: "S3", Tissue: "T3", Kind: mendplan.SheetStock, LengthMM: 762, WidthMM: 508, Count: 1, GrainAlong: "length", MarginMM: 10, Price: 14, Currency: "EUR", Note: "size and price of a hand-made sheet reported by a librarian, 2014; weight " + fromMemory},
	}
}
