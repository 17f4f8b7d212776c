package leafview

import (
	"image/color"
	"math"

	"leafmend/mendplan/geom"
)

// drawLeafEdges draws the leaf's own lines: its edge thin, the true edge in
// dash and dot with marked corners, the fold in dash and two dots.
func drawLeafEdges(c *canvas, sc *Scene, inHand ToolID) {
	if len(sc.Outline) > 2 && inHand != OutlineTool {
		c.fineLine(sc.Outline, true, edgeCore, nil)
	}
	if len(sc.TrueEdge) == 4 && inHand != EdgeTool {
		c.fineLine(sc.TrueEdge, true, trueEdgeCore, dash{12, 4, 3, 4})
		for _, p := range sc.TrueEdge {
			c.mark(c.view.ToDevice(p), 3.2, trueEdgeCore)
		}
	}
	if len(sc.Fold) == 2 {
		c.fineLine(sc.Fold, false, foldCore, dash{16, 4, 2, 4, 2, 4})
	}
}

// fineLine draws a line of the leaf itself, thin and light, so that it stands
// back behind the damages.
func (c *canvas) fineLine(pts []geom.Pt, closed bool, core color.RGBA, d dash) {
	u := c.look.LineWidth * 0.6
	c.line(pts, closed, u+1.4, nil)
	c.ink(casingColour, 0.55*c.look.Opacity, nil)
	c.line(pts, closed, u, d)
	c.ink(core, 0.9*c.look.Opacity, nil)
}

// mark draws a small round mark at a device position.
func (c *canvas) mark(at geom.Pt, u float64, core color.RGBA) {
	c.mask.disc(at, (u+1.2)*c.px)
	c.ink(casingColour, 1, nil)
	c.mask.disc(at, u*c.px)
	c.ink(core, 1, nil)
}

// drawPieces draws the tissue: a pale veil, hatched along its grain, with an
// outline that is dashed when the piece goes on the other side.
func (s *Surface) drawPieces(c *canvas) {
	sight := c.sight(4)
	for i, p := range s.scene.Pieces {
		if !s.index.pieces[i].Meets(sight) || p.OtherSide && !c.look.OtherSide {
			continue
		}
		c.drawPiece(p)
	}
	if !c.look.Labels {
		return
	}
	for i, p := range s.scene.Pieces {
		if at, ok := c.pieceLabel(p, s.index.pieces[i]); ok {
			c.label(at, p.Label, tissueInk, tissueFill)
		}
	}
}

// pieceLabel returns where the label of a piece with this box goes: under it,
// once it is large enough and its damage in hand.
func (c *canvas) pieceLabel(p PieceShape, b Rect) (geom.Pt, bool) {
	at := c.view.ToDevice(geom.Pt{X: b.Centre().X, Y: b.Max.Y}).Add(geom.Pt{Y: 12 * c.px})
	return at, p.Strong && p.Label != "" && c.look.Labels && c.window().Holds(at) && b.W()*c.view.Scale > 40*c.px
}

func (c *canvas) drawPiece(p PieceShape) {
	veil, lines := 0.30*c.look.PieceOpacity, 0.45*c.look.PieceOpacity
	if p.Strong {
		veil, lines = 0.42*c.look.PieceOpacity, 0.8*c.look.PieceOpacity
	}
	if p.OtherSide {
		veil, lines = veil/2, lines/2
	}
	c.veil(p, veil, lines)
	var d dash
	if p.OtherSide {
		d = otherDash
	}
	core, u := tissueFill, 1.0
	if p.Strong {
		core, u = tissueStrong, 1.5
	}
	for _, r := range p.Rings {
		c.line(r, true, u+1.6, nil)
	}
	c.ink(tissueInk, math.Min(1, 2*lines), nil)
	for _, r := range p.Rings {
		c.line(r, true, u, d)
	}
	c.ink(core, math.Min(1, 1.2*c.look.PieceOpacity), nil)
}

// veil lays the tissue itself on, hatched along its grain.
func (c *canvas) veil(p PieceShape, veil, lines float64) {
	px := c.px
	c.area(p.Rings...)
	c.inkKeep(tissueFill, veil, nil)
	pat := hatch(c.anchor(), p.GrainDeg, 8*px, 1.1*px)
	if p.GrainFree {
		pat = crossHatch(c.anchor(), 10*px, 1.1*px)
	}
	c.ink(tissueInk, lines, pat)
}

// drawProposals draws what is offered: round dots and a question mark.
func (s *Surface) drawProposals(c *canvas) {
	for _, p := range s.scene.Proposals {
		if len(p.Points) < 3 && !(p.Open && len(p.Points) == 2) {
			continue
		}
		c.twoTone(p.Points, !p.Open, c.look.LineWidth, offerCore, dash{2, 4}, c.look.Opacity)
		words := "?"
		if p.Label != "" {
			words = p.Label + " ?"
		}
		b := RectOf(p.Points...)
		if !c.window().Meets(Rect{Min: c.view.ToDevice(b.Min), Max: c.view.ToDevice(b.Max)}) {
			continue // a label at the rim would name what is not there
		}
		c.label(c.view.ToDevice(geom.Pt{X: b.Centre().X, Y: b.Min.Y}).Sub(geom.Pt{Y: 12 * c.px}), words, casingColour, offerCore)
	}
}
