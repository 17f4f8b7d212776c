package leafview

import "fyne.io/fyne/v2/driver/desktop"

// Cursor implements [desktop.Cursorable].
func (s *Surface) Cursor() desktop.Cursor {
	switch {
	case s.hand.mode == panning, s.toolID == PanTool, s.keys.space:
		return desktop.PointerCursor
	case s.toolID == SelectTool:
		return desktop.DefaultCursor
	}
	return desktop.CrosshairCursor
}
