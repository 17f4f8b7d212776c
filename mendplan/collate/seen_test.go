package collate_test

import (
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
)

func TestTwoNumbersTellWhatIsTheMatterWithASheet(t *testing.T) {
	g := gathering("a", 2, "s")
	g.Sheets = append(g.Sheets, mendplan.SheetPlace{Leaf: "single", Half: mendplan.FirstHalf})
	job := withLeaves(g) // pages 1–10; outside in: s1 shows 2 | 9, s2 4 | 7, single 6 |
	rows := collate.Order(job, collate.OutsideIn)
	for _, c := range []struct {
		name        string
		row         int
		left, right string
		want        collate.Sighting
	}{
		{"both numbers as they should be", 0, "2", "9", collate.Sighting{Verdict: collate.InPlace, Row: 0}},
		{"one number read is enough", 0, "", "9", collate.Sighting{Verdict: collate.InPlace, Row: 0}},
		{"the outer side up", 0, "10", "1", collate.Sighting{Verdict: collate.TurnedUp, Row: 0}},
		{"the sheet lies head to tail", 0, "9", "2", collate.Sighting{Verdict: collate.HeadDown, Row: 0}},
		{"the next sheet in its place", 0, "4", "7", collate.Sighting{Verdict: collate.Elsewhere, Row: 1}},
		{"the next sheet, turned over too", 0, "8", "3", collate.Sighting{Verdict: collate.Elsewhere, Row: 1}},
		{"a single leaf shows its verso on the left", 2, "6", "", collate.Sighting{Verdict: collate.InPlace, Row: 2}},
		{"a single leaf turned over", 2, "", "5", collate.Sighting{Verdict: collate.TurnedUp, Row: 2}},
		{"numbers of no page", 1, "40", "41", collate.Sighting{Verdict: collate.Unknown, Row: 1}},
		{"nothing read is nothing checked", 1, " ", "", collate.Sighting{Verdict: collate.Unknown, Row: 1}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := collate.Judge(job, rows, c.row, c.left, c.right); got != c.want {
				t.Errorf("got %+v, want %+v", got, c.want)
			}
		})
	}
}

// Every sheet of a large job is recognised from either side wherever it is
// laid: Elsewhere always names the row it belongs to.
func TestEverySheetIsRecognisedWhereverItLies(t *testing.T) {
	job := withLeaves(gathering("a", 6, "a"), gathering("b", 6, "b"))
	for _, way := range []collate.Way{collate.OutsideIn, collate.CentreOutward} {
		rows := collate.Order(job, way)
		other := collate.Order(job, map[collate.Way]collate.Way{collate.OutsideIn: collate.CentreOutward, collate.CentreOutward: collate.OutsideIn}[way])
		under := map[string]collate.Row{}
		for _, r := range other {
			under[r.Leaf] = r
		}
		for i := range rows {
			for k, o := range rows {
				u := under[o.Leaf]
				up, down := collate.Judge(job, rows, i, o.Left, o.Right), collate.Judge(job, rows, i, u.Left, u.Right)
				if i == k && (up.Verdict != collate.InPlace || down.Verdict != collate.TurnedUp) {
					t.Errorf("%s, row %d: %+v, turned %+v", way, i, up, down)
				}
				if i != k && (up != collate.Sighting{Verdict: collate.Elsewhere, Row: k} || down != up) {
					t.Errorf("%s: sheet %d at row %d: %+v, turned %+v", way, k, i, up, down)
				}
			}
		}
	}
}
