package nest

// tuning are the numbers of the search, found by trial on the standard
// instances.
type tuning struct {
	Trees  int     // at most so many sheets are ruined at a time
	Ruin   float64 // about so many subtrees are taken out
	Climb  float64 // chance that a subtree's parent is taken out instead
	Whole  float64 // chance that sheets are emptied
	Blink  float64 // chance that a spot is overlooked
	Noise  float64 // how far the order of blanks is mixed
	Orders int     // ways to order blanks
	Tie    float64 // weight of what is left over in large leaves
	Pick   float64 // how much the cheap sheet is preferred
	Heat0  float64 // first heat, in mean blanks
	Heat1  float64 // last
}

var tune = tuning{Trees: 3, Ruin: 5, Climb: 0.4, Whole: 0.02, Blink: 0.03, Noise: 0.2, Orders: 5, Tie: 0.01, Pick: 0.2, Heat0: 0.3, Heat1: 0.01}
