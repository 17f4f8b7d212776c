package ui

import (
	"image"
	"math"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/scan"
)

// followReach is how far, in scan pixels of the level worked on, a path may
// be followed from where it begins.
const followReach = 520

// followState holds the follower of the stretch in hand: made aside, asked at
// every move of the pointer.
type followState struct {
	place string // what the surface showed
	from  geom.Pt
	ready *scan.Follower
	reach float64 // scan pixels round from
	begun bool
}

// follow answers the tracing surface with a path along what the picture shows
// between two places; nil until the follower is ready, which means straight.
func (w *Window) follow(from, to geom.Pt) []geom.Pt {
	if w.alongEdge(from, to) {
		return nil
	}
	f := &w.followed
	if f.begun && f.place == w.showing && f.from == from {
		if f.ready == nil || math.Abs(to.X-from.X) > f.reach || math.Abs(to.Y-from.Y) > f.reach {
			return nil
		}
		return f.ready.To(to)
	}
	*f = followState{place: w.showing, from: from, begun: true}
	w.prepareFollow()
	return nil
}

// alongEdge reports whether both places lie on the same edge of the leaf as it
// was. Between them there is nothing to follow: the ring of a loss runs
// straight along the true edge, not back along the torn one.
func (w *Window) alongEdge(from, to geom.Pt) bool {
	scene := w.surface.Scene()
	near := 1.5 * scene.Frame.PxPerMM()
	for i := range scene.TrueEdge {
		a, b := scene.TrueEdge[i], scene.TrueEdge[(i+1)%len(scene.TrueEdge)]
		if geom.DistToSegment(from, a, b) <= near && geom.DistToSegment(to, a, b) <= near {
			return true
		}
	}
	return false
}

// prepareFollow reads the picture round the start and floods it, aside.
func (w *Window) prepareFollow() {
	leaf, _ := w.session.Leaf()
	side := leaf.SideOf(w.session.Side())
	pic, ok := w.pictures.get(w.session.scanPath(side.Scan), side.Scan.Page)
	if !ok {
		return
	}
	pxPerMM := w.surface.Scene().Frame.PxPerMM()
	level := 0
	for pxPerMM/math.Ldexp(1, level) > 16 && level < pic.NumLevels()-1 {
		level++ // finer than 400 ppi shows fibres, not tears
	}
	place, from := w.showing, w.followed.from
	var follower *scan.Follower
	per := float64(pic.Level(level).Per)
	w.work.start(func() error {
		x, y := int(from.X/per), int(from.Y/per)
		window := pic.Region(image.Rect(x-followReach, y-followReach, x+followReach, y+followReach), level)
		origin := geom.Pt{X: float64(window.Rect.Min.X) * per, Y: float64(window.Rect.Min.Y) * per}
		follower = scan.NewFollower(window, origin, per, scan.FollowOptions{PxPerMM: pxPerMM})
		follower.From(from)
		return nil
	}, func(err error) {
		if err != nil || w.followed.place != place || w.followed.from != from {
			return
		}
		w.followed.ready, w.followed.reach = follower, followReach*per
		w.surface.FollowReady()
	})
}
