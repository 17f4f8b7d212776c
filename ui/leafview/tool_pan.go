package leafview

// panTool is the hand. The pointer's state machine moves the view; the tool
// only says so.
type panTool struct {
	idle
	s *Surface
}

func (t *panTool) hint() string { return t.s.say(hintPan) }
