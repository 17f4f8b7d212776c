package ui

import (
	"fmt"

	"fyne.io/fyne/v2"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// cornerDoubt is how far a scale from four pressed corners may be off, per
// cent: two pixels on the shorter side, but no better than half a per cent,
// since no photograph is free of the lens's own distortion (common practice,
// no source).
const cornerDoubt = 0.5

// scaleByCorners asks for the size of a rectangle whose four corners were
// pressed on a photograph, and takes scale and perspective from it.
func (w *Window) scaleByCorners(corners []geom.Pt) {
	if len(corners) != 4 {
		return
	}
	width, height := w.newEntry(), w.newEntry()
	u := unitsOf(w.session.Job())
	w.ask(t("How large is the rectangle?"), t("Set the scale"), []fyne.CanvasObject{
		small(t("The four corners were pressed in the order head-left, head-right, tail-right, tail-left.")),
		labelled(t("Width"), width), labelled(t("Height"), height)}, width, func() string {
		x, err := mendplan.ParseLength(width.Text, u)
		if err != nil {
			return sentence(errorIn(err))
		}
		y, err := mendplan.ParseLength(height.Text, u)
		if err != nil {
			return sentence(errorIn(err))
		}
		c, err := calibrateByCorners(corners, x, y)
		if err != nil {
			return t("The four points make no such rectangle: press them again, in their order.")
		}
		w.setScale(c, "set scale by four corners")
		w.pickTool("select")
		w.next = func() { w.showCorners(c) }
		return ""
	})
}

// calibrateByCorners returns the calibration of a photograph from a rectangle
// of known size in it.
func calibrateByCorners(corners []geom.Pt, width, height float64) (mendplan.Calibration, error) {
	if !(width > 0 && height > 0) {
		return mendplan.Calibration{}, geom.ErrDegenerate
	}
	to := []geom.Pt{{}, {X: width}, {X: width, Y: height}, {Y: height}}
	h, err := geom.FitHomography(corners, to)
	if err != nil {
		return mendplan.Calibration{}, err
	}
	shortest := corners[3].Dist(corners[0])
	for i := range 3 {
		shortest = min(shortest, corners[i].Dist(corners[i+1]))
	}
	flat := make([]float64, 0, 9)
	for _, row := range h.M {
		flat = append(flat, row[:]...)
	}
	return mendplan.Calibration{Origin: mendplan.FromCorners, Homography: flat, DoubtPercent: max(cornerDoubt, 200/max(shortest, 1)),
		Words: fmt.Sprintf("rectangle of %.4g × %.4g mm", width, height), Points: corners, LengthsMM: []float64{width, height}}, nil
}
