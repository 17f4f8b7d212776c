package leafview

import (
	"fyne.io/fyne/v2"

	"leafmend/mendplan/geom"
)

// ToolID names a tool.
type ToolID string

// The tools. The zero value counts as SelectTool.
const (
	SelectTool    ToolID = "select"    // choose, move, change points
	TearTool      ToolID = "tear"      // path; begins at, or forks from, a tear
	SplitTool     ToolID = "split"     // path along a fold
	LossTool      ToolID = "loss"      // ring
	WeakTool      ToolID = "weak"      // ring
	NicksTool     ToolID = "nicks"     // path along an edge
	NoteTool      ToolID = "note"      // damage noted only; see Surface.SetNoted
	RetraceTool   ToolID = "retrace"   // cut a stretch out and trace it again
	ReshapeTool   ToolID = "reshape"   // change a shape by drawing across it
	DivideTool    ToolID = "divide"    // make two tears of one
	EdgeTool      ToolID = "edge"      // four corners of the true edge
	OutlineTool   ToolID = "outline"   // the edge of the leaf as it is
	FoldTool      ToolID = "fold"      // two points on the fold
	CalibrateTool ToolID = "calibrate" // two points a known distance apart
	CornersTool   ToolID = "corners"   // four corners of a rectangle of known size
	OtherTool     ToolID = "other"     // lay what the other side shows where it belongs
	SampleTool    ToolID = "sample"    // a place whose colour is wanted
	MeasureTool   ToolID = "measure"   // lengths, areas, angles
	PanTool       ToolID = "pan"       // the hand
)

// ToolIDs lists all tools in the order of a tool bar.
func ToolIDs() []ToolID {
	return []ToolID{SelectTool, PanTool, TearTool, SplitTool, LossTool, WeakTool, NicksTool, NoteTool,
		RetraceTool, ReshapeTool, DivideTool, OutlineTool, EdgeTool, FoldTool,
		CalibrateTool, CornersTool, OtherTool, MeasureTool, SampleTool}
}

// pointer is one event of the pointing device as a tool sees it.
type pointer struct {
	at   geom.Pt // scan pixels, where the pointer is
	dev  geom.Pt // device pixels
	snap snap    // where a new point would go, and what it holds on to
	mods fyne.KeyModifier
}

// has reports whether the modifier is held.
func (p pointer) has(m fyne.KeyModifier) bool { return p.mods&m != 0 }

// tool is what the left button and the keys do. Positions are scan pixels. A
// tool keeps its unfinished shape itself and commits it once, as an Edit.
type tool interface {
	press(p pointer)   // button down
	drag(p pointer)    // moved while down
	release(p pointer) // button up
	double(p pointer)  // second press of a double press, instead of press
	hover(p pointer)   // moved while up
	finish() bool      // Enter: commit what there is; false when nothing was in hand
	cancel() bool      // Escape: drop what is in hand; false when nothing was in hand
	stepBack() bool    // Backspace: take one point back; false when there is none
	busy() bool        // something is in hand
	renew()            // the scene is another: let go of what is no more
	// hint says in one sentence what a press does now.
	hint() string
	// snaps reports whether a point put or moved now holds on to what is near.
	snaps() bool
	// hides reports whether the still layer must leave a shape out because
	// the tool draws it itself.
	hides(ref int) bool
	// draw draws what is in hand, over the still layers.
	draw(c *canvas)
}

// idle answers what a tool has nothing to say to.
type idle struct{}

func (idle) press(pointer)   {}
func (idle) drag(pointer)    {}
func (idle) release(pointer) {}
func (idle) double(pointer)  {}
func (idle) hover(pointer)   {}
func (idle) finish() bool    { return false }
func (idle) cancel() bool    { return false }
func (idle) stepBack() bool  { return false }
func (idle) busy() bool      { return false }
func (idle) renew()          {}
func (idle) hint() string    { return "" }
func (idle) snaps() bool     { return false }
func (idle) hides(int) bool  { return false }
func (idle) draw(*canvas)    {}

// newTool returns a fresh tool.
func newTool(s *Surface, id ToolID) tool {
	if kind, ring, ok := s.kindOf(id); ok {
		return newDamageTool(s, kind, ring)
	}
	switch id {
	case PanTool:
		return &panTool{s: s}
	case RetraceTool:
		return newRetraceTool(s)
	case ReshapeTool:
		return newReshapeTool(s)
	case DivideTool:
		return &divideTool{s: s}
	case OutlineTool:
		return newOutlineTool(s)
	case EdgeTool, CornersTool:
		return newCornerTool(s, id)
	case FoldTool, CalibrateTool:
		return &twoTool{s: s, id: id}
	case OtherTool:
		return &otherTool{s: s}
	case MeasureTool:
		return newMeasureTool(s)
	case SampleTool:
		return &sampleTool{s: s}
	}
	return &selectTool{s: s}
}
