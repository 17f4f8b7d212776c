package mendplan_test

import (
	"context"
	"io/fs"
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"leafmend/mendplan"
	"leafmend/mendplan/nest"
	"leafmend/sampledata"
)

// sampleLaid returns the sample job with its pieces and layouts.
func sampleLaid(t *testing.T) (mendplan.Job, []mendplan.Piece, []mendplan.TissueLayout) {
	t.Helper()
	data, err := fs.ReadFile(sampledata.Files(), sampledata.JobFile)
	if err != nil {
		t.Fatal(err)
	}
	job, _, err := mendplan.Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	pieces, _ := mendplan.Pieces(job)
	return job, pieces, lay(job, pieces)
}

func lay(job mendplan.Job, pieces []mendplan.Piece) []mendplan.TissueLayout {
	layouts, _ := mendplan.Layouts(context.Background(), job, pieces, 30, nil)
	return layouts
}

func labelsOn(layouts []mendplan.TissueLayout) []string {
	var out []string
	for _, l := range layouts {
		for _, s := range l.Layout.Sheets {
			for _, p := range s.Places {
				out = append(out, p.Blanks()...)
			}
		}
	}
	slices.Sort(out)
	return out
}

func TestAHeldLayoutStaysWhateverIsAdded(t *testing.T) {
	job, pieces, layouts := sampleLaid(t)
	before := labelsOn(layouts)
	for _, l := range layouts {
		job = job.HoldLayout(l.Tissue, l.Layout)
	}
	after := lay(job, pieces)
	if diff := cmp.Diff(before, labelsOn(after)); diff != "" {
		t.Fatalf("pieces came or went:\n%s", diff)
	}
	extra := pieces[0]
	extra.Label = "9f-99a"
	grown := lay(job, append(slices.Clone(pieces), extra))
	for i, l := range layouts {
		for k, s := range l.Layout.Sheets {
			held := grown[i].Layout.Sheets[k]
			for n, p := range s.Places {
				if q := held.Places[n]; q.Blank != p.Blank || q.X != p.X || q.Y != p.Y {
					t.Errorf("tissue %s, sheet %d: %s moved from %g, %g to %g, %g", l.Tissue, k+1, p.Blank, p.X, p.Y, q.X, q.Y)
				}
			}
			if len(held.Cuts) != len(s.Cuts) {
				t.Errorf("tissue %s, sheet %d: %d cuts, were %d", l.Tissue, k+1, len(held.Cuts), len(s.Cuts))
			}
		}
	}
	if !slices.Contains(labelsOn(grown), extra.Label) {
		t.Error("the piece that came later is on no sheet")
	}
}

func TestAHeldSheetComesBackFromTheFile(t *testing.T) {
	job, _, layouts := sampleLaid(t)
	l := layouts[0]
	job = job.HoldLayout(l.Tissue, l.Layout).TickStep(1, 0, true)
	job = job.PinOn("3f-7a", l.Layout.Sheets[0], 10, 20, true)
	data, err := mendplan.Encode(job)
	if err != nil {
		t.Fatal(err)
	}
	back, _, err := mendplan.Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(job.Held, back.Held); diff != "" {
		t.Errorf("the held sheets differ:\n%s", diff)
	}
	if diff := cmp.Diff(job.Pinned, back.Pinned); diff != "" {
		t.Errorf("the pins differ:\n%s", diff)
	}
	want := l.Layout.Sheets[0]
	got := back.Held[0].Sheet()
	for i := range want.Cuts {
		want.Cuts[i].Step = i + 1
	}
	if diff := cmp.Diff(want.Cuts, got.Cuts); diff != "" {
		t.Errorf("the cuts differ:\n%s", diff)
	}
}

func stockArea(j mendplan.Job) float64 {
	sum := 0.0
	for _, s := range j.Stock {
		sum += s.LengthMM * s.WidthMM * float64(s.Count)
	}
	return sum
}

func TestACutSheetLeavesTheStockAndItsRemnantsEnter(t *testing.T) {
	job, pieces, layouts := sampleLaid(t)
	for _, l := range layouts {
		job = job.HoldLayout(l.Tissue, l.Layout)
	}
	for _, h := range job.Held {
		cut := job.CutSheet(h.Number)
		kept := 0.0
		for _, r := range h.Rests {
			if r.Keep {
				kept += r.LengthMM * r.WidthMM
			}
		}
		taken := h.LengthMM * h.WidthMM
		if got, want := stockArea(cut), stockArea(job)-taken+kept; math.Abs(got-want) > 1 {
			t.Errorf("sheet %d: the stock is %.0f mm² after cutting, want %.0f", h.Number, got, want)
		}
		done, _ := cut.HeldSheet(h.Number)
		for _, r := range done.Rests {
			if r.Keep && r.Stock == "" {
				t.Errorf("sheet %d: a remnant has no label", h.Number)
			}
		}
		for _, p := range done.Pieces {
			if !p.Off {
				t.Errorf("sheet %d: piece %s is not ticked off", h.Number, p.Label)
			}
		}
		if diff := cmp.Diff(labelsOn(layouts), labelsOn(lay(cut, pieces))); diff != "" {
			t.Errorf("sheet %d: pieces came or went:\n%s", h.Number, diff)
		}
		back, ok := cut.UncutSheet(h.Number)
		if !ok || math.Abs(stockArea(back)-stockArea(job)) > 1e-6 {
			t.Errorf("sheet %d: taking it back gives %.0f mm² of stock, was %.0f", h.Number, stockArea(back), stockArea(job))
		}
	}
}

