package mendplan

import (
	"fmt"

	"leafmend/mendplan/nest"
)

// heldFrom records a laid-out sheet.
func heldFrom(tissue string, s nest.Sheet) HeldSheet {
	h := HeldSheet{Tissue: tissue, Stock: s.Stock, Copy: s.Copy, Kind: SheetStock, WidthMM: s.W, LengthMM: s.H, MarginsMM: [4]float64{s.Margin.Left, s.Margin.Right, s.Margin.Top, s.Margin.Bottom}, GapMM: s.Gap, Price: s.Price}
	switch {
	case s.Roll:
		h.Kind = Roll
	case s.Remnant:
		h.Kind = Remnant
	}
	for _, p := range s.Places {
		h.Pieces = append(h.Pieces, HeldPiece{Label: p.Blank, XMM: p.X, YMM: p.Y, WidthMM: p.W, LengthMM: p.H, Turned: p.Turned, Off: p.Cut, Share: heldShare(p.Share)})
	}
	bit := func(p nest.Part) HeldBit { return HeldBit{Part: p.Number, Piece: p.Place + 1, Rest: p.Left + 1} }
	for _, c := range s.Cuts {
		h.Steps = append(h.Steps, HeldStep{Part: c.Part, Upright: c.Upright, AtMM: c.At, BandMM: c.Band, X1MM: c.X1, Y1MM: c.Y1, X2MM: c.X2, Y2MM: c.Y2,
			Near: bit(c.Near), Far: bit(c.Far), With: c.With, Again: c.Again})
	}
	for _, r := range s.Remnants {
		h.Rests = append(h.Rests, HeldRest{XMM: r.X, YMM: r.Y, WidthMM: r.W, LengthMM: r.H, Keep: r.Keep})
	}
	return h
}

// Sheet returns the held sheet as the layout shows it. Its pieces count as
// pinned, and those ticked off as cut. It has no tree of cuts: nothing is to
// be changed on it. What a damaged file names wrongly becomes waste.
func (h HeldSheet) Sheet() nest.Sheet {
	m := h.MarginsMM
	s := nest.Sheet{Stock: h.Stock, Copy: h.Copy, Group: h.Tissue, W: h.WidthMM, H: h.LengthMM, Remnant: h.Kind == Remnant, Roll: h.Kind == Roll,
		Price: h.Price, Margin: nest.Margin{Left: m[0], Right: m[1], Top: m[2], Bottom: m[3]}, Gap: h.GapMM}
	for _, p := range h.Pieces {
		s.Places = append(s.Places, nest.Place{Blank: p.Label, X: p.XMM, Y: p.YMM, W: p.WidthMM, H: p.LengthMM, Turned: p.Turned, Pinned: true, Cut: p.Off || h.Done, Share: p.Share.share()})
	}
	within := func(n, most int) int {
		if n < 0 || n > most {
			return -1
		}
		return n - 1
	}
	bit := func(b HeldBit) nest.Part {
		return nest.Part{Number: max(b.Part, 0), Place: within(b.Piece, len(h.Pieces)), Left: within(b.Rest, len(h.Rests))}
	}
	for i, c := range h.Steps {
		s.Cuts = append(s.Cuts, nest.Cut{Step: i + 1, Part: max(c.Part, 0), Upright: c.Upright, At: c.AtMM, Band: c.BandMM, X1: c.X1MM, Y1: c.Y1MM, X2: c.X2MM, Y2: c.Y2MM,
			Near: bit(c.Near), Far: bit(c.Far), With: min(max(c.With, 0), i), Again: c.Again})
		if !c.Again {
			s.Settings++
		}
	}
	for _, r := range h.Rests {
		s.Remnants = append(s.Remnants, nest.Remnant{X: r.XMM, Y: r.YMM, W: r.WidthMM, H: r.LengthMM, Keep: r.Keep})
	}
	return s
}

// freshOffcutID names a remnant after its sheet: the item's ID, the number of
// the held sheet, a letter; so that it can be written on the tissue.
func (j Job) freshOffcutID(h HeldSheet) string {
	for i := 0; ; i++ {
		id := fmt.Sprintf("%s-%d%c", h.Stock, h.Number, 'a'+i%26)
		if i >= 26 {
			id += fmt.Sprint(i / 26)
		}
		if _, taken := j.stockItem(id); !taken {
			return id
		}
	}
}
