package mendplan

import (
	"slices"

	"leafmend/mendplan/nest"
)

// HeldSheet is a sheet of tissue whose layout stays as it is, whatever
// happens to the job: because cutting has begun, because it is done, or
// because the user likes it. Lengths run along the tissue's grain (y), widths
// across it (x), from the sheet's corner.
type HeldSheet struct {
	Number   int       `json:"number"` // in the order of holding, never used twice
	Tissue   string    `json:"tissue"` // ID
	Stock    string    `json:"stock"`  // ID of the item it is from
	Copy     int       `json:"copy"`   // which of that item, from 0, when it was held
	Kind     StockKind `json:"kind"`
	WidthMM  float64   `json:"width_mm"`
	LengthMM float64   `json:"length_mm"` // of a roll, what is cut off
	// MarginsMM are kept clear: left, right, top, bottom.
	MarginsMM [4]float64  `json:"margins_mm,omitzero"`
	GapMM     float64     `json:"gap_mm,omitempty"`
	Price     float64     `json:"price,omitempty"` // of the whole sheet
	Pieces    []HeldPiece `json:"pieces"`          // in the order they come free
	Steps     []HeldStep  `json:"steps"`
	Rests     []HeldRest  `json:"rests,omitempty"`
	// Done says that the sheet is cut: it has left the stock, and what is
	// worth keeping of it has entered.
	Done bool `json:"done,omitempty"`
}

// HeldPiece is where a piece lies on a held sheet.
type HeldPiece struct {
	Label    string  `json:"label"`
	XMM      float64 `json:"x_mm"`
	YMM      float64 `json:"y_mm"`
	WidthMM  float64 `json:"width_mm"`
	LengthMM float64 `json:"length_mm"`
	Turned   bool    `json:"turned,omitempty"` // its own length lies across the grain
	Off      bool    `json:"ticked_off,omitempty"`
	// Share tells of a second piece cut from the same blank; nil if none.
	Share *HeldShare `json:"shared_with,omitempty"`
}

// HeldStep is one cut of a held sheet, as [nest.Cut].
type HeldStep struct {
	Part    int     `json:"part,omitempty"`
	Upright bool    `json:"upright,omitempty"`
	AtMM    float64 `json:"at_mm"`
	BandMM  float64 `json:"band_mm,omitempty"`
	X1MM    float64 `json:"x1_mm"`
	Y1MM    float64 `json:"y1_mm"`
	X2MM    float64 `json:"x2_mm"`
	Y2MM    float64 `json:"y2_mm"`
	Near    HeldBit `json:"near,omitzero"`
	Far     HeldBit `json:"far,omitzero"`
	With    int     `json:"with_step,omitempty"`
	Again   bool    `json:"same_measure,omitempty"`
	Off     bool    `json:"ticked_off,omitempty"`
}

// HeldBit names what a cut leaves on one side of it; all zero is waste.
type HeldBit struct {
	Part  int `json:"part,omitempty"`
	Piece int `json:"piece,omitempty"` // place in Pieces, from 1
	Rest  int `json:"rest,omitempty"`  // place in Rests, from 1
}

// HeldRest is what is left over in one piece.
type HeldRest struct {
	XMM      float64 `json:"x_mm"`
	YMM      float64 `json:"y_mm"`
	WidthMM  float64 `json:"width_mm"`
	LengthMM float64 `json:"length_mm"`
	Keep     bool    `json:"keep,omitempty"`
	Stock    string  `json:"stock,omitempty"` // ID under which it entered the stock
}

// PinnedPiece holds one piece at its place on a sheet; the layout is made
// around it.
type PinnedPiece struct {
	Label  string  `json:"label"`
	Stock  string  `json:"stock"` // ID of the item
	Copy   int     `json:"copy"`  // which of it, from 0
	XMM    float64 `json:"x_mm"`  // across the grain
	YMM    float64 `json:"y_mm"`  // along it
	Turned bool    `json:"turned,omitempty"`
}

