package leafview

import (
	"image"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan/geom"
)

// Surface is the tracing surface, a widget. Make one with [New]. Callbacks
// may be nil; they are only called for what a person did, never in answer to
// a method of the surface.
type Surface struct {
	widget.BaseWidget

	OnEdit     func(Edit)         // one gesture asks for a change
	OnSelect   func(refs []int)   // other damages were chosen
	OnTool     func(ToolID)       // a tool was done and gave way to another
	OnHint     func(words string) // the hint for the tool in hand changed
	OnView     func()             // zoomed or panned
	OnMeasure  func(Measurement)  // the measuring tool has a reading
	OnProposal func(id int)       // a proposal was pressed
	OnPiece    func(label string) // a piece was pressed where no damage lies; "" for none
	// OnGrip says what a grip of the scene, dragged to a place, would come to.
	OnGrip func(id string, at geom.Pt) GripShown
	// OnTap tells of a press that moved nothing while Habits.NavigateOnly.
	OnTap func(at geom.Pt)
	// OnPointer tells where the pointer is, for a status line; inside is
	// false when it left.
	OnPointer func(at geom.Pt, inside bool)
	// OnContext asks for a menu: at is the place on the screen to open it,
	// on the place in the scan; what lies under it has been selected.
	OnContext func(at fyne.Position, on geom.Pt)
	// OnKey and OnRune get what the surface has no use for, such as tool
	// letters. OnShortcut gets every shortcut that arrives with the focus.
	OnKey      func(key fyne.KeyName, mods fyne.KeyModifier)
	OnRune     func(r rune)
	OnShortcut func(fyne.Shortcut)
	// Follow returns a path along what the picture shows between two scan
	// positions, both ends included. Nil, or an empty answer, means a
	// straight line; when an answer that was not ready is, call
	// [Surface.FollowReady].
	Follow func(from, to geom.Pt) []geom.Pt

	// Translate turns an English phrase of [Phrases], or a kind of damage,
	// into the user's language; nil leaves English.
	Translate func(string) string
	// Length writes a length given in millimetres, with its unit, beside what
	// is drawn and measured; nil writes "9.5 mm", or "0.37 in" with Look.Inches.
	Length func(mm float64) string

	picture   Painter
	overlay   Overlay
	mark      geom.Pt // where SetMark put a cross
	marked    bool
	scene     Scene
	index     index
	look      Look
	filter    Filter
	habits    Habits
	view      View
	devW      int     // device pixels of the last frame or estimate
	devH      int     //
	px        float64 // device pixels per unit
	fitted    bool    // the view follows the window's size
	panRest   geom.Pt // of the last pan, less than a device pixel
	selected  []int
	points    []pointRef // chosen points of chosen shapes
	toolID    ToolID
	tool      tool
	noted     Kind
	notedRing bool
	hint      string

	hand   hand // pointer state machine
	keys   keyState
	layers layers // cached pixels
	raster *fynecanvas.Raster

	now        func() time.Time                   // for double presses
	after      func(time.Duration, func()) func() // timer, returns its stop
	stopSettle func()
	moving     bool                    // the view has moved, and a fine painting will follow
	mods       func() fyne.KeyModifier // asked when an event does not say
}

// The surface takes part in all of these.
var (
	_ fyne.Focusable     = (*Surface)(nil)
	_ fyne.Draggable     = (*Surface)(nil)
	_ fyne.Scrollable    = (*Surface)(nil)
	_ fyne.Shortcutable  = (*Surface)(nil)
	_ desktop.Mouseable  = (*Surface)(nil)
	_ desktop.Hoverable  = (*Surface)(nil)
	_ desktop.Keyable    = (*Surface)(nil)
	_ desktop.Cursorable = (*Surface)(nil)
)

// New returns an empty surface with the select tool in hand.
func New() *Surface {
	s := &Surface{look: DefaultLook(), habits: DefaultHabits(), px: 1, fitted: true, noted: "stain", notedRing: true}
	s.now, s.after, s.mods = time.Now, afterOnMain, driverModifiers
	s.raster = fynecanvas.NewRaster(func(w, h int) image.Image { return s.frame(w, h) })
	s.raster.ScaleMode = fynecanvas.ImageScalePixels
	s.ExtendBaseWidget(s)
	s.toolID, s.tool = SelectTool, newTool(s, SelectTool)
	return s
}

// CreateRenderer implements [fyne.Widget].
func (s *Surface) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(s.raster) }

// MinSize implements [fyne.CanvasObject]: enough to see where one is.
func (s *Surface) MinSize() fyne.Size { return fyne.NewSize(160, 120) }

// Resize implements [fyne.CanvasObject].
func (s *Surface) Resize(size fyne.Size) {
	s.BaseWidget.Resize(size)
	s.estimateDevice()
}

// Refresh implements [fyne.CanvasObject]: everything is painted again.
func (s *Surface) Refresh() {
	s.layers.dropAll()
	s.redraw()
}

