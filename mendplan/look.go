package mendplan

import "leafmend/mendplan/geom"

// Look is what the pictures tell, as plain questions: this package opens no
// picture. The zero value knows nothing. The functions must give the same
// answer to the same question as long as the pictures stay the same, and may
// be called from several goroutines at once.
type Look struct {
	// Print returns which share of an outline in the leaf frame lies on
	// print or ink on the given side, 0 to 1, and whether that is known.
	Print func(leafID string, side SideName, outline geom.Area) (share float64, known bool)
	// Colour returns the colour of the bare paper of the given side beside
	// an outline, and whether it is known: only from a scan with a neutral
	// reference.
	Colour func(leafID string, side SideName, outline geom.Area) (colour Lab, known bool)
}

func (l Look) print(leaf string, side SideName, a geom.Area) (float64, bool) {
	if l.Print == nil {
		return 0, false
	}
	return l.Print(leaf, side, a)
}

func (l Look) colour(leaf string, side SideName, a geom.Area) (Lab, bool) {
	if l.Colour == nil {
		return Lab{}, false
	}
	return l.Colour(leaf, side, a)
}
