package collate

import (
	"slices"
	"strings"

	"leafmend/mendplan"
)

// Verdict is what two page numbers that were read off a sheet tell.
type Verdict string

// Verdicts on a sheet that has been laid down.
const (
	InPlace   Verdict = "in place"       // both numbers are those that should show
	TurnedUp  Verdict = "turned over"    // the right sheet, its other side up
	HeadDown  Verdict = "head to tail"   // the right side up, left and right exchanged
	Elsewhere Verdict = "another sheet"  // a sheet that belongs to another place
	Unknown   Verdict = "no such number" // no side of any sheet shows these
)

// Sighting is what was made of two page numbers.
type Sighting struct {
	Verdict Verdict
	Row     int // for Elsewhere, the row where the sheet seen belongs; else the row asked about
}

// Judge compares the page numbers read off the sheet at row with those that
// should show. rows come from [Order]. A number that was not read is "", and
// is passed over; with both empty nothing is in place.
func Judge(job mendplan.Job, rows []Row, row int, left, right string) Sighting {
	left, right = strings.TrimSpace(left), strings.TrimSpace(right)
	r := rows[row]
	switch {
	case left == "" && right == "":
		return Sighting{Unknown, row}
	case fits(r.Left, left) && fits(r.Right, right):
		return Sighting{InPlace, row}
	case fits(r.Left, right) && fits(r.Right, left):
		return Sighting{HeadDown, row}
	}
	if l, rt := otherSide(job, r); fits(l, left) && fits(rt, right) || fits(l, right) && fits(rt, left) {
		return Sighting{TurnedUp, row}
	}
	for i, o := range rows {
		l, rt := otherSide(job, o)
		for _, side := range [][2]string{{o.Left, o.Right}, {l, rt}} {
			if i != row && fits(side[0], left) && fits(side[1], right) {
				return Sighting{Elsewhere, i}
			}
		}
	}
	return Sighting{Unknown, row}
}

// fits reports whether a number that was read is the one expected; one that
// was not read fits everything.
func fits(want, read string) bool { return read == "" || strings.EqualFold(want, read) }

// otherSide returns the page numbers on the side of a sheet that lies down,
// left and right as one would look at it.
func otherSide(job mendplan.Job, r Row) (left, right string) {
	for gi, g := range job.Gatherings {
		i := slices.IndexFunc(g.Sheets, func(s mendplan.SheetPlace) bool { return s.Leaf == r.Leaf })
		if r.Leaf == "" || i < 0 {
			continue
		}
		return shows(g, Places(job, gi), i, r.Up.Other())
	}
	return "", ""
}

// shows returns the page numbers on one side of a sheet, left and right as
// one looks at it; a half that is gone is "missing".
func shows(g mendplan.Gathering, places []Place, sheet int, side mendplan.SideName) (left, right string) {
	for _, p := range places {
		if p.Sheet != sheet {
			continue
		}
		for _, page := range []Page{p.Recto, p.Verso} {
			if page.Side != side {
				continue
			}
			label := page.Label
			if p.Missing {
				label = "missing"
			}
			// A single leaf's recto shows with its gutter on the left, so
			// its number stands on the right; its verso on the left.
			if page.Left || g.Sheets[sheet].Half != mendplan.WholeSheet && page.Side == mendplan.Back {
				left = label
			} else {
				right = label
			}
		}
	}
	return left, right
}
