package ui

import (
	"fmt"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/scan"
	"leafmend/ui/leafview"
)

// connectSurface has the tracing surface speak to the session and back.
func (w *Window) connectSurface() {
	v := w.surface
	v.Translate = func(phrase string) string { return t(phrase) }
	v.OnEdit = func(e leafview.Edit) { w.guard("edit", func() { w.applyEdit(e) }) }
	v.OnSelect = func(refs []int) {
		w.guard("choose", func() {
			w.session.Select(refs...)
			if len(refs) > 0 {
				w.side.showDetails()
			}
		})
	}
	v.OnTool = func(leafview.ToolID) { w.refreshCommands() }
	v.OnHint = w.status.tell
	v.OnView = w.showView
	v.OnPointer = w.showPointer
	v.OnMeasure = func(m leafview.Measurement) { w.status.say(m.Words) }
	v.OnGrip = w.showGrip
	v.OnPiece = w.pickPiece
	v.OnContext = w.contextMenu
	v.OnProposal = func(id int) { w.work.soon(func() { w.answerProposal(id, nil) }) }
	v.Follow = w.follow
	w.applyHabits()
	l := v.Look()
	l.Comma = catalogue.Comma()
	l.Dark, l.HighContrast = w.isDark(), w.settings.HighContrast()
	w.settings.lines(&l)
	l.Focus = color.RGBAModel.Convert(shade(theme.ColorNamePrimary)).(color.RGBA)
	v.SetLook(l)
	w.status.tell(v.Hint())
}

// placeChanged shows another leaf or side.
func (w *Window) placeChanged() {
	w.proposals = nil
	if hasLeaf(w) {
		w.guide.did(guideScans)
	}
	w.guide.refresh()
	w.showPlace()
	w.refreshPanels()
}

// placeKey names what the surface shows, so that the picture is loaded once.
func (w *Window) placeKey() string {
	leaf, ok := w.session.Leaf()
	if !ok {
		return ""
	}
	sc := leaf.SideOf(w.session.Side()).Scan
	return leaf.ID + "/" + string(w.session.Side()) + "/" + w.session.scanPath(sc) + fmt.Sprint(sc.Page)
}

// showPlace puts picture and scene of the leaf and side in hand on the
// surface. The picture is loaded aside when it is not open yet.
func (w *Window) showPlace() {
	if key := w.placeKey(); key != w.showing {
		w.showing = key
		w.showPicture()
		w.showPrint()
	}
	w.showScene()
}

func (w *Window) showPicture() {
	w.pictures.cancel()
	w.status.end()
	w.pictureFault, w.awaited = nil, nil
	leaf, ok := w.session.Leaf()
	if !ok {
		w.surface.SetPicture(nil)
		return
	}
	side := leaf.SideOf(w.session.Side())
	path := w.session.scanPath(side.Scan)
	if pic, open := w.pictures.get(path, side.Scan.Page); open {
		w.takePicture(side, pic)
		return
	}
	blank := blankFor(leaf, w.session.Side())
	if side.Scan.Present() && blank != nil {
		w.awaited = &awaited{blank: blank}
		w.surface.SetPicture(w.awaited)
	} else {
		w.surface.SetPicture(blank)
	}
	if side.Scan.Present() {
		w.loadPicture(path, side)
	}
}

func (w *Window) loadPicture(path string, side mendplan.Side) {
	key := w.showing
	w.status.begin(t("Reading the scan"), func() {
		w.pictures.cancel()
		w.status.end()
	})
	w.pictures.load(path, side.Scan.Page, w.status.done, func(pic *scan.Picture, err error) {
		w.status.end()
		if key != w.showing {
			return
		}
		if err != nil {
			w.pictureFault = err
			w.trace.refresh()
			return
		}
		w.takePicture(side, pic)
	}, func() {
		if key == w.showing {
			w.surface.PictureChanged()
		}
	})
}

