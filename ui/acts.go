package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/ui/leafview"
)

// undo takes a shape that is being drawn one point back, else the job a step.
// Fields that are being typed in have had their turn before; see forText.
func (w *Window) undo() {
	if w.stage == stageTrace && w.surface.StepBack() {
		return
	}
	if label := w.session.Undo(); label != "" {
		w.status.say(t("Undone: %s", t(label)))
		w.lookAgainAfter(label)
	}
}

func (w *Window) redo() {
	if label := w.session.Redo(); label != "" {
		w.status.say(t("Done again: %s", t(label)))
		w.lookAgainAfter(label)
	}
}

// isText reports whether something one types in has the focus.
func isText(o any) bool {
	switch o.(type) {
	case *widget.Entry, *textField, *dialogEntry:
		return true
	}
	return false
}

// typing reports whether a field is being typed in.
func (w *Window) typing() bool { return isText(w.win.Canvas().Focused()) }

// textShortcut gives a shortcut to the field that is being typed in; false
// when there is none and the shortcut means the job.
func (w *Window) textShortcut(s fyne.Shortcut) bool {
	f, ok := w.win.Canvas().Focused().(fyne.Shortcutable)
	if !ok || !isText(f) {
		return false
	}
	f.TypedShortcut(s)
	return true
}

func (w *Window) deleteChosen() { w.deleteDamages(w.session.Selected()) }

// selectAll chooses every damage traced on the side that is shown.
func (w *Window) selectAll() {
	leaf, _ := w.session.Leaf()
	var refs []int
	for _, d := range leaf.Damages {
		if d.Side == w.session.Side() {
			refs = append(refs, d.Number)
		}
	}
	w.session.Select(refs...)
}

func (w *Window) copyMend() {
	d, _ := w.session.Damage()
	w.copied = &d
	w.status.say(t("The mend of damage %d is remembered.", d.Number))
}

// pasteMend gives the remembered mend to all chosen damages that it suits.
func (w *Window) pasteMend() {
	if w.copied == nil {
		return
	}
	from := *w.copied
	w.session.EditDamages("mend in the same way", func(d mendplan.Damage) mendplan.Damage {
		if d.Kind.Mended() {
			d.Mends = slices.Clone(from.Mends)
		}
		return d
	})
}

// stepLeaf shows a leaf further down or up the list.
func (w *Window) stepLeaf(by int) {
	leaves := w.session.Job().Leaves
	leaf, _ := w.session.Leaf()
	i := slices.IndexFunc(leaves, func(l mendplan.Leaf) bool { return l.ID == leaf.ID })
	if k := i + by; k >= 0 && k < len(leaves) {
		w.session.Show(leaves[k].ID, "")
	} else if by > 0 {
		w.status.say(t("This is the last leaf."))
	} else {
		w.status.say(t("This is the first leaf."))
	}
}

// flip shows the other side, at the same place of the leaf.
func (w *Window) flip() {
	leaf, ok := w.session.Leaf()
	if !ok {
		return
	}
	scale, centre := w.surface.View()
	here, _, fault := mendplan.FrameOf(leaf, w.session.Side())
	there, _, other := mendplan.FrameOf(leaf, w.session.Side().Other())
	w.surface.Fit()
	whole, _ := w.surface.View()
	w.session.Show(leaf.ID, w.session.Side().Other())
	if fault == nil && other == nil && scale > whole*1.02 {
		w.surface.SetView(scale, there.ToScan(here.ToLeaf(centre)))
	}
	w.showView()
}

// stepDamage takes the next or previous damage of the job in hand.
func (w *Window) stepDamage(by int) {
	var all []int
	for _, leaf := range w.session.Job().Leaves {
		for _, d := range leaf.Damages {
			all = append(all, d.Number)
		}
	}
	if len(all) == 0 {
		w.status.say(t("Nothing is traced yet."))
		return
	}
	at := -1
	if refs := w.session.Selected(); len(refs) > 0 {
		at = slices.Index(all, refs[0])
	}
	if at < 0 && by < 0 {
		at = 0
	}
	w.takeInHand(all[(at+by+len(all))%len(all)])
}

// takeInHand shows a damage where it was traced and chooses it.
func (w *Window) takeInHand(number int) {
	leaf, d, ok := w.session.Job().FindDamage(number)
	if !ok {
		return
	}
	w.showStage(stageTrace)
	w.session.Show(leaf.ID, d.Side)
	w.session.Select(number)
	w.side.showDetails()
	w.surface.ZoomToSelection()
	w.showView()
}

