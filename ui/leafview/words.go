package leafview

import "fmt"

// Hints, one sentence each. They are keys into the catalogue of the program's
// words: see [Surface.Translate].
const (
	hintSelect    = "Press a damage to choose it, or drag a box around several. Shift adds."
	hintChosen    = "Drag a point or the line to move it; a small plus adds a point; Delete removes what is chosen."
	hintPoint     = "Drag to move this point, Delete removes it; with Ctrl it does not hold on to anything."
	hintGhost     = "Press to add a point here, or drag it into place."
	hintGrip      = "Drag to set this measure on the leaf; a double press drops what was set."
	hintMoving    = "Let go to leave it here; Escape puts it back."
	hintBox       = "Let go to choose what lies whole in the box."
	hintPath      = "Press where the %s begins; drag to draw freehand."
	hintPathOn    = "Press for the next point; Enter or a double press ends the line, Backspace takes a point back."
	hintRing      = "Press where the outline of the %s begins; drag to draw freehand."
	hintRingOn    = "Press for the next point; the first point or Enter closes the outline, Backspace takes a point back."
	hintFollow    = "The line follows the picture; Shift draws straight. Press to accept; a double press or Enter ends."
	hintKeys      = "Arrow keys lead the cursor, with Shift finely; Space presses there."
	hintKeysOn    = "Space sets a point at the cursor; Enter ends at the last one set, Backspace takes one back."
	hintExtend    = "Begins at the end of damage %d and continues it; Ctrl begins a new one."
	hintFork      = "Begins on damage %d and forks from it; Ctrl begins a new one."
	hintClose     = "Press to close the outline."
	hintTooFew    = "Two points at least; press for the next, Escape drops the line."
	hintTooFew3   = "Three points at least; press for the next, Escape drops the outline."
	hintRetrace   = "Press the line where the wrong stretch begins."
	hintRetraceOn = "Trace the stretch again and press the line where it ends."
	hintReshape   = "Draw a line across the shape: what it cuts off, or takes in, is changed. Enter ends."
	hintNoCross   = "The line does not cross a shape twice; go on drawing, or Escape."
	hintDivide    = "Press a tear where it is to become two."
	hintEdge      = "Press the four corners of the leaf as it was: %s."
	hintEdgeDrag  = "Drag corners or sides into place; drag elsewhere draws a new rectangle."
	hintCorners   = "Press the corners of the rectangle of known size: %s."
	hintTwo       = "Press the first of two points whose distance you know, or drag from one to the other."
	hintTwoOn     = "Press the second point."
	hintFold      = "Press two points on the fold."
	hintMeasure   = "Press points to measure; the first point closes an area; Enter ends."
	hintSample    = "Press a place, or drag a box, whose colour is to be taken."
	hintOther     = "Drag what the other side shows until it lies where it belongs; Shift turns it; arrow keys nudge."
	hintPan       = "Drag to move the picture; the wheel zooms at the pointer."
	headLeft      = "head, left"
	headRight     = "head, right"
	tailRight     = "tail, right"
	tailLeft      = "tail, left"
	notCalibrated = "not calibrated"
)

// cornerNames are the corners in the order of a true edge.
var cornerNames = [4]string{headLeft, headRight, tailRight, tailLeft}

// Phrases lists every phrase that [Surface.Translate] is asked for, kinds of
// damage excepted.
func Phrases() []string {
	return []string{hintSelect, hintChosen, hintPoint, hintGhost, hintGrip, hintMoving, hintBox, hintPath, hintPathOn,
		hintRing, hintRingOn, hintFollow, hintKeys, hintKeysOn, hintExtend, hintFork, hintClose, hintTooFew, hintTooFew3,
		hintRetrace, hintRetraceOn, hintReshape, hintNoCross, hintDivide, hintEdge, hintEdgeDrag, hintCorners,
		hintTwo, hintTwoOn, hintFold, hintMeasure, hintSample, hintOther, hintPan,
		headLeft, headRight, tailRight, tailLeft, notCalibrated}
}

// say translates a phrase and fills in its places.
func (s *Surface) say(phrase string, args ...any) string {
	if s.Translate != nil {
		phrase = s.Translate(phrase)
	}
	if len(args) == 0 {
		return phrase
	}
	for i, a := range args {
		if w, ok := a.(string); ok && s.Translate != nil {
			args[i] = s.Translate(w)
		}
	}
	return fmt.Sprintf(phrase, args...)
}
