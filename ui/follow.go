package ui

import (
	"leafmend/mendplan/geom"
	"leafmend/mendplan/scan"
)

// followState holds the follower of the stretch in hand: made aside, asked at
// every move of the pointer.
type followState struct {
	place string // what the surface showed
	from  geom.Pt
	ready *scan.Follower
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
		if f.ready == nil {
			return nil
		}
		if f.ready.Reaches(to) {
			return f.ready.To(to)
		}
		// half as far again, so that the next moves need no other
		*f = followState{place: w.showing, from: from, begun: true}
		w.prepareFollow(from.Lerp(to, 1.5))
		return nil
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

// prepareFollow reads the picture round the start, and as far as the places
// named, and floods it, aside.
func (w *Window) prepareFollow(to ...geom.Pt) {
	leaf, _ := w.session.Leaf()
	side := leaf.SideOf(w.session.Side())
	pic, ok := w.pictures.get(w.session.scanPath(side.Scan), side.Scan.Page)
	if !ok {
		return
	}
	opt := scan.FollowOptions{PxPerMM: w.surface.Scene().Frame.PxPerMM()}.WithStrength(w.settings.FollowStrength())
	place, from := w.showing, w.followed.from
	var follower *scan.Follower
	w.work.start(func() error {
		follower = pic.FollowFrom(from, opt, to...)
		return nil
	}, func(err error) {
		if err != nil || w.followed.place != place || w.followed.from != from {
			return
		}
		w.followed.ready = follower
		w.surface.FollowReady()
	})
}
