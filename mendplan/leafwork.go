package mendplan

import (
	"math"
	"slices"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// leafWork is one leaf with what its pieces depend on.
type leafWork struct {
	job       Job // for rules, tissues and the leaves' paper
	leaf      Leaf
	paper     paperOf
	outermost bool // of its gathering
	look      Look
}

// leafResult is what follows from a leaf.
type leafResult struct {
	pieces   []Piece
	problems []Problem
}

// damageResult is what follows from one damage before its neighbours count.
type damageResult struct {
	pieces   []Piece
	problems []Problem
}

func newLeafWork(job Job, i int, look Look) leafWork {
	return leafWork{job: job, leaf: job.Leaves[i], look: look,
		paper: paperFor(job, job.Leaves[i]), outermost: outermost(job, i)}
}

// siteOf is a calibrated side, or why it is not.
type siteOf struct {
	frame Frame
	sheet Sheet
	edge  geom.Ring
	fault *Problem
}

// sites measures both sides of the leaf.
func (w leafWork) sites() map[SideName]*siteOf {
	out := map[SideName]*siteOf{}
	for _, name := range []SideName{Front, Back} {
		var s siteOf
		s.frame, s.sheet, s.fault = FrameOf(w.leaf, name)
		if outline := w.leaf.SideOf(name).Outline; s.fault == nil && len(outline) > 2 {
			s.edge = s.frame.RingToLeaf(outline)
		}
		out[name] = &s
	}
	return out
}

// damage computes the pieces of one damage.
func (w leafWork) damage(d Damage, sites map[SideName]*siteOf) damageResult {
	s, ok := w.siteFor(d, sites)
	if !ok {
		return damageResult{}
	}
	return s.mended(w)
}

// siteFor is the place of a damage that is to be mended; false where it is
// not, or its side is not calibrated.
func (w leafWork) siteFor(d Damage, sites map[SideName]*siteOf) (*site, bool) {
	if d.Side != Back {
		d.Side = Front
	}
	on := sites[d.Side]
	if on.fault != nil || d.NoMend || !d.Kind.Mended() {
		return nil, false
	}
	s := &site{leaf: w.leaf, damage: d, frame: on.frame, sheet: on.sheet, paper: w.paper, rules: w.job.Rules}
	s.paper.edge = on.edge
	return s, true
}

// settle brings the damages of a leaf together: faults of the sides, joins,
// labels, and what pieces do to one another.
func (w leafWork) settle(marks []damageResult, sites map[SideName]*siteOf) *leafResult {
	r := &leafResult{problems: w.sideProblems(sites)}
	groups := make([][]Piece, len(marks))
	for i, m := range marks {
		groups[i] = m.pieces
		r.problems = append(r.problems, m.problems...)
	}
	r.problems = append(r.problems, w.shareGuards(groups)...)
	groups = w.joined(groups, sites)
	for _, g := range groups {
		r.pieces = append(r.pieces, w.labelled(g)...)
	}
	r.problems = append(r.problems, w.checks(r.pieces, sites)...)
	return r
}

// labelled numbers the pieces of one damage.
func (w leafWork) labelled(pieces []Piece) []Piece {
	out := make([]Piece, len(pieces))
	for i, p := range pieces {
		p.Order = i + 1
		p.Label = labelOf(w.leaf, p.Side, p.Damage, i)
		out[i] = p
	}
	return out
}

// sideProblems tells what is doubtful about the sides that matter.
func (w leafWork) sideProblems(sites map[SideName]*siteOf) []Problem {
	var out []Problem
	for _, name := range []SideName{Front, Back} {
		used := false
		for _, d := range w.leaf.Damages {
			used = used || (d.Side == Back) == (name == Back)
		}
		s := sites[name]
		side := w.leaf.SideOf(name)
		switch {
		case s.fault != nil && used:
			out = append(out, *s.fault)
		case s.fault != nil && side.Scan.Present():
			p := *s.fault
			p.Weight = Doubt
			out = append(out, p)
		case s.fault == nil:
			out = append(out, w.scaleProblems(name, side.Calibration)...)
		}
	}
	return slices.Concat(out, w.dampScans(sites), w.sizesDiffer(sites))
}

// scaleProblems tells when a scale is worse than the rules tolerate. Scales
// that rest on the files alone are told once for the whole job.
func (w leafWork) scaleProblems(name SideName, c Calibration) []Problem {
	tol := InForce{Job: w.job.Rules}.Number(ScaleTolerance)
	p := Problem{Kind: DoubtfulScale, Weight: Doubt, Leaf: w.leaf.ID, Side: name}
	var out []Problem
	if c.DoubtPercent > tol && c.Origin != FromFile {
		p.Words = phrase.Of("The scale of the %s of leaf %s may be off by %.1f %%.", sideWord(name), markOf(w.leaf), c.DoubtPercent)
		p.Hint = phrase.Of("Measure a known length of 100 mm or more in both directions.")
		out = append(out, p)
	}
	if len(c.Homography) != 9 {
		if off := math.Abs(c.MMPerPxX/c.MMPerPxY-1) * 100; off > tol {
			p.Words = phrase.Of("The %s of leaf %s has scales that differ by %.1f %% between the two directions.", sideWord(name), markOf(w.leaf), off)
			p.Hint = phrase.Of("Check that this is the scanner and not a slip of the ruler.")
			out = append(out, p)
		}
	}
	return out
}

// sizesDiffer tells when the two sides of one leaf measure differently.
func (w leafWork) sizesDiffer(sites map[SideName]*siteOf) []Problem {
	f, b := sites[Front], sites[Back]
	if f.fault != nil || b.fault != nil {
		return nil
	}
	fw, fh := f.sheet.Size()
	bw, bh := b.sheet.Size()
	off := 100 * max(math.Abs(fw/bw-1), math.Abs(fh/bh-1))
	if off <= 2*(InForce{Job: w.job.Rules}).Number(ScaleTolerance) {
		return nil
	}
	return []Problem{{Kind: DoubtfulScale, Weight: Doubt, Leaf: w.leaf.ID,
		Words: phrase.Of("Leaf %s measures %.1f × %.1f mm on the front and %.1f × %.1f mm on the back.", markOf(w.leaf), fw, fh, bw, bh),
		Hint:  phrase.Of("Check the scales and the corners of both sides.")}}
}
