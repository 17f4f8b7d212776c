package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"leafmend/assets"
	"leafmend/mendplan"
)

// settingsDialog changes what is kept between jobs. Each change shows at once.
func (w *Window) settingsDialog() {
	s := w.settings
	appearance := newChoice(func(id string) { s.SetAppearance(Appearance(id)); w.applyLook() })
	appearance.set([]string{"", "light", "dark"}, []string{t("as the system"), t("light"), t("dark")}, string(s.Appearance()))
	text := newChoice(func(id string) { s.SetTextSize(TextSize(id)); w.applyLook() })
	text.set([]string{"small", "", "large", "very large"}, []string{t("small"), t("normal"), t("large"), t("very large")}, string(s.TextSize()))
	language := newChoice(func(id string) {
		s.SetLanguage(id)
		w.status.say(t("The language changes when the program starts again."))
	})
	codes, names := []string{""}, []string{t("as the system")}
	for _, l := range assets.Languages() {
		codes, names = append(codes, l.Code), append(names, l.Name)
	}
	language.set(codes, names, s.Language())
	units := newChoice(func(id string) { s.SetUnits(id) })
	units.set([]string{"mm", "in"}, []string{t("millimetres"), t("inches")}, unitChosen(mendplan.Units(s.Units())))
	paper := newChoice(func(id string) { s.SetPaper(id) })
	chosen := s.Paper()
	if chosen == "" {
		chosen = string(mendplan.A4)
	}
	paper.set([]string{"A4", "Letter"}, []string{"A4", "US Letter"}, chosen)
	check := func(words string, on bool, set func(bool), apply func()) *keyCheck {
		c := newCheck(t(words), nil)
		c.Checked = on
		c.OnChanged = func(v bool) { set(v); apply() }
		return c
	}
	width := newSlider(1, 5)
	width.Step, width.Value = 0.2, s.LineWidth()
	width.OnChangeEnded = func(v float64) { s.SetLineWidth(v); w.applyLook() }
	w.showSized(t("Settings"), container.NewVScroll(inScroll(
		heading(t("Look")),
		labelled(t("Colours"), appearance), labelled(t("Size of text"), text), labelled(t("Language"), language),
		check("High contrast", s.HighContrast(), s.SetHighContrast, w.applyLook),
		labelled(t("Width of traced lines"), width),
		labelled(t("Screen"), newButton(t("Measure for true size…"), func() { w.closeDialog(); w.measureScreen() })),
		heading(t("Pointer and keys")),
		check("The wheel scrolls, and zooms with Ctrl", s.WheelScrolls(), s.SetWheelScrolls, w.applyHabits),
		check("The wheel zooms the other way round", s.WheelReverse(), s.SetWheelReverse, w.applyHabits),
		check("Touch only moves the view, never traces", s.TouchNavigates(), s.SetTouchNavigates, w.applyHabits),
		check("New points hold on to what is near", s.Snap(), s.SetSnap, w.applyHabits),
		check("Traces follow the tear in the picture", s.Follow(), s.SetFollow, w.applyHabits),
		heading(t("New jobs")),
		labelled(t("Lengths in"), units), labelled(t("Paper"), paper))), fyne.NewSize(560, 560))
}

// percent writes a share.
func percent(v float64) string { return strings.TrimSuffix(fmt.Sprintf("%.0f", v*100), ".0") + " %" }
