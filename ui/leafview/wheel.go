package leafview

import "math"

// notch is what the toolkit reports for one notch of a wheel.
const notch = 25.0

// wheelFactor turns a wheel's movement into a magnification: exponential, so
// that as much back undoes as much forth; one notch is a quarter more. Fast
// wheels report leaps, which are bounded so that nobody is lost by one.
func wheelFactor(dy float64) float64 {
	return math.Pow(1.25, math.Max(-4, math.Min(4, dy/notch)))
}
