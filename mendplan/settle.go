package mendplan

import (
	"strconv"

	"leafmend/mendplan/phrase"
)

// mostNumber bounds damage numbers: far more than anyone traces, and small
// enough that counting on never overflows.
const mostNumber = 1 << 30

// settle puts a job that was read into order: leaves get unique identifiers,
// damages unique numbers, and LastNumber covers them all. What it had to
// change is told as problems. A job written by this program comes back as it
// is.
func settle(j Job) (Job, []Problem) {
	var problems []Problem
	say := func(leaf string, words, hint phrase.Phrase) {
		problems = append(problems, Problem{Kind: BadFile, Weight: Doubt, Leaf: leaf, Words: words, Hint: hint})
	}
	j.LastNumber = min(max(j.LastNumber, 0), mostNumber)
	ids, taken := map[string]bool{}, map[string]bool{}
	for _, l := range j.Leaves {
		taken[l.ID] = true
	}
	numbers := map[int]bool{}
	for i := range j.Leaves {
		leaf := &j.Leaves[i]
		if leaf.ID == "" || ids[leaf.ID] {
			old := leaf.ID
			leaf.ID = freshID("L", i+1, taken) // the others keep theirs: gatherings name them
			taken[leaf.ID] = true
			say(leaf.ID, phrase.Of("Leaf %d had no identifier of its own (%q).", i+1, old), phrase.Of("It was given a new one; check that it is the leaf you expect."))
		}
		ids[leaf.ID] = true
		for k := range leaf.Damages {
			if n := leaf.Damages[k].Number; n <= mostNumber {
				j.LastNumber = max(j.LastNumber, n)
			}
		}
	}
	for i := range j.Leaves {
		leaf := &j.Leaves[i]
		for k := range leaf.Damages {
			d := &leaf.Damages[k]
			if d.Side != Front && d.Side != Back {
				d.Side = Front
			}
			if d.Number >= 1 && d.Number <= mostNumber && !numbers[d.Number] {
				numbers[d.Number] = true
				continue
			}
			old := d.Number
			j.LastNumber++
			d.Number = j.LastNumber
			numbers[d.Number] = true
			say(leaf.ID, phrase.Of("Damage number %d on leaf %s is used twice or not valid.", old, leaf.Mark), phrase.Of("It is now number %d; labels printed before may differ.", d.Number))
		}
	}
	return j, problems
}

// freshID returns prefix and a number that is not yet in use.
func freshID(prefix string, n int, used map[string]bool) string {
	for used[prefix+strconv.Itoa(n)] {
		n++
	}
	return prefix + strconv.Itoa(n)
}

// FreshLeafID returns an identifier for a new leaf of the job.
func (j Job) FreshLeafID() string {
	used := map[string]bool{}
	for _, l := range j.Leaves {
		used[l.ID] = true
	}
	return freshID("L", len(j.Leaves)+1, used)
}

// FreshTissueID returns an identifier for a new tissue of the job.
func (j Job) FreshTissueID() string {
	used := map[string]bool{}
	for _, t := range j.Tissues {
		used[t.ID] = true
	}
	return freshID("T", len(j.Tissues)+1, used)
}

// FreshStockID returns an identifier for a new stock item of the job.
func (j Job) FreshStockID() string {
	used := map[string]bool{}
	for _, s := range j.Stock {
		used[s.ID] = true
	}
	return freshID("S", len(j.Stock)+1, used)
}