func TestAPieceThatGrewIsLaidOnceMoreAndTold(t *testing.T) {
	job, pieces, layouts := sampleLaid(t)
	l := layouts[0]
	job = job.HoldLayout(l.Tissue, l.Layout)
	label := job.Held[0].Pieces[0].Label
	grown := slices.Clone(pieces)
	for i := range grown {
		if grown[i].Label == label {
			grown[i].BlankLengthMM += 4
		}
	}
	after, problems := mendplan.Layouts(context.Background(), job, grown, 0, nil)
	n := 0
	for _, have := range labelsOn(after) {
		if have == label {
			n++
		}
	}
	if n != 2 {
		t.Errorf("the piece lies on sheets %d times, want the one that is held and a new one", n)
	}
	if !slices.ContainsFunc(problems, func(p mendplan.Problem) bool { return p.Weight == mendplan.Doubt && p.Kind == mendplan.DoesNotFit }) {
		t.Errorf("nothing is said of it: %v", problems)
	}
}

func TestAPinnedPieceLiesWhereItIsPut(t *testing.T) {
	job, pieces, layouts := sampleLaid(t)
	for i, l := range layouts {
		s := l.Layout.Sheets[0]
		p := s.Places[0]
		x, y := s.W-s.Margin.Right-p.W, s.H-s.Margin.Bottom-p.H
		if s.Roll {
			continue
		}
		pinned := job.PinOn(p.Blank, s, x, y, p.Turned)
		after := lay(pinned, pieces)
		if diff := cmp.Diff(labelsOn(layouts), labelsOn(after)); diff != "" {
			t.Fatalf("pieces came or went:\n%s", diff)
		}
		var got nest.Place
		for _, q := range after[i].Layout.Sheets {
			for _, at := range q.Places {
				if at.Blank == p.Blank && q.Stock == s.Stock {
					got = at
				}
			}
		}
		if math.Abs(got.X-x) > 0.002 || math.Abs(got.Y-y) > 0.002 || !got.Pinned {
			t.Errorf("%s was put at %g, %g and lies at %g, %g", p.Blank, x, y, got.X, got.Y)
		}
		if _, ok := pinned.WithoutPin(p.Blank).PinOf(p.Blank); ok {
			t.Error("the pin does not go")
		}
	}
}

func TestARememberedLayoutComesBackAndIsNotLostToAShorterSearch(t *testing.T) {
	job, pieces, _ := sampleLaid(t)
	memo := &mendplan.LayoutMemo{}
	ctx := context.Background()
	long, _ := mendplan.Search{Effort: 200, Memo: memo}.Layouts(ctx, job, pieces)
	asked := false
	short, _ := mendplan.Search{Effort: 5, Memo: memo, Progress: func(mendplan.SearchState) { asked = true }}.Layouts(ctx, job, pieces)
	if asked {
		t.Error("the solver was asked again")
	}
	if diff := cmp.Diff(labelsOn(long), labelsOn(short)); diff != "" || long[0].Layout.Use() != short[0].Layout.Use() {
		t.Errorf("another layout came back: %g, was %g", short[0].Layout.Use(), long[0].Layout.Use())
	}
}

func TestTissueOffARollIsPaidByTheMetreOnce(t *testing.T) {
	job, pieces, _ := sampleLaid(t)
	job.Stock = nil
	for _, ts := range job.Tissues {
		job = job.WithStock(mendplan.Stock{ID: job.FreshStockID(), Tissue: ts.ID, Kind: mendplan.Roll, WidthMM: 500, LengthMM: 5000, Count: 1, Price: 8, Currency: "EUR"})
	}
	plan := mendplan.Assemble(context.Background(), job, pieces, nil, 0, nil)
	for _, e := range plan.Estimate.Tissues {
		if want := e.RollMM / 1000 * 8; e.RollMM == 0 || math.Abs(e.Cost-want) > 1e-9 {
			t.Errorf("%s: %.0f mm off the roll cost %.3f, want %.3f", e.Tissue, e.RollMM, e.Cost, want)
		}
	}
}

func TestAFileThatNamesPlacesWronglyDoesNoHarm(t *testing.T) {
	h := mendplan.HeldSheet{Number: 1, WidthMM: 10, LengthMM: 10, Pieces: []mendplan.HeldPiece{{Label: "a"}},
		Steps: []mendplan.HeldStep{{With: 99, Near: mendplan.HeldBit{Piece: 5, Rest: -3}, Far: mendplan.HeldBit{Piece: -1, Rest: 7}}}}
	s := h.Sheet()
	if c := s.Cuts[0]; !c.Near.Waste() || !c.Far.Waste() || c.With != 0 {
		t.Errorf("the cut leads to %+v and %+v with %d", c.Near, c.Far, c.With)
	}
	j := mendplan.Job{Held: []mendplan.HeldSheet{h}}
	j = j.TickStep(1, 0, true).TickStep(1, 5, true).TickPiece(1, -1, true).CutSheet(1).CutSheet(2)
	if got, _ := j.HeldSheet(1); !got.Done {
		t.Error("the sheet is not cut")
	}
}
