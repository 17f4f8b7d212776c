package mendplan

import "leafmend/mendplan/phrase"

// dampScans tells of sides that were scanned damp. A wet leaf is larger, by 2
// to 3 % across its grain and a tenth of that along it (Book Arts mailing
// list, June 2000), and a piece cut to its picture would be too large for the
// dry leaf. A scale taken from the leaf's dry size takes the growth out again,
// in each direction by itself; any other scale measures the leaf as it lay.
func (w leafWork) dampScans(sites map[SideName]*siteOf) []Problem {
	r := InForce{Job: w.job.Rules}
	var out []Problem
	for _, name := range []SideName{Front, Back} {
		side := w.leaf.SideOf(name)
		if !side.Damp || sites[name].fault != nil || side.Calibration.Origin == FromLeafSize {
			continue
		}
		out = append(out, Problem{Kind: DoubtfulScale, Weight: Doubt, Leaf: w.leaf.ID, Side: name,
			Words: phrase.Of("The %s of leaf %s was scanned damp: it was larger by some %.4g %% across its grain and %.4g %% along it, and so are the pieces.",
				sideWord(name), markOf(w.leaf), r.Number(WetAcross), r.Number(WetAlong)),
			Hint: phrase.Of("Set the scale by the size of the dry leaf, which takes the growth out, or scan it again when it is dry.")})
	}
	return out
}
