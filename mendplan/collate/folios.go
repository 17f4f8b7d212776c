package collate

import (
	"strconv"

	"leafmend/mendplan"
	"leafmend/mendplan/phrase"
)

// Place is one half of a sheet in its gathering: a leaf of two pages.
type Place struct {
	Gathering int    // index in the job's gatherings
	Sheet     int    // index in the gathering, 0 the outermost
	Folio     int    // in the gathering, from 1
	Second    bool   // it stands in the second half
	Leaf      string // ID of the scanned leaf; "" when there is none
	Missing   bool
	Blank     bool
	Recto     Page
	Verso     Page
}

// Page is one page of a leaf.
type Page struct {
	Number int               // in the whole publication as it was, counted without the cover
	Label  string            // what stands on it, else its number
	Side   mendplan.SideName // of the scanned leaf
	Left   bool              // it is the left half of that side as one looks at it
}

// Places returns the leaves of one gathering in reading order. Missing leaves
// keep their place and their numbers.
func Places(job mendplan.Job, gathering int) []Place {
	g := job.Gatherings[gathering]
	var out []Place
	for i, s := range g.Sheets {
		if s.Half != mendplan.SecondHalf {
			out = append(out, Place{Gathering: gathering, Sheet: i, Leaf: s.Leaf, Blank: s.Blank,
				Missing: s.Missing == mendplan.FirstMissing || s.Missing == mendplan.AllMissing})
		}
	}
	for i := len(g.Sheets) - 1; i >= 0; i-- {
		if s := g.Sheets[i]; s.Half != mendplan.FirstHalf {
			out = append(out, Place{Gathering: gathering, Sheet: i, Leaf: s.Leaf, Blank: s.Blank, Second: true,
				Missing: s.Missing == mendplan.SecondMissing || s.Missing == mendplan.AllMissing})
		}
	}
	first := FirstPage(job, gathering)
	for j := range out {
		p := &out[j]
		p.Folio = j + 1
		single := g.Sheets[p.Sheet].Half != mendplan.WholeSheet
		p.Recto = pageOf(g, first, 2*j, pageSide(single, p.Second, true))
		p.Verso = pageOf(g, first, 2*j+1, pageSide(single, p.Second, false))
	}
	return out
}

// pageSide tells where a page is found on the scans of its sheet. On a
// bifolium the first leaf's recto is the right half of the outer side, its
// verso the left half of the inner side; the second leaf's recto is the right
// half of the inner side, its verso the left half of the outer side.
func pageSide(single, second, recto bool) Page {
	switch {
	case single && recto:
		return Page{Side: mendplan.Front}
	case single:
		return Page{Side: mendplan.Back}
	case recto != second:
		return Page{Side: mendplan.Front, Left: second}
	}
	return Page{Side: mendplan.Back, Left: !second}
}

func pageOf(g mendplan.Gathering, first, at int, p Page) Page {
	p.Number = first + at
	p.Label = strconv.Itoa(p.Number)
	if g.Cover {
		p.Label = "cover " + p.Label
	}
	if s, ok := g.Pages[at+1]; ok && s != "" {
		p.Label = s
	}
	return p
}

// FirstPage returns the number of the first page of a gathering: its own when
// it says one, else the next after the gathering before. Covers count apart,
// from 1.
func FirstPage(job mendplan.Job, gathering int) int {
	if f := job.Gatherings[gathering].FirstPage; f > 0 {
		return f
	}
	if job.Gatherings[gathering].Cover {
		return 1
	}
	for i := gathering - 1; i >= 0; i-- {
		if !job.Gatherings[i].Cover {
			return FirstPage(job, i) + 2*Leaves(job.Gatherings[i])
		}
	}
	return 1
}

// Leaves returns how many leaves a gathering has, or had: missing ones count.
func Leaves(g mendplan.Gathering) int {
	n := 0
	for _, s := range g.Sheets {
		if n++; s.Half == mendplan.WholeSheet {
			n++
		}
	}
	return n
}

// Reading returns all leaves of the publication in reading order: the front
// of the cover, the gatherings, the back of the cover.
func Reading(job mendplan.Job) []Place {
	var front, body, back []Place
	for i, g := range job.Gatherings {
		places := Places(job, i)
		if !g.Cover {
			body = append(body, places...)
			continue
		}
		for _, p := range places {
			if p.Second {
				back = append(back, p)
			} else {
				front = append(front, p)
			}
		}
	}
	return append(append(front, body...), back...)
}

// Problems names what does not fit: leaves of the job in no gathering or in
// two, places whose leaf is not in the job, bifolia scanned as single leaves
// or the other way round.
func Problems(job mendplan.Job) []mendplan.Problem {
	var out []mendplan.Problem
	say := func(leaf string, words, hint phrase.Phrase) {
		out = append(out, mendplan.Problem{Kind: mendplan.BadOrder, Weight: mendplan.Doubt, Leaf: leaf, Words: words, Hint: hint})
	}
	seen := map[string]bool{}
	for _, g := range job.Gatherings {
		for i, s := range g.Sheets {
			where := phrase.Of("sheet %d of gathering %s", i+1, nameOf(job, g))
			leaf, ok := job.Leaf(s.Leaf)
			switch {
			case s.Leaf == "":
				if s.Missing != mendplan.AllMissing && !s.Blank {
					say("", phrase.Of("There is no scan at %s.", where), phrase.Of("Attach the leaf to its place, or say that it is missing or blank."))
				}
				continue
			case !ok:
				say("", phrase.Of("The leaf at %s is not in the job.", where), phrase.Of("Attach another."))
				continue
			case seen[s.Leaf]:
				say(s.Leaf, phrase.Of("Leaf %s stands at two places.", leaf.Mark), phrase.Of("Take it away from one."))
			case (leaf.Kind == mendplan.SingleLeaf) != (s.Half != mendplan.WholeSheet) && s.Missing == mendplan.NothingMissing:
				say(s.Leaf, phrase.Of("Leaf %s at %s is a bifolium in one list and a single leaf in the other.", leaf.Mark, where), phrase.Of("Put one of them right."))
			}
			seen[s.Leaf] = true
		}
	}
	if len(job.Gatherings) == 0 {
		return out
	}
	for _, l := range job.Leaves {
		if !seen[l.ID] {
			say(l.ID, phrase.Of("Leaf %s stands in no gathering.", l.Mark), phrase.Of("Put it at its place, so that it can be put back in order."))
		}
	}
	return out
}
