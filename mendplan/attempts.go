package mendplan

import (
	"slices"

	"leafmend/mendplan/phrase"
)

// attempts lists what may do away with a problem; whether it does is for
// [Job.Resolutions] to find out.
func (j Job) attempts(p Problem) []attempt {
	switch p.Kind {
	case EdgeRun:
		next, number := j.AsNicks(p.Leaf, p.Joins...)
		if number == 0 {
			return nil
		}
		return []attempt{one(phrase.Of("One strip along the edge"), next)}
	case Crowded:
		out := []attempt{one(phrase.Of("Join these pieces"), j.Join(p.Leaf, p.Joins...))}
		for _, n := range p.Joins {
			out = append(out, j.otherSide(n, p.Side))
		}
		return out
	case SameLine:
		return j.apart(p)
	case OtherDamage:
		return j.outOfTheWay(p)
	case GrainConflict:
		return append([]attempt{one(phrase.Of("Grain free for damage %d", p.Damage), j.onMends(p.Damage, phrase.Phrase{}, func(m *Mend) {
			m.Rules = m.Rules.With(GrainRule, Choice("free"))
		}).Job)}, j.tissuesFor(p.Damage)...)
	case HeavyTissue, NoTissue:
		return j.tissuesFor(p.Damage)
	case BadRule:
		return []attempt{j.withoutBadRules(p.Damage)}
	case DoesNotFit:
		return j.toFit(p.Damage)
	case BadTrace:
		return []attempt{j.recordOnly(p.Damage)}
	}
	return nil
}

func one(words phrase.Phrase, j Job) attempt {
	return attempt{ways: []Resolution{{words, j}}}
}

// otherSide pastes the mends of a damage that are on a side on the other one.
func (j Job) otherSide(number int, from SideName) attempt {
	return one(phrase.Of("Damage %d on the %s", number, sideWord(from.Other())), j.eachMend(number, func(i int, m *Mend) {
		if i == 0 || m.Side == from {
			m.Side = from.Other()
		}
	}))
}

// apart lets pieces that end on one line with others end elsewhere.
func (j Job) apart(p Problem) []attempt {
	_, d, ok := j.FindDamage(p.Damage)
	if !ok {
		return nil
	}
	last := max(0, len(d.Mends)-1)
	return []attempt{
		j.reaching(p.Damage, last, phrase.Of("Let the mend of damage %d reach further", p.Damage), 2, 3, 4, 5),
		j.reaching(p.Damage, last, phrase.Of("Let the mend of damage %d reach less far", p.Damage), -2, -3),
		j.otherSide(p.Damage, Front), j.otherSide(p.Damage, Back),
	}
}

// outOfTheWay deals with pieces that run into another damage or the fold.
func (j Job) outOfTheWay(p Problem) []attempt {
	narrower := j.reaching(p.Damage, 0, phrase.Of("Let the mend of damage %d reach less far", p.Damage), -0.5, -1, -1.5, -2, -2.5, -3)
	if len(p.Joins) > 0 {
		return []attempt{one(phrase.Of("Join these pieces"), j.Join(p.Leaf, p.Joins...)), narrower}
	}
	short := j.onMends(p.Damage, phrase.Of("Let the mend of damage %d end short of the fold", p.Damage), func(m *Mend) {
		m.Rules = m.Rules.With(AtFold, Choice(EndsAtFold))
	})
	out := []attempt{{ways: []Resolution{short}}, narrower}
	if leaf, d, ok := j.FindDamage(p.Damage); ok && d.Kind == Tear {
		d.Kind = Split
		out = append(out, one(phrase.Of("Damage %d is a split along the fold", p.Damage), j.WithDamage(leaf.ID, d)))
	}
	return out
}

// tissuesFor tries each tissue of the job, lightest first, and what the
// advice says where a tissue was chosen by hand.
func (j Job) tissuesFor(number int) []attempt {
	out := []attempt{{ways: []Resolution{j.onMends(number, phrase.Of("Tissue of damage %d by the rules", number), func(m *Mend) { m.Tissue = "" })}}}
	by := slices.Clone(j.Tissues)
	slices.SortStableFunc(by, func(a, b Tissue) int { return int(1000*a.Grammage) - int(1000*b.Grammage) })
	for _, t := range by {
		out = append(out, attempt{ways: []Resolution{j.onMends(number, phrase.Of("%s for damage %d", phrase.Of("%s", t.Name), number), func(m *Mend) { m.Tissue = t.ID })}})
	}
	return out
}

// withoutBadRules drops a mend's own rules and style where they do not hold.
func (j Job) withoutBadRules(number int) attempt {
	_, d, _ := j.FindDamage(number)
	return attempt{ways: []Resolution{j.onMends(number, phrase.Of("Drop what does not hold from the mend of damage %d", number), func(m *Mend) {
		m.Rules = withoutBad(m.Rules)
		if !slices.Contains(StylesFor(d.Kind), m.Style) {
			m.Style = ""
		}
	})}}
}

// toFit tries what lets strips keep their limits.
func (j Job) toFit(number int) []attempt {
	shaped := j.onMends(number, phrase.Of("One shaped piece for damage %d", number), func(m *Mend) { m.Style = Shaped })
	wider := attempt{}
	for _, mm := range []float64{4, 8, 16, 24} {
		wider.ways = append(wider.ways, j.onMends(number, phrase.Of("Wider strips for damage %d", number), func(m *Mend) {
			m.Rules = nudged(m.Rules, InForce{Mend: m.Rules, Job: j.Rules}, WidestStrip, mm)
		}))
	}
	longer := attempt{}
	for _, mm := range []float64{10, 25, 50, 100} {
		longer.ways = append(longer.ways, j.onMends(number, phrase.Of("Longer strips for damage %d", number), func(m *Mend) {
			m.Rules = nudged(m.Rules, InForce{Mend: m.Rules, Job: j.Rules}, LongestStrip, mm)
		}))
	}
	return []attempt{{ways: []Resolution{shaped}}, wider, longer}
}

// recordOnly keeps a damage that cannot be mended as a record.
func (j Job) recordOnly(number int) attempt {
	leaf, d, ok := j.FindDamage(number)
	if !ok {
		return attempt{}
	}
	d.NoMend = true
	return attempt{ways: []Resolution{{phrase.Of("Record damage %d only", number), j.WithDamage(leaf.ID, d)}}}
}
