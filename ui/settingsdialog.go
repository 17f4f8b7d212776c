package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/assets"
	"leafmend/mendplan"
	"leafmend/ui/leafview"
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
	var codes, names []string
	for _, l := range assets.Languages() {
		codes, names = append(codes, l.Code), append(names, l.Name)
	}
	code := s.Language()
	if code == "" {
		code = "en"
	}
	language.set(codes, names, code)
	units := newChoice(func(id string) { s.SetUnits(id) })
	units.set([]string{"mm", "in"}, []string{t("millimetres"), t("inches")}, string(unitsOf(mendplan.Job{Units: mendplan.Units(s.Units())})))
	paper := newChoice(func(id string) { s.SetPaper(id) })
	chosen := s.Paper()
	if chosen == "" {
		chosen = string(mendplan.A4)
	}
	paper.set([]string{"A4", "Letter"}, []string{"A4", "US Letter"}, chosen)
	check := func(words string, on bool, set func(bool), apply func()) *widget.Check {
		c := widget.NewCheck(t(words), nil)
		c.Checked = on
		c.OnChanged = func(v bool) { set(v); apply() }
		return c
	}
	width := widget.NewSlider(1, 5)
	width.Step, width.Value = 0.2, s.LineWidth()
	width.OnChangeEnded = func(v float64) { s.SetLineWidth(v); w.applyLook() }
	w.showSized(t("Settings"), container.NewVScroll(tight(
		heading(t("Look")),
		labelled(t("Colours"), appearance), labelled(t("Size of text"), text), labelled(t("Language"), language),
		check("High contrast", s.HighContrast(), s.SetHighContrast, w.applyLook),
		labelled(t("Width of traced lines"), width),
		heading(t("Pointer and keys")),
		check("The wheel scrolls, and zooms with Ctrl", s.WheelScrolls(), s.SetWheelScrolls, w.applyHabits),
		check("The wheel zooms the other way round", s.WheelReverse(), s.SetWheelReverse, w.applyHabits),
		check("Touch only moves the view, never traces", s.TouchNavigates(), s.SetTouchNavigates, w.applyHabits),
		check("New points hold on to what is near", s.Snap(), s.SetSnap, w.applyHabits),
		check("Traces follow the tear in the picture", s.Follow(), s.SetFollow, w.applyHabits),
		heading(t("New jobs")),
		labelled(t("Lengths in"), units), labelled(t("Paper"), paper))), fyne.NewSize(560, 560))
}

// pictureDialog changes how the scan is seen, never the scan.
func (w *Window) pictureDialog() {
	f := w.surface.Filter()
	slider := func(lo, hi float64, v *float64) *widget.Slider {
		s := widget.NewSlider(lo, hi)
		s.Step, s.Value = 0.05, *v
		s.OnChanged = func(x float64) { *v = x; w.surface.SetFilter(f) }
		return s
	}
	brightness, contrast, local := slider(-1, 1, &f.Brightness), slider(-1, 1, &f.Contrast), slider(0, 1, &f.Local)
	channel := newChoice(func(id string) { f.Channel = leafview.Channel(id); w.surface.SetFilter(f) })
	channel.set([]string{"", "red", "green", "blue", "grey"}, []string{t("all colours"), t("red"), t("green"), t("blue"), t("grey")}, string(f.Channel))
	var pop *widget.PopUp
	reset := widget.NewButton(t("As scanned"), func() { w.surface.SetFilter(leafview.Filter{}); pop.Hide(); w.focusSurface() })
	done := widget.NewButton(t("Close"), func() { pop.Hide(); w.focusSurface() })
	body := tight(heading(t("How the scan is seen")), labelled(t("Brightness"), brightness), labelled(t("Contrast"), contrast),
		labelled(t("Faint tears"), local), labelled(t("Colours"), channel), container.NewHBox(reset, done))
	pop = widget.NewPopUp(body, w.win.Canvas())
	pop.Resize(fyne.NewSize(340, body.MinSize().Height))
	at := w.app.Driver().AbsolutePositionForObject(w.surface)
	pop.ShowAtPosition(at.AddXY(12, 12))
}

// trueSize shows the leaf as large as it is. The screen's density is asked
// once: no system tells it reliably.
func (w *Window) trueSize() {
	if !w.surface.Scene().Frame.Known() {
		w.status.say(t("This side has no scale: its true size is not known."))
		return
	}
	if ppi := w.settings.ScreenPPI(); ppi > 0 {
		w.surface.TrueSize(ppi)
		w.showView()
		return
	}
	width := w.newEntry()
	width.SetPlaceHolder(t("for example 518 mm or 20.4 in"))
	pixels := w.newEntry()
	pixels.SetText("1920")
	w.ask(t("How wide is your screen?"), t("Show true size"), []fyne.CanvasObject{
		small(t("Measure the picture area of the screen with a ruler, and give its width in pixels. This is asked once.")),
		labelled(t("Width"), width), labelled(t("Pixels"), pixels)}, width, func() string {
		mm, err := mendplan.ParseLength(width.Text, unitsOf(w.session.Job()))
		px, err2 := parsePositive(pixels.Text)
		if err != nil || err2 != nil || mm < 50 || px < 300 {
			return t("Type the width as a length, such as 518 mm, and the number of pixels across.")
		}
		w.settings.SetScreenPPI(px / mm * 25.4)
		w.surface.TrueSize(px / mm * 25.4)
		w.showView()
		return ""
	})
}

// unitLine names what lengths are in, for the foot of tables.
func unitLine(u mendplan.Units) string {
	if u == mendplan.Inches {
		return t("Lengths in inches")
	}
	return t("Lengths in millimetres")
}

// percent writes a share.
func percent(v float64) string { return strings.TrimSuffix(fmt.Sprintf("%.0f", v*100), ".0") + " %" }
