package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// cornerCheck is what can be told of one corner of a photographed rectangle.
type cornerCheck struct {
	straightMM float64 // how far it lies from where a camera held straight would show it
	perPixelMM float64 // how far the rectangle's middle moves for a pixel of wrong pressing here
}

// checkCorners looks at the four corners that a scale rests on. Four corners
// fix the perspective exactly, so they have no residual of their own: what can
// be told is how far they lie from a plain scan, turned and scaled, and how
// much a pixel matters at each.
func checkCorners(c mendplan.Calibration) ([]cornerCheck, error) {
	if len(c.Points) != 4 || len(c.LengthsMM) != 2 {
		return nil, geom.ErrDegenerate
	}
	width, height := c.LengthsMM[0], c.LengthsMM[1]
	to := []geom.Pt{{}, {X: width}, {X: width, Y: height}, {Y: height}}
	plain := plainScan(c.Points, to)
	exact, err := geom.FitHomography(c.Points, to)
	if err != nil {
		return nil, err
	}
	centre, err := exact.Inverse()
	if err != nil {
		return nil, err
	}
	middle := centre.Apply(geom.Pt{X: width / 2, Y: height / 2})
	out := make([]cornerCheck, 4)
	for i, p := range c.Points {
		out[i].straightMM = plain.Apply(p).Dist(to[i])
		off := append([]geom.Pt(nil), c.Points...)
		off[i] = p.Add(geom.Pt{X: 0.7, Y: 0.7})
		if h, err := geom.FitHomography(off, to); err == nil {
			out[i].perPixelMM = h.Apply(middle).Dist(geom.Pt{X: width / 2, Y: height / 2})
		}
	}
	return out, nil
}

// plainScan is the turn, shift and one scale that takes four points nearest to
// four others, by least squares.
func plainScan(from, to []geom.Pt) geom.Affine {
	var mf, mt geom.Pt
	for i := range from {
		mf, mt = mf.Add(from[i].Mul(0.25)), mt.Add(to[i].Mul(0.25))
	}
	var dot, cross, norm float64
	for i := range from {
		p, q := from[i].Sub(mf), to[i].Sub(mt)
		dot, cross, norm = dot+p.Dot(q), cross+p.Cross(q), norm+p.Dot(p)
	}
	a, b := dot/norm, cross/norm
	m := geom.Affine{A: a, B: -b, D: b, E: a}
	return m.Then(geom.Translate(mt.Sub(m.Apply(mf))))
}

// showCorners tells what the four corners are worth.
func (w *Window) showCorners(c mendplan.Calibration) {
	checks, err := checkCorners(c)
	if err != nil {
		return
	}
	u := unitsOf(w.session.Job())
	grid := container.NewGridWithColumns(3, heading(t("Corner")), heading(t("Off a straight picture")), heading(t("A pixel matters")))
	for i, name := range []string{t("head, left"), t("head, right"), t("tail, right"), t("tail, left")} {
		grid.Add(widget.NewLabel(name))
		grid.Add(widget.NewLabel(u.Length(checks[i].straightMM)))
		grid.Add(widget.NewLabel(figures("%.2f mm", checks[i].perPixelMM)))
	}
	w.showSized(t("The four corners"), tight(grid,
		small(t("Four corners fix the perspective exactly and leave nothing over. The second column tells how far each lies from where a camera held straight would show it; the third, how far the middle moves for a pixel of wrong pressing there.")),
		small(t("To be sure, measure a length you know, away from the corners, with the measuring tool."))), fyne.NewSize(560, 340))
}