// takePicture shows an open picture in the place that was kept for it, so that
// view and shape in hand stay. One of another size than the job says is shown
// all the same, with a warning.
func (w *Window) takePicture(side mendplan.Side, pic *scan.Picture) {
	if p := w.awaited; p != nil && p.fits(pic) {
		p.pic = pic
		w.surface.PictureChanged()
	} else {
		w.surface.SetPicture(painter{pic})
		if b := pic.Bounds(); side.Scan.Width > 0 && (b.Dx() != side.Scan.Width || b.Dy() != side.Scan.Height) {
			w.status.say(t("This scan has another size than when it was traced: check the traces."))
		}
	}
	w.awaited = nil
	w.readPrint(side, pic)
	w.showScene()
	w.showView()
	w.trace.refresh()
}

// blankFor is plain paper for a side without a picture, as large as the other
// side's when that has one.
func blankFor(leaf mendplan.Leaf, side mendplan.SideName) leafview.Painter {
	for _, sc := range []mendplan.Scan{leaf.SideOf(side).Scan, leaf.SideOf(side.Other()).Scan} {
		if sc.Width > 0 && sc.Height > 0 {
			return leafview.Blank{W: sc.Width, H: sc.Height, Paper: color.RGBA{214, 209, 198, 255}}
		}
	}
	return nil
}

// showScene draws damages and pieces anew.
func (w *Window) showScene() {
	leaf, ok := w.session.Leaf()
	if !ok {
		w.surface.SetScene(leafview.Scene{})
		return
	}
	scene := sceneOf(leaf, w.session.Side(), w.session.Plan(), w.session.Selected())
	scene.Proposals, scene.Grips = w.proposals, w.gripsOf(leaf)
	w.surface.SetScene(scene)
	w.surface.Select(w.session.Selected()...)
	w.beside.refresh()
}

// showView tells the zoom.
func (w *Window) showView() {
	w.status.scale(w.viewScale())
	w.beside.follow()
}

// viewScale is the zoom of the surface; 0 when there is nothing to see.
func (w *Window) viewScale() float64 {
	if !hasLeaf(w) {
		return 0
	}
	scale, _ := w.surface.View()
	return scale
}

// showPointer tells where the pointer is: in millimetres from the head-left
// corner where there is a scale, else in pixels, which says so.
func (w *Window) showPointer(at geom.Pt, inside bool) {
	w.beside.point(at, inside)
	if !inside || !hasLeaf(w) {
		w.status.at("")
		return
	}
	frame := w.surface.Scene().Frame
	if !frame.Known() {
		w.status.at(fmt.Sprintf("%.0f, %.0f px · %s", at.X, at.Y, t("no scale")))
		return
	}
	mm := frame.ToMM(at)
	w.status.at(unitsOf(w.session.Job()).Size(mm.X, mm.Y))
}

// pickTool takes a tool in hand.
func (w *Window) pickTool(id leafview.ToolID) {
	w.showStage(stageTrace)
	w.surface.SetTool(id)
	w.refreshCommands()
	w.focusSurface()
	if id == leafview.NoteTool {
		w.askNoted()
	}
}

// surfaceBusy reports whether a shape may be under the hand, with a last
// point to take back.
func (w *Window) surfaceBusy() bool {
	tool := w.surface.Tool()
	return hasLeaf(w) && w.stage == stageTrace && tool != leafview.SelectTool && tool != leafview.PanTool
}

// pickPiece takes the damage of a piece in hand.
func (w *Window) pickPiece(label string) {
	for _, p := range w.session.Plan().Pieces {
		if p.Label == label {
			w.session.Select(p.Damage)
			w.side.showDetails()
			w.status.say(t("Piece %s: %s, on the %s.", p.Label, unitsOf(w.session.Job()).Size(p.BlankLengthMM, p.BlankWidthMM), sideShort(p.Side)))
		}
	}
}

// contextMenu offers what can be done with what lies under the pointer.
func (w *Window) contextMenu(at fyne.Position, _ geom.Pt) {
	ids := []string{"fit", "flip", "scale-points", "find-outline"}
	if hasDamage(w) {
		ids = []string{"style", "mend-side", "tissue", "no-mend", "", "zoom-chosen", "copy-details", "paste-details", "", "delete"}
	}
	w.popUp(at, ids)
}
