package scan

// linings finds the places at the edges where an earlier lining, guard or
// repair shows inside the outline: an even patch of another colour that
// touches the edge of the leaf and ends sharply.
func (s *lossScene) linings() []patch {
	s.ink = s.readInk()
	atEdge := func(q *patch) bool {
		return q.nearEdge && q.even <= 0.4*q.step && q.step >= 9 && !s.looksInked(q)
	}
	var out []patch
	total := 0.0
	for _, q := range s.patches(s.strange(), atEdge) {
		area := s.patchArea(&q)
		if area < leastEdgeLoss || float64(q.touch) < 1.5*s.mm || q.hard < 0.5 || q.round < 0.04 {
			continue
		}
		total += area
		out = append(out, q)
	}
	if leaf := float64(s.leaf.count()) / (s.mm * s.mm); total > 0.2*leaf {
		return nil // rather a picture printed to the edge
	}
	for _, q := range out {
		s.lining = append(s.lining, q.colour)
	}
	return out
}

// looksInked reports that a patch has the colour of the writing.
func (s *lossScene) looksInked(q *patch) bool {
	return s.ink.have && q.colour.dist(s.ink.c) < 0.3*q.step
}
