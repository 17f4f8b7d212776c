package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/ui/leafview"
)

// pictureDialog changes how the scan is seen, never the scan, and how lines
// and tissue lie over it.
func (w *Window) pictureDialog() {
	f, l := w.surface.Filter(), w.surface.Look()
	seen := func() { w.surface.SetFilter(f); w.beside.lookAlike() }
	drawn := func() {
		w.settings.SetLineWidth(l.LineWidth)
		w.settings.SetLineOpacity(l.Opacity)
		w.settings.SetTissueOpacity(l.PieceOpacity)
		w.settings.SetHandleSize(l.HandleSize)
		w.surface.SetLook(l)
		w.beside.lookAlike()
	}
	slider := func(lo, hi, step float64, v *float64, changed func()) *keySlider {
		s := newSlider(lo, hi)
		s.Step, s.Value = step, *v
		s.OnChanged = func(x float64) { *v = x; changed() }
		return s
	}
	channel := newChoice(func(id string) { f.Channel = leafview.Channel(id); seen() })
	channel.set([]string{"", "red", "green", "blue", "grey"}, []string{t("all colours"), t("red"), t("green"), t("blue"), t("grey")}, string(f.Channel))
	var pop *widget.PopUp
	shut := func() { pop.Hide(); w.focusSurface() }
	reset := newButton(t("As scanned"), func() { w.surface.SetFilter(leafview.Filter{}); w.beside.lookAlike(); shut() })
	body := tight(heading(t("How the scan is seen")),
		labelled(t("Brightness"), slider(-1, 1, 0.05, &f.Brightness, seen)), labelled(t("Contrast"), slider(-1, 1, 0.05, &f.Contrast, seen)),
		labelled(t("Faint tears"), slider(0, 1, 0.05, &f.Local, seen)), labelled(t("Colours"), channel),
		heading(t("Lines and tissue")),
		labelled(t("Width of lines"), slider(1, 5, 0.2, &l.LineWidth, drawn)), labelled(t("Strength of lines"), slider(0.15, 1, 0.05, &l.Opacity, drawn)),
		labelled(t("Strength of tissue"), slider(0, 1, 0.05, &l.PieceOpacity, drawn)), labelled(t("Size of points"), slider(6, 16, 1, &l.HandleSize, drawn)),
		container.NewHBox(reset, newButton(t("Close"), shut)))
	pop = widget.NewPopUp(body, w.win.Canvas())
	pop.Resize(fyne.NewSize(360, body.MinSize().Height))
	at := w.app.Driver().AbsolutePositionForObject(w.surface)
	pop.ShowAtPosition(at.AddXY(12, 12))
	if f := firstField(body); f != nil {
		w.win.Canvas().Focus(f)
	}
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
		w.status.say(t("True size, for a screen of %.0f pixels an inch.", ppi))
		return
	}
	w.measureScreen()
}

// barUnits is the length of the line that is laid a ruler on, units.
const barUnits = 400

// measureScreen asks how long a line on the screen is, measured with a ruler,
// which tells the size of the screen's pixels.
func (w *Window) measureScreen() {
	length := w.newEntry()
	length.SetPlaceHolder(t("for example 104 mm or 4.1 in"))
	units := min(float32(barUnits), w.win.Canvas().Size().Width-140)
	pixels := float64(units * w.win.Canvas().Scale())
	w.ask(t("How long is this line on your screen?"), t("Set"), []fyne.CanvasObject{
		small(t("Lay a ruler on the screen and measure the line from end to end. This is kept for this screen.")),
		screenBar(units), labelled(t("Length"), length)}, length, func() string {
		mm, err := mendplan.ParseLength(length.Text, unitsOf(w.session.Job()))
		if err != nil {
			return sentence(errorIn(err))
		}
		ppi := pixels / mm * 25.4
		if ppi < 40 || ppi > 800 {
			return t("That would make a screen of %.0f pixels an inch: measure the line once more.", ppi)
		}
		w.settings.SetScreenPPI(ppi)
		if w.surface.Scene().Frame.Known() {
			w.surface.TrueSize(ppi)
			w.showView()
		}
		w.status.say(t("True size, for a screen of %.0f pixels an inch.", ppi))
		return ""
	})
}

// screenBar is a level line of exactly so many units, with a tick at each end.
func screenBar(units float32) fyne.CanvasObject {
	line, a, z := canvas.NewRectangle(shade("foreground")), canvas.NewRectangle(shade("foreground")), canvas.NewRectangle(shade("foreground"))
	line.Resize(fyne.NewSize(units, 2))
	line.Move(fyne.NewPos(0, 11))
	a.Resize(fyne.NewSize(2, 24))
	z.Resize(fyne.NewSize(2, 24))
	z.Move(fyne.NewPos(units-2, 0))
	box := container.NewWithoutLayout(line, a, z)
	room := canvas.NewRectangle(nil)
	room.SetMinSize(fyne.NewSize(units, 24))
	return container.NewHBox(container.NewStack(room, box))
}
