package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
	"leafmend/mendplan/geom"
)

// gatheringDrawing draws all gatherings of a job under one another, seen from
// the tail: sheets nested at the fold, page numbers at the fore-edge. A press
// on a leaf chooses its sheet; with the focus, the arrow keys do.
type gatheringDrawing struct {
	widget.BaseWidget
	onSheet func(sheetAt)
	onHover func(words string)
	job     mendplan.Job
	parts   []drawnGathering
	at      sheetAt // chosen
	focused bool
	height  float32
}

// drawnGathering is one gathering with its place in the drawing.
type drawnGathering struct {
	diagram collate.Diagram
	name    string
	top     float32
}

// Sizes of the drawing.
const (
	leafGap    = 24  // from one leaf to the next
	nameHeight = 24  // above each gathering
	wordsRoom  = 230 // for names of leaves, right of the fore-edge
	drawingRim = 8
)

var (
	_ fyne.Tappable     = (*gatheringDrawing)(nil)
	_ fyne.Focusable    = (*gatheringDrawing)(nil)
	_ desktop.Hoverable = (*gatheringDrawing)(nil)
)

func newGatheringDrawing(onSheet func(sheetAt), onHover func(string)) *gatheringDrawing {
	d := &gatheringDrawing{onSheet: onSheet, onHover: onHover}
	d.ExtendBaseWidget(d)
	return d
}

// show draws the gatherings of a job with one sheet chosen.
func (d *gatheringDrawing) show(j mendplan.Job, at sheetAt) {
	d.job, d.at, d.parts = j, at, nil
	y := float32(drawingRim)
	for i := range j.Gatherings {
		g := drawnGathering{diagram: collate.DiagramOf(j, i), name: t("Gathering %s", collate.Name(j, i)), top: y + nameHeight}
		if j.Gatherings[i].Cover {
			g.name = t("Cover")
		}
		d.parts = append(d.parts, g)
		y = g.top + float32(g.diagram.Height)*leafGap + drawingRim
	}
	d.height = y
	d.Refresh()
}

// unit is the width of the diagrams' unit, so that the widest fits beside the
// words.
func (d *gatheringDrawing) unit() float32 {
	widest := 15.0
	for _, g := range d.parts {
		widest = max(widest, g.diagram.Width)
	}
	return max((d.Size().Width-wordsRoom-2*drawingRim)/float32(widest), 6)
}

// point places a point of a diagram in the drawing.
func (d *gatheringDrawing) point(g drawnGathering, p geom.Pt) fyne.Position {
	return fyne.NewPos(drawingRim+float32(p.X)*d.unit(), g.top+float32(p.Y)*leafGap)
}

// leafAt returns the leaf nearest to a place; nil where there is none.
func (d *gatheringDrawing) leafAt(pos fyne.Position) (int, *collate.DiagramLeaf) {
	for gi, g := range d.parts {
		for i := range g.diagram.Leaves {
			l := &g.diagram.Leaves[i]
			y := d.point(g, l.Line[0]).Y
			if pos.Y > y-leafGap/2 && pos.Y <= y+leafGap/2 {
				return gi, l
			}
		}
	}
	return 0, nil
}

// Tapped implements [fyne.Tappable].
func (d *gatheringDrawing) Tapped(e *fyne.PointEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(d); c != nil {
		c.Focus(d)
	}
	if gi, l := d.leafAt(e.Position); l != nil {
		d.onSheet(sheetAt{gi, l.Place.Sheet})
	}
}

// MouseIn implements [desktop.Hoverable].
func (d *gatheringDrawing) MouseIn(e *desktop.MouseEvent) { d.MouseMoved(e) }

// MouseMoved implements [desktop.Hoverable].
func (d *gatheringDrawing) MouseMoved(e *desktop.MouseEvent) {
	words := ""
	if _, l := d.leafAt(e.Position); l != nil {
		words = t("Leaf %d of the gathering: pages %s and %s.", l.Place.Folio, pageLabel(l.Place.Recto.Label), pageLabel(l.Place.Verso.Label))
	}
	d.onHover(words)
}

// MouseOut implements [desktop.Hoverable].
func (d *gatheringDrawing) MouseOut() { d.onHover("") }

// FocusGained implements [fyne.Focusable].
func (d *gatheringDrawing) FocusGained() { d.focused = true; d.Refresh() }

// FocusLost implements [fyne.Focusable].
func (d *gatheringDrawing) FocusLost() { d.focused = false; d.Refresh() }

// TypedRune implements [fyne.Focusable].
func (d *gatheringDrawing) TypedRune(rune) {}

// TypedKey implements [fyne.Focusable]: up and down go from sheet to sheet,
// through all gatherings.
func (d *gatheringDrawing) TypedKey(e *fyne.KeyEvent) {
	var all []sheetAt
	now := -1
	for gi, g := range d.job.Gatherings {
		for si := range g.Sheets {
			if (sheetAt{gi, si}) == d.at {
				now = len(all)
			}
			all = append(all, sheetAt{gi, si})
		}
	}
	next := now
	switch e.Name {
	case fyne.KeyDown:
		next = min(now+1, len(all)-1)
	case fyne.KeyUp:
		next = max(now-1, 0)
	case fyne.KeyHome:
		next = 0
	case fyne.KeyEnd:
		next = len(all) - 1
	}
	if next != now && next >= 0 && next < len(all) {
		d.onSheet(all[next])
	}
}

// MinSize implements [fyne.CanvasObject].
func (d *gatheringDrawing) MinSize() fyne.Size { return fyne.NewSize(330, d.height) }

// CreateRenderer implements [fyne.Widget].
func (d *gatheringDrawing) CreateRenderer() fyne.WidgetRenderer {
	return &gatheringRenderer{d: d}
}

