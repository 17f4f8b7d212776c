package collate_test

import (
	"encoding/xml"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
)

// gathering makes a gathering of whole bifolia with leaves named prefix1 ….
func gathering(id string, sheets int, leaf string) mendplan.Gathering {
	g := mendplan.Gathering{ID: id}
	for i := range sheets {
		g.Sheets = append(g.Sheets, mendplan.SheetPlace{Leaf: fmt.Sprintf("%s%d", leaf, i+1)})
	}
	return g
}

func withLeaves(gs ...mendplan.Gathering) mendplan.Job {
	job := mendplan.Job{Gatherings: gs}
	for _, g := range gs {
		for _, s := range g.Sheets {
			kind := mendplan.Bifolium
			if s.Half != mendplan.WholeSheet {
				kind = mendplan.SingleLeaf
			}
			if s.Leaf != "" {
				job.Leaves = append(job.Leaves, mendplan.Leaf{ID: s.Leaf, Mark: s.Leaf, Kind: kind})
			}
		}
	}
	return job
}

// Printed orders of stitched booklets: 16 pages from a personal page of 1999
// on booklets, 4 pages from a print shop's help page; the others follow from
// the rule and are listed here by hand.
func TestBookletsAreImposedAsPrinted(t *testing.T) {
	for _, c := range []struct {
		name         string
		pages, first int
		want         []collate.Sheet
	}{
		{"4 pages", 4, 1, []collate.Sheet{{4, 1, 2, 3}}},
		{"8 pages", 8, 1, []collate.Sheet{{8, 1, 2, 7}, {6, 3, 4, 5}}},
		{"12 pages", 12, 1, []collate.Sheet{{12, 1, 2, 11}, {10, 3, 4, 9}, {8, 5, 6, 7}}},
		{"16 pages", 16, 1, []collate.Sheet{{16, 1, 2, 15}, {14, 3, 4, 13}, {12, 5, 6, 11}, {10, 7, 8, 9}}},
		{"20 pages", 20, 1, []collate.Sheet{{20, 1, 2, 19}, {18, 3, 4, 17}, {16, 5, 6, 15}, {14, 7, 8, 13}, {12, 9, 10, 11}}},
		{"a second gathering of 16", 16, 17, []collate.Sheet{{32, 17, 18, 31}, {30, 19, 20, 29}, {28, 21, 22, 27}, {26, 23, 24, 25}}},
		{"nothing", 0, 1, []collate.Sheet{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if diff := cmp.Diff(c.want, collate.Impose(c.pages, c.first)); diff != "" {
				t.Error(diff)
			}
		})
	}
	if got := collate.Padded(14); got != 16 { // the same page of 1999: two blanks, four sheets
		t.Errorf("14 pages are padded to %d, want 16", got)
	}
}

// Facing numbers add up to P+1 and odd pages lie on the right (R. Green,
// "imposition"); every page is printed exactly once.
func TestLawsOfImposition(t *testing.T) {
	for pages := 4; pages <= 128; pages += 4 {
		seen := map[int]bool{}
		for _, s := range collate.Impose(pages, 1) {
			if s.OuterLeft+s.OuterRight != pages+1 || s.InnerLeft+s.InnerRight != pages+1 {
				t.Errorf("%d pages: %+v does not add up", pages, s)
			}
			if s.OuterRight%2 != 1 || s.InnerRight%2 != 1 {
				t.Errorf("%d pages: %+v has an even page on the right", pages, s)
			}
			for _, p := range []int{s.OuterLeft, s.OuterRight, s.InnerLeft, s.InnerRight} {
				if seen[p] || p < 1 || p > pages {
					t.Errorf("%d pages: page %d twice or not of the gathering", pages, p)
				}
				seen[p] = true
			}
		}
		if len(seen) != pages {
			t.Errorf("%d pages: %d printed", pages, len(seen))
		}
	}
}

