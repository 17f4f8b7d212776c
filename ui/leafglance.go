package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// leafGlance is a small picture of a leaf with its pieces, one of them shown
// strongly: where a piece of a sheet goes. Pointing at a piece on it tells
// which one it is.
type leafGlance struct {
	widget.BaseWidget
	w       *Window
	picture *preview
	leaf    string
	side    mendplan.SideName
	shapes  []glanceShape
	lit     map[string]bool
	hover   string             // label of the piece under the pointer
	look    func(label string) // another piece is pointed at; "" for none
	press   func(label string)
}

// glanceShape is the outline of a piece, in scan pixels of its side.
type glanceShape struct {
	label string
	rings geom.Area
}

var (
	_ desktop.Hoverable = (*leafGlance)(nil)
	_ fyne.Tappable     = (*leafGlance)(nil)
)

func newLeafGlance(w *Window, look, press func(label string)) *leafGlance {
	g := &leafGlance{w: w, picture: w.newPreview(), look: look, press: press}
	g.ExtendBaseWidget(g)
	return g
}

// show looks at a side of a leaf with the pieces pasted on it; lit are the
// labels shown strongly. An empty leaf shows nothing.
func (g *leafGlance) show(leafID string, side mendplan.SideName, lit map[string]bool) {
	g.leaf, g.side, g.lit = leafID, side, lit
	g.shapes = g.shapes[:0]
	leaf, ok := g.w.session.Job().Leaf(leafID)
	if !ok {
		g.picture.show("", 0)
		g.Refresh()
		return
	}
	if sc := leaf.SideOf(side).Scan; sc.Present() {
		g.picture.show(g.w.session.scanPath(sc), sc.Page)
	} else {
		g.picture.show("", 0)
	}
	frame, _, fault := mendplan.FrameOf(leaf, side)
	for _, p := range g.w.session.Plan().Pieces {
		if fault == nil && p.Leaf == leafID && p.Side == side {
			g.shapes = append(g.shapes, glanceShape{p.Label, frame.AreaToScan(p.Outline)})
		}
	}
	g.Refresh()
}

// fit returns scale and corner of the scan in the widget; 0 without a scan.
func (g *leafGlance) fit() (k float32, at fyne.Position) {
	leaf, ok := g.w.session.Job().Leaf(g.leaf)
	sc := leaf.SideOf(g.side).Scan
	if !ok || sc.Width <= 0 || sc.Height <= 0 {
		return 0, at
	}
	size := g.Size()
	k = min(size.Width/float32(sc.Width), size.Height/float32(sc.Height))
	return k, fyne.NewPos((size.Width-float32(sc.Width)*k)/2, (size.Height-float32(sc.Height)*k)/2)
}

// pieceAt finds the piece under a point, or the nearest within a few pixels:
// pieces are small here.
func (g *leafGlance) pieceAt(p fyne.Position) string {
	k, at := g.fit()
	if k <= 0 {
		return ""
	}
	q := geom.Pt{X: float64((p.X - at.X) / k), Y: float64((p.Y - at.Y) / k)}
	best, least := "", 8/float64(k)
	for _, s := range g.shapes {
		if d := geom.DistToArea(q, s.rings); d < least {
			best, least = s.label, d
		}
	}
	return best
}

// MouseIn implements [desktop.Hoverable].
func (g *leafGlance) MouseIn(e *desktop.MouseEvent) { g.MouseMoved(e) }

// MouseMoved implements [desktop.Hoverable].
func (g *leafGlance) MouseMoved(e *desktop.MouseEvent) { g.point(g.pieceAt(e.Position)) }

// MouseOut implements [desktop.Hoverable].
func (g *leafGlance) MouseOut() { g.point("") }

func (g *leafGlance) point(label string) {
	if label == g.hover {
		return
	}
	g.hover = label
	if g.look != nil {
		g.look(label)
	}
	g.Refresh()
}

