package mendplan_test

import "math"

// within reports whether got lies within tol of want.
func within(got, want, tol float64) bool { return math.Abs(got-want) <= tol }
