package ui

import (
	"context"
	"image"
	"image/color"
	"slices"
	"sync"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/scan"
	"leafmend/ui/leafview"
)

// looks answers, from the scans that were opened, how much print lies under a
// piece. It is asked from the planner's goroutines and filled from others.
type looks struct {
	mu      sync.Mutex
	masks   map[string]*scan.Mask // by path and page
	tour    bool                  // the scans of the job are being read one after the other
	memo    mendplan.Memo
	layouts mendplan.LayoutMemo
	base    string
}

// finder is the planner of the window: it remembers the pieces of damages
// that did not change, and asks the pictures.
func (l *looks) pieces(j mendplan.Job) ([]mendplan.Piece, []mendplan.Problem) {
	return l.memo.PiecesWith(j, mendplan.Look{Print: l.printUnder(j)})
}

// finish remembers layouts too, so that an edit that changes no piece keeps
// what a longer search found.
func (l *looks) finish(ctx context.Context, s mendplan.Search, j mendplan.Job, pieces []mendplan.Piece, problems []mendplan.Problem) mendplan.Plan {
	s.Memo = &l.layouts
	return s.Assemble(ctx, j, pieces, problems)
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
		if mask == nil || mask.Step <= 0 || fault != nil { // not read, or not readable
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

// outlineOf is the edge of the leaf on a scan; false when it is not known, so
// that the leaf cannot be told from its backing.
func outlineOf(side mendplan.Side) (scan.Outline, bool) {
	o := scan.Outline{Polygon: side.Outline}
	if len(side.TrueEdge) == 4 {
		copy(o.TrueEdge[:], side.TrueEdge)
	}
	if len(o.Polygon) < 3 {
		o.Polygon = side.TrueEdge
	}
	return o, len(o.Polygon) >= 3
}

// printSide is the longer side, in pixels, of the level on which print is told
// from paper: coarse, since shares of whole pieces are asked for.
const printSide = 1200

// readAllPrint reads, one after the other, the scans of leaves that are to be
// mended and were not looked at yet: advice on a side needs both. The pieces
// are found anew when all are read.
func (w *Window) readAllPrint() {
	if w.looks.tour {
		return
	}
	side, outline, found := w.unreadSide()
	if !found {
		return
	}
	w.looks.tour = true
	key := pictureKey(w.session.scanPath(side.Scan), side.Scan.Page)
	path, mask := w.session.scanPath(side.Scan), new(scan.Mask)
	w.work.start(func() error {
		pic, err := scan.Open(context.Background(), path, scan.OpenOptions{Page: side.Scan.Page, Cache: w.pictures.cache, Lazy: true})
		if err != nil {
			return err
		}
		defer pic.Close()
		img, scale := pic.AtLeast(printSide)
		mask = scan.TextMask(img, scale, outline)
		return nil
	}, func(error) { // a scan that cannot be read is told elsewhere, and counts as bare
		w.looks.tour = false
		w.looks.learn(key, mask)
		if _, _, more := w.unreadSide(); more {
			w.readAllPrint()
			return
		}
		w.session.replan()
	})
}

// unreadSide finds a side of a leaf to be mended whose print is not known.
func (w *Window) unreadSide() (mendplan.Side, scan.Outline, bool) {
	for _, leaf := range w.session.Job().Leaves {
		if !slices.ContainsFunc(leaf.Damages, func(d mendplan.Damage) bool { return d.Kind.Mended() && !d.NoMend }) {
			continue
		}
		for _, name := range []mendplan.SideName{mendplan.Front, mendplan.Back} {
			side := leaf.SideOf(name)
			outline, ok := outlineOf(side)
			if side.Scan.Present() && ok && !w.looks.has(pictureKey(w.session.scanPath(side.Scan), side.Scan.Page)) {
				return side, outline, true
			}
		}
	}
	return mendplan.Side{}, scan.Outline{}, false
}

// togglePrint shows where the side in hand is printed, or no longer.
func (w *Window) togglePrint() {
	w.printShown = !w.printShown
	w.showPrint()
	if !w.printShown {
		return
	}
	leaf, _ := w.session.Leaf()
	side := leaf.SideOf(w.session.Side())
	_, known := outlineOf(side)
	switch {
	case !known:
		w.status.say(t("Find or trace the edge of the leaf first: without it print cannot be told from the background."))
	case w.looks.mask(side.Scan) == nil:
		w.status.say(t("The print is being read."))
		if pic, ok := w.openPicture(); ok {
			w.readPrint(side, pic)
		}
	default:
		w.status.say(t("Slanted lines lie where there is print, writing or a picture. Advice on sides rests on it."))
	}
}

// printInk is the colour of the lines over print.
var printInk = color.RGBA{214, 40, 140, 255}

// showPrint lays slanted lines over the print of the side in hand, when that
// is asked for and known.
func (w *Window) showPrint() {
	leaf, ok := w.session.Leaf()
	var mask *scan.Mask
	if ok && w.printShown {
		mask = w.looks.mask(leaf.SideOf(w.session.Side()).Scan)
	}
	if mask == nil || mask.Step <= 0 {
		w.surface.SetOverlay(nil)
		return
	}
	w.surface.SetOverlay(func(dst *image.RGBA, v leafview.View) {
		mask.Paint(dst, scan.View{Scale: v.Scale, X: -v.Offset.X / v.Scale, Y: -v.Offset.Y / v.Scale}, printInk)
	})
}

// readPrint reads aside where an open scan is printed, so that the advice on
// sides rests on the leaf itself.
func (w *Window) readPrint(side mendplan.Side, pic *scan.Picture) {
	key := pictureKey(w.session.scanPath(side.Scan), side.Scan.Page)
	if w.looks.has(key) {
		return
	}
	outline, ok := outlineOf(side)
	if !ok {
		return
	}
	var mask *scan.Mask
	w.work.start(func() error {
		img, scale := pic.AtLeast(printSide)
		mask = scan.TextMask(img, scale, outline)
		return nil
	}, func(err error) {
		if err == nil {
			w.looks.learn(key, mask)
			w.showPrint()
			w.session.replan()
		}
	})
}
