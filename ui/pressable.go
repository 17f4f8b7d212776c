package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// pressable is a flat button that can stay chosen: a tool, a segment, a chip.
// It never takes the keyboard focus, so the keys of the tracing surface keep
// working; all it does has a key of its own in the command table.
type pressable struct {
	widget.BaseWidget
	icon, text, key string
	shift           bool   // the key is pressed with Shift
	hint            string // for the status line while the pointer is over it
	colour          fyne.ThemeColorName
	ground          fyne.ThemeColorName // "" is clear
	chosen          bool
	centred         bool
	bold            bool
	disabled        bool
	onPress         func()
	onHint          func(words string)
	over            bool
}

var (
	_ fyne.Tappable     = (*pressable)(nil)
	_ desktop.Hoverable = (*pressable)(nil)
)

func newPressable(icon, text string, onPress func()) *pressable {
	p := &pressable{icon: icon, text: text, onPress: onPress, colour: theme.ColorNameForeground}
	p.ExtendBaseWidget(p)
	return p
}

// set changes words and state in one go, and draws only when they differ.
func (p *pressable) set(text string, chosen, disabled bool) {
	if p.text == text && p.chosen == chosen && p.disabled == disabled {
		return
	}
	p.text, p.chosen, p.disabled = text, chosen, disabled
	p.Refresh()
}

// Tapped implements [fyne.Tappable].
func (p *pressable) Tapped(*fyne.PointEvent) {
	if !p.disabled && p.onPress != nil {
		p.onPress()
	}
}

// MouseIn implements [desktop.Hoverable].
func (p *pressable) MouseIn(*desktop.MouseEvent) {
	p.over = true
	if p.onHint != nil {
		p.onHint(p.hint)
	}
	p.Refresh()
}

// MouseMoved implements [desktop.Hoverable].
func (p *pressable) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements [desktop.Hoverable].
func (p *pressable) MouseOut() {
	p.over = false
	if p.onHint != nil {
		p.onHint("")
	}
	p.Refresh()
}

// CreateRenderer implements [fyne.Widget].
func (p *pressable) CreateRenderer() fyne.WidgetRenderer {
	r := &pressableRenderer{p: p, ground: canvas.NewRectangle(nil), bar: canvas.NewRectangle(nil),
		words: canvas.NewText("", nil), shift: canvas.NewText("", nil), key: canvas.NewText("", nil), icon: canvas.NewImageFromResource(nil)}
	r.icon.FillMode = canvas.ImageFillContain
	r.Refresh()
	return r
}

// shiftSign is the arrow that keyboards have on the Shift key.
const shiftSign = "\u21e7"

type pressableRenderer struct {
	p           *pressable
	ground, bar *canvas.Rectangle
	words       *canvas.Text
	shift, key  *canvas.Text // shift is the sign of that key, which only the toolkit's font of signs has
	icon        *canvas.Image
}

func (r *pressableRenderer) Destroy() {}

func (r *pressableRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.ground, r.bar, r.icon, r.words, r.shift, r.key}
}

func (r *pressableRenderer) MinSize() fyne.Size {
	pad := theme.InnerPadding()
	words := r.words.MinSize()
	w, h := pad*2, max(words.Height, theme.IconInlineSize())+pad
	if r.p.icon != "" {
		w += theme.IconInlineSize()
	}
	if r.p.text != "" {
		w += words.Width
		if r.p.icon != "" {
			w += pad
		}
	}
	if r.p.key != "" {
		w += pad + max(r.key.MinSize().Width, 10) + r.shift.MinSize().Width
	}
	return fyne.NewSize(w, h)
}

func (r *pressableRenderer) Layout(size fyne.Size) {
	pad, side := theme.InnerPadding(), theme.IconInlineSize()
	r.ground.Resize(size)
	r.bar.Resize(fyne.NewSize(3, size.Height))
	x := pad
	if r.p.centred {
		x = (size.Width - r.MinSize().Width + 2*pad) / 2
	}
	if r.p.icon != "" {
		r.icon.Resize(fyne.NewSize(side, side))
		r.icon.Move(fyne.NewPos(x, (size.Height-side)/2))
		x += side + pad
	}
	words := r.words.MinSize()
	r.words.Move(fyne.NewPos(x, (size.Height-words.Height)/2))
	key := r.key.MinSize()
	r.key.Move(fyne.NewPos(size.Width-pad-key.Width, (size.Height-key.Height)/2))
	sign := r.shift.MinSize()
	r.shift.Move(fyne.NewPos(r.key.Position().X-sign.Width, (size.Height-sign.Height)/2))
}

func (r *pressableRenderer) Refresh() {
	p := r.p
	colour := p.colour
	if p.disabled {
		colour = theme.ColorNameDisabled
	}
	r.words.Text, r.words.Color, r.words.TextSize = p.text, shade(colour), theme.TextSize()
	r.words.TextStyle.Bold = p.bold || p.chosen
	r.key.Text, r.key.Color, r.key.TextSize = p.key, shade(colourQuiet), theme.CaptionTextSize()
	r.shift.Color, r.shift.TextSize, r.shift.TextStyle = r.key.Color, r.key.TextSize, fyne.TextStyle{Symbol: true}
	if r.shift.Text = ""; p.shift {
		r.shift.Text = shiftSign
	}
	r.icon.Hidden = p.icon == ""
	if p.icon != "" {
		r.icon.Resource = iconIn(p.icon, colour)
	}
	r.ground.CornerRadius = theme.InputRadiusSize()
	switch {
	case p.chosen:
		r.ground.FillColor = shade(colourChosen)
	case p.over && !p.disabled:
		r.ground.FillColor = shade(theme.ColorNameHover)
	case p.ground != "":
		r.ground.FillColor = shade(p.ground)
	default:
		r.ground.FillColor = nil
	}
	r.bar.Hidden = !p.chosen
	r.bar.FillColor = shade(theme.ColorNamePrimary)
	r.Layout(p.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}
