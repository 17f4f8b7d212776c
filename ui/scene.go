package ui

import (
	"strconv"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/ui/leafview"
)

// sceneOf draws one side of a leaf: what is traced on it, what is traced on
// the other side and shows through, the tissue on both, and the leaf's own
// lines. Without a scale the other side is mirrored by the size of the
// pictures.
func sceneOf(leaf mendplan.Leaf, side mendplan.SideName, plan mendplan.Plan, chosen []int) leafview.Scene {
	here, sheet, fault := mendplan.FrameOf(leaf, side)
	known := fault == nil
	own := leaf.SideOf(side)
	scene := leafview.Scene{Outline: own.Outline, TrueEdge: own.TrueEdge}
	across := mirrorOf(leaf, side)
	there := leaf.SideOf(side.Other())
	scene.OtherOutline = across(there.Outline)
	if len(there.Outline) < 3 {
		scene.OtherOutline = across(there.TrueEdge)
	}
	for _, d := range leaf.Damages {
		scene.Shapes = append(scene.Shapes, shapeOf(d, side, across))
	}
	if !known {
		return scene
	}
	scene.Frame = viewFrame(here, own, side)
	scene.Frame.DoubtPercent = own.Calibration.DoubtPercent
	for _, p := range sheet.Fold() {
		scene.Fold = append(scene.Fold, here.ToScan(p))
	}
	for _, p := range plan.Pieces {
		if p.Leaf == leaf.ID {
			scene.Pieces = append(scene.Pieces, pieceShape(p, here, side, chosen))
		}
	}
	return scene
}

// shapeOf draws a damage as seen on side.
func shapeOf(d mendplan.Damage, side mendplan.SideName, across func([]geom.Pt) []geom.Pt) leafview.Shape {
	s := leafview.Shape{Ref: d.Number, Kind: leafview.Kind(d.Kind), Closed: d.Kind.Closed(), Points: d.Points,
		Forks: d.Forks, Label: strconv.Itoa(d.Number), Faint: d.NoMend || !d.Kind.Mended()}
	if traced := d.Side; traced != side && !(traced == "" && side == mendplan.Front) {
		s.OtherSide = true
		s.Points = across(d.Points)
		s.Forks = make([][]geom.Pt, len(d.Forks))
		for i, f := range d.Forks {
			s.Forks[i] = across(f)
		}
	}
	return s
}

// mirrorOf returns the way from the other side's scan pixels to those of side.
func mirrorOf(leaf mendplan.Leaf, side mendplan.SideName) func([]geom.Pt) []geom.Pt {
	here, _, f1 := mendplan.FrameOf(leaf, side)
	there, _, f2 := mendplan.FrameOf(leaf, side.Other())
	move := func(p geom.Pt) geom.Pt { return here.ToScan(there.ToLeaf(p)) }
	if f1 != nil || f2 != nil {
		move = mirrorByPictures(leaf.SideOf(side.Other()).Scan, leaf.SideOf(side).Scan)
		if over, ok := leaf.Over(); ok { // laid over one another without a scale
			move = over.Apply
			if back, err := over.Inverse(); err == nil && side == mendplan.Back {
				move = back.Apply
			}
		}
	}
	return func(pts []geom.Pt) []geom.Pt {
		out := make([]geom.Pt, len(pts))
		for i, p := range pts {
			out[i] = move(p)
		}
		return out
	}
}

// mirrorByPictures maps one picture on the other as a mirror would, by their
// sizes alone.
func mirrorByPictures(from, to mendplan.Scan) func(geom.Pt) geom.Pt {
	fw, fh := float64(from.Width), float64(from.Height)
	tw, th := float64(to.Width), float64(to.Height)
	if tw == 0 || th == 0 {
		tw, th = fw, fh
	}
	if fw == 0 || fh == 0 {
		fw, fh = tw, th
	}
	return func(p geom.Pt) geom.Pt {
		if fw == 0 || fh == 0 {
			return geom.Pt{X: -p.X, Y: p.Y}
		}
		return geom.Pt{X: (1 - p.X/fw) * tw, Y: p.Y / fh * th}
	}
}

// viewFrame tells the surface millimetres of the side frame: origin at the
// head-left corner as that side is seen, x to the right.
func viewFrame(f mendplan.Frame, s mendplan.Side, side mendplan.SideName) leafview.Frame {
	origin := geom.Pt{}
	if len(s.TrueEdge) == 4 {
		origin = s.TrueEdge[0]
	}
	at := f.ToLeaf(origin)
	right := geom.Pt{X: 1}
	if side == mendplan.Back {
		right.X = -1
	}
	return leafview.Frame{Origin: origin, X: f.ToScan(at.Add(right)).Sub(origin), Y: f.ToScan(at.Add(geom.Pt{Y: 1})).Sub(origin)}
}

// pieceShape draws a piece of tissue as seen on side.
func pieceShape(p mendplan.Piece, f mendplan.Frame, side mendplan.SideName, chosen []int) leafview.PieceShape {
	s := leafview.PieceShape{Label: p.Label, Ref: p.Damage, GrainFree: p.GrainFree, OtherSide: p.Side != side}
	for _, n := range chosen {
		s.Strong = s.Strong || n == p.Damage
	}
	for _, ring := range f.AreaToScan(p.Outline) {
		s.Rings = append(s.Rings, ring)
	}
	s.GrainDeg = seenDegrees(f, p.BlankCentre, p.GrainDeg)
	return s
}

// seenDegrees turns a direction of the leaf frame into one of the picture.
func seenDegrees(f mendplan.Frame, at geom.Pt, deg float64) float64 {
	d := f.ToScan(at.Add(geom.Direction(deg))).Sub(f.ToScan(at))
	return geom.AngleOf(d)
}
