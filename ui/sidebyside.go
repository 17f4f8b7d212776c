package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/scan"
	"leafmend/ui/leafview"
)

// beside shows the other side of the leaf next to the one in hand. Front is
// always left, back always right; the two move together, mirrored, and what
// is traced on one shows on the other. The other side is for looking: a press
// there takes that side in hand.
type beside struct {
	w           *Window
	on          bool
	surface     *leafview.Surface
	pictures    *pictures
	showing     string // what the surface shows the picture of
	left, right *widget.Label
	both        *fyne.Container // one or two surfaces
}

func newBeside(w *Window) *beside {
	b := &beside{w: w, surface: leafview.New(), pictures: w.pictures.another(), left: widget.NewLabel(""), right: widget.NewLabel("")}
	b.left.Truncation, b.right.Truncation = fyne.TextTruncateEllipsis, fyne.TextTruncateEllipsis
	b.both = container.NewStack(w.surface)
	s := b.surface
	s.Translate = func(phrase string) string { return t(phrase) }
	s.SetHabits(leafview.Habits{NavigateOnly: true, WheelScrolls: w.settings.WheelScrolls(), WheelReverse: w.settings.WheelReverse()})
	s.OnView = b.lead
	s.OnTap = func(geom.Pt) { w.work.soon(b.takeInHand) }
	s.OnRune, s.OnKey, s.OnShortcut = w.typedRune, w.typedKey, w.shortcut
	s.OnPointer = func(at geom.Pt, inside bool) { w.surface.SetMark(b.across(w.session.Side(), at), inside) }
	return b
}

func (b *beside) content() fyne.CanvasObject { return b.both }

// toggle shows both sides, or one.
func (b *beside) toggle() {
	b.on = !b.on
	b.showing = ""
	b.w.surface.SetMark(geom.Pt{}, false)
	b.arrange()
	b.w.trace.arrange()
	b.w.trace.refresh()
	b.refresh()
	b.w.surface.Fit()
	b.w.showView()
	b.w.focusSurface()
}

// arrange puts the surfaces in their places: front left, back right.
func (b *beside) arrange() {
	if !b.on {
		b.both.Objects = []fyne.CanvasObject{b.w.surface}
		b.both.Refresh()
		return
	}
	l, r := b.w.surface, b.surface
	if b.w.session.Side() == mendplan.Back {
		l, r = r, l
	}
	pane := func(words *widget.Label, s *leafview.Surface) fyne.CanvasObject {
		return container.NewBorder(words, nil, nil, nil, s)
	}
	b.both.Objects = []fyne.CanvasObject{container.NewGridWithColumns(2, pane(b.left, l), pane(b.right, r))}
	b.both.Refresh()
}

// refresh shows the other side of the leaf in hand.
func (b *beside) refresh() {
	leaf, ok := b.w.session.Leaf()
	if !b.on || !ok {
		return
	}
	side := b.w.session.Side().Other()
	for _, p := range []struct {
		words *widget.Label
		side  mendplan.SideName
	}{{b.left, mendplan.Front}, {b.right, mendplan.Back}} {
		p.words.TextStyle.Bold = p.side != side
		words := sideWord(leaf, p.side)
		if p.side == side {
			words += " — " + t("press to work on it")
		}
		p.words.SetText(words)
	}
	if key := b.key(leaf, side); key != b.showing {
		b.showing = key
		b.arrange()
		b.load(leaf, side)
	}
	scene := sceneOf(leaf, side, b.w.session.Plan(), b.w.session.Selected())
	b.surface.SetScene(scene)
	b.surface.Select(b.w.session.Selected()...)
	b.lookAlike()
	b.follow()
}

// lookAlike gives the other surface the look of the one in hand.
func (b *beside) lookAlike() {
	if !b.on {
		return
	}
	l := b.w.surface.Look()
	l.Overview = false
	b.surface.SetLook(l)
	b.surface.SetFilter(b.w.surface.Filter())
}

func (b *beside) key(leaf mendplan.Leaf, side mendplan.SideName) string {
	sc := leaf.SideOf(side).Scan
	return leaf.ID + "/" + string(side) + "/" + pictureKey(b.w.session.scanPath(sc), sc.Page)
}

func (b *beside) load(leaf mendplan.Leaf, side mendplan.SideName) {
	sc := leaf.SideOf(side).Scan
	b.pictures.cancel()
	path := b.w.session.scanPath(sc)
	if pic, open := b.pictures.get(path, sc.Page); open && sc.Present() {
		b.surface.SetPicture(painter{pic})
		return
	}
	b.surface.SetPicture(blankFor(leaf, side))
	if !sc.Present() {
		return
	}
	key := b.showing
	b.pictures.load(path, sc.Page, nil, func(pic *scan.Picture, err error) {
		if key == b.showing && err == nil { // a fault is told once that side is in hand
			b.surface.SetPicture(painter{pic})
			b.follow()
		}
	}, func() {
		if key == b.showing {
			b.surface.PictureChanged()
		}
	})
}

// across maps a place of the other side than side to side.
func (b *beside) across(side mendplan.SideName, at geom.Pt) geom.Pt {
	leaf, ok := b.w.session.Leaf()
	if !ok {
		return at
	}
	return mirrorOf(leaf, side)([]geom.Pt{at})[0]
}

// follow shows on the other side the place that is shown on this.
func (b *beside) follow() {
	if !b.on {
		return
	}
	scale, centre := b.w.surface.View()
	b.surface.SetView(b.linked(b.w.session.Side().Other(), scale, centre))
}

// lead is follow the other way round, when the other side was moved.
func (b *beside) lead() {
	if !b.on {
		return
	}
	scale, centre := b.surface.View()
	b.w.surface.SetView(b.linked(b.w.session.Side(), scale, centre))
	b.w.status.scale(b.w.viewScale())
}

// linked returns the view of side that shows what a view of its other side
// shows, as large.
func (b *beside) linked(side mendplan.SideName, scale float64, centre geom.Pt) (float64, geom.Pt) {
	a := b.across(side, centre)
	if per := b.across(side, centre.Add(geom.Pt{X: 100})).Dist(a) / 100; per > 0 {
		scale /= per
	}
	return scale, a
}

// point shows on the other side where the pointer is on this one.
func (b *beside) point(at geom.Pt, inside bool) {
	if b.on {
		b.surface.SetMark(b.across(b.w.session.Side().Other(), at), inside)
	}
}

// takeInHand makes the other side the one in hand, with the view as it is.
func (b *beside) takeInHand() {
	leaf, ok := b.w.session.Leaf()
	if !b.on || !ok {
		return
	}
	scale, centre := b.surface.View()
	b.surface.SetMark(geom.Pt{}, false)
	b.w.surface.SetMark(geom.Pt{}, false)
	b.w.session.Show(leaf.ID, b.w.session.Side().Other())
	b.w.surface.SetView(scale, centre)
	b.w.showView()
	b.w.focusSurface()
}
