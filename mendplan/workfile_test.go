package mendplan_test

import (
	"bytes"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// workedJob uses every field of the file that has to do with the course of
// the work: gatherings, steps, paste, press, checks, pictures after treatment.
func workedJob() mendplan.Job {
	scan := mendplan.Scan{Path: "scans/1f.jpg", Width: 3508, Height: 2480, SHA256: strings.Repeat("ab", 32), Page: 1}
	after := mendplan.Scan{Path: "after/1f.jpg", Width: 3500, Height: 2470, SHA256: strings.Repeat("cd", 32), Page: 2, Look: "AAECAwQF"}
	return mendplan.Job{
		Title:   "Annual of the Lantern Club",
		Leaves:  []mendplan.Leaf{{ID: "L1", Mark: "1", Front: mendplan.Side{Scan: scan, After: after}, Damages: []mendplan.Damage{{Number: 1, Kind: mendplan.Tear, Side: mendplan.Front, Points: []geom.Pt{{X: 1, Y: 2}, {X: 3, Y: 4}}}}, PiecesOn: []string{"1b-1a"}, EdgesTrimmed: []string{"head front"}}},
		Tissues: []mendplan.Tissue{}, Stock: []mendplan.Stock{},
		Gatherings: []mendplan.Gathering{{ID: "G1", Signature: "A", Cover: true, FirstPage: 3, Note: "loose", Pages: map[int]string{2: "iv"},
			Sheets: []mendplan.SheetPlace{{Leaf: "L1", Half: mendplan.FirstHalf, Missing: mendplan.SecondMissing, Inset: true, Blank: true, Note: "a map"}}}},
		Steps: []mendplan.Step{{Number: 1, Leaf: "L1", Side: mendplan.Front, Kind: mendplan.Washed, Date: "2026-03-02", Time: "10:00", By: "A. B.", Note: "slow", Batch: "P1", Departure: "longer",
			Test: &mendplan.SpotTest{Medium: "red ink", Place: "title", Liquid: "water", Seconds: 30, Result: mendplan.Bleeds},
			Bath: &mendplan.Bath{Agent: "calcium hydroxide", Concentration: "0.01 mol/L", Water: "deionised", PHBefore: 8.5, PHAfter: 7.9, LeafPHBefore: 4.8, LeafPHAfter: 7.3, Minutes: 20, Baths: 3, Celsius: 21, Drying: "air", ReservePercent: 2}}},
		OwnSteps:    []mendplan.StepKind{"numbered in pencil"},
		Recipes:     []mendplan.Recipe{{ID: "own", Name: "mine", StarchG: 50, WaterML: 400, Parts: 4, Ether: 2.5, PasteParts: 1, GelParts: 2, CookMin: 20, Method: "stir", Source: "the bench"}},
		Batches:     []mendplan.Batch{{ID: "P1", Recipe: "own", Made: "2026-03-01", UseBy: "2026-03-08", Grams: 120, Chilled: true, Discarded: "2026-03-09", Note: "smooth"}},
		Samples:     []mendplan.Sample{{AreaMM2: 1000, DryG: 0.005, WetG: 0.1}},
		Press:       mendplan.PressRoom{Openings: 4, LengthMM: 500, WidthMM: 350, PerOpening: 2, Blotters: 20, Interleaves: 30, Boards: 3, BoardLengthMM: 600, BoardWidthMM: 400, Weights: 2},
		Orders:      []mendplan.OrderCheck{{Date: "2026-03-10", Time: "11:00", By: "C. D.", Result: "leaf 1 turned", Wrong: true}},
		Examination: mendplan.Examination{Object: "o", Materials: "m", Condition: "c", Cause: "k", Purpose: "p", Options: "x", Risks: "r", Author: "a", Consent: "s", FinalState: "f", Found: "n"},
		StopList:    []string{"parchment"}, StartDate: "2026-03-02", LastStep: 1, LastNumber: 1,
	}
}

// TestTheWorkedJobUsesEveryField keeps the master honest: a field added to a
// record of the work and not to the job above fails here.
func TestTheWorkedJobUsesEveryField(t *testing.T) {
	j := workedJob()
	for _, v := range []any{j.Leaves[0].Front.After, j.Gatherings[0], j.Gatherings[0].Sheets[0], j.Steps[0], *j.Steps[0].Test, *j.Steps[0].Bath,
		j.Recipes[0], j.Batches[0], j.Samples[0], j.Press, j.Orders[0], j.Examination} {
		r := reflect.ValueOf(v)
		for i := range r.NumField() {
			if r.Field(i).IsZero() {
				t.Errorf("%s.%s is not used", r.Type().Name(), r.Type().Field(i).Name)
			}
		}
	}
}

func TestTheCourseOfTheWorkIsWrittenAsTheMasterAndComesBack(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.leafmend")
	if err := mendplan.SaveFile(path, workedJob()); err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	got = unversioned(got)
	master := filepath.Join("testdata", "work.leafmend")
	if *update {
		if err := os.WriteFile(master, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(master)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("the file differs from its master:\n%s", cmp.Diff(string(want), string(got)))
	}
	job, problems, err := mendplan.LoadFile(master)
	if err != nil || len(problems) > 0 {
		t.Fatalf("the master does not open: %v, %v", err, problems)
	}
	if diff := cmp.Diff(workedJob(), job); diff != "" {
		t.Error(diff)
	}
}
