package collate

// Sheet is where the pages of one bifolium are printed: left and right as one
// looks at its outer and at its inner side.
type Sheet struct{ OuterLeft, OuterRight, InnerLeft, InnerRight int }

// Padded returns the number of pages a gathering of so many written pages
// has: the next multiple of four. Blank pages count.
func Padded(pages int) int { return (max(pages, 0) + 3) / 4 * 4 }

// Impose returns the sheets of one gathering of so many pages, the first page
// being numbered first, from the outermost inwards. Pages are padded.
//
// For sheet i of P pages from s: outer s+P−1−2(i−1) and s+2(i−1), inner
// s+2i−1 and s+P−2i. The rule, and that facing numbers add up to P+1 when
// s = 1, are stated in R. Green's Java glossary, "imposition".
func Impose(pages, first int) []Sheet {
	p := Padded(pages)
	out := make([]Sheet, 0, p/4)
	for i := 1; i <= p/4; i++ {
		out = append(out, Sheet{
			OuterLeft: first + p - 1 - 2*(i-1), OuterRight: first + 2*(i-1),
			InnerLeft: first + 2*i - 1, InnerRight: first + p - 2*i,
		})
	}
	return out
}

// GuardPairs returns the recto pages of the two leaves that each guard joins,
// from the outermost inwards, for a gathering of so many leaves whose first
// recto is page first (Cockerell, Bookbinding, and the Care of Books, 1901,
// chapter III).
func GuardPairs(leaves, first int) [][2]int {
	var out [][2]int
	for j := 1; j <= leaves/2; j++ {
		out = append(out, [2]int{first + 2*(j-1), first + 2*(leaves-j)})
	}
	return out
}
