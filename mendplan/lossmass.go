package mendplan

import "leafmend/mendplan/geom"

// LossMass is how much material a loss lacks, for those who fill it with pulp
// or elsewhere.
type LossMass struct {
	Leaf    string  // ID
	Damage  int     // number
	AreaMM2 float64 // of the loss within the leaf's true edge
	MassG   float64 // at the leaf's weight; 0 when that is not known
}

// LossMasses lists the losses of the job that can be measured, in the order
// of leaves and damages: area within the true edge, and mass as area times
// the leaf's g/m².
func LossMasses(job Job) []LossMass {
	var out []LossMass
	for _, leaf := range job.Leaves {
		grammage := leaf.Grammage
		if grammage == 0 {
			grammage = job.LeafPaper.Grammage
		}
		for _, d := range leaf.Damages {
			if !d.Kind.Missing() || len(d.Points) < 3 {
				continue
			}
			frame, sheet, problem := FrameOf(leaf, d.Side)
			if problem != nil {
				continue
			}
			missing := geom.Intersect(geom.FromRing(frame.RingToLeaf(d.Points)), geom.FromRing(sheet.Ring()))
			area := missing.Area()
			out = append(out, LossMass{Leaf: leaf.ID, Damage: d.Number, AreaMM2: area, MassG: area / mm2PerM2 * grammage})
		}
	}
	return out
}
