package mendplan

import (
	"cmp"
	"fmt"
	"slices"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// EdgeRun is the kind of problem that names nicks which one strip along the
// edge could take (F26c). Its Joins are for [Job.AsNicks].
const EdgeRun ProblemKind = "edge run"

// AsNicks returns the job with the named damages mended by one strip along
// the edge: a new damage, a run of nicks through all their points, takes the
// mending over, and they stay as a record. They must be on one side of the
// leaf; those on the other side than the first stay as they are. The number
// is that of the new damage, 0 if there was nothing to do.
func (j Job) AsNicks(leafID string, numbers ...int) (Job, int) {
	leaf, _ := j.Leaf(leafID)
	var all []Damage
	var points []geom.Pt
	for _, d := range leaf.Damages {
		if slices.Contains(numbers, d.Number) && !d.NoMend && (len(all) == 0 || d.Side == all[0].Side) {
			all = append(all, d)
			points = append(points, d.Points...)
		}
	}
	if len(all) < 2 {
		return j, 0
	}
	along := geom.Direction(geom.MinWidthRect(points).Angle)
	slices.SortStableFunc(points, func(p, q geom.Pt) int { return cmp.Compare(p.Dot(along), q.Dot(along)) })
	j, number := j.AddDamage(leafID, Damage{Kind: Nicks, Side: all[0].Side, Points: points})
	for _, d := range all {
		d.NoMend = true
		d.Note = joinNote(d.Note, fmt.Sprintf("mended by the edge strip of damage %d", number))
		j = j.WithDamage(leafID, d)
	}
	return j, number
}

func joinNote(old, more string) string {
	if old == "" {
		return more
	}
	return old + "; " + more
}

// nick is a short tear at an edge.
type nick struct {
	number int
	at     float64 // along the edge, mm
	place  geom.Pt
}

// edgeRuns finds short tears that lie so close along one edge that one strip
// could take them all.
func (w leafWork) edgeRuns(sites map[SideName]*siteOf) []Problem {
	gap := (InForce{Job: w.job.Rules}).Number(NickGap)
	var out []Problem
	for _, side := range []SideName{Front, Back} {
		s := sites[side]
		if s.fault != nil {
			continue
		}
		for edge := range 4 {
			run := []nick{}
			for _, n := range w.nicksAt(side, edge, s) {
				if len(run) > 0 && n.at-run[len(run)-1].at > gap {
					out = append(out, w.runProblem(run, side, edge, sites)...)
					run = run[:0]
				}
				run = append(run, n)
			}
			out = append(out, w.runProblem(run, side, edge, sites)...)
		}
	}
	return out
}

// nicksAt returns the tears at an edge that are no deeper than an edge strip
// takes, in their order along it.
func (w leafWork) nicksAt(side SideName, edge int, s *siteOf) []nick {
	r := InForce{Job: w.job.Rules}
	deepest, reach := r.Number(NickDepth), r.Number(EdgeReach)
	corner, _ := s.sheet.edge(edge)
	var out []nick
	for _, d := range w.leaf.Damages {
		if d.Kind != Tear || d.NoMend || len(d.Forks) > 0 || len(d.Points) < 2 || (d.Side == Back) != (side == Back) {
			continue
		}
		nearest, shallow, deep := geom.Pt{}, deepest+1, 0.0
		for _, p := range s.frame.PathToLeaf(d.Points) {
			depth := s.sheet.depth(edge, p)
			deep = max(deep, depth)
			if depth < shallow {
				nearest, shallow = p, depth
			}
		}
		if shallow <= reach && deep <= deepest {
			out = append(out, nick{d.Number, nearest.Sub(corner).Dot(s.sheet.along(edge)), nearest})
		}
	}
	slices.SortStableFunc(out, func(a, b nick) int { return cmp.Compare(a.at, b.at) })
	return out
}

func (w leafWork) runProblem(run []nick, side SideName, edge int, sites map[SideName]*siteOf) []Problem {
	if len(run) < 2 {
		return nil
	}
	p := w.placed(EdgeRun, Advice, side, run[0].place, sites)
	for _, n := range run {
		p.Joins = append(p.Joins, n.number)
	}
	slices.Sort(p.Joins)
	p.Damage = p.Joins[0]
	p.Words = phrase.Of("One strip along the %s of leaf %s could take %s.", phrase.Of(string(sites[side].sheet.EdgeName(edge))), markOf(w.leaf), damageWords(p.Joins))
	p.Hint = phrase.Of("Make them one run of nicks (National Archives of Australia, 2012).")
	return []Problem{p}
}