// Plan of pairs for guarding printed in Cockerell, Bookbinding, and the Care
// of Books (1901), chapter III.
func TestGuardPairsAreCockerells(t *testing.T) {
	for _, c := range []struct {
		first int
		want  [][2]int
	}{
		{1, [][2]int{{1, 15}, {3, 13}, {5, 11}, {7, 9}}},
		{17, [][2]int{{17, 31}, {19, 29}, {21, 27}, {23, 25}}},
		{33, [][2]int{{33, 47}, {35, 45}, {37, 43}, {39, 41}}},
	} {
		if diff := cmp.Diff(c.want, collate.GuardPairs(8, c.first)); diff != "" {
			t.Error(diff)
		}
	}
}

// The places of a gathering must say of every page what the imposition says:
// two ways to the same thing.
func TestPlacesAgreeWithTheImposition(t *testing.T) {
	for n := 1; n <= 12; n++ {
		job := withLeaves(gathering("a", 2, "a"), gathering("b", n, "b"))
		sheets := collate.Impose(4*n, collate.FirstPage(job, 1))
		for _, p := range collate.Places(job, 1) {
			for _, page := range []collate.Page{p.Recto, p.Verso} {
				s := sheets[p.Sheet]
				want := map[[2]bool]int{{true, true}: s.OuterLeft, {true, false}: s.OuterRight, {false, true}: s.InnerLeft, {false, false}: s.InnerRight}
				if got := want[[2]bool{page.Side == mendplan.Front, page.Left}]; got != page.Number {
					t.Errorf("%d bifolia, sheet %d: page %d is said to be where %d is printed", n, p.Sheet+1, page.Number, got)
				}
			}
			// Leaf j is joined to L+1−j and carries pages 2j−1 and 2j.
			if p.Recto.Number != 8+2*p.Folio-1 || p.Verso.Number != 8+2*p.Folio {
				t.Errorf("folio %d carries %d and %d", p.Folio, p.Recto.Number, p.Verso.Number)
			}
		}
	}
}

func TestTwelveBifoliaAreFortyEightPagesBesidesTheCover(t *testing.T) {
	cover := gathering("c", 1, "c")
	cover.Cover = true
	job := withLeaves(cover, gathering("a", 12, "a"))
	if leaves, pages := collate.Count(job); leaves != 24 || pages != 48 {
		t.Errorf("%d leaves, %d pages", leaves, pages)
	}
	r := collate.Reading(job)
	if len(r) != 26 || r[0].Recto.Label != "cover 1" || r[25].Verso.Label != "cover 4" || r[1].Recto.Number != 1 {
		t.Errorf("the reading order begins %q and ends %q with %d leaves", r[0].Recto.Label, r[len(r)-1].Verso.Label, len(r))
	}
}

func TestFormulas(t *testing.T) {
	signed := func(s string, n int) mendplan.Gathering {
		g := gathering(s, n, s)
		g.Signature = s
		return g
	}
	lost := gathering("y", 2, "y")
	lost.Sheets[0].Missing = mendplan.SecondMissing
	single := gathering("z", 1, "z")
	single.Sheets = append(single.Sheets, mendplan.SheetPlace{Half: mendplan.SecondHalf})
	for _, c := range []struct {
		name    string
		job     mendplan.Job
		formula string
		tei     string
		leaves  int
	}{
		{"A–B⁴ C² is ten leaves, twenty pages", withLeaves(signed("A", 2), signed("B", 2), signed("C", 1)), "A–B⁴ C²", "1-2.4 3.2", 10},
		{"unsigned gatherings count in brackets, the last leaf of the second gone", withLeaves(gathering("x", 4, "x"), lost), "[1]⁸ [2]⁴ (−2.4)", "1.8 2.4(-4)", 12},
		{"a singleton makes an odd number", withLeaves(single), "[1]³", "1.3", 3},
		{"I is followed by K", withLeaves(signed("I", 1), signed("K", 1)), "I–K²", "1-2.2", 4},
		{"nothing", mendplan.Job{}, "", "", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := collate.Formula(c.job); got != c.formula {
				t.Errorf("formula %q, want %q", got, c.formula)
			}
			if got := collate.TEI(c.job); !strings.Contains(got, "<formula>"+c.tei+"</formula>") {
				t.Errorf("TEI %q, want %q", got, c.tei)
			}
			if err := xml.Unmarshal([]byte(collate.TEI(c.job)), new(struct{})); err != nil {
				t.Errorf("the TEI text is not well-formed: %v", err)
			}
			if leaves, pages := collate.Count(c.job); leaves != c.leaves || pages != 2*c.leaves {
				t.Errorf("%d leaves, %d pages, want %d leaves", leaves, pages, c.leaves)
			}
		})
	}
}

