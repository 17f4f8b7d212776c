package leafview

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"leafmend/mendplan/geom"
)

// Keys that act while they are held.
const (
	HideKey  = fyne.KeyH     // nothing but the picture
	LoupeKey = fyne.KeyQ     // a closer look at the pointer
	PanKey   = fyne.KeySpace // with the left button: the hand
)

// ctrl and shift are the modifiers of gestures; Alt opens menus on some
// systems and is left alone.
const (
	ctrl  = fyne.KeyModifierControl
	shift = fyne.KeyModifierShift
)

// Steps of the arrow keys, in units of the toolkit for the drawing cursor and
// the view, in scan pixels for nudges of what is not calibrated.
const (
	cursorStep = 12.0
	fineStep   = 1.0
	viewStep   = 64.0
)

// Nudges of selected points and shapes, in millimetres when calibrated; with
// Shift the coarse one.
const (
	NudgeMM       = 0.1
	CoarseNudgeMM = 1.0
)

// keyState is what keys have to remember.
type keyState struct {
	focused            bool
	space, hide, loupe bool
	cursorOn           bool // the drawing cursor is led by arrow keys
}

// KeyHelp is one line of the help sheet: a key that the surface itself takes
// while it has the focus.
type KeyHelp struct{ Keys, Does string }

// KeysHelp lists the keys of the surface in the order of a help sheet.
func KeysHelp() []KeyHelp {
	return []KeyHelp{
		{"Enter", "finish the shape in hand"},
		{"Escape", "drop the shape in hand; then the selection; then back to the select tool"},
		{"Backspace", "take back the last point"},
		{"Delete", "delete the chosen points, or the chosen damages"},
		{"Arrow keys", "select tool: nudge by 0.1 mm, with Shift 1 mm; nothing chosen: move the view; drawing: lead the cursor, with Shift finely"},
		{"Ctrl+Arrow keys", "move the view"},
		{"Space", "drawing: put a point at the cursor; held with the left button: move the view"},
		{"Insert", "select tool: add a point after the chosen one"},
		{", and .", "previous and next point of the damage in hand"},
		{"+ and -", "zoom in and out"},
		{"0", "fit the whole leaf"},
		{"1", "one scan pixel as one screen pixel"},
		{"H (hold)", "hide everything but the picture"},
		{"Q (hold)", "loupe at the pointer"},
		{"Ctrl (hold)", "suspend snapping"},
		{"Shift (hold)", "drawing: straight line instead of following; selecting: add to the selection"},
	}
}

// FocusGained implements [fyne.Focusable].
func (s *Surface) FocusGained() {
	s.keys.focused = true
	s.redraw()
}

// FocusLost implements [fyne.Focusable]; keys that were held are let go.
func (s *Surface) FocusLost() {
	s.keys = keyState{}
	s.redraw()
}

// KeyDown implements [desktop.Keyable].
func (s *Surface) KeyDown(e *fyne.KeyEvent) { s.hold(e.Name, true) }

// KeyUp implements [desktop.Keyable].
func (s *Surface) KeyUp(e *fyne.KeyEvent) { s.hold(e.Name, false) }

func (s *Surface) hold(key fyne.KeyName, down bool) {
	switch key {
	case PanKey:
		if !down && s.keys.space && s.keys.cursorOn {
			s.pressAtCursor()
		}
		s.keys.space = down
	case HideKey:
		s.keys.hide = down && s.mods()&^fyne.KeyModifierShift == 0
		s.redraw()
	case LoupeKey:
		s.keys.loupe = down && s.mods()&^fyne.KeyModifierShift == 0
		s.redraw()
	case desktop.KeyControlLeft, desktop.KeyControlRight, desktop.KeyShiftLeft, desktop.KeyShiftRight:
		if s.hand.mode == free && s.hand.inside {
			s.moveTo(s.pointerOn(s.hand.last.dev, s.mods()))
		}
	}
}

// TypedRune implements [fyne.Focusable].
func (s *Surface) TypedRune(r rune) {
	switch {
	case strings.EqualFold(string(r), string(HideKey)), strings.EqualFold(string(r), string(LoupeKey)), r == ' ':
	case r == '+' || r == '=':
		s.ZoomBy(keyZoom)
		s.tellView()
	case r == '-' || r == '_':
		s.ZoomBy(1 / keyZoom)
		s.tellView()
	case r == '0':
		s.Fit()
		s.tellView()
	case r == '1':
		s.OneToOne()
	case r == ',':
		s.stepPoint(-1)
	case r == '.':
		s.stepPoint(1)
	default:
		if s.OnRune != nil {
			s.OnRune(r)
		}
	}
}

