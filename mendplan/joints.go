package mendplan

import (
	"slices"

	"leafmend/mendplan/geom"
)

// StripPath returns the main path that the strips of a damage's first mend
// are laid along, in the leaf frame, mm: what lies outside the leaf is left
// out, so shares of its length are those of [Mend.Breaks]. joints are the
// shares where the planned strips end and the next begin, rising, above 0 and
// below 1: breaks set by hand that hold, and the program's own. To keep one
// where it is, put it into [Mend.Breaks]. Nil where the mend is not of strips
// or the side is not calibrated.
func (j Job) StripPath(number int) (path geom.Path, joints []float64) {
	i := slices.IndexFunc(j.Leaves, func(l Leaf) bool {
		_, ok := l.Damage(number)
		return ok
	})
	if i < 0 {
		return nil, nil
	}
	w := newLeafWork(j, i, Look{})
	d, _ := w.leaf.Damage(number)
	s, ok := w.siteFor(d, w.sites())
	if !ok {
		return nil, nil
	}
	m := Mend{}
	if len(d.Mends) > 0 {
		m = d.Mends[0]
	}
	r := s.in(m)
	if style, _ := s.styleOf(m, r); style != Strips {
		return nil, nil
	}
	t, _ := s.tearOf(r)
	if len(t.paths) == 0 {
		return nil, nil
	}
	c := s.chain(t, 0, stripRulesOf(r, false), m.Breaks)
	strips, _ := c.best()
	for _, st := range strips[:max(0, len(strips)-1)] {
		joints = append(joints, c.line[:c.places[st.to]+1].Length()/c.line.Length())
	}
	return t.paths[0].line, joints
}