// TEI P5 Guidelines, example "1-5.8 6.6": the text under it puts the end of
// quire 6 at leaf 46.
func TestTheTEISampleEndsItsSixthQuireAtLeaf46(t *testing.T) {
	var gs []mendplan.Gathering
	for i := range 5 {
		gs = append(gs, gathering(fmt.Sprint(i), 4, fmt.Sprint("l", i)))
	}
	job := withLeaves(append(gs, gathering("6", 3, "m"))...)
	if got := collate.TEI(job); !strings.Contains(got, ">1-5.8 6.6<") {
		t.Errorf("got %s", got)
	}
	if leaves, _ := collate.Count(job); leaves != 46 {
		t.Errorf("%d leaves, want 46", leaves)
	}
}

// 23 letters: J, U and W are skipped (Cockerell, chapter II).
func TestSignaturesSkipThreeLetters(t *testing.T) {
	for n, want := range map[int]string{1: "A", 9: "I", 10: "K", 20: "V", 21: "X", 23: "Z", 24: "AA", 46: "ZZ", 47: "AAA", 0: ""} {
		if got := collate.SignatureLetters(n); got != want {
			t.Errorf("signature %d is %q, want %q", n, got, want)
		}
	}
}

func TestPagesThatAreMisnumberedShowWhatStandsOnThem(t *testing.T) {
	g := gathering("a", 1, "a")
	g.Pages = map[int]string{2: "12", 4: "unnumbered"}
	job := withLeaves(g)
	rows := collate.Order(job, collate.OutsideIn)
	if rows[0].Left != "12" || rows[0].Right != "3" {
		t.Errorf("inner side shows %q and %q, want 12 and 3", rows[0].Left, rows[0].Right)
	}
}

func TestOrderTellsWhatShowsOnEachSheet(t *testing.T) {
	g := gathering("a", 2, "s")
	g.Sheets = append(g.Sheets, mendplan.SheetPlace{Leaf: "single", Half: mendplan.FirstHalf})
	job := withLeaves(g) // folios: s1 s2 single | s2 s1, pages 1–10
	type line struct{ Mark, Up, Left, Right, Below, Above string }
	lines := func(way collate.Way) (out []line) {
		for _, r := range collate.Order(job, way) {
			out = append(out, line{r.Mark, string(r.Up), r.Left, r.Right, r.Below, r.Above})
		}
		return out
	}
	if diff := cmp.Diff([]line{{"s1", "back", "2", "9", "", "s2"}, {"s2", "back", "4", "7", "s1", "single"}, {"single", "back", "6", "", "s2", ""}}, lines(collate.OutsideIn)); diff != "" {
		t.Error("outside in:", diff)
	}
	if diff := cmp.Diff([]line{{"single", "front", "", "5", "", "s2"}, {"s2", "front", "8", "3", "single", "s1"}, {"s1", "front", "10", "1", "s2", ""}}, lines(collate.CentreOutward)); diff != "" {
		t.Error("centre outward:", diff)
	}
}

