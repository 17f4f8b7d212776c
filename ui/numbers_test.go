package ui

import (
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// germanWindow is a window that speaks German.
func germanWindow(t *testing.T) *Window {
	t.Helper()
	t.Cleanup(func() { useLanguage("en") })
	app := test.NewTempApp(t)
	win := test.NewTempWindow(t, nil)
	w := build(app, win, Options{Locale: "de_DE.UTF-8", Recovery: filepath.Join(t.TempDir(), "recovery")}, worker{inPlace: true})
	win.Resize(fyne.NewSize(1280, 800))
	w.newJob()
	return w
}

// shownTexts are the texts of all labels and fields of what is shown.
func shownTexts(o fyne.CanvasObject) []string {
	var out []string
	for _, o := range test.LaidOutObjects(o) {
		switch o := o.(type) {
		case *widget.Label:
			out = append(out, o.Text)
		case *textField:
			out = append(out, o.Text)
		}
	}
	return out
}

func TestAGermanWindowWritesDecimalCommas(t *testing.T) {
	w := germanWindow(t)
	withSample(t, w)
	measured := regexp.MustCompile(`\d\.\d+ (mm|cm²|g|g/m²|%|mm²)(\W|$)`)
	commas := 0
	for s := stageTrace; s <= stageWork; s++ {
		w.showStage(s)
		for _, text := range shownTexts(w.win.Content()) {
			if strings.Contains(text, "Default") || strings.Contains(text, "Vorgabe") {
				continue // the basis of a rule is a citation
			}
			if m := measured.FindString(text); m != "" {
				t.Errorf("stage %d shows %q in %q", s, m, text)
			}
			if regexp.MustCompile(`\d,\d`).MatchString(text) {
				commas++
			}
		}
	}
	if commas < 20 {
		t.Errorf("only %d texts show a decimal comma", commas)
	}
	if got := showRule(mendplan.Num(9.5), mendplan.Rule{Unit: "mm"}, unitsOf(w.session.Job())); got != "9,5 mm" {
		t.Errorf("a length is shown as %q", got)
	}
	if got := showRule(mendplan.Num(0.25), mendplan.Rule{Unit: "g"}, unitsOf(w.session.Job())); got != "0,25 g" {
		t.Errorf("a mass is shown as %q", got)
	}
	if got := showPositive(3.75, " g/m²"); got != "3,75 g/m²" {
		t.Errorf("a number is shown as %q", got)
	}
}

func TestBothDecimalSignsAreTakenInEveryLanguage(t *testing.T) {
	for _, c := range []struct {
		name string
		w    func(*testing.T) *Window
	}{{"English", testWindow}, {"German", germanWindow}} {
		t.Run(c.name, func(t *testing.T) {
			u := unitsOf(c.w(t).session.Job())
			for _, text := range []string{"9.5", "9,5", "9.5 mm", "9,5 mm", "0,95 cm", "0.95cm"} {
				if v, err := mendplan.ParseLength(text, u); err != nil || v < 9.4999 || v > 9.5001 {
					t.Errorf("%q is read as %g, %v", text, v, err)
				}
				if v, err := parseRule(text, mendplan.Rule{Unit: "mm"}, u); err != nil || v < 9.4999 || v > 9.5001 {
					t.Errorf("the rule %q is read as %g, %v", text, v, err)
				}
			}
			for _, text := range []string{"9.5", "9,5", "9,5 g", "9.5 g"} {
				if v, err := parseRule(text, mendplan.Rule{Unit: "g"}, u); err != nil || v != 9.5 {
					t.Errorf("%q is read as %g, %v", text, v, err)
				}
				if v, err := parsePositive(text); err != nil || v != 9.5 {
					t.Errorf("%q is read as %g, %v", text, v, err)
				}
			}
		})
	}
}

func TestAGermanJobIsKeptInMillimetres(t *testing.T) {
	w := germanWindow(t)
	w.showStage(stageJob)
	w.showStage(stageTrace)
	data, err := mendplan.Encode(w.session.Job())
	if err != nil || strings.Contains(string(data), `"mm,"`) {
		t.Errorf("the file names units for showing only: %v", err)
	}
	if !w.surface.Look().Comma || w.surface.Look().Inches {
		t.Error("the surface does not know of the comma")
	}
	if got := unitChosen(unitsOf(w.session.Job())); got != "mm" {
		t.Errorf("the units chosen are shown as %q", got)
	}
	w.session.unitsForTest(mendplan.Inches)
	if got := unitsOf(w.session.Job()).Length(9.525); got != "3/8 in" {
		t.Errorf("inches are shown as %q", got)
	}
}

// unitsForTest sets the units of the job.
func (s *Session) unitsForTest(u mendplan.Units) {
	j := s.Job()
	j.Units = u
	s.Do("units", j)
}

func TestSmallFilesAreNotShownAsNothing(t *testing.T) {
	for bytes, want := range map[int64]string{0: "0 kB", 1: "1 kB", 27_537: "28 kB", 99_999: "100 kB", 100_000: "0.1 MB", 3_100_000: "3.1 MB"} {
		if got := sizeWords(bytes); got != want {
			t.Errorf("%d bytes are shown as %q, not %q", bytes, got, want)
		}
	}
}

func TestANumberTypedWithoutItsUnitIsShownWithIt(t *testing.T) {
	w := sampleWindow(t)
	rule, ok := mendplan.RuleFor(mendplan.WetCoat)
	if !ok {
		t.Fatal("no such rule")
	}
	row := newRuleRow(rule, jobRules{w})
	row.refresh()
	row.number.FocusGained()
	row.number.SetText("150")
	row.number.FocusLost()
	if row.number.Text != "150 g/m²" {
		t.Errorf("the field shows %q", row.number.Text)
	}
}
