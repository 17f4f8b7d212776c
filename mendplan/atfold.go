package mendplan

import (
	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// shortOfFold is how far from the fold a piece ends that is to end short of
// it, mm, so that the fold bends freely (common practice, no source).
const shortOfFold = 1.0

// EndsAtFold is the choice of the rule AtFold by which pieces for tears and
// weak areas beside the fold end just short of it. All of the margin is then
// kept but for what lay over the fold. Damage that itself comes to the fold
// is mended across it all the same.
const EndsAtFold = "end short of it"

// shortOf cuts drafts off at the fold where the rule asks for that.
func (s *site) shortOf(drafts []draft, r InForce) []draft {
	if r.Word(AtFold) != EndsAtFold || !s.sheet.Folded || s.damage.Kind == Split || s.damage.Kind.Missing() {
		return drafts
	}
	half := s.ownHalf()
	if half.Empty() {
		return drafts
	}
	var out []draft
	for _, d := range drafts {
		if d.style == EdgeStrip {
			out = append(out, d)
			continue
		}
		parts := geom.Parts(geom.Intersect(d.outline, half))
		if len(parts) == 1 && parts[0].Area() > d.outline.Area()-geom.Grid {
			out = append(out, d)
			continue
		}
		for _, part := range parts {
			cut := d
			cut.outline, cut.bare = part, geom.Intersect(d.bare, part)
			cut.why = append(d.why[:len(d.why):len(d.why)], phrase.Of("ends %.4g mm short of the fold, so that it bends freely (%s)", shortOfFold, phrase.Of(noSource)))
			out = append(out, cut)
		}
	}
	return out
}

// ownHalf is the part of the plane that holds the whole damage and ends short
// of the fold; empty where the damage comes to the fold.
func (s *site) ownHalf() geom.Area {
	fold := s.sheet.Fold()
	along := fold[1].Sub(fold[0]).Unit()
	right := geom.Pt{X: -along.Y, Y: along.X}.Mul(-1) // with y down and the fold going down: towards larger x
	var hand float64
	for _, line := range append([][]geom.Pt{s.damage.Points}, s.damage.Forks...) {
		for _, p := range s.frame.PathToLeaf(line) {
			d := p.Sub(fold[0]).Dot(right)
			if hand == 0 {
				hand = 1
				if d < 0 {
					hand = -1
				}
			}
			if d*hand <= shortOfFold+s.scarf().OverlapMM {
				return nil
			}
		}
	}
	if hand == 0 {
		return nil
	}
	w, h := s.sheet.Size()
	far := 4 * (w + h)
	at := fold[0].Add(right.Mul(hand * shortOfFold))
	a, b := at.Sub(along.Mul(far)), at.Add(along.Mul(far))
	out := right.Mul(hand * far)
	return geom.FromRing(geom.Ring{a, b, b.Add(out), a.Add(out)})
}