func (w *Window) moveLeaf(by int) {
	j := w.session.Job()
	leaf, _ := w.session.Leaf()
	i := slices.IndexFunc(j.Leaves, func(l mendplan.Leaf) bool { return l.ID == leaf.ID })
	if k := i + by; k >= 0 && k < len(j.Leaves) {
		w.session.Do("move leaf", j.MoveLeaf(leaf.ID, k))
	}
}

func (w *Window) removeLeaf() {
	leaf, _ := w.session.Leaf()
	w.ask(t("Take %s out of the job?", leafTitle(leaf)), t("Take it out"), []fyne.CanvasObject{
		small(t("Its %d damages go with it. The scans stay on the disk, and undo brings everything back.", len(leaf.Damages)))}, nil,
		func() string {
			w.session.Do("take leaf out", w.session.Job().WithoutLeaf(leaf.ID))
			return ""
		})
}

func (w *Window) toggleMended() {
	w.session.EditLeaf("tick leaf off", func(l mendplan.Leaf) mendplan.Leaf { l.Mended = !l.Mended; return l })
	w.leaves.refresh()
}

// nextStyle changes to the next style that suits the damage in hand.
func (w *Window) nextStyle() {
	d, _ := w.session.Damage()
	styles := mendplan.StylesFor(d.Kind)
	if len(styles) < 2 {
		w.status.say(t("There is only one style for this kind of damage."))
		return
	}
	now := styleInForce(w.session.Job(), d)
	next := styles[(slices.Index(styles, now)+1)%len(styles)]
	w.session.EditDamages("change style", func(d mendplan.Damage) mendplan.Damage {
		return d.WithMend(func(m *mendplan.Mend) { m.Style = next })
	})
	w.status.say(t("Style: %s", t(string(next))))
}

// otherSide pastes the tissue on the other side of the leaf.
func (w *Window) otherSide() {
	d, _ := w.session.Damage()
	side, _ := w.planned(d)
	if len(d.Mends) > 0 && d.Mends[0].Side != "" {
		side = d.Mends[0].Side
	}
	if side == "" {
		side = mendplan.Front
	}
	w.session.EditDamages("change side", func(d mendplan.Damage) mendplan.Damage {
		return d.WithMend(func(m *mendplan.Mend) { m.Side = side.Other() })
	})
	w.status.say(t("Pasted on the %s.", sideShort(side.Other())))
}

func (w *Window) nextTissue() {
	d, _ := w.session.Damage()
	tissues := w.session.Job().Tissues
	if len(tissues) == 0 {
		w.status.say(t("There is no tissue yet: add one under “Tissues”."))
		return
	}
	at := -1
	if len(d.Mends) > 0 {
		at = slices.IndexFunc(tissues, func(ts mendplan.Tissue) bool { return ts.ID == d.Mends[0].Tissue })
	}
	next := tissues[(at+1)%len(tissues)]
	w.session.EditDamages("change tissue", func(d mendplan.Damage) mendplan.Damage {
		return d.WithMend(func(m *mendplan.Mend) { m.Tissue = next.ID })
	})
	w.status.say(t("Tissue: %s", next.Name))
}

func (w *Window) toggleNoMend() {
	d, _ := w.session.Damage()
	w.session.EditDamages("record only", func(e mendplan.Damage) mendplan.Damage { e.NoMend = !d.NoMend; return e })
}

// askNoted asks what the note tool traces.
func (w *Window) askNoted() {
	menu := fyne.NewMenu("")
	for _, k := range mendplan.NotedKinds() {
		menu.Items = append(menu.Items, fyne.NewMenuItem(sentenceCase(t(string(k))), func() {
			w.surface.SetNoted(leafview.Kind(k), k.Closed())
			w.surface.SetTool(leafview.NoteTool)
			w.status.say(t("Go round the %s.", t(string(k))))
			w.focusSurface()
		}))
	}
	b := w.trace.tools.buttons[leafview.NoteTool]
	pos := w.app.Driver().AbsolutePositionForObject(b)
	showMenu(menu, w.win.Canvas(), pos.AddXY(b.Size().Width, 0))
}

func (w *Window) toggleRaking() {
	f := w.surface.Filter()
	if f.Local > 0 {
		f.Local = 0
	} else {
		f.Local = 0.8
	}
	w.surface.SetFilter(f)
}

// sentenceCase begins words with a capital.
func sentenceCase(words string) string {
	if words == "" {
		return ""
	}
	r := []rune(words)
	return strings.ToUpper(string(r[:1])) + string(r[1:])
}
