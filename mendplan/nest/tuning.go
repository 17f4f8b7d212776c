package nest

// tuning are the numbers of the search, found by trial on the standard
// instances and the jobs of testdata. None changes what a valid layout is.
type tuning struct {
	Trees   int     // at most so many sheets are ruined at a time
	Ruin    float64 // about so many blanks are taken out, exponentially spread
	Climb   float64 // chance to take out a subtree's parent instead, once and again
	Near    float64 // chance to begin beside what is left over
	Whole   float64 // chance that sheets are emptied
	Blink   float64 // chance that a spot is overlooked
	Noise   float64 // how far the order of blanks is mixed
	Orders  int     // ways to order blanks, see sortWaiting
	Short   float64 // chance that spots are chosen by the shortest side left over
	Squares float64 // chance that they are chosen by the squares of what is left over
	Opens   int     // ways to choose a sheet to open, see choose
	Pick    float64 // how much the cheap sheet is preferred
	Tie     float64 // weight of what is left over in useful form
	Large   float64 // a rest of so many mean blanks counts half
	Heat0   float64 // first heat, in mean blanks
	Heat1   float64 // last
	Reheat  float64 // share of the way back to the first heat when a goal is reached
	Step    float64 // how far a goal lies below the best use, as a share of what lies between it and the bound
}

var tune = tuning{
	Trees: 3, Ruin: 8, Climb: 0.6, Near: 0.1, Whole: 0.02, Blink: 0.03, Noise: 0.2, Orders: 5, Short: 0.2, Squares: 0.5,
	Opens: 3, Pick: 0.2, Tie: 0.02, Large: 5, Heat0: 0.3, Heat1: 0.01, Reheat: 0.4, Step: 0.01,
}
