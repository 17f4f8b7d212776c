package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/scan"
	"leafmend/ui/leafview"
)

// openPicture returns the picture of the side shown when it is open.
func (w *Window) openPicture() (*scan.Picture, bool) {
	leaf, _ := w.session.Leaf()
	side := leaf.SideOf(w.session.Side())
	pic, ok := w.pictures.get(w.session.scanPath(side.Scan), side.Scan.Page)
	if !ok {
		w.status.say(t("The scan is still being read: try again in a moment."))
	}
	return pic, ok
}

// findOutline looks for the leaf on its background and sets outline and true
// edge, as one step that can be undone.
func (w *Window) findOutline() {
	pic, ok := w.openPicture()
	if !ok {
		return
	}
	place := w.showing
	var found scan.Outline
	w.status.begin(t("Looking for the edge"), nil)
	w.work.start(func() (err error) {
		img, scale := pic.AtLeast(scan.AnalysisSide)
		found, err = scan.FindOutline(img, scale, scan.OutlineOptions{})
		return err
	}, func(err error) {
		w.status.end()
		if err != nil {
			w.tellError(err)
			return
		}
		if place != w.showing {
			return
		}
		w.session.EditSide("find edge", func(s mendplan.Side) mendplan.Side {
			s.Outline, s.TrueEdge = found.Polygon, append([]geom.Pt(nil), found.TrueEdge[:]...)
			return s
		})
		words := t("The edge is found. Look at the four corners of the true edge, and correct them with the tool “True edge”.")
		if found.Confidence < 0.5 {
			words = t("The edge is found, but not with certainty: look closely, or trace it by hand.")
		}
		w.status.say(words)
	})
}

// proposeLosses shows where material seems to be missing; nothing enters the
// job until the user says so.
func (w *Window) proposeLosses() {
	pic, ok := w.openPicture()
	if !ok {
		return
	}
	leaf, _ := w.session.Leaf()
	side := leaf.SideOf(w.session.Side())
	place, perMM := w.showing, w.surface.Scene().Frame.PxPerMM()
	var list []scan.Proposal
	w.status.begin(t("Looking for losses"), nil)
	w.work.start(func() error {
		img, scale := pic.AtLeast(scan.AnalysisSide)
		outline := scan.Outline{Polygon: side.Outline}
		if len(side.TrueEdge) == 4 {
			copy(outline.TrueEdge[:], side.TrueEdge)
		}
		if len(side.Outline) < 3 || len(side.TrueEdge) != 4 {
			var err error
			if outline, err = scan.FindOutline(img, scale, scan.OutlineOptions{}); err != nil {
				return err
			}
		}
		list = scan.ProposeLosses(img, scale, outline, scan.LossOptions{PxPerMM: perMM})
		return nil
	}, func(err error) {
		w.status.end()
		switch {
		case err != nil:
			w.tellError(err)
		case place == w.showing:
			w.showProposals(list)
		}
	})
}

func (w *Window) showProposals(list []scan.Proposal) {
	w.proposals, w.found = nil, map[int]scan.Proposal{}
	leaf, _ := w.session.Leaf()
	for i, p := range list {
		if p.Kind == scan.KindEdgeTear || len(p.Polygon) < 3 || tracedAlready(leaf.Damages, w.session.Side(), p.Polygon) {
			continue
		}
		w.found[i+1] = p
		w.proposals = append(w.proposals, leafview.Proposal{ID: i + 1, Kind: leafview.Loss, Points: p.Polygon, Label: percent(p.Confidence)})
	}
	w.asked = 0
	w.showScene()
	w.refreshCommands()
	if len(w.proposals) == 0 {
		w.status.say(t("No losses were found on this side."))
		return
	}
	w.status.say(t("%d losses are proposed: press one to accept or refuse it.", len(w.proposals)))
}

// answerProposal asks whether a proposed loss is one.
func (w *Window) answerProposal(id int) {
	p, ok := w.found[id]
	if !ok {
		return
	}
	words := widget.NewLabel(sentence(p.Why) + " " + t("The program is sure of it by %s.", percent(p.Confidence)))
	words.Wrapping = fyne.TextWrapWord
	w.ask(t("Is material missing here?"), t("Yes, a loss"), []fyne.CanvasObject{words,
		widget.NewButton(t("All %d are losses", len(w.proposals)), func() { w.closeDialog(); w.acceptAll() }),
		widget.NewButton(t("No, not this one"), func() { w.closeDialog(); w.dropProposal(id) })}, nil,
		func() string {
			w.dropProposal(id)
			w.applyEdit(leafview.Add{Kind: leafview.Loss, Closed: true, Points: p.Polygon})
			return ""
		})
}

// acceptAll makes losses of all proposals, as one step.
func (w *Window) acceptAll() {
	leaf, _ := w.session.Leaf()
	j := w.session.Job()
	for _, p := range w.proposals {
		j, _ = j.AddDamage(leaf.ID, mendplan.Damage{Kind: mendplan.Loss, Side: w.session.Side(), Points: p.Points})
	}
	n := len(w.proposals)
	w.proposals = nil
	w.session.Do("accept proposed losses", j)
	w.refreshCommands()
	w.status.say(t("%d losses are in the job.", n))
}

func (w *Window) dropProposal(id int) {
	var rest []leafview.Proposal
	for _, p := range w.proposals {
		if p.ID != id {
			rest = append(rest, p)
		}
	}
	w.proposals = rest
	w.showScene()
	w.refreshCommands()
}

// refuseAll takes all proposals away.
func (w *Window) refuseAll() {
	w.proposals = nil
	w.showScene()
	w.refreshCommands()
}

// nextProposal goes to the next proposal and asks about it.
func (w *Window) nextProposal() {
	if len(w.proposals) == 0 {
		return
	}
	p := w.proposals[w.asked%len(w.proposals)]
	w.asked++
	r := leafview.RectOf(p.Points...)
	w.surface.ZoomTo(r.Grow(max(r.W(), r.H(), 100)))
	w.showView()
	w.answerProposal(p.ID)
}

func proposed(w *Window) bool { return len(w.proposals) > 0 }
