package mendplan

import (
	"maps"
	"slices"
)

// Bare reports whether the mend says nothing of its own, so that the rules
// speak in everything.
func (m Mend) Bare() bool {
	return m.Style == "" && m.Tissue == "" && m.Side == "" && len(m.Rules) == 0 && len(m.Joins) == 0 && len(m.Breaks) == 0
}

// Own lists what the mend decides for itself rather than by the rules, for
// showing: "style", "tissue", "side", "breaks", "joins", and the keys of its
// rules in the order of [RuleTable].
func (m Mend) Own() []string {
	var out []string
	for _, o := range []struct {
		name string
		own  bool
	}{{"style", m.Style != ""}, {"tissue", m.Tissue != ""}, {"side", m.Side != ""}, {"breaks", len(m.Breaks) > 0}, {"joins", len(m.Joins) > 0}} {
		if o.own {
			out = append(out, o.name)
		}
	}
	for _, r := range ruleTable {
		if _, own := m.Rules[r.Key]; own {
			out = append(out, string(r.Key))
		}
	}
	return out
}

// copied returns the mend with storage of its own, empty lists as nil.
func (m Mend) copied() Mend {
	m.Rules, m.Joins, m.Breaks = maps.Clone(m.Rules), slices.Clone(m.Joins), slices.Clone(m.Breaks)
	if len(m.Rules) == 0 {
		m.Rules = nil
	}
	if len(m.Joins) == 0 {
		m.Joins = nil
	}
	if len(m.Breaks) == 0 {
		m.Breaks = nil
	}
	return m
}

// WithMend returns the damage with its first mend changed; where the rules'
// own mend was in force, change gets the zero value. A lone mend that says
// nothing afterwards is dropped, so that taking an override back gives the
// damage as it was. change may write to the mend's rules and lists.
func (d Damage) WithMend(change func(*Mend)) Damage {
	mends := slices.Clone(d.Mends)
	if len(mends) == 0 {
		mends = []Mend{{}}
	}
	m := mends[0].copied()
	change(&m)
	mends[0] = m.copied()
	if len(mends) == 1 && m.Bare() {
		mends = nil
	}
	d.Mends = mends
	return d
}

// WithMends changes the first mends of many damages at once, whatever leaf
// they are on: style, tissue, side, a rule, or the same things dropped again.
// It is the same as one after the other in any order. Numbers the job does
// not have, and damages that are noted only, stay as they are.
func (j Job) WithMends(numbers []int, change func(*Mend)) Job {
	var leaves []Leaf
	for i, leaf := range j.Leaves {
		var damages []Damage
		for k, d := range leaf.Damages {
			if !d.Kind.Mended() || !slices.Contains(numbers, d.Number) {
				continue
			}
			if damages == nil {
				damages = slices.Clone(leaf.Damages)
			}
			damages[k] = d.WithMend(change)
		}
		if damages == nil {
			continue
		}
		if leaves == nil {
			leaves = slices.Clone(j.Leaves)
		}
		leaves[i].Damages = damages
	}
	if leaves != nil {
		j.Leaves = leaves
	}
	return j
}
