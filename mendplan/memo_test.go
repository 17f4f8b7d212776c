package mendplan_test

import (
	"reflect"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

func TestTheMemoSeesEveryChangeThatMatters(t *testing.T) {
	tear := traced(mendplan.Tear, geom.Pt{X: 60, Y: 100}, geom.Pt{X: 90, Y: 104}, geom.Pt{X: 130, Y: 100})
	onDamage := func(change func(*mendplan.Damage)) func(mendplan.Job) mendplan.Job {
		return func(j mendplan.Job) mendplan.Job {
			_, d, _ := j.FindDamage(1)
			change(&d)
			return j.WithDamage("L1", d)
		}
	}
	onLeaf := func(change func(*mendplan.Leaf)) func(mendplan.Job) mendplan.Job {
		return func(j mendplan.Job) mendplan.Job {
			leaf, _ := j.Leaf("L1")
			change(&leaf)
			return j.WithLeaf(leaf)
		}
	}
	for name, edit := range map[string]func(mendplan.Job) mendplan.Job{
		"the torn faces overlap":   onDamage(func(d *mendplan.Damage) { d.Scarf = mendplan.Scarf{OverlapMM: 3} }),
		"a point moved":            onDamage(func(d *mendplan.Damage) { d.Points = append(d.Points[:2:2], geom.Pt{X: 1700, Y: 1300}) }),
		"a fork":                   onDamage(func(d *mendplan.Damage) { d.Forks = [][]geom.Pt{at300(geom.Pt{X: 90, Y: 104}, geom.Pt{X: 95, Y: 130})} }),
		"another kind":             onDamage(func(d *mendplan.Damage) { d.Kind = mendplan.Hole }),
		"traced on the other side": onDamage(func(d *mendplan.Damage) { d.Side = mendplan.Back }),
		"an end at the edge":       onDamage(func(d *mendplan.Damage) { d.End = mendplan.EndEdge }),
		"recorded only":            onDamage(func(d *mendplan.Damage) { d.NoMend = true }),
		"a style":                  onDamage(func(d *mendplan.Damage) { d.Mends = []mendplan.Mend{{Style: mendplan.Strips}} }),
		"a break":                  onDamage(func(d *mendplan.Damage) { d.Mends = []mendplan.Mend{{Style: mendplan.Strips, Breaks: []float64{0.4}}} }),
		"a rule of the mend": onDamage(func(d *mendplan.Damage) {
			d.Mends = []mendplan.Mend{{Rules: mendplan.Rules{mendplan.SideMargin: mendplan.Num(8)}}}
		}),
		"the leaf was damp": onLeaf(func(l *mendplan.Leaf) { l.Front.Damp = true }),
		"another scale":     onLeaf(func(l *mendplan.Leaf) { l.Front.Calibration.MMPerPxX *= 1.01 }),
		"the leaf's grain":  onLeaf(func(l *mendplan.Leaf) { l.Grain = mendplan.GrainAcross }),
		"the leaf's weight": onLeaf(func(l *mendplan.Leaf) { l.Grammage = 20 }),
		"the fold":          onLeaf(func(l *mendplan.Leaf) { l.Kind, l.FoldMM = mendplan.Bifolium, 97 }),
		"the true edge": onLeaf(func(l *mendplan.Leaf) {
			l.Front.TrueEdge = at300(geom.Pt{X: 1, Y: 1}, geom.Pt{X: 199, Y: 1}, geom.Pt{X: 199, Y: 279}, geom.Pt{X: 1, Y: 279})
		}),
		"a rule of the job": func(j mendplan.Job) mendplan.Job { return j.WithRule(mendplan.Fringe, mendplan.Num(4)) },
		"the tissues":       func(j mendplan.Job) mendplan.Job { return j.WithoutTissue("T1") },
	} {
		t.Run(name, func(t *testing.T) {
			j := bench(tear).WithRule(mendplan.GrainRule, mendplan.Choice("as the leaf"))
			var memo mendplan.Memo
			was, wasWrong := memo.Pieces(j)
			edited := edit(j)
			got, gotWrong := memo.Pieces(edited)
			want, wantWrong := mendplan.Pieces(edited)
			if !reflect.DeepEqual(got, want) || !reflect.DeepEqual(gotWrong, wantWrong) {
				t.Error("the memo's answer is not that of a fresh start")
			}
			if reflect.DeepEqual(want, was) && reflect.DeepEqual(wantWrong, wasWrong) {
				t.Error("the edit changes nothing, so this case tests nothing")
			}
		})
	}
}
