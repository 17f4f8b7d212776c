package mendplan_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"leafmend/mendplan"
)

func workshopJob() mendplan.Job {
	return mendplan.Job{
		Tissues: []mendplan.Tissue{{ID: "T1", Name: "kozo tissue, 5 g/m²", Grammage: 5}, {ID: "T2", Name: "kozo paper", Grammage: 40}},
		Stock: []mendplan.Stock{{ID: "S1", Tissue: "T1", Kind: mendplan.SheetStock, LengthMM: 900, WidthMM: 600, Count: 3},
			{ID: "S2", Tissue: "T2", Kind: mendplan.SheetStock, LengthMM: 600, WidthMM: 400, Count: 1}},
		Rules:   mendplan.Rules{}.With(mendplan.SideMargin, mendplan.Num(4)),
		Recipes: []mendplan.Recipe{{ID: "P1", Name: "ours", StarchG: 10}},
	}
}

func TestWhatAWorkshopKeepsComesIntoAnotherJob(t *testing.T) {
	from := workshopJob()
	l := mendplan.Library{}.WithTissuesOf(from).WithRulesOf(from)
	to := mendplan.Job{Tissues: []mendplan.Tissue{{ID: "T1", Name: "KOZO paper ", Grammage: 38}}, Stock: []mendplan.Stock{{ID: "S1", Tissue: "T1", Count: 1}}}
	got := l.RulesInto(l.TissuesInto(to))
	if len(got.Tissues) != 2 || got.Tissues[0].Grammage != 38 {
		t.Errorf("the job has the tissues %+v", got.Tissues)
	}
	if len(got.Stock) != 2 || got.Stock[1].Tissue != got.Tissues[1].ID || got.Stock[1].Count != 3 || got.Stock[1].ID == "S1" {
		t.Errorf("the job has the stock %+v", got.Stock)
	}
	if n := (mendplan.InForce{Job: got.Rules}).Number(mendplan.SideMargin); n != 4 {
		t.Errorf("the side margin is %g", n)
	}
	if len(got.Recipes) != 1 || got.Recipes[0].Name != "ours" {
		t.Errorf("the job has the recipes %+v", got.Recipes)
	}
	if again := l.RulesInto(l.TissuesInto(got)); cmp.Diff(got, again) != "" {
		t.Errorf("taken twice it is another job: %s", cmp.Diff(got, again))
	}
}

func TestATissueKeptAgainReplacesWhatWasKeptOfIt(t *testing.T) {
	j := workshopJob()
	l := mendplan.Library{}.WithTissuesOf(j)
	j.Stock[0].Count = 1
	j.Tissues = j.Tissues[:1]
	l = l.WithTissuesOf(j)
	sheets := map[string]int{}
	for _, s := range l.Stock {
		for _, ts := range l.Tissues {
			if ts.ID == s.Tissue {
				sheets[ts.Name] += s.Count
			}
		}
	}
	if len(l.Tissues) != 2 || sheets["kozo tissue, 5 g/m²"] != 1 || sheets["kozo paper"] != 1 {
		t.Errorf("kept are %+v with sheets %v", l.Tissues, sheets)
	}
}

func TestALibraryIsReadAsItWasWritten(t *testing.T) {
	path := filepath.Join(t.TempDir(), "new folder", "workshop"+mendplan.LibrarySuffix)
	if l, err := mendplan.LoadLibrary(path); err != nil || len(l.Tissues) > 0 {
		t.Errorf("one that is not there: %+v, %v", l, err)
	}
	j := workshopJob()
	l := mendplan.Library{}.WithTissuesOf(j).WithRulesOf(j)
	if err := mendplan.SaveLibrary(path, l); err != nil {
		t.Fatal(err)
	}
	got, err := mendplan.LoadLibrary(path)
	if err != nil || cmp.Diff(l, got) != "" {
		t.Errorf("read back: %v %s", err, cmp.Diff(l, got))
	}
}

func TestADamagedLibraryIsToldWithPlaceAndRemedy(t *testing.T) {
	for name, text := range map[string]string{
		"an empty file":     "",
		"one cut short":     `{"format": "leafmend library", "version": 1, "tissues": [{`,
		"another file":      `{"format": "leafmend job", "version": 1}`,
		"a newer version":   `{"format": "leafmend library", "version": 99}`,
		"no version":        `{"format": "leafmend library"}`,
		"a wrong type":      `{"format": "leafmend library", "version": 1, "tissues": 5}`,
		"what is no object": `[1, 2]`,
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "x"+mendplan.LibrarySuffix)
			if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
				t.Fatal(err)
			}
			_, err := mendplan.LoadLibrary(path)
			var fe *mendplan.FileError
			if !errors.As(err, &fe) || fe.Path != path || fe.Words.IsZero() || fe.Remedy.IsZero() {
				t.Errorf("got %v", err)
			}
		})
	}
}

func FuzzReadLibrary(f *testing.F) {
	var b bytes.Buffer
	j := workshopJob()
	if err := (mendplan.Library{}).WithTissuesOf(j).WithRulesOf(j).Write(&b); err != nil {
		f.Fatal(err)
	}
	f.Add(b.String())
	f.Add(`{"format": "leafmend library", "version": 1, "rules": {"side_margin_mm": 1e308}}`)
	f.Add(strings.Repeat("[", 5000))
	f.Fuzz(func(t *testing.T, text string) {
		l, err := mendplan.ReadLibrary(strings.NewReader(text))
		if err != nil {
			return
		}
		j := l.RulesInto(l.TissuesInto(workshopJob()))
		var out bytes.Buffer
		if err := (mendplan.Library{}).WithTissuesOf(j).WithRulesOf(j).Write(&out); err != nil {
			t.Fatal(err)
		}
		if _, err := mendplan.ReadLibrary(&out); err != nil {
			t.Errorf("what was written cannot be read: %v", err)
		}
	})
}