// WithPin returns the job with the piece held at its place.
func (j Job) WithPin(p PinnedPiece) Job {
	j.Pinned = put(j.Pinned, p, func(o PinnedPiece) bool { return o.Label == p.Label })
	return j
}

// WithoutPin returns the job with the piece free to be laid elsewhere.
func (j Job) WithoutPin(label string) Job {
	j.Pinned = drop(j.Pinned, func(o PinnedPiece) bool { return o.Label == label })
	return j
}

// PinOf returns where a piece is pinned.
func (j Job) PinOf(label string) (PinnedPiece, bool) {
	i := slices.IndexFunc(j.Pinned, func(p PinnedPiece) bool { return p.Label == label })
	if i < 0 {
		return PinnedPiece{}, false
	}
	return j.Pinned[i], true
}

// HeldSheet returns the held sheet of that number.
func (j Job) HeldSheet(number int) (HeldSheet, bool) {
	i := slices.IndexFunc(j.Held, func(h HeldSheet) bool { return h.Number == number })
	if i < 0 {
		return HeldSheet{}, false
	}
	return j.Held[i], true
}

// HoldLayout returns the job in which the sheets of a tissue stay as they
// are laid out in l, those that are held already included. Pins of their
// pieces are no longer needed and go.
func (j Job) HoldLayout(tissue string, l nest.Layout) Job {
	already := len(heldOf(j, tissue)) // they come first in a layout
	for _, s := range l.Sheets[min(already, len(l.Sheets)):] {
		h := heldFrom(tissue, s)
		j.LastHeld++
		h.Number = j.LastHeld
		j.Held = append(slices.Clone(j.Held), h)
		for _, p := range h.Pieces {
			j = j.WithoutPin(p.Label)
			if p.Share != nil {
				j = j.WithoutPin(p.Share.Label)
			}
		}
	}
	return j
}

// HeldAt returns the held sheet that stands at an index of the tissue's
// layout; false when that one is not held.
func (j Job) HeldAt(tissue string, index int) (HeldSheet, bool) {
	held := heldOf(j, tissue)
	if index < 0 || index >= len(held) {
		return HeldSheet{}, false
	}
	return held[index], true
}

// PinOn returns the job in which a piece is held at a place on a sheet of the
// layout, mm from its corner.
func (j Job) PinOn(label string, s nest.Sheet, x, y float64, turned bool) Job {
	return j.WithPin(PinnedPiece{Label: label, Stock: s.Stock, Copy: max(s.Copy-j.heldCopies(s.Stock), 0), XMM: x, YMM: y, Turned: turned})
}

// ReleaseSheet returns the job in which a held sheet is laid out like any
// other again. One that is cut stays: see [Job.UncutSheet].
func (j Job) ReleaseSheet(number int) Job {
	j.Held = drop(j.Held, func(h HeldSheet) bool { return h.Number == number && !h.Done })
	return j
}

// withHeld puts h in the place of the held sheet of its number.
func (j Job) withHeld(h HeldSheet) Job {
	if _, ok := j.HeldSheet(h.Number); ok {
		j.Held = put(j.Held, h, func(o HeldSheet) bool { return o.Number == h.Number })
	}
	return j
}

// TickStep marks a cut of a held sheet, counted from 0, as made or not; the
// pieces that come free by it are ticked off with it.
func (j Job) TickStep(number, step int, off bool) Job {
	h, ok := j.HeldSheet(number)
	if !ok || step < 0 || step >= len(h.Steps) {
		return j
	}
	h.Steps, h.Pieces = slices.Clone(h.Steps), slices.Clone(h.Pieces)
	h.Steps[step].Off = off
	for _, bit := range []HeldBit{h.Steps[step].Near, h.Steps[step].Far} {
		if bit.Piece > 0 && bit.Piece <= len(h.Pieces) {
			h.Pieces[bit.Piece-1].Off = off
		}
	}
	return j.withHeld(h)
}

