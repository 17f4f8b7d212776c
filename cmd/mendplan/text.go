package main

import (
	"fmt"
	"io"
	"text/tabwriter"

	"leafmend/mendplan"
	"leafmend/mendplan/export"
)

func unitsOf(job mendplan.Job) mendplan.Units {
	if job.Units == "" {
		return mendplan.Millimetres
	}
	return job.Units
}

func writePieces(w io.Writer, job mendplan.Job, p mendplan.Plan) {
	u := unitsOf(job)
	t := tabwriter.NewWriter(w, 0, 4, 2, ' ', 0)
	fmt.Fprintln(t, "piece\tleaf\tside\ttissue\tstyle\tblank (along grain × across)\tarea")
	for _, p := range p.Pieces {
		leaf, _ := job.Leaf(p.Leaf)
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%s\n", p.Label, leaf.Mark, p.Side, p.Tissue, p.Style,
			u.Size(p.BlankLengthMM, p.BlankWidthMM), u.Area(p.AreaMM2))
	}
	t.Flush()
	fmt.Fprintln(w)
}

func writeSheets(w io.Writer, job mendplan.Job, p export.Plan) {
	u := unitsOf(job)
	for _, s := range p.Sheets {
		fmt.Fprintf(w, "sheet %d: %s %s of %s, %s, grain along the %s, %d pieces\n", s.Number, s.Kind, s.Stock, s.Tissue,
			u.Size(s.LengthMM, s.WidthMM), s.GrainAlong, len(s.Placements))
		for _, c := range s.Cuts {
			writeCut(w, u, c)
		}
		writeShares(w, u, s)
	}
	for _, r := range p.Remnants {
		fmt.Fprintf(w, "keep from sheet %d: %s\n", r.Sheet, u.Size(r.LengthMM, r.WidthMM))
	}
	for _, x := range p.Unplaced {
		fmt.Fprintf(w, "not placed: %d × %s: %s %s\n", x.Count, x.Label, x.Reason, x.Remedy)
	}
	fmt.Fprintln(w)
}

// writeCut tells one step: what to lay before you, where the ruler goes, and
// what lies on either side of it.
func writeCut(w io.Writer, u mendplan.Units, c export.Cut) {
	part, at := "the sheet", u.Length(c.AtMM)
	if c.Part > 0 {
		part = fmt.Sprintf("part %d", c.Part)
	}
	if c.Same {
		at = "same measure, " + at
	}
	fmt.Fprintf(w, "  %d. %s: %s from the %s edge, cut %s; this side %s, beyond it %s", c.Step, part, at, c.From, c.Line, c.Near, c.Far)
	if c.BandMM > 0 && c.Far != "waste" {
		fmt.Fprintf(w, " after %s of waste", u.Length(c.BandMM))
	}
	if c.With > 0 {
		fmt.Fprintf(w, "; in one go with step %d, the two laid on one another", c.With)
	}
	fmt.Fprintln(w)
}

// writeShares tells how pieces that share a blank are parted: last, by one
// straight cut each, measured on the blank.
func writeShares(w io.Writer, u mendplan.Units, s export.Sheet) {
	for _, p := range s.Placements {
		if p.Share == nil {
			continue
		}
		fmt.Fprintf(w, "  then part %s from %s: straight from %s across, %s down to %s across, %s down, from the blank's top left corner; saves %s\n", p.Label, p.Share.Label,
			u.Length(p.Share.X1MM-p.XMM), u.Length(p.Share.Y1MM-p.YMM), u.Length(p.Share.X2MM-p.XMM), u.Length(p.Share.Y2MM-p.YMM), u.Area(p.Share.SavedMM2))
	}
}

func writeEstimate(w io.Writer, job mendplan.Job, e mendplan.Estimate) {
	u := unitsOf(job)
	for _, t := range e.Tissues {
		fmt.Fprintf(w, "tissue %s: %d pieces, %s, %.3g g; %d sheets, %d remnants; yield %.0f %%; cost %.2f %s\n", t.Tissue, t.Pieces,
			u.Area(t.PiecesMM2), t.MassG, t.Sheets, t.Remnants, t.Yield*100, t.Cost, t.Currency)
	}
	p := e.Paste
	fmt.Fprintf(w, "paste: %s pasted, %.2f g on the tissue, %.2f g spread; cook %.0f g: %.1f g starch (%.1f tablespoons) and %.0f g water; serves %.1f such jobs\n",
		u.Area(p.AreaMM2), p.OnTissueG, p.SpreadG, p.BatchG, p.StarchG, p.StarchTbsp, p.WaterG, p.Times)
}