// SetPicture shows another picture, or none when p is nil, fitted to the
// window. What was in hand is dropped.
func (s *Surface) SetPicture(p Painter) {
	s.tool.cancel()
	s.picture = p
	s.layers.dropAll()
	s.Fit()
}

// PictureChanged tells that the picture set has more to show, such as a
// finer level that has been decoded; the view stays.
func (s *Surface) PictureChanged() { s.Refresh() }

// SetScene draws another scene. Numbers that are no longer in it drop out of
// the selection.
func (s *Surface) SetScene(scene Scene) {
	s.scene = scene
	s.index = indexScene(&s.scene)
	s.selected = slices.DeleteFunc(slices.Clone(s.selected), func(ref int) bool {
		_, ok := s.index.at[ref]
		return !ok
	})
	s.keepPoints()
	s.tool.renew()
	s.layers.dropStill()
	s.redraw()
}

// Scene returns what is drawn.
func (s *Surface) Scene() Scene { return s.scene }

// Select chooses damages by their numbers; those not in the scene are left
// out. The first is the one in hand.
func (s *Surface) Select(refs ...int) {
	s.selected = nil
	for _, ref := range refs {
		if _, ok := s.index.at[ref]; ok && !slices.Contains(s.selected, ref) {
			s.selected = append(s.selected, ref)
		}
	}
	s.keepPoints()
	s.layers.dropStill()
	s.redraw()
	s.tellHint()
}

// Selected returns the numbers of the chosen damages, the one in hand first.
func (s *Surface) Selected() []int { return slices.Clone(s.selected) }

// SetTool takes a tool in hand; what was in hand is dropped.
func (s *Surface) SetTool(id ToolID) {
	if id == "" {
		id = SelectTool
	}
	s.tool.cancel()
	s.toolID, s.tool = id, newTool(s, id)
	s.points = nil
	if id == SelectTool || id == PanTool {
		s.keys.cursorOn = false // arrows move something else now
	}
	s.layers.dropStill()
	s.redraw()
	s.tellHint()
}

// Tool returns the tool in hand.
func (s *Surface) Tool() ToolID { return s.toolID }

// SetNoted says what kind [NoteTool] traces, and whether it is a ring.
func (s *Surface) SetNoted(kind Kind, ring bool) {
	s.noted, s.notedRing = kind, ring
	if s.toolID == NoteTool {
		s.SetTool(NoteTool)
	}
}

// Look returns how lines appear.
func (s *Surface) Look() Look { return s.look }

// SetLook changes how lines appear.
func (s *Surface) SetLook(l Look) {
	s.look = l
	s.Refresh()
}

// Filter returns how the picture is seen.
func (s *Surface) Filter() Filter { return s.filter }

// SetFilter changes how the picture is seen.
func (s *Surface) SetFilter(f Filter) {
	s.filter = f
	s.Refresh()
}

// Habits returns how pointer and keys behave.
func (s *Surface) Habits() Habits { return s.habits }

// SetHabits changes how pointer and keys behave.
func (s *Surface) SetHabits(h Habits) {
	s.habits = h
	s.redraw()
}

// Hint returns one sentence on what the tool in hand does now.
func (s *Surface) Hint() string { return s.tool.hint() }

// Finish commits the shape in hand, as Enter does; false when there is none.
func (s *Surface) Finish() bool { return s.outcome(s.tool.finish()) }

// Cancel drops the shape in hand, as Escape does; false when there is none.
func (s *Surface) Cancel() bool { return s.outcome(s.tool.cancel()) }

// StepBack takes back the last point of the shape in hand; false when there
// is none, and then the undo of the job is meant.
func (s *Surface) StepBack() bool { return s.outcome(s.tool.stepBack()) }

// outcome shows what finish, cancel or stepBack did.
func (s *Surface) outcome(did bool) bool {
	if did {
		s.layers.dropStill()
		s.redraw()
		s.tellHint()
	}
	return did
}

// FollowReady tells that [Surface.Follow] may have a better answer now.
func (s *Surface) FollowReady() {
	s.tool.hover(s.hand.last)
	s.redraw()
}

// redraw asks for a frame; many in one tick make one.
func (s *Surface) redraw() { s.raster.Refresh() }

// edit hands an edit out.
func (s *Surface) edit(e Edit) {
	if s.OnEdit != nil {
		s.OnEdit(e)
	}
}

// choose selects as a person's doing.
func (s *Surface) choose(refs ...int) {
	before := s.Selected()
	s.Select(refs...)
	if s.OnSelect != nil && !slices.Equal(before, s.selected) {
		s.OnSelect(s.Selected())
	}
}

// giveWay takes another tool in hand because the one before is done.
func (s *Surface) giveWay(id ToolID) {
	s.SetTool(id)
	if s.OnTool != nil {
		s.OnTool(id)
	}
}

// tellHint reports the hint when it changed.
func (s *Surface) tellHint() {
	if h := s.tool.hint(); h != s.hint {
		s.hint = h
		if s.OnHint != nil {
			s.OnHint(h)
		}
	}
}
