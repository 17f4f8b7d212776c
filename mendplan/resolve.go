package mendplan

import (
	"cmp"
	"slices"

	"leafmend/mendplan/phrase"
)

// Resolution is one act that does away with a problem.
type Resolution struct {
	Words phrase.Phrase // what it does, as one would say it on a button
	Job   Job           // the job after it
}

// Resolutions returns the acts that do away with a problem of the job's
// pieces, the first proposed first. Each was tried: after it the problem is
// gone and the leaf has fewer of its kind, and no more that are heavier than
// advice; and every damage that had pieces still has them, unless it was
// joined to another or the act says that it is recorded only. Nil where only a
// person at the leaf can help, such as a missing scale. What pieces without a
// place on any sheet need is told by [Remedies].
//
// look must be the one that the problem was found with.
func (j Job) Resolutions(look Look, p Problem) []Resolution {
	i := slices.IndexFunc(j.Leaves, func(l Leaf) bool { return l.ID == p.Leaf })
	if i < 0 {
		return j.ofTheJob(p)
	}
	before := j.afterOn(i, look)
	var out []Resolution
	for _, try := range j.attempts(p) {
		for _, way := range try.ways { // the mildest that does
			if after := way.Job.afterOn(i, look); resolves(before, after, p) && keepsMends(way.Job.Leaves[i], before, after) {
				out = append(out, way)
				break
			}
		}
	}
	return out
}

// attempt is one kind of act in steps of growing strength.
type attempt struct{ ways []Resolution }

// afterOn computes leaf i of the job.
func (j Job) afterOn(i int, look Look) *leafResult {
	r := recompute(newLeafWork(j, i, look), nil).result
	return &leafResult{r.pieces, append(ruleProblems(j.Rules, Problem{}), r.problems...)}
}

// resolves reports whether a problem is gone and nothing worse came up.
func resolves(before, after *leafResult, p Problem) bool {
	kind, heavy := [2]int{}, [2]int{}
	for k, problems := range [][]Problem{before.problems, after.problems} {
		for _, q := range problems {
			if q.Kind == p.Kind {
				kind[k]++
			}
			if q.Weight != Advice {
				heavy[k]++
			}
			if k == 1 && sameProblem(p, q) {
				return false
			}
		}
	}
	return kind[1] < kind[0] && heavy[1] <= heavy[0]
}

// keepsMends reports whether each damage that had pieces has some, or was
// joined to another on the leaf as it is afterwards, or is recorded only.
func keepsMends(leaf Leaf, before, after *leafResult) bool {
	has := map[int]bool{}
	for _, p := range after.pieces {
		has[p.Damage] = true
	}
	for _, d := range leaf.Damages {
		for _, m := range d.Mends {
			for _, n := range m.Joins {
				has[n] = has[n] || has[d.Number]
			}
		}
	}
	for _, p := range before.pieces {
		if d, _ := leaf.Damage(p.Damage); !has[p.Damage] && !d.NoMend {
			return false
		}
	}
	return true
}

func sameProblem(a, b Problem) bool {
	return a.Kind == b.Kind && a.Leaf == b.Leaf && a.Damage == b.Damage && slices.Equal(a.Joins, b.Joins)
}

// ofTheJob resolves what concerns no leaf: departures outside their range.
func (j Job) ofTheJob(p Problem) []Resolution {
	if p.Kind != BadRule || p.Leaf != "" {
		return nil
	}
	rules := withoutBad(j.Rules)
	if len(rules) == len(j.Rules) {
		return nil
	}
	j.Rules = rules
	return []Resolution{{phrase.Of("Drop rules outside their range"), j}}
}

// withoutBad returns the rules without those outside their range.
func withoutBad(r Rules) Rules {
	for _, def := range ruleTable {
		if v, ok := r[def.Key]; ok && len(ruleProblems(Rules{def.Key: v}, Problem{})) > 0 {
			r = r.Without(def.Key)
		}
	}
	return r
}

// onMends is an attempt that changes every mend of a damage.
func (j Job) onMends(number int, words phrase.Phrase, change func(*Mend)) Resolution {
	return Resolution{words, j.eachMend(number, func(_ int, m *Mend) { change(m) })}
}

// eachMend returns the job with every mend of a damage changed, the rules'
// own mend made where there is none.
func (j Job) eachMend(number int, change func(i int, m *Mend)) Job {
	leaf, d, ok := j.FindDamage(number)
	if !ok {
		return j
	}
	d = d.WithMend(func(m *Mend) { change(0, m) })
	mends := slices.Clone(d.Mends)
	for i := 1; i < len(mends); i++ {
		m := mends[i].copied()
		change(i, &m)
		mends[i] = m
	}
	d.Mends = mends
	return j.WithDamage(leaf.ID, d)
}

// marginKey is the rule that sets how far pieces of a style reach, and by how
// much it changes for a millimetre on each side; "" where none does.
func marginKey(s Style) (RuleKey, float64) {
	switch s {
	case Shaped, EdgeStrip:
		return SideMargin, 1
	case Strips:
		return StripWidth, 2
	case Bridges:
		return BridgeLength, 2
	case Guard:
		return GuardWidth, 2
	case Infill:
		return FillOverlap, 1
	case Overlay:
		return OverlayMargin, 1
	}
	return "", 0
}

// reaching returns ways to let one mend of a damage reach further by so many
// millimetres, or less far: each side, then past the ends, then both.
func (j Job) reaching(number, mend int, words phrase.Phrase, steps ...float64) attempt {
	_, d, ok := j.FindDamage(number)
	if !ok {
		return attempt{}
	}
	var at attempt
	for _, mm := range steps {
		for _, which := range [][2]bool{{true, false}, {true, true}, {false, true}} {
			next := j.eachMend(number, func(i int, m *Mend) {
				if i != mend {
					return
				}
				in := InForce{Mend: m.Rules, Job: j.Rules}
				key, times := marginKey(cmp.Or(m.Style, DefaultStyle(d.Kind, in)))
				if which[0] {
					m.Rules = nudged(m.Rules, in, key, mm*times)
				}
				if which[1] && (d.Kind == Tear || d.Kind == Split) {
					m.Rules = nudged(m.Rules, in, EndMargin, mm)
				}
			})
			at.ways = append(at.ways, Resolution{words, next})
		}
	}
	return at
}

// nudged returns the rules with one number changed, kept in its range.
func nudged(r Rules, in InForce, key RuleKey, by float64) Rules {
	def, ok := RuleFor(key)
	if !ok {
		return r
	}
	return r.With(key, Num(min(max(in.Number(key)+by, def.Min), def.Max)))
}
