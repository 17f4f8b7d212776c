package leafview

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"leafmend/mendplan/geom"
)

// Times and distances of the pointing hand. A press that moves less than
// slop is a press, not a drag; wet hands and pens tremble.
const (
	slop        = 3.0 // units
	doublePress = 400 * time.Millisecond
	doubleReach = 6.0 // units between the presses of a double press
)

// hand is the pointer's state machine. The toolkit's drag events know neither
// button nor modifier, hover events no modifier, and a secondary button
// never drags: so press, drag and hover meet here, and only here.
type hand struct {
	button  desktop.MouseButton // held now; 0 for none
	mode    handMode
	start   geom.Pt // device pixels
	moved   bool    // went beyond slop since the press
	mods    fyne.KeyModifier
	pressed time.Time // of the last left press that was not a second one
	where   geom.Pt   // of that press, device pixels
	last    pointer   // latest event
	inside  bool
}

// handMode says what the held button does.
type handMode int

const (
	free     handMode = iota // nothing held
	tooling                  // the tool's
	panning                  // moves the view
	overview                 // moves the view by its overview
)

// MouseDown implements [desktop.Mouseable].
func (s *Surface) MouseDown(e *desktop.MouseEvent) {
	s.takeFocus()
	if s.hand.button != 0 {
		return // a second button joins nothing
	}
	p := s.pointerAt(e.Position, e.Modifier)
	s.hand.button, s.hand.start, s.hand.moved, s.hand.mods = e.Button, p.dev, false, e.Modifier
	s.keys.cursorOn = false
	switch {
	case e.Button == desktop.MouseButtonSecondary:
		s.hand.mode = free
		s.context(e.AbsolutePosition, p)
	case e.Button == desktop.MouseButtonTertiary, s.keys.space, s.toolID == PanTool, s.habits.NavigateOnly:
		s.hand.mode = panning
	case s.overviewRect().Holds(p.dev):
		s.hand.mode = overview
		s.overviewTo(p.dev)
	default:
		s.hand.mode = tooling
		s.press(p)
	}
}

// press gives a press to the tool, as a double press when it is the second.
func (s *Surface) press(p pointer) {
	now := s.now()
	if now.Sub(s.hand.pressed) < doublePress && p.dev.Dist(s.hand.where) < doubleReach*s.px {
		s.hand.pressed = time.Time{}
		s.tool.double(p)
	} else {
		s.hand.pressed, s.hand.where = now, p.dev
		s.tool.press(p)
	}
	s.acted()
}

// MouseUp implements [desktop.Mouseable].
func (s *Surface) MouseUp(e *desktop.MouseEvent) {
	if e.Button == s.hand.button {
		s.moveTo(s.pointerAt(e.Position, s.hand.mods))
		s.letGo()
	}
}

// DragEnd implements [fyne.Draggable]: final, even if no release came.
func (s *Surface) DragEnd() { s.letGo() }

// letGo ends what the held button did.
func (s *Surface) letGo() {
	mode, button := s.hand.mode, s.hand.button
	s.hand.button, s.hand.mode = 0, free
	if mode == panning && s.habits.NavigateOnly && button == desktop.MouseButtonPrimary && !s.hand.moved && s.OnTap != nil {
		s.OnTap(s.hand.last.at)
	}
	if mode == tooling {
		s.tool.release(s.hand.last)
		s.acted()
	}
}

// Dragged implements [fyne.Draggable].
func (s *Surface) Dragged(e *fyne.DragEvent) {
	if s.hand.button != 0 {
		s.moveTo(s.pointerAt(e.Position, s.hand.mods))
	}
}

// MouseIn implements [desktop.Hoverable].
func (s *Surface) MouseIn(e *desktop.MouseEvent) { s.MouseMoved(e) }

// MouseMoved implements [desktop.Hoverable].
func (s *Surface) MouseMoved(e *desktop.MouseEvent) {
	s.hand.inside = true
	s.keys.cursorOn = false
	s.moveTo(s.pointerAt(e.Position, e.Modifier|s.mods()))
}