// Tapped implements [fyne.Tappable].
func (g *leafGlance) Tapped(e *fyne.PointEvent) {
	if label := g.pieceAt(e.Position); label != "" && g.press != nil {
		g.press(label)
	}
}

// CreateRenderer implements [fyne.Widget].
func (g *leafGlance) CreateRenderer() fyne.WidgetRenderer { return &glanceRenderer{g: g} }

type glanceRenderer struct {
	g       *leafGlance
	objects []fyne.CanvasObject
	drawn   fyne.Size // for which the objects were made
}

func (r *glanceRenderer) Destroy()                     {}
func (r *glanceRenderer) MinSize() fyne.Size           { return fyne.NewSize(120, 110) }
func (r *glanceRenderer) Objects() []fyne.CanvasObject { return r.objects }

// Layout implements [fyne.WidgetRenderer]. The toolkit lays out anew whatever
// holds new objects: made anew each time, they would be laid out for ever.
func (r *glanceRenderer) Layout(size fyne.Size) {
	if size != r.drawn {
		r.Refresh()
	}
}

func (r *glanceRenderer) Refresh() {
	r.drawn = r.g.Size()
	r.g.picture.box.Resize(r.drawn)
	r.objects = []fyne.CanvasObject{r.g.picture.box}
	k, at := r.g.fit()
	for _, strong := range []bool{false, true} { // strong ones lie on top
		for _, s := range r.g.shapes {
			if k > 0 && strong == (r.g.lit[s.label] || s.label == r.g.hover) {
				r.outline(s, k, at, strong)
			}
		}
	}
	canvas.Refresh(r.g)
}

// outline draws a piece in two tones, so that it reads on any paper; a strong
// one has a frame round it besides.
func (r *glanceRenderer) outline(s glanceShape, k float32, at fyne.Position, strong bool) {
	width, colour := float32(1), color.Color(shade(theme.ColorNamePrimary))
	if strong {
		width, colour = 2.5, shade(theme.ColorNameError)
	}
	for _, ring := range s.rings {
		thin := geom.Ring(ring)
		if len(thin) > 60 {
			thin = everyNth(thin, len(thin)/60+1)
		}
		for i, a := range thin {
			b := thin[(i+1)%len(thin)]
			for _, tone := range []struct {
				c color.Color
				w float32
			}{{color.White, width + 2}, {colour, width}} {
				if tone.c == color.White && !strong {
					continue
				}
				line := canvas.NewLine(tone.c)
				line.StrokeWidth = tone.w
				line.Position1 = fyne.NewPos(at.X+float32(a.X)*k, at.Y+float32(a.Y)*k)
				line.Position2 = fyne.NewPos(at.X+float32(b.X)*k, at.Y+float32(b.Y)*k)
				r.objects = append(r.objects, line)
			}
		}
	}
	if strong {
		r.frame(s, k, at)
	}
}

// frame draws a ring round a piece too small to be seen by itself.
func (r *glanceRenderer) frame(s glanceShape, k float32, at fyne.Position) {
	b := s.rings.Bounds()
	if float32(max(b.Width(), b.Height()))*k > 40 {
		return
	}
	const rim = 7
	for _, tone := range []struct {
		c color.Color
		w float32
	}{{color.White, 3.5}, {shade(theme.ColorNameError), 1.5}} {
		c := canvas.NewCircle(color.Transparent)
		c.StrokeColor, c.StrokeWidth = tone.c, tone.w
		side := float32(max(b.Width(), b.Height()))*k + 2*rim
		c.Move(fyne.NewPos(at.X+float32(b.Min.X+b.Width()/2)*k-side/2, at.Y+float32(b.Min.Y+b.Height()/2)*k-side/2))
		c.Resize(fyne.NewSize(side, side))
		r.objects = append(r.objects, c)
	}
}

func everyNth(ring geom.Ring, n int) geom.Ring {
	var out geom.Ring
	for i := 0; i < len(ring); i += n {
		out = append(out, ring[i])
	}
	return out
}
