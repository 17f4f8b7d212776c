package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"leafmend/ui/leafview"
)

// toolStrip lies under the surface and holds what belongs to what is being
// done there: how a tracing tool follows and holds on; what to say to
// proposals; how the sides lie over one another; the margin of the mend in
// hand. It is always there, perhaps empty, so that the leaf does not jump when
// another tool is taken.
type toolStrip struct {
	w         *Window
	follow    *keyCheck
	strength  *keySlider
	snap      *keyCheck
	radius    *keySlider
	proposals *widget.Label
	rows      map[stripRow]fyne.CanvasObject
	shown     stripRow
	ground    *canvas.Rectangle
	box       *fyne.Container
	quiet     bool // fields are being set, not used
}

// stripRow names what the strip shows.
type stripRow int

const (
	stripNone stripRow = iota
	stripTracing
	stripProposals
	stripOther
	stripChosen
)

func newToolStrip(w *Window) *toolStrip {
	s := &toolStrip{w: w, rows: map[stripRow]fyne.CanvasObject{}, ground: canvas.NewRectangle(shade(colourBar))}
	s.rows[stripTracing] = s.tracing()
	s.proposals = widget.NewLabel("")
	s.proposals.Truncation = fyne.TextTruncateEllipsis
	s.rows[stripProposals] = container.NewBorder(nil, nil, nil, container.NewHBox(s.run("next-proposal", t("Look at each…")), s.run("accept-all", t("All")), s.run("refuse-all", t("None"))), s.proposals)
	s.rows[stripOther] = container.NewHBox(s.run("lay-over", t("By the outlines")), s.run("lay-by-edges", t("By the true edges")))
	s.rows[stripChosen] = container.NewHBox(widget.NewLabel(t("Margin")), w.commandButton(w.command("margin-narrower"), "minus", ""),
		w.commandButton(w.command("margin-wider"), "plus", ""), w.commandButton(w.command("margin-reset"), "undo", ""))
	height := float32(0)
	for _, row := range s.rows {
		height = max(height, row.MinSize().Height)
	}
	s.ground.SetMinSize(fyne.NewSize(1, height))
	s.box = container.NewStack(s.ground)
	return s
}

// run is a button for a command.
func (s *toolStrip) run(id, words string) fyne.CanvasObject {
	return newButton(words, func() { s.w.Run(id); s.w.focusSurface() })
}

// tracing makes the fields of the tracing tools.
func (s *toolStrip) tracing() fyne.CanvasObject {
	w := s.w
	s.follow = newCheck(t("Follow the tear"), func(bool) { s.press("follow") })
	s.snap = newCheck(t("Hold on"), func(bool) { s.press("snap") })
	s.strength, s.radius = newSlider(0.05, 1), newSlider(4, 24)
	s.strength.Step, s.radius.Step = 0.05, 1
	s.strength.OnChanged = func(v float64) {
		if !s.quiet {
			w.settings.SetFollowStrength(v)
			w.followAnew()
			w.status.say(t("Traces cling to the tear by %s.", percent(v)))
		}
	}
	s.radius.OnChanged = func(v float64) {
		if !s.quiet {
			w.settings.SetSnapRadius(v)
			w.applyHabits()
			w.status.say(t("New points hold on to what lies within %.0f points of the screen.", v))
		}
	}
	s.strength.OnChangeEnded = func(float64) { w.focusSurface() }
	s.radius.OnChangeEnded = func(float64) { w.focusSurface() }
	width := func(o fyne.CanvasObject) fyne.CanvasObject {
		return container.NewGridWrap(fyne.NewSize(96, o.MinSize().Height), o)
	}
	return container.NewHBox(s.follow, width(s.strength), layout.NewSpacer(), s.snap, width(s.radius))
}

// press runs the command behind a check, when it was the user who pressed it.
func (s *toolStrip) press(id string) {
	if !s.quiet {
		s.w.Run(id)
		s.w.focusSurface()
	}
}

func (s *toolStrip) content() fyne.CanvasObject { return s.box }

// wanted is what belongs to what is being done.
func (s *toolStrip) wanted() stripRow {
	if len(s.w.proposals) > 0 {
		return stripProposals
	}
	switch s.w.surface.Tool() {
	case leafview.TearTool, leafview.SplitTool, leafview.LossTool, leafview.WeakTool, leafview.NicksTool, leafview.NoteTool,
		leafview.RetraceTool, leafview.ReshapeTool, leafview.OutlineTool:
		return stripTracing
	case leafview.OtherTool:
		return stripOther
	case leafview.SelectTool:
		if hasMargin(s.w) {
			return stripChosen
		}
	}
	return stripNone
}

func (s *toolStrip) refresh() {
	set := s.w.settings
	s.quiet = true
	s.follow.SetChecked(set.Follow())
	s.snap.SetChecked(set.Snap())
	s.strength.SetValue(set.FollowStrength())
	s.radius.SetValue(set.SnapRadius())
	s.quiet = false
	s.proposals.SetText(t("Proposed: %d, dotted on the leaf with how sure each is.", len(s.w.proposals)))
	s.ground.FillColor = shade(colourBar)
	if want := s.wanted(); want != s.shown {
		s.shown = want
		s.box.Objects = []fyne.CanvasObject{s.ground}
		if row := s.rows[want]; row != nil {
			s.box.Objects = append(s.box.Objects, container.New(layout.NewCustomPaddedLayout(0, 0, 6, 6), row))
		}
	}
	s.box.Refresh()
}

// followAnew has the stretch in hand followed once more, with what is set now.
func (w *Window) followAnew() {
	w.followed = followState{}
	w.surface.FollowReady()
}
