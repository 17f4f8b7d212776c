package mendplan

import (
	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// strips returns the chain of straight strips over every path of the tear.
// The breaks set by hand are those of the main path.
func (s *site) strips(t tear, r InForce, second bool, breaks []float64) ([]draft, []Problem) {
	k := stripRulesOf(r, second)
	var out []draft
	var problems []Problem
	for i, p := range t.paths {
		chain := s.chain(t, i, k, breaks)
		strips, within := chain.best()
		if !within {
			problems = append(problems, s.at(p.line[0], DoesNotFit, Doubt,
				phrase.Of("No way to lay strips along %s keeps all limits; single short ones are planned.", s.name()),
				phrase.Of("Allow longer or wider strips, or choose a shaped piece.")))
		}
		at := p.line.Length() / float64(len(chain.places)-1)
		for _, st := range strips {
			mid := at * float64(st.from+st.to) / 2
			d := stripDraft(st, k, t.toEdge(i, mid))
			if chain.brokenByHand(st.from) || chain.brokenByHand(st.to) {
				d.why = append(d.why, phrase.Of("broken where set by hand; other breaks are the program's, so that no strip is too long"))
			}
			out = append(out, d)
		}
	}
	return out, problems
}

// chain prepares path i of the tear for breaking into strips.
func (s *site) chain(t tear, i int, k stripRules, breaks []float64) chain {
	if i > 0 {
		return chainOf(t.paths[i], k, nil)
	}
	c := chainOf(t.paths[i], k, breaks)
	c.hidden = s.hidden(c.line)
	c.rules.widest += s.scarf().OverlapMM
	return c
}

func stripDraft(st strip, k stripRules, toEdge float64) draft {
	d := draft{
		outline: geom.Area{st.ring()}, role: RoleMend, style: Strips,
		along: geom.AngleOf(st.dir), toEdge: toEdge,
	}
	if st.tab > 0 {
		d.bare = geom.Area{st.part(st.hi+st.tail, st.hi+st.tail+st.tab)}
	}
	if st.width >= k.width+0.05 { // less is not seen in the figures
		d.why = append(d.why, phrase.Of("%.1f mm wide rather than %.4g, as the tear wanders by %.1f mm under it", st.width, k.width, st.width-2*k.least))
	}
	return d
}
