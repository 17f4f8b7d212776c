package export

import (
	"leafmend/mendplan"
	"leafmend/mendplan/nest"
)

// Sheet is one sheet with what is cut from it.
type Sheet struct {
	Number     int         `json:"number"` // of the whole list, from 1
	Tissue     string      `json:"tissue"`
	Stock      string      `json:"stock"`
	Copy       int         `json:"copy"` // which of that stock, from 1
	Kind       string      `json:"kind"`
	WidthMM    float64     `json:"width_mm"`
	LengthMM   float64     `json:"length_mm"`
	GrainAlong string      `json:"grain_along"` // "length" or "width"
	Placements []Placement `json:"placements"`
	Cuts       []Cut       `json:"cuts"`
}

// Placement is where a piece lies: its corner nearest the origin and its
// extent along the sheet's width and length. Turned says that the piece's own
// length lies along the sheet's width.
type Placement struct {
	Label    string  `json:"label"`
	XMM      float64 `json:"x_mm"`
	YMM      float64 `json:"y_mm"`
	WidthMM  float64 `json:"width_mm"`
	LengthMM float64 `json:"length_mm"`
	Turned   bool    `json:"turned"`
	// Share tells of a second piece cut from the same blank.
	Share *Share `json:"shared_with,omitempty"`
}

// Share is a second piece in a placement, and the straight line that parts
// the two, on the sheet.
type Share struct {
	Label    string  `json:"label"`
	X1MM     float64 `json:"x1_mm"`
	Y1MM     float64 `json:"y1_mm"`
	X2MM     float64 `json:"x2_mm"`
	Y2MM     float64 `json:"y2_mm"`
	SavedMM2 float64 `json:"saved_mm2"`
}

// Cut is one step: a line from edge to edge of the part in hand.
type Cut struct {
	Step   int     `json:"step"`
	Part   int     `json:"part"` // 0 is the sheet, others are left by earlier steps
	Line   string  `json:"line"` // "along the length" or "along the width"
	From   string  `json:"from"` // the edge of the part that at_mm is measured from: left or top
	AtMM   float64 `json:"at_mm"`
	BandMM float64 `json:"band_mm"` // waste beyond the line before the far side begins
	X1MM   float64 `json:"x1_mm"`
	Y1MM   float64 `json:"y1_mm"`
	X2MM   float64 `json:"x2_mm"`
	Y2MM   float64 `json:"y2_mm"`
	Near   string  `json:"near"` // "piece LABEL", "part N", "remnant" or "waste"
	Far    string  `json:"far"`
	// With is the step of an equal part cut alike before, 0 if none: both may
	// be laid on one another and cut or torn in one go. Same says that the
	// ruler is set as for the step before.
	With int  `json:"with_step,omitempty"`
	Same bool `json:"same_measure,omitempty"`
}

// Remnant is a part worth keeping.
type Remnant struct {
	Sheet    int     `json:"sheet"`
	Tissue   string  `json:"tissue"`
	Stock    string  `json:"stock"`
	XMM      float64 `json:"x_mm"`
	YMM      float64 `json:"y_mm"`
	WidthMM  float64 `json:"width_mm"`
	LengthMM float64 `json:"length_mm"`
}

// Unplaced is a piece that found no place.
type Unplaced struct {
	Label  string `json:"label"`
	Count  int    `json:"count"`
	Reason string `json:"reason"`
	Remedy string `json:"remedy"`
}

func (out *Plan) addLayout(job mendplan.Job, l nest.Layout) {
	for _, s := range l.Sheets {
		item := stockItem(job, s.Stock)
		// Inside, y runs along the grain; a sheet whose grain runs along its
		// width is told with x and y exchanged.
		swapped := item.GrainAlong == "width" && !s.Roll
		number := len(out.Sheets) + 1
		out.Sheets = append(out.Sheets, sheetOf(s, item, number, swapped))
		for _, r := range s.Remnants {
			if !r.Keep {
				continue
			}
			x, y, w, h := swap4(r.X, r.Y, r.W, r.H, swapped)
			out.Remnants = append(out.Remnants, Remnant{number, item.Tissue, s.Stock, x, y, w, h})
		}
	}
	for _, u := range l.Unplaced {
		out.Unplaced = append(out.Unplaced, Unplaced{u.Blank, u.Count, u.Reason, u.Remedy})
	}
}

func sheetOf(s nest.Sheet, item mendplan.Stock, number int, swapped bool) Sheet {
	out := Sheet{Number: number, Tissue: item.Tissue, Stock: s.Stock, Copy: s.Copy + 1, Kind: string(item.Kind),
		WidthMM: s.W, LengthMM: s.H, GrainAlong: "length", Placements: []Placement{}, Cuts: []Cut{}}
	if swapped {
		out.WidthMM, out.LengthMM, out.GrainAlong = s.H, s.W, "width"
	}
	for _, p := range s.Places {
		x, y, w, h := swap4(p.X, p.Y, p.W, p.H, swapped)
		out.Placements = append(out.Placements, Placement{p.Blank, x, y, w, h, p.Turned != swapped, shareOf(p.Share, swapped)})
	}
	for _, c := range s.Cuts {
		out.Cuts = append(out.Cuts, cutOf(s, c, swapped))
	}
	return out
}

func shareOf(s *nest.Share, swapped bool) *Share {
	if s == nil {
		return nil
	}
	x1, y1, x2, y2 := swap4(s.X1, s.Y1, s.X2, s.Y2, swapped)
	return &Share{s.Blank, x1, y1, x2, y2, s.Gain}
}

func cutOf(s nest.Sheet, c nest.Cut, swapped bool) Cut {
	x1, y1, x2, y2 := c.X1, c.Y1, c.X2, c.Y2
	if swapped {
		x1, y1, x2, y2 = y1, x1, y2, x2
	}
	out := Cut{Step: c.Step, Part: c.Part, AtMM: c.At, BandMM: c.Band, X1MM: x1, Y1MM: y1, X2MM: x2, Y2MM: y2,
		Line: "along the width", From: "top", Near: partWords(s, c.Near), Far: partWords(s, c.Far), With: c.With, Same: c.Again}
	if c.Upright != swapped {
		out.From, out.Line = "left", "along the length"
	}
	return out
}

func swap4(x, y, w, h float64, swapped bool) (float64, float64, float64, float64) {
	if swapped {
		return y, x, h, w
	}
	return x, y, w, h
}

func stockItem(job mendplan.Job, id string) mendplan.Stock {
	for _, s := range job.Stock {
		if s.ID == id {
			return s
		}
	}
	return mendplan.Stock{ID: id}
}
