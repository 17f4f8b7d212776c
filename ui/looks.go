package ui

import (
	"sync"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/scan"
)

// looks answers, from the scans that were opened, how much print lies under a
// piece. It is asked from the planner's goroutines and filled from others.
type looks struct {
	mu    sync.Mutex
	masks map[string]*scan.Mask // by path and page
	memo  mendplan.Memo
	base  string
}

// finder is the planner of the window: it remembers the pieces of damages
// that did not change, and asks the pictures.
func (l *looks) pieces(j mendplan.Job) ([]mendplan.Piece, []mendplan.Problem) {
	return l.memo.PiecesWith(j, mendplan.Look{Print: l.printUnder(j)})
}

func (l *looks) finish(j mendplan.Job, pieces []mendplan.Piece, problems []mendplan.Problem) mendplan.Plan {
	return mendplan.Finish(j, pieces, problems)
}

// printUnder returns the share of an outline that lies on print.
func (l *looks) printUnder(j mendplan.Job) func(string, mendplan.SideName, geom.Area) (float64, bool) {
	return func(id string, side mendplan.SideName, outline geom.Area) (float64, bool) {
		leaf, ok := j.Leaf(id)
		if !ok || len(outline) == 0 {
			return 0, false
		}
		sc := leaf.SideOf(side).Scan
		mask := l.mask(sc)
		frame, _, fault := mendplan.FrameOf(leaf, side)
		if mask == nil || fault != nil {
			return 0, false
		}
		var share, area float64
		for _, ring := range frame.AreaToScan(outline) {
			if a := ring.SignedArea(); a > 0 {
				share += mask.Share(ring) * a
				area += a
			}
		}
		return share / max(area, 1e-9), area > 0
	}
}

func (l *looks) mask(sc mendplan.Scan) *scan.Mask {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.masks[pictureKey(mendplan.ScanPath(l.base, sc), sc.Page)]
}

// has reports whether a scan was read already.
func (l *looks) has(key string) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.masks[key] != nil
}

// learn adds what was read from a scan; the pieces are found anew.
func (l *looks) learn(key string, m *scan.Mask) {
	l.mu.Lock()
	if l.masks == nil {
		l.masks = map[string]*scan.Mask{}
	}
	l.masks[key] = m
	l.mu.Unlock()
	l.memo.Forget()
}

// startIn tells from which folder the scans' paths start.
func (l *looks) startIn(base string) {
	l.mu.Lock()
	l.base = base
	l.mu.Unlock()
	l.memo.Forget()
}

// readPrint reads aside where an open scan is printed, so that the advice on
// sides rests on the leaf itself.
func (w *Window) readPrint(side mendplan.Side, pic *scan.Picture) {
	key := pictureKey(w.session.scanPath(side.Scan), side.Scan.Page)
	if w.looks.has(key) {
		return
	}
	outline := scan.Outline{Polygon: side.Outline}
	if len(side.TrueEdge) == 4 {
		copy(outline.TrueEdge[:], side.TrueEdge)
	}
	if len(outline.Polygon) < 3 {
		outline.Polygon = side.TrueEdge
	}
	if len(outline.Polygon) < 3 {
		return // without its edge the leaf cannot be told from the backing
	}
	var mask *scan.Mask
	w.work.start(func() error {
		img, scale := workLevel(pic)
		mask = scan.TextMask(img, scale, outline)
		return nil
	}, func(err error) {
		if err == nil {
			w.looks.learn(key, mask)
			w.session.replan()
		}
	})
}
