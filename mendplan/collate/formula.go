package collate

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"leafmend/mendplan"
)

// letters is the printers' alphabet of signatures: 23 letters, without J, U
// and W (Cockerell, Bookbinding, and the Care of Books, chapter II).
const letters = "ABCDEFGHIKLMNOPQRSTVXYZ"

// SignatureLetters returns the n-th signature, from 1: A … Z, then AA … ZZ,
// AAA …; "" for n below 1.
func SignatureLetters(n int) string {
	if n < 1 {
		return ""
	}
	letter := letters[(n-1)%len(letters)]
	return strings.Repeat(string(letter), (n-1)/len(letters)+1)
}

// nameOf is what a gathering is called: its signature, "cover", or its place
// among the unsigned in brackets (G. T. Tanselle, Studies in Bibliography 38,
// on numbering unsigned gatherings).
func nameOf(job mendplan.Job, g mendplan.Gathering) string {
	if g.Signature != "" {
		return g.Signature
	}
	if g.Cover {
		return "cover"
	}
	n := 0
	for _, o := range job.Gatherings {
		if !o.Cover {
			n++
		}
		if o.ID == g.ID {
			break
		}
	}
	return "[" + strconv.Itoa(n) + "]"
}

var raised = strings.NewReplacer("0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹")

// Formula returns the collation formula: signatures with the number of leaves
// as a raised figure, runs of letters joined by a dash, missing leaves in
// brackets after a minus, such as "A–B⁴ C² (−B3)" or "[1]⁸ [2]⁴ (−2.4)". The
// general form follows F. Bowers, Principles of Bibliographical Description
// (1949), from memory. The cover is left out.
func Formula(job mendplan.Job) string {
	var parts []string
	for i := 0; i < len(job.Gatherings); {
		g := job.Gatherings[i]
		if g.Cover {
			i++
			continue
		}
		end := runEnd(job, i)
		name := nameOf(job, g)
		if end > i {
			name += "–" + nameOf(job, job.Gatherings[end])
		}
		parts = append(parts, name+raised.Replace(strconv.Itoa(Leaves(g))))
		i = end + 1
	}
	var gone []string
	for i, g := range job.Gatherings {
		if g.Cover {
			continue
		}
		for _, p := range Places(job, i) {
			if p.Missing {
				gone = append(gone, "−"+folioName(nameOf(job, g), p.Folio))
			}
		}
	}
	if len(gone) > 0 {
		parts = append(parts, "("+strings.Join(gone, ", ")+")")
	}
	return strings.Join(parts, " ")
}

// runEnd returns the last of the gatherings from i on that are signed in
// sequence and have as many leaves.
func runEnd(job mendplan.Job, i int) int {
	end := i
	for end+1 < len(job.Gatherings) {
		a, b := job.Gatherings[end], job.Gatherings[end+1]
		if b.Cover || a.Signature == "" || b.Signature != following(a.Signature) || Leaves(a) != Leaves(b) {
			break
		}
		end++
	}
	return end
}

// following returns the signature after s in the printers' alphabet.
func following(s string) string {
	at := strings.IndexByte(letters, s[0])
	if at < 0 || s != strings.Repeat(s[:1], len(s)) {
		return ""
	}
	return SignatureLetters((len(s)-1)*len(letters) + at + 2)
}

// folioName names a folio: B3, or 2.4 for a gathering in brackets.
func folioName(gathering string, folio int) string {
	if strings.HasPrefix(gathering, "[") {
		return strings.Trim(gathering, "[]") + "." + strconv.Itoa(folio)
	}
	return gathering + strconv.Itoa(folio)
}

// Count returns the leaves and pages of the publication as it was, without
// the cover.
func Count(job mendplan.Job) (leaves, pages int) {
	for _, g := range job.Gatherings {
		if !g.Cover {
			leaves += Leaves(g)
		}
	}
	return leaves, 2 * leaves
}

// TEI returns the collation as a TEI P5 element: <collation> with a <formula>
// that writes quires as number.leaves, runs joined by a dash and missing
// leaves in brackets, as in the TEI Guidelines' "1-5.8 6.6".
func TEI(job mendplan.Job) string {
	var quires []mendplan.Gathering
	var gone [][]int
	for i, g := range job.Gatherings {
		if g.Cover {
			continue
		}
		var m []int
		for _, p := range Places(job, i) {
			if p.Missing {
				m = append(m, p.Folio)
			}
		}
		quires, gone = append(quires, g), append(gone, m)
	}
	var parts []string
	for i := 0; i < len(quires); {
		end := i
		for end+1 < len(quires) && len(gone[i]) == 0 && len(gone[end+1]) == 0 && Leaves(quires[end+1]) == Leaves(quires[i]) {
			end++
		}
		s := strconv.Itoa(i + 1)
		if end > i {
			s += "-" + strconv.Itoa(end+1)
		}
		s += "." + strconv.Itoa(Leaves(quires[i]))
		if len(gone[i]) > 0 {
			words := make([]string, len(gone[i]))
			for k, f := range gone[i] {
				words[k] = fmt.Sprintf("-%d", f)
			}
			s += "(" + strings.Join(words, ",") + ")"
		}
		parts = append(parts, s)
		i = end + 1
	}
	return "<collation xmlns=\"http://www.tei-c.org/ns/1.0\"><p><formula>" + strings.Join(parts, " ") + "</formula></p></collation>\n"
}

// Signed returns the gatherings with signatures A, B, C … in their order,
// covers apart.
func Signed(gs []mendplan.Gathering) []mendplan.Gathering {
	out := slices.Clone(gs)
	n := 0
	for i := range out {
		if !out[i].Cover {
			n++
			out[i].Signature = SignatureLetters(n)
		}
	}
	return out
}

// Name returns what a gathering is called: its signature, "cover", or its
// place among the unsigned in brackets.
func Name(job mendplan.Job, gathering int) string { return nameOf(job, job.Gatherings[gathering]) }
