package mendplan

import "leafmend/mendplan/nest"

// HeldShare is the second of two pieces that are cut from one blank, and the
// straight line that parts them, mm on the sheet.
type HeldShare struct {
	Label       string  `json:"label"`
	X1MM        float64 `json:"x1_mm"`
	Y1MM        float64 `json:"y1_mm"`
	X2MM        float64 `json:"x2_mm"`
	Y2MM        float64 `json:"y2_mm"`
	OwnXMM      float64 `json:"own_x_mm"` // middle of the blank's own piece
	OwnYMM      float64 `json:"own_y_mm"`
	XMM         float64 `json:"x_mm"` // middle of the second
	YMM         float64 `json:"y_mm"`
	OwnWidthMM  float64 `json:"own_width_mm"` // of blanks of their own
	OwnLengthMM float64 `json:"own_length_mm"`
	WidthMM     float64 `json:"width_mm"`
	LengthMM    float64 `json:"length_mm"`
	SavedMM2    float64 `json:"saved_mm2"`
	// Where the middles of blanks of their own would lie, and whether the
	// second is turned by 180 degrees; see nest.Share.
	OwnAtXMM   float64 `json:"own_at_x_mm,omitempty"`
	OwnAtYMM   float64 `json:"own_at_y_mm,omitempty"`
	OtherAtXMM float64 `json:"at_x_mm,omitempty"`
	OtherAtYMM float64 `json:"at_y_mm,omitempty"`
	HalfTurn   bool    `json:"half_turn,omitempty"`
}

func heldShare(s *nest.Share) *HeldShare {
	if s == nil {
		return nil
	}
	return &HeldShare{s.Blank, s.X1, s.Y1, s.X2, s.Y2, s.Own.X, s.Own.Y, s.Other.X, s.Other.Y, s.OwnW, s.OwnH, s.OtherW, s.OtherH, s.Gain,
		s.OwnAt.X, s.OwnAt.Y, s.OtherAt.X, s.OtherAt.Y, s.OtherTurned}
}

func (h *HeldShare) share() *nest.Share {
	if h == nil {
		return nil
	}
	return &nest.Share{Blank: h.Label, X1: h.X1MM, Y1: h.Y1MM, X2: h.X2MM, Y2: h.Y2MM, Own: nest.XY{X: h.OwnXMM, Y: h.OwnYMM}, Other: nest.XY{X: h.XMM, Y: h.YMM},
		OwnAt: nest.XY{X: h.OwnAtXMM, Y: h.OwnAtYMM}, OtherAt: nest.XY{X: h.OtherAtXMM, Y: h.OtherAtYMM}, OtherTurned: h.HalfTurn,
		OwnW: h.OwnWidthMM, OwnH: h.OwnLengthMM, OtherW: h.WidthMM, OtherH: h.LengthMM, Gain: h.SavedMM2}
}

// labels are those of the pieces in a place, one or two.
func (h HeldPiece) labels() []string {
	if h.Share == nil {
		return []string{h.Label}
	}
	return []string{h.Label, h.Share.Label}
}
