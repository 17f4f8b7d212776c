package nest

import "math"

// maxMM is the longest length taken, so that micrometres and their sums stay
// well inside 32 bits.
const maxMM = 1e6

// um turns millimetres into whole micrometres.
func um(mm float64) int32 { return int32(math.Round(mm * 1000)) }

// mm turns micrometres into millimetres.
func mm(um int32) float64 { return float64(um) / 1000 }

// exact brings a difference of two lengths back to whole micrometres.
func exact(mm float64) float64 {
	return math.Round(mm*1000)/1000 + 0 // adding 0 takes the sign off a zero
}
