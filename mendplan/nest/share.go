package nest

// Share tells that a second blank is cut from a place, and how the two are
// parted: after the blank has come free, by one straight cut from edge to
// edge along the line. Lengths are mm, points lie on the sheet.
type Share struct {
	Blank          string  // ID of the second
	X1, Y1, X2, Y2 float64 // the parting line
	Own, Other     XY      // middles of the place's own piece and of the second
	// OwnAt and OtherAt are where the middles of blanks of their own would
	// lie: from there the outlines are drawn, the second's turned by 180
	// degrees where OtherTurned.
	OwnAt, OtherAt XY
	OtherTurned    bool
	OwnW, OwnH     float64 // of a blank of its own
	OtherW, OtherH float64
	Gain           float64 // mm² saved against two blanks of their own, gap included
}

// Blanks are the IDs of the blanks that come out of a place, one or two.
func (p Place) Blanks() []string {
	if p.Share == nil {
		return []string{p.Blank}
	}
	return []string{p.Blank, p.Share.Blank}
}

// Name is what to write on a place: its blank, or both.
func (p Place) Name() string {
	if p.Share == nil {
		return p.Blank
	}
	return p.Blank + " + " + p.Share.Blank
}

// On is the share as it lies on the sheet: s is told in the frame of the
// blank, w × h mm, its corner at 0, 0, and the place holds it, turned or not.
func (s Share) On(p Place, h float64) *Share {
	at := func(x, y float64) (float64, float64) {
		if p.Turned {
			x, y = h-y, x
		}
		return p.X + x, p.Y + y
	}
	s.X1, s.Y1 = at(s.X1, s.Y1)
	s.X2, s.Y2 = at(s.X2, s.Y2)
	s.Own.X, s.Own.Y = at(s.Own.X, s.Own.Y)
	s.Other.X, s.Other.Y = at(s.Other.X, s.Other.Y)
	s.OwnAt.X, s.OwnAt.Y = at(s.OwnAt.X, s.OwnAt.Y)
	s.OtherAt.X, s.OtherAt.Y = at(s.OtherAt.X, s.OtherAt.Y)
	return &s
}

// Gain is the area saved by blanks that share a place, mm².
func (l Layout) Gain() float64 {
	sum := 0.0
	for _, s := range l.Sheets {
		for _, p := range s.Places {
			if p.Share != nil {
				sum += p.Share.Gain
			}
		}
	}
	return sum
}
