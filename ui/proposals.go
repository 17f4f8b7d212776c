package ui

import (
	"context"
	"math"

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
	w.aside(t("Looking for the edge"), func(context.Context) (err error) {
		img, scale := pic.AtLeast(scan.AnalysisSide)
		found, err = scan.FindOutline(img, scale, scan.OutlineOptions{})
		return err
	}, func(err error) {
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
		if deg := turnOf(found.TrueEdge); math.Abs(deg) >= 0.05 {
			words += " " + t("It lay turned by %.1f° on the scanner, which is allowed for.", deg)
		}
		w.status.say(words)
	})
}

// turnOf is how far a true edge is turned against the picture, degrees
// counter-clockwise, the nearest quarter turns left out.
func turnOf(edge [4]geom.Pt) float64 {
	head, tail := edge[1].Sub(edge[0]), edge[2].Sub(edge[3])
	deg := geom.AngleOf(head.Add(tail))
	return deg - 90*math.Round(deg/90)
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
	w.aside(t("Looking for losses"), func(context.Context) error {
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
		if p.Kind == scan.KindEdgeTear && len(p.Path) > 1 && !tornAlready(leaf.Damages, w.session.Side(), p.Path, w.surface.Scene().Frame.PxPerMM()) {
			w.found[i+1] = p
			w.proposals = append(w.proposals, leafview.Proposal{ID: i + 1, Kind: leafview.Tear, Points: p.Path, Open: true, Label: percent(p.Confidence)})
			continue
		}
		if len(p.Polygon) < 3 || tracedAlready(leaf.Damages, w.session.Side(), p.Polygon) {
			continue
		}
		w.found[i+1] = p
		w.proposals = append(w.proposals, leafview.Proposal{ID: i + 1, Kind: leafview.Loss, Points: p.Polygon, Label: percent(p.Confidence)})
	}
	w.asked = 0
	w.showScene()
	w.refreshCommands()
	if len(w.proposals) == 0 {
		w.status.say(t("No losses or tears were found on this side."))
		return
	}
	w.status.say(t("Proposed: %d. Press one to accept or refuse it.", len(w.proposals)))
}

// answerProposal asks whether a proposed loss is one. Once it is answered,
// then leads on; nil for nothing.
func (w *Window) answerProposal(id int, then func()) {
	p, ok := w.found[id]
	if !ok {
		return
	}
	words := widget.NewLabel(sentence(say(p.Why)) + " " + t("The program is sure of it by %s.", percent(p.Confidence)))
	words.Wrapping = fyne.TextWrapWord
	title, yes := t("Is material missing here?"), t("Yes, a loss")
	if p.Kind == scan.KindEdgeTear {
		title, yes = t("Is the leaf torn here?"), t("Yes, a tear")
	}
	fields := []fyne.CanvasObject{words}
	if n := len(w.proposals); n > 1 {
		fields = append(fields, newButton(t("All %d are damages", n), func() { w.closeDialog(); w.acceptAll() }))
	}
	w.ask(title, yes, append(fields, newButton(t("No, not this one"), func() {
		w.closeDialog()
		w.dropProposal(id)
		if then != nil {
			then()
		}
	})), nil,
		func() string {
			w.dropProposal(id)
			w.applyEdit(proposedDamage(p))
			w.next = then
			return ""
		})
}

// proposedDamage is the damage that a proposal stands for.
func proposedDamage(p scan.Proposal) leafview.Add {
	if p.Kind == scan.KindEdgeTear {
		return leafview.Add{Kind: leafview.Tear, Points: p.Path}
	}
	return leafview.Add{Kind: leafview.Loss, Closed: true, Points: p.Polygon}
}

// acceptAll makes damages of all proposals, as one step.
func (w *Window) acceptAll() {
	leaf, _ := w.session.Leaf()
	j := w.session.Job()
	for _, p := range w.proposals {
		j, _ = j.AddDamage(leaf.ID, mendplan.Damage{Kind: mendplan.DamageKind(p.Kind), Side: w.session.Side(), Points: p.Points})
	}
	n := len(w.proposals)
	w.proposals = nil
	w.session.Do("accept proposals", j)
	w.refreshCommands()
	w.status.say(t("%d damages are in the job.", n))
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

func proposed(w *Window) bool { return len(w.proposals) > 0 }
