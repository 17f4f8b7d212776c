package pdf

import (
	"fmt"
	"slices"
	"strings"

	"leafmend/mendplan/nest"
)

// sheetRun is a number of sheets of one tissue that are cut alike, whatever
// the names of their pieces: they are drawn and explained once.
type sheetRun struct {
	tissue  string
	numbers []int        // of the sheets in the printed set, from 1
	sheets  []nest.Sheet // of the same length
}

// runs gathers the sheets of all tissues. Sheets are numbered in the order of
// the layouts, as everywhere else.
func (b *book) runs() []sheetRun {
	var out []sheetRun
	n := 0
	for _, t := range b.plan.Layouts {
		at := map[string]int{}
		for _, s := range t.Layout.Sheets {
			n++
			k := s.Pattern()
			i, ok := at[k]
			if !ok {
				i = len(out)
				at[k] = i
				out = append(out, sheetRun{tissue: t.Tissue})
			}
			out[i].numbers, out[i].sheets = append(out[i].numbers, n), append(out[i].sheets, s)
		}
	}
	return out
}

// mixed reports whether the pieces of the run's sheets have different names.
func (r sheetRun) mixed() bool {
	for _, s := range r.sheets[1:] {
		if !slices.EqualFunc(s.Places, r.sheets[0].Places, func(a, b nest.Place) bool { return a.Name() == b.Name() }) {
			return true
		}
	}
	return false
}

// names are the labels of one place on each sheet of the run.
func (r sheetRun) names(place int) []string {
	out := make([]string, len(r.sheets))
	for i, s := range r.sheets {
		out[i] = s.Places[place].Name()
	}
	return out
}

// piecesOn counts the pieces that come out of a sheet.
func piecesOn(s nest.Sheet) int {
	n := 0
	for _, p := range s.Places {
		n += len(p.Blanks())
	}
	return n
}

// which names the sheets: "2", "2 to 5", "2, 4, 7".
func (b *book) which(numbers []int) string {
	if n := len(numbers); n > 2 && numbers[n-1]-numbers[0] == n-1 {
		return b.say("%d to %d", numbers[0], numbers[n-1])
	}
	words := make([]string, len(numbers))
	for i, n := range numbers {
		words[i] = fmt.Sprint(n)
	}
	return strings.Join(words, ", ")
}

// partsOf works out the rectangle of every part that the cuts name, in sheet
// millimetres: 0 is the sheet.
func partsOf(s nest.Sheet) map[int]rect {
	parts := map[int]rect{0: {0, 0, s.W, s.H}}
	for _, c := range s.Cuts {
		r := parts[c.Part]
		near, far := r, r
		if c.Upright {
			near.w = c.At
			far.x, far.w = r.x+c.At+c.Band, r.w-c.At-c.Band
		} else {
			near.h = c.At
			far.y, far.h = r.y+c.At+c.Band, r.h-c.At-c.Band
		}
		if c.Near.Number > 0 {
			parts[c.Near.Number] = near
		}
		if c.Far.Number > 0 {
			parts[c.Far.Number] = far
		}
	}
	return parts
}

// offcutNames are the names under which the remnants of a sheet go back to
// stock, by their place in Sheet.Remnants.
func offcutNames(s nest.Sheet) map[int]string {
	out := map[int]string{}
	offcuts := s.Offcuts()
	n := 0
	for i, r := range s.Remnants {
		if r.Keep && n < len(offcuts) {
			out[i] = offcuts[n].ID
			n++
		}
	}
	return out
}