// TickPiece marks a piece of a held sheet, counted from 0, as cut or not.
func (j Job) TickPiece(number, piece int, off bool) Job {
	h, ok := j.HeldSheet(number)
	if !ok || piece < 0 || piece >= len(h.Pieces) {
		return j
	}
	h.Pieces = slices.Clone(h.Pieces)
	h.Pieces[piece].Off = off
	return j.withHeld(h)
}

// CutSheet returns the job in which a held sheet is cut: all its cuts and
// pieces are ticked off, it has left the stock, and what is worth keeping of
// it has entered as remnants. Their IDs, from 1, are told by
// [HeldRest.Stock]; they are for writing on the remnants.
func (j Job) CutSheet(number int) Job {
	h, ok := j.HeldSheet(number)
	if !ok || h.Done {
		return j
	}
	sheet := h.Sheet()
	h.Steps, h.Pieces, h.Rests = slices.Clone(h.Steps), slices.Clone(h.Pieces), slices.Clone(h.Rests)
	for i := range h.Steps {
		h.Steps[i].Off = true
	}
	for i := range h.Pieces {
		h.Pieces[i].Off = true
	}
	item, known := j.stockItem(h.Stock)
	if known {
		j = j.WithStock(takenFrom(item, h))
	}
	offcuts := sheet.Offcuts()
	for i, r := range h.Rests {
		if !r.Keep || len(offcuts) == 0 {
			continue
		}
		o := offcuts[0]
		offcuts = offcuts[1:]
		id := o.ID
		if _, taken := j.stockItem(id); taken {
			id = j.freshOffcutID(h)
		}
		s := Stock{ID: id, Tissue: h.Tissue, Kind: Remnant, LengthMM: o.H, WidthMM: o.W, Count: 1, GrainAlong: "length",
			MarginMM: max(o.Margin.Left, o.Margin.Right, o.Margin.Top, o.Margin.Bottom), Currency: item.Currency}
		j = j.WithStock(s)
		h.Rests[i].Stock = s.ID
	}
	h.Done = true
	return j.withHeld(h)
}

// UncutSheet takes [Job.CutSheet] back: the sheet is held but not cut, it is
// in stock again, and its remnants are not. ok is false, and the job as it
// was, when a piece is laid on one of them for good.
func (j Job) UncutSheet(number int) (back Job, ok bool) {
	h, found := j.HeldSheet(number)
	if !found || !h.Done {
		return j, false
	}
	back = j
	h.Rests = slices.Clone(h.Rests)
	for i, r := range h.Rests {
		if r.Stock == "" {
			continue
		}
		if slices.ContainsFunc(j.Held, func(o HeldSheet) bool { return o.Stock == r.Stock }) {
			return j, false
		}
		back = back.WithoutStock(r.Stock)
		h.Rests[i].Stock = ""
	}
	if item, known := j.stockItem(h.Stock); known {
		if item.Kind == Roll && item.LengthMM > 0 {
			item.LengthMM += h.LengthMM
		} else if item.Kind != Roll {
			item.Count++
		}
		back = back.WithStock(item)
	}
	h.Done = false
	return back.withHeld(h), true
}

// takenFrom is the stock item once the held sheet has left it.
func takenFrom(item Stock, h HeldSheet) Stock {
	switch {
	case item.Kind != Roll:
		item.Count = max(item.Count-1, 0)
	case item.LengthMM > 0:
		if item.LengthMM -= h.LengthMM; item.LengthMM < 1 {
			item.LengthMM, item.Count = 0, 0
		}
	}
	return item
}

func (j Job) stockItem(id string) (Stock, bool) {
	i := slices.IndexFunc(j.Stock, func(s Stock) bool { return s.ID == id })
	if i < 0 {
		return Stock{}, false
	}
	return j.Stock[i], true
}
