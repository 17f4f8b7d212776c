package ui

import (
	"slices"

	"fyne.io/fyne/v2"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// copyToOther traces the chosen damages once more on the other side, mirrored
// to their places there, as one step. The copies are chosen.
func (w *Window) copyToOther() {
	leaf, _ := w.session.Leaf()
	j, copies := w.session.Job(), []int(nil)
	for _, n := range w.session.Selected() {
		d, ok := leaf.Damage(n)
		if !ok {
			continue
		}
		d = carried(d, mirrorOf(leaf, d.Side.Other()))
		d.Side = d.Side.Other()
		var number int
		j, number = j.AddDamage(leaf.ID, d)
		copies = append(copies, number)
	}
	if len(copies) == 0 {
		return
	}
	w.session.Do("copy to other side", j)
	w.session.Select(copies...)
	w.status.say(t("%d damages are traced on the other side as well.", len(copies)))
}

// carried returns a damage with its course mapped elsewhere. Joins name
// damages of the leaf it was on and do not go with it.
func carried(d mendplan.Damage, move func([]geom.Pt) []geom.Pt) mendplan.Damage {
	d.Points = move(d.Points)
	forks := make([][]geom.Pt, len(d.Forks))
	for i, f := range d.Forks {
		forks[i] = move(f)
	}
	d.Forks = forks
	d.Mends = slices.Clone(d.Mends)
	for i := range d.Mends {
		d.Mends[i].Joins = nil
	}
	return d
}

// moveToLeaf asks for a leaf and moves the chosen damages there.
func (w *Window) moveToLeaf() {
	here, _ := w.session.Leaf()
	var ids, words []string
	for _, l := range w.session.Job().Leaves {
		if l.ID != here.ID {
			ids, words = append(ids, l.ID), append(words, leafTitle(l))
		}
	}
	if len(ids) == 0 {
		w.status.say(t("The job has no other leaf."))
		return
	}
	pick := newChoice(func(string) {})
	pick.set(ids, words, ids[0])
	w.ask(t("Move to which leaf?"), t("Move"), []fyne.CanvasObject{
		small(t("The damages keep their numbers, mends and places on the leaf, and lie on the same side.")), labelled(t("Leaf"), pick)}, &pick.Select,
		func() string {
			w.moveDamages(here, pick.chosen())
			return ""
		})
}

// moveDamages moves the chosen damages from one leaf to another, as one step,
// and shows them there. Where both leaves have a scale they keep their place
// on the leaf, else their place on the picture.
func (w *Window) moveDamages(from mendplan.Leaf, to string) {
	j := w.session.Job()
	target, ok := j.Leaf(to)
	refs := w.session.Selected()
	if !ok || len(refs) == 0 {
		return
	}
	damages := slices.Clone(target.Damages)
	for _, n := range refs {
		if d, ok := from.Damage(n); ok {
			damages = append(damages, carried(d, ontoLeaf(from, target, d.Side)))
			j = j.WithoutDamage(from.ID, n)
		}
	}
	target.Damages = damages
	w.session.Do("move to another leaf", j.WithLeaf(target))
	w.session.Select(refs...)
	w.status.say(t("Moved to %s.", leafTitle(target)))
}

// ontoLeaf maps scan pixels of a side of one leaf to those of the same place
// on the same side of another.
func ontoLeaf(from, to mendplan.Leaf, side mendplan.SideName) func([]geom.Pt) []geom.Pt {
	a, _, f1 := mendplan.FrameOf(from, side)
	b, _, f2 := mendplan.FrameOf(to, side)
	return func(pts []geom.Pt) []geom.Pt {
		out := slices.Clone(pts)
		for i, p := range out {
			if f1 == nil && f2 == nil {
				out[i] = b.ToScan(a.ToLeaf(p))
			}
		}
		return out
	}
}