// MouseOut implements [desktop.Hoverable].
func (s *Surface) MouseOut() {
	s.hand.inside = false
	if s.OnPointer != nil {
		s.OnPointer(s.hand.last.at, false)
	}
	s.redraw()
}

// moveTo follows the pointer.
func (s *Surface) moveTo(p pointer) {
	before := s.hand.last
	s.hand.last = p
	if p.dev.Dist(s.hand.start) > slop*s.px {
		s.hand.moved = true
	}
	switch s.hand.mode {
	case panning:
		s.pan(p.dev.Sub(before.dev))
		s.hand.last = s.pointerOn(p.dev, p.mods)
	case overview:
		s.overviewTo(p.dev)
	case tooling:
		if s.hand.moved {
			s.tool.drag(p)
		}
		s.redraw()
	default:
		s.tool.hover(p)
		s.redraw()
	}
	s.tellHint()
	if s.OnPointer != nil {
		s.OnPointer(p.at, true)
	}
}

// Scrolled implements [fyne.Scrollable]: the wheel zooms at the pointer, or
// scrolls, as the user prefers.
func (s *Surface) Scrolled(e *fyne.ScrollEvent) {
	dx, dy := float64(e.Scrolled.DX), float64(e.Scrolled.DY)
	if s.habits.WheelReverse {
		dx, dy = -dx, -dy
	}
	mods := s.mods()
	if s.habits.WheelScrolls != (mods&(fyne.KeyModifierControl|fyne.KeyModifierSuper) != 0) {
		if mods&fyne.KeyModifierShift != 0 && dx == 0 {
			dx, dy = dy, 0
		}
		s.pan(geom.Pt{X: 2 * dx * s.px, Y: 2 * dy * s.px})
	} else if dy != 0 {
		s.zoomAt(s.toDevice(e.Position), wheelFactor(dy))
	}
	s.moveTo(s.pointerAt(e.Position, mods))
}

// context selects what is under the pointer and asks for a menu.
func (s *Surface) context(at fyne.Position, p pointer) {
	if pt, ok := s.pointAt(p.dev); ok {
		s.points = []pointRef{pt}
		s.redraw()
	} else if ref, ok := s.shapeAt(p.dev); ok && !s.isSelected(ref) {
		s.choose(ref)
	}
	if s.OnContext != nil {
		s.OnContext(at, p.at)
	}
}

// pointerAt reads a position of the toolkit.
func (s *Surface) pointerAt(pos fyne.Position, mods fyne.KeyModifier) pointer {
	return s.pointerOn(s.toDevice(pos), mods)
}

// pointerOn reads a device position.
func (s *Surface) pointerOn(dev geom.Pt, mods fyne.KeyModifier) pointer {
	p := pointer{at: s.view.ToScan(dev), dev: dev, mods: mods}
	p.snap = snap{at: p.at}
	if s.habits.Snap && !p.has(fyne.KeyModifierControl) && s.tool.snaps() {
		p.snap = s.snapAt(p.at)
	}
	return p
}

// acted shows what a press or release did.
func (s *Surface) acted() {
	s.redraw()
	s.tellHint()
}

// takeFocus makes keys go to the surface.
func (s *Surface) takeFocus() {
	if app := fyne.CurrentApp(); app != nil && !s.keys.focused {
		if c := app.Driver().CanvasForObject(s); c != nil {
			c.Focus(s)
		}
	}
}

// driverModifiers asks the driver which modifiers are held.
func driverModifiers() fyne.KeyModifier {
	if app := fyne.CurrentApp(); app != nil {
		if d, ok := app.Driver().(desktop.Driver); ok {
			return d.CurrentKeyModifiers()
		}
	}
	return 0
}

// afterOnMain calls f on the toolkit's goroutine after d and returns what
// stops it. Drivers without a desktop have no such goroutine to come back to:
// there it never calls, and returns nil.
func afterOnMain(d time.Duration, f func()) func() {
	if app := fyne.CurrentApp(); app != nil {
		if _, ok := app.Driver().(desktop.Driver); ok {
			t := time.AfterFunc(d, func() { fyne.Do(f) })
			return func() { t.Stop() }
		}
	}
	return nil
}
