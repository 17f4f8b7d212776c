package mendplan_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"leafmend/mendplan"
)

func TestScansArePairedIntoLeaves(t *testing.T) {
	for _, c := range []struct {
		name string
		how  mendplan.Pairing
		in   []string
		want []mendplan.Pair
	}{
		{"recto and verso letters", mendplan.ByName, []string{"p10v.jpg", "p2r.jpg", "p10r.jpg", "p2v.jpg"},
			[]mendplan.Pair{{Front: "p2r.jpg", Back: "p2v.jpg"}, {Front: "p10r.jpg", Back: "p10v.jpg"}}},
		{"words in any case, other formats", mendplan.ByName, []string{"a_Front.tif", "a_back.png"}, []mendplan.Pair{{Front: "a_Front.tif", Back: "a_back.png"}}},
		{"outer and inner", mendplan.ByName, []string{"sheet 1 inner.jpg", "sheet 1 outer.jpg"}, []mendplan.Pair{{Front: "sheet 1 outer.jpg", Back: "sheet 1 inner.jpg"}}},
		{"a letter that is part of a word", mendplan.ByName, []string{"leaf.jpg", "leab.jpg"}, []mendplan.Pair{{Front: "leab.jpg"}, {Front: "leaf.jpg"}}},
		{"a back alone", mendplan.ByName, []string{"3v.jpg"}, []mendplan.Pair{{Front: "3v.jpg"}}},
		{"letters of different kinds do not pair", mendplan.ByName, []string{"3r.jpg", "3b.jpg"}, []mendplan.Pair{{Front: "3b.jpg"}, {Front: "3r.jpg"}}},
		{"the same file given twice", mendplan.ByName, []string{"3r.jpg", "3r.jpg", "3v.jpg"}, []mendplan.Pair{{Front: "3r.jpg"}, {Front: "3r.jpg", Back: "3v.jpg"}}},
		{"by order, an odd one left", mendplan.ByOrder, []string{"10.jpg", "9.jpg", "11.jpg"}, []mendplan.Pair{{Front: "9.jpg", Back: "10.jpg"}, {Front: "11.jpg"}}},
		{"all fronts", mendplan.AllFronts, []string{"1r.jpg", "1v.jpg"}, []mendplan.Pair{{Front: "1r.jpg"}, {Front: "1v.jpg"}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if diff := cmp.Diff(c.want, mendplan.PairScans(c.in, c.how)); diff != "" {
				t.Error(diff)
			}
		})
	}
}