func TestMissingLeavesKeepTheirPlace(t *testing.T) {
	g := gathering("a", 2, "s")
	g.Sheets[1].Missing = mendplan.FirstMissing
	rows := collate.Order(withLeaves(g), collate.OutsideIn)
	if rows[1].Left != "missing" || rows[1].Right != "5" {
		t.Errorf("got %+v", rows[1])
	}
}

func TestSheetsThatAreGoneOrBareDoNotBreakThePile(t *testing.T) {
	g := gathering("a", 1, "s")
	g.Sheets = append(g.Sheets, mendplan.SheetPlace{Missing: mendplan.AllMissing}, mendplan.SheetPlace{Blank: true}, mendplan.SheetPlace{}, mendplan.SheetPlace{Leaf: "s5"})
	job := withLeaves(g)
	var got [][2]string
	for _, r := range collate.Order(job, collate.OutsideIn) {
		got = append(got, [2]string{r.Below, r.Above})
	}
	want := [][2]string{{"", "blank"}, {"s1", "blank"}, {"s1", "not scanned"}, {"blank", "s5"}, {"not scanned", ""}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestWhatDoesNotFitIsNamed(t *testing.T) {
	g := gathering("a", 2, "s")
	g.Sheets = append(g.Sheets, mendplan.SheetPlace{Leaf: "s1"}, mendplan.SheetPlace{}, mendplan.SheetPlace{Leaf: "gone"}, mendplan.SheetPlace{Blank: true})
	job := withLeaves(gathering("a", 2, "s"))
	job.Gatherings = []mendplan.Gathering{g}
	job.Leaves = append(job.Leaves, mendplan.Leaf{ID: "x", Mark: "x"})
	var words []string
	for _, p := range collate.Problems(job) {
		words = append(words, p.Words.String())
	}
	all := strings.Join(words, "\n")
	for _, want := range []string{"s1 stands at two places", "no scan at sheet 4", "sheet 5 of gathering [1] is not in the job", "x stands in no gathering"} {
		if !strings.Contains(all, want) {
			t.Errorf("not said: %q in\n%s", want, all)
		}
	}
	if len(words) != 4 {
		t.Errorf("%d problems, want 4:\n%s", len(words), all)
	}
	if p := collate.Problems(withLeaves(gathering("a", 3, "t"))); len(p) > 0 {
		t.Errorf("a job in order has problems: %v", p)
	}
}

func TestAHundredLeavesInEightGatherings(t *testing.T) {
	var gs []mendplan.Gathering
	for i := range 8 {
		n := 6 // bifolia: 96 leaves, and two singletons
		g := gathering(fmt.Sprint("g", i), n, fmt.Sprint("g", i, "s"))
		if i < 4 {
			g.Sheets = append(g.Sheets, mendplan.SheetPlace{Leaf: fmt.Sprint("x", i), Half: mendplan.SecondHalf})
		}
		gs = append(gs, g)
	}
	job := withLeaves(collate.Signed(gs)...)
	leaves, pages := collate.Count(job)
	reading := collate.Reading(job)
	if leaves != 100 || pages != 200 || len(reading) != 100 {
		t.Errorf("%d leaves, %d pages, %d in reading order", leaves, pages, len(reading))
	}
	next := 1
	for _, p := range reading {
		if p.Recto.Number != next || p.Verso.Number != next+1 {
			t.Fatalf("page %d follows %d", p.Recto.Number, next-1)
		}
		next += 2
	}
	if got := collate.Formula(job); got != "A–D¹³ E–H¹²" {
		t.Errorf("formula %q", got)
	}
	if rows := collate.Order(job, collate.OutsideIn); len(rows) != 52 {
		t.Errorf("%d rows in the order, want one a sheet: 52", len(rows))
	}
	if p := collate.Problems(job); len(p) > 0 {
		t.Errorf("problems: %v", p)
	}
}
