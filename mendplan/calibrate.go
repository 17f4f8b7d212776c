package mendplan

import (
	"fmt"
	"math"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// FileCalibration returns the calibration that follows from a file's own
// resolution, in pixels per inch, and says where it was read.
func FileCalibration(ppiX, ppiY, doubtPercent float64, source string) Calibration {
	return Calibration{Origin: FromFile, MMPerPxX: mmPerInch / ppiX, MMPerPxY: mmPerInch / ppiY, DoubtPercent: doubtPercent,
		Words: fmt.Sprintf("%s: %.4g × %.4g ppi", source, ppiX, ppiY)}
}

// clickDoubt is how far a person's click may be off, in scan pixels.
const clickDoubt = 1.0

// CalibrateByPoints returns the calibration from two points that lie a known
// distance apart. ratio is the picture's height of a pixel over its width in
// millimetres: 1 unless the file says otherwise. The doubt is a pixel at each
// end.
func CalibrateByPoints(a, b geom.Pt, lengthMM, ratio float64) (Calibration, error) {
	px := math.Hypot(b.X-a.X, (b.Y-a.Y)*ratio)
	switch {
	case !(lengthMM > 0) || math.IsInf(lengthMM, 0):
		return Calibration{}, phrase.Errorf("the length between the points must be more than nothing")
	case !(px >= 10):
		return Calibration{}, phrase.Errorf("the two points lie too close together: choose points at least 10 pixels apart, better 100 mm")
	case !(ratio > 0):
		return Calibration{}, phrase.Errorf("the proportion of the pixels is not known")
	}
	k := lengthMM / px
	return Calibration{Origin: FromTwoPoints, MMPerPxX: k, MMPerPxY: k * ratio, DoubtPercent: 100 * 2 * clickDoubt / px,
		Words: fmt.Sprintf("two points %.4g mm apart", lengthMM), Points: []geom.Pt{a, b}, LengthsMM: []float64{lengthMM}}, nil
}

// CalibrateBySize returns the calibration of a side whose true edge has the
// given width and height in millimetres. Scan axes and leaf may be turned
// against each other; the corners are those of [Side.TrueEdge].
func CalibrateBySize(edge []geom.Pt, widthMM, heightMM float64) (Calibration, error) {
	if len(edge) != 4 {
		return Calibration{}, phrase.Errorf("set the four corners of the leaf first")
	}
	if !(widthMM > 0 && heightMM > 0) || math.IsInf(widthMM+heightMM, 0) {
		return Calibration{}, phrase.Errorf("width and height must be more than nothing")
	}
	across := edge[1].Sub(edge[0]).Add(edge[2].Sub(edge[3])).Mul(0.5)
	down := edge[3].Sub(edge[0]).Add(edge[2].Sub(edge[1])).Mul(0.5)
	// widthMM² = (sx·ax)² + (sy·ay)², and the same downwards: two linear
	// equations in the squares of the scales.
	a, b, c, d := across.X*across.X, across.Y*across.Y, down.X*down.X, down.Y*down.Y
	det := a*d - b*c
	sx2, sy2 := (widthMM*widthMM*d-heightMM*heightMM*b)/det, (heightMM*heightMM*a-widthMM*widthMM*c)/det
	if det == 0 || !(sx2 > 0 && sy2 > 0) {
		return Calibration{}, phrase.Errorf("the corners do not fit that size: check their order and the size")
	}
	least := min(across.Norm(), down.Norm())
	return Calibration{Origin: FromLeafSize, MMPerPxX: math.Sqrt(sx2), MMPerPxY: math.Sqrt(sy2), DoubtPercent: 100 * 2 * clickDoubt / least,
		Words: fmt.Sprintf("leaf of %.4g × %.4g mm", widthMM, heightMM), Points: append([]geom.Pt(nil), edge...), LengthsMM: []float64{widthMM, heightMM}}, nil
}
