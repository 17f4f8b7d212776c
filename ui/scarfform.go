package ui

import (
	"fyne.io/fyne/v2"

	"leafmend/mendplan"
)

// scarfFields ask how the torn faces of a tear overlap: by how much, and
// which part lies on top.
type scarfFields struct {
	w     *Window
	width *textField
	top   *choiceField
}

// newScarfFields adds the fields to a box; nil for what is no tear.
func newScarfFields(w *Window, kind mendplan.DamageKind, box *fyne.Container) *scarfFields {
	if kind != mendplan.Tear {
		return nil
	}
	f := &scarfFields{w: w}
	f.width = newTextField(f.typed)
	f.width.SetPlaceHolder(t("torn square"))
	f.top = newChoice(func(id string) {
		w.session.EditDamages("set overlap of torn faces", func(d mendplan.Damage) mendplan.Damage {
			d.Scarf.OnTop = mendplan.HandSide(id)
			return d
		})
	})
	box.Add(labelled(t("Faces lap by"), f.width))
	box.Add(labelled(t("On top"), f.top))
	return f
}

// typed takes the width; nothing means torn square.
func (f *scarfFields) typed(text string) {
	mm := 0.0
	if text != "" {
		var err error
		if mm, err = mendplan.ParseLength(text, unitsOf(f.w.session.Job())); err != nil || mm < 0 || mm > mendplan.WidestScarf {
			f.w.status.say(t("Torn faces overlap by a length up to %s.", unitsOf(f.w.session.Job()).Length(mendplan.WidestScarf)))
			return
		}
	}
	f.w.session.EditDamages("set overlap of torn faces", func(d mendplan.Damage) mendplan.Damage {
		d.Scarf.OverlapMM = mm
		return d
	})
}

// fill shows what is recorded.
func (f *scarfFields) fill(d mendplan.Damage) {
	if f == nil {
		return
	}
	text := ""
	if d.Scarf.Known() {
		text = unitsOf(f.w.session.Job()).Length(d.Scarf.OverlapMM)
	}
	f.width.set(text)
	top := d.Scarf.OnTop
	if top == "" {
		top = mendplan.OnLeft
	}
	f.top.set([]string{string(mendplan.OnLeft), string(mendplan.OnRight)}, []string{t("left of the trace"), t("right of the trace")}, string(top))
}
