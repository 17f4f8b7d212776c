package ui

import (
	"context"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/scan"
	"leafmend/ui/leafview"
)

// layOver lays the back over the front by the outlines of both, looked for
// where they are not known, so that what is traced on one side shows at its
// place on the other.
func (w *Window) layOver() {
	leaf, ok := w.session.Leaf()
	if !ok || !leaf.Front.Scan.Present() || !leaf.Back.Scan.Present() {
		w.status.say(t("Both sides need a scan to be laid over one another."))
		return
	}
	var found [2]scan.Outline
	var reg scan.Registration
	w.aside(t("Laying the sides over one another"), func(ctx context.Context) (err error) {
		for i, name := range []mendplan.SideName{mendplan.Front, mendplan.Back} {
			if found[i], err = w.outlineFor(ctx, leaf.SideOf(name)); err != nil {
				return err
			}
		}
		reg, err = scan.RegisterSides(found[0], found[1])
		return err
	}, func(err error) {
		if err != nil {
			w.tellError(err)
			return
		}
		w.takeLaidOver(leaf.ID, found, reg)
	})
}

// outlineFor returns the outline of a side as it is recorded, or looks for it
// on the scan.
func (w *Window) outlineFor(ctx context.Context, side mendplan.Side) (scan.Outline, error) {
	if o, ok := outlineOf(side); ok && len(side.TrueEdge) == 4 && len(side.Outline) > 2 {
		return o, nil // four corners alone would say nothing that the true edges do not
	}
	pic, err := w.pictures.shelf.Open(ctx, w.session.scanPath(side.Scan), scan.OpenOptions{Page: side.Scan.Page, Cache: w.pictures.cache})
	if err != nil {
		return scan.Outline{}, err
	}
	img, scale := pic.AtLeast(scan.AnalysisSide)
	return scan.FindOutline(img, scale, scan.OutlineOptions{})
}

// takeLaidOver records how the back lies over the front, and outlines that had
// to be looked for, as one step.
func (w *Window) takeLaidOver(id string, found [2]scan.Outline, reg scan.Registration) {
	leaf, ok := w.session.Job().Leaf(id)
	if !ok {
		return
	}
	for i, name := range []mendplan.SideName{mendplan.Front, mendplan.Back} {
		side := leaf.SideOf(name)
		if len(side.Outline) < 3 {
			side.Outline = found[i].Polygon
		}
		if len(side.TrueEdge) != 4 {
			side.TrueEdge = append([]geom.Pt(nil), found[i].TrueEdge[:]...)
			if name == mendplan.Back && reg.Upside { // the picture's head is the leaf's tail
				e := side.TrueEdge
				side.TrueEdge = []geom.Pt{e[2], e[3], e[0], e[1]}
			}
		}
		leaf = leaf.WithSide(name, side)
	}
	leaf, ok = leaf.LaidOver(reg.BackToFront)
	if !ok {
		w.status.say(t("The outlines do not lie over one another: look at them, or drag the other side into place."))
		return
	}
	w.session.Do("lay back over front", w.session.Job().WithLeaf(leaf))
	w.status.say(t("The back lies over the front; their outlines agree to %s on average, and a place may be off by %s.",
		w.onFront(leaf, reg.Residual), w.onFront(leaf, reg.Doubt)))
}

// onFront tells a distance on the front in millimetres where they are
// known, else in pixels.
func (w *Window) onFront(leaf mendplan.Leaf, px float64) string {
	front, _, fault := mendplan.FrameOf(leaf, mendplan.Front)
	if fault != nil {
		return t("%.1f pixels", px)
	}
	mid := geom.Pt{X: float64(leaf.Front.Scan.Width) / 2, Y: float64(leaf.Front.Scan.Height) / 2}
	return thickness(front.ToLeaf(mid).Dist(front.ToLeaf(mid.Add(geom.Pt{X: px}))))
}

// overByEdges forgets how the back was laid over the front: the true edges
// alone tell it again.
func (w *Window) overByEdges() {
	w.session.EditLeaf("lay sides by their edges", mendplan.Leaf.NotLaidOver)
	w.status.say(t("The true edges of both sides tell again how they lie over one another."))
}

// moveOther lays what the other side shows elsewhere. The map runs from the
// back to the front, so what was dragged on the back is applied before it,
// undone.
func (w *Window) moveOther(e leafview.MoveOther) bool {
	leaf, ok := w.session.Leaf()
	if !ok {
		return false
	}
	over, known := leaf.Over()
	if !known {
		over = overByPictures(leaf)
	}
	next := over.Then(e.By)
	if w.session.Side() == mendplan.Back {
		undo, err := e.By.Inverse()
		if err != nil {
			return false
		}
		next = undo.Then(over)
	}
	moved, ok := leaf.LaidOver(next)
	if !ok {
		w.status.say(t("The sides cannot lie like that over one another."))
		return false
	}
	gesture := ""
	if e.Nudged {
		gesture = "nudge other side " + leaf.ID
	}
	w.session.Amend(gesture, "move other side", w.session.Job().WithLeaf(moved))
	return true
}

// overByPictures maps the picture of the back on that of the front as a
// mirror would, by their sizes alone.
func overByPictures(leaf mendplan.Leaf) geom.Affine {
	move := mirrorByPictures(leaf.Back.Scan, leaf.Front.Scan)
	o := move(geom.Pt{})
	x, y := move(geom.Pt{X: 1}).Sub(o), move(geom.Pt{Y: 1}).Sub(o)
	return geom.Affine{A: x.X, B: y.X, C: o.X, D: x.Y, E: y.Y, F: o.Y}
}

func bothScans(w *Window) bool {
	l, ok := w.session.Leaf()
	return ok && l.Front.Scan.Present() && l.Back.Scan.Present()
}

func laidOver(w *Window) bool {
	l, ok := w.session.Leaf()
	return ok && len(l.BackOver) > 0
}
