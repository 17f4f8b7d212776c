package mendplan

import "leafmend/mendplan/geom"

// TracesOn returns the lines of a damage, forks included, in the scan pixels
// of either side: as traced on its own side, carried over through the leaf
// frame on the other. It is not ok when a side it needs has no scale.
func TracesOn(leaf Leaf, d Damage, side SideName) (lines [][]geom.Pt, ok bool) {
	all := append([][]geom.Pt{d.Points}, d.Forks...)
	if d.Side == side {
		return all, true
	}
	from, _, p1 := FrameOf(leaf, d.Side)
	to, _, p2 := FrameOf(leaf, side)
	if p1 != nil || p2 != nil {
		return nil, false
	}
	lines = make([][]geom.Pt, len(all))
	for i, line := range all {
		for _, p := range line {
			lines[i] = append(lines[i], to.ToScan(from.ToLeaf(p)))
		}
	}
	return lines, true
}