// keyZoom is one step of the zoom keys: three double the scale.
const keyZoom = 1.2599210498948732

// TypedKey implements [fyne.Focusable].
func (s *Surface) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		if s.Finish() {
			return
		}
	case fyne.KeyEscape:
		s.escape()
		return
	case fyne.KeyBackspace:
		// A Backspace too many while drawing must not delete anything.
		if s.StepBack() || s.toolID == SelectTool && s.deleteChosen() {
			return
		}
	case fyne.KeyDelete:
		if s.deleteChosen() {
			return
		}
	case fyne.KeyInsert:
		if s.insertAfterChosen() {
			return
		}
	case fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown:
		s.arrow(e.Name, s.mods())
		return
	case PanKey:
		return // acts on KeyUp, so that it can be held
	}
	if s.OnKey != nil {
		s.OnKey(e.Name, s.mods())
	}
}

// escape drops the most fleeting thing there is.
func (s *Surface) escape() {
	switch {
	case s.Cancel():
	case len(s.points) > 0:
		s.points = nil
		s.redraw()
	case len(s.selected) > 0 && s.toolID == SelectTool:
		s.choose()
	case s.toolID != SelectTool:
		s.giveWay(SelectTool)
	}
}

// TypedShortcut implements [fyne.Shortcutable]: arrows with Ctrl move the
// view; everything else is the window's.
func (s *Surface) TypedShortcut(sc fyne.Shortcut) {
	if c, ok := sc.(*desktop.CustomShortcut); ok && c.Modifier == fyne.KeyModifierControl {
		if d, ok := arrowStep(c.KeyName); ok {
			s.pan(d.Mul(-viewStep * s.px))
			return
		}
	}
	if s.OnShortcut != nil {
		s.OnShortcut(sc)
	}
}

// arrow moves what arrows move: the chosen, else the view; while drawing, the
// cursor.
func (s *Surface) arrow(key fyne.KeyName, mods fyne.KeyModifier) {
	d, _ := arrowStep(key)
	coarse := mods&fyne.KeyModifierShift != 0
	switch {
	case mods&fyne.KeyModifierControl != 0, s.toolID == PanTool:
		s.pan(d.Mul(-viewStep * s.px))
	case s.toolID == OtherTool:
		s.nudgeOther(d, coarse)
	case s.toolID != SelectTool:
		step := cursorStep
		if coarse {
			step = fineStep
		}
		s.leadCursor(d.Mul(step * s.px))
	case len(s.selected) > 0:
		s.nudge(d, coarse)
	default:
		s.pan(d.Mul(-viewStep * s.px))
	}
}

// leadCursor moves the drawing cursor by device pixels, starting at the
// pointer, or at the middle when that is outside, and keeps it in sight.
func (s *Surface) leadCursor(d geom.Pt) {
	at := s.hand.last.dev
	w, h := s.size()
	window := Rect{Max: geom.Pt{X: w, Y: h}}
	if !s.keys.cursorOn && (!s.hand.inside || !window.Holds(at)) {
		at = s.middle()
	}
	at = at.Add(d)
	if in := window.Grow(-2 * fitMargin * s.px); !in.Holds(at) && in.W() > 0 && in.H() > 0 {
		s.pan(d.Mul(-1))
		at = at.Sub(d)
	}
	s.keys.cursorOn = true
	s.moveTo(s.pointerOn(at, 0))
}

// pressAtCursor presses and lets go where the drawing cursor is.
func (s *Surface) pressAtCursor() {
	p := s.pointerOn(s.hand.last.dev, s.mods()&^fyne.KeyModifierShift)
	s.hand.start, s.hand.moved = p.dev, false
	s.press(p)
	s.hand.last = p
	s.tool.release(p)
	s.acted()
}

// arrowStep returns the direction of an arrow key.
func arrowStep(key fyne.KeyName) (geom.Pt, bool) {
	switch key {
	case fyne.KeyLeft:
		return geom.Pt{X: -1}, true
	case fyne.KeyRight:
		return geom.Pt{X: 1}, true
	case fyne.KeyUp:
		return geom.Pt{Y: -1}, true
	case fyne.KeyDown:
		return geom.Pt{Y: 1}, true
	}
	return geom.Pt{}, false
}
