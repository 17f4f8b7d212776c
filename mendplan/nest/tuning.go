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
	Opens  int     // ways to choose a sheet to open
	Pick   float64 // how much the cheap sheet is preferred
	Near   float64 // chance that a sheet is ruined around what is left over
	Short  float64 // chance that spots are chosen by the shortest side left over
	Quad   float64
	Large  float64
	Step   float64
	Reheat float64
	Heat0  float64 // first heat, in mean blanks
	Heat1  float64 // last
}

var tune = tuning{Trees: 3, Ruin: 8, Climb: 0.6, Whole: 0.02, Blink: 0.03, Noise: 0.2, Orders: 5, Tie: 0.05, Large: 5, Quad: 0.5, Step: 0.01, Opens: 3, Pick: 0.2, Near: 0.2, Short: 0.2, Reheat: 0.4, Heat0: 0.3, Heat1: 0.01}