type gatheringRenderer struct {
	d       *gatheringDrawing
	objects []fyne.CanvasObject
	drawn   fyne.Size // for which the objects were made
}

func (r *gatheringRenderer) Destroy()                     {}
func (r *gatheringRenderer) MinSize() fyne.Size           { return r.d.MinSize() }
func (r *gatheringRenderer) Objects() []fyne.CanvasObject { return r.objects }

// Layout implements [fyne.WidgetRenderer]. The toolkit lays out anew whatever
// holds new objects: made anew each time, they would be laid out for ever.
func (r *gatheringRenderer) Layout(size fyne.Size) {
	if size != r.drawn {
		r.draw()
	}
}

// Refresh implements [fyne.WidgetRenderer].
func (r *gatheringRenderer) Refresh() {
	r.draw()
	canvas.Refresh(r.d)
}

func (r *gatheringRenderer) draw() {
	r.objects, r.drawn = r.objects[:0], r.d.Size()
	for gi, g := range r.d.parts {
		r.words(g.name, fyne.NewPos(drawingRim, g.top-nameHeight), theme.ColorNameForeground, true, 0)
		for i := range g.diagram.Leaves {
			r.leaf(gi, g, &g.diagram.Leaves[i])
		}
		for _, j := range g.diagram.Joins {
			chosen := r.d.at == sheetAt{gi, j.Sheet}
			r.path(g, j.Line, r.width(g, chosen), r.colour(j.Missing, chosen))
		}
	}
}

func (r *gatheringRenderer) width(g drawnGathering, chosen bool) float32 {
	w := float32(1.5)
	if g.diagram.Cover {
		w = 3
	}
	if chosen {
		w += 1.5
	}
	return w
}

func (r *gatheringRenderer) colour(missing, chosen bool) fyne.ThemeColorName {
	switch {
	case chosen:
		return theme.ColorNamePrimary
	case missing:
		return theme.ColorNameError
	}
	return theme.ColorNameForeground
}

// leaf draws one leaf with its page numbers and what lies there.
func (r *gatheringRenderer) leaf(gi int, g drawnGathering, l *collate.DiagramLeaf) {
	d := r.d
	chosen := d.at == sheetAt{gi, l.Place.Sheet}
	if chosen {
		ground := canvas.NewRectangle(shade(colourChosen))
		ground.Move(fyne.NewPos(0, d.point(g, l.Line[0]).Y-leafGap/2))
		ground.Resize(fyne.NewSize(d.Size().Width, leafGap))
		r.objects = append(r.objects, ground)
		if d.focused {
			ground.StrokeColor, ground.StrokeWidth = shade(theme.ColorNamePrimary), 1
		}
	}
	colour := r.colour(l.Place.Missing, chosen)
	r.path(g, l.Line, r.width(g, chosen), colour)
	if l.Stub != nil {
		r.path(g, l.Stub, 2, colour)
	}
	for _, h := range l.Hatch {
		r.path(g, h, 1, colour)
	}
	at := d.point(g, l.Words)
	words, shadeName := r.stateOf(l)
	r.words(pagesOf(l), at.SubtractXY(0, 9), theme.ColorNameForeground, true, 0)
	gap := pagesWidth(g)
	r.words(words, at.AddXY(gap, -9), shadeName, false, d.Size().Width-at.X-gap)
}

func pagesOf(l *collate.DiagramLeaf) string {
	return pageLabel(l.Place.Recto.Label) + " / " + pageLabel(l.Place.Verso.Label)
}

// pagesWidth is the room that the page numbers of a gathering take.
func pagesWidth(g drawnGathering) float32 {
	w := float32(56)
	for i := range g.diagram.Leaves {
		size := fyne.MeasureText(pagesOf(&g.diagram.Leaves[i]), theme.CaptionTextSize(), fyne.TextStyle{Bold: true})
		w = max(w, size.Width+10)
	}
	return w
}

// stateOf names the leaf at a place, or says what is the matter there.
func (r *gatheringRenderer) stateOf(l *collate.DiagramLeaf) (string, fyne.ThemeColorName) {
	leaf, ok := r.d.job.Leaf(l.Place.Leaf)
	switch {
	case l.Place.Missing:
		return "× " + t("missing"), theme.ColorNameError
	case !ok && l.Place.Blank:
		return t("blank"), colourQuiet
	case !ok:
		return "! " + t("no scan"), theme.ColorNameError
	case l.Inset:
		return leafTitle(leaf) + " · " + t("inset"), theme.ColorNameForeground
	case l.Place.Blank:
		return leafTitle(leaf) + " · " + t("blank"), theme.ColorNameForeground
	}
	return leafTitle(leaf), theme.ColorNameForeground
}

// path draws a line through points.
func (r *gatheringRenderer) path(g drawnGathering, p geom.Path, width float32, colour fyne.ThemeColorName) {
	for i := 1; i < len(p); i++ {
		l := canvas.NewLine(shade(colour))
		l.StrokeWidth = width
		l.Position1, l.Position2 = r.d.point(g, p[i-1]), r.d.point(g, p[i])
		r.objects = append(r.objects, l)
	}
}

// words writes a line; room above nothing cuts it there.
func (r *gatheringRenderer) words(s string, at fyne.Position, colour fyne.ThemeColorName, bold bool, room float32) {
	c := canvas.NewText(s, shade(colour))
	c.TextSize, c.TextStyle.Bold = theme.CaptionTextSize(), bold
	for room > 0 && c.MinSize().Width > room && len([]rune(s)) > 1 {
		s = string([]rune(s)[:len([]rune(s))-1])
		c.Text = s + "…"
	}
	c.Move(at)
	c.Resize(c.MinSize())
	r.objects = append(r.objects, c)
}
