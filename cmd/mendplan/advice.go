package main

import (
	"fmt"
	"io"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/export"
)

// writeReasons tells why each piece is as it is: side, tissue, grain, sizes.
func writeReasons(w io.Writer, p export.Plan) {
	for _, x := range p.Pieces {
		fmt.Fprintf(w, "why %s: %s\n", x.Label, strings.Join(x.Reasons, "; "))
	}
	fmt.Fprintln(w)
}

// writeAfter tells what follows on the leaves: edges to trim, what the losses
// lack, and how the gatherings swell.
func writeAfter(w io.Writer, job mendplan.Job, p export.Plan) {
	u := unitsOf(job)
	for _, t := range p.Trims {
		leaf, _ := job.Leaf(t.Leaf)
		fmt.Fprintf(w, "trim leaf %s, %s: from %s to %s, hangs over by %s; %s up, pieces %s", leaf.Mark, t.Edge, u.Length(t.FromMM), u.Length(t.ToMM),
			u.Length(t.HangMM), t.Up, strings.Join(t.Pieces, " "))
		if t.Bridged {
			fmt.Fprint(w, "; nicks stay bridged, cut along the true edge")
		}
		fmt.Fprintln(w)
	}
	for _, l := range p.Losses {
		leaf, _ := job.Leaf(l.Leaf)
		size := u.Area(l.AreaMM2)
		if u == mendplan.Millimetres && l.AreaMM2 < 100 {
			size = fmt.Sprintf("%.1f mm²", l.AreaMM2) // a hole of a staple would be 0 cm²
		}
		fmt.Fprintf(w, "missing at damage %d of leaf %s: %s", l.Damage, leaf.Mark, size)
		if l.MassG > 0 {
			fmt.Fprintf(w, ", %.3g g at the leaf's weight", l.MassG)
		}
		fmt.Fprintln(w)
	}
	for _, s := range p.Swells {
		name := "the bifolia, nested"
		if s.Gathering != "" {
			name = "gathering " + s.Gathering
		}
		fmt.Fprintf(w, "swell of %s: %.3f mm at the fold, %.3f mm at the worst corner, %.3f mm at most, %s from the fold and %s from the head",
			name, s.FoldMM, s.CornerMM, s.WorstMM, u.Length(s.WorstAtMM[0]), u.Length(s.WorstAtMM[1]))
		if s.Estimated {
			fmt.Fprint(w, "; thickness of tissue worked out from its weight")
		}
		fmt.Fprintln(w)
	}
	fmt.Fprintln(w)
}
