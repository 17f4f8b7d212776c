package ui

import (
	"math"
	"slices"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/ui/leafview"
)

// mostOf is the share of a proposal that lies in a loss traced already for it
// not to be proposed once more.
const mostOf = 0.5

// oriented is a ring as an area, whichever way it was drawn.
func oriented(ring geom.Ring) geom.Area {
	if ring.SignedArea() < 0 {
		ring = ring.Reverse()
	}
	return geom.Area{ring}
}

// tracedAlready reports whether a proposed loss is in the job.
func tracedAlready(damages []mendplan.Damage, side mendplan.SideName, ring []geom.Pt) bool {
	area := oriented(ring)
	return slices.ContainsFunc(damages, func(d mendplan.Damage) bool {
		if !d.Kind.Missing() || d.Side != side || len(d.Points) < 3 {
			return false
		}
		both := geom.Intersect(area, oriented(d.Points))
		return both.Area() > mostOf*area.Area()
	})
}

// nearMM is how near a proposed tear runs to one that is traced for it to be
// the same.
const nearMM = 3

// tornAlready reports whether a proposed tear is in the job: all of it runs
// near a traced one. Without a scale a millimetre counts for 12 pixels, as at
// 300 pixels an inch.
func tornAlready(damages []mendplan.Damage, side mendplan.SideName, path []geom.Pt, pxPerMM float64) bool {
	if pxPerMM <= 0 {
		pxPerMM = 12
	}
	return slices.ContainsFunc(damages, func(d mendplan.Damage) bool {
		if d.Side != side || d.Kind != mendplan.Tear && d.Kind != mendplan.Split && d.Kind != mendplan.Nicks || len(d.Points) < 2 {
			return false
		}
		for _, p := range path {
			if dist, _ := geom.Path(d.Points).Nearest(p); dist > nearMM*pxPerMM {
				return false
			}
		}
		return true
	})
}

// nextProposal goes to the proposal after the one asked about last, the first
// after the last, and asks about it; each answer leads on to the next.
func (w *Window) nextProposal() {
	if len(w.proposals) > 0 && !w.askAfter(w.asked) {
		w.askAfter(0)
	}
}

// askAfter asks about the first proposal with a number above id; false when
// there is none.
func (w *Window) askAfter(id int) bool {
	i := slices.IndexFunc(w.proposals, func(p leafview.Proposal) bool { return p.ID > id })
	if i < 0 {
		return false
	}
	p := w.proposals[i]
	w.asked = p.ID
	w.lookAbove(leafview.RectOf(p.Points...))
	w.answerProposal(p.ID, func() { w.askAfter(p.ID) })
	return true
}

// questionHeight is the room that a question about a proposal takes in the
// middle of the window, with words in the longest of languages.
const questionHeight = 270

// lookAbove shows a place of the scan, with what is around it, in the part of
// the surface that a question in the middle of the window leaves free: what is
// asked about has to be seen.
func (w *Window) lookAbove(r leafview.Rect) {
	r = r.Grow(max(0.3*max(r.W(), r.H()), 40))
	top := float64(w.app.Driver().AbsolutePositionForObject(w.surface).Y)
	width, height := float64(w.surface.Size().Width), float64(w.surface.Size().Height)
	free := (float64(w.win.Canvas().Size().Height)-questionHeight)/2 - top
	if free = min(free, height); free < 60 || width <= 0 || r.H() <= 0 {
		w.surface.ZoomTo(r)
		w.showView()
		return
	}
	scale := math.Min(width/r.W(), free/r.H())
	middle := r.Centre().Add(geom.Pt{Y: (height - free) / 2 / scale})
	w.surface.SetView(scale*float64(w.win.Canvas().Scale()), middle) // no margins: the room is counted already
	w.showView()
}
