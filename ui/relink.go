package ui

import (
	"context"
	"path/filepath"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/scan"
)

// scansFound takes what a look at the scans of the job on the disk told, in
// place of what an earlier look did, and offers once for each job to look for
// missing ones.
func (w *Window) scansFound(found []mendplan.Problem) {
	s := w.session
	s.found = append(slices.DeleteFunc(slices.Clone(s.found), aboutFile), found...)
	s.planChanged.emit()
	w.leaves.list.Refresh()
	w.refreshCommands()
	if missing := len(mendplan.MissingScans(s.Job(), s.base)); missing > 0 && s.path != "" && w.relinkOffered != s.path && !w.asking() {
		w.relinkOffered = s.path
		w.offerRelink(missing)
	}
}

// aboutFile reports whether a problem is about the file of a scan.
func aboutFile(p mendplan.Problem) bool {
	return p.Kind == mendplan.ScanMissing || p.Kind == mendplan.ScanChanged
}

// scanProblem is what is the matter with the file of a side's scan; "" when
// nothing is.
func (w *Window) scanProblem(leaf string, side mendplan.SideName) mendplan.ProblemKind {
	for _, p := range w.session.found {
		if aboutFile(p) && p.Leaf == leaf && (side == "" || p.Side == side) {
			return p.Kind
		}
	}
	return ""
}

// scansMissing reports whether the last look missed a scan.
func scansMissing(w *Window) bool {
	return slices.ContainsFunc(w.session.found, func(p mendplan.Problem) bool { return p.Kind == mendplan.ScanMissing })
}

// offerRelink says once how many scans are missing and offers to look.
func (w *Window) offerRelink(missing int) {
	words := widget.NewLabel(t("%d of %d scans were not found. Perhaps their folder was moved or renamed: point to it, and they are looked for there by their contents and names. The traces are kept in any case.",
		missing, len(w.session.Job().ScanPlaces())))
	words.Wrapping = fyne.TextWrapWord
	w.confirm(t("Scans not found"), t("Find moved scans…"), t("Work without them"), words, fyne.NewSize(500, 210), func(yes bool) {
		if yes {
			w.findMoved()
		}
	})
}

// findMoved asks for a folder to look in.
func (w *Window) findMoved() {
	w.choose(choosing{title: t("Where are the scans now?"), verb: t("Look in this folder"), suffix: mendplan.PictureSuffixes, folder: true},
		func(paths []string) { w.searchMoved(paths[0]) })
}

// searchMoved looks aside for the missing scans in a folder and those in it.
func (w *Window) searchMoved(folder string) {
	ctx, stop := context.WithCancel(context.Background())
	job, base := w.session.Job(), w.session.base
	var links []mendplan.Relink
	whole := true
	w.status.begin(t("Looking for the scans"), stop)
	w.work.start(func() (err error) {
		missing := mendplan.MissingScans(job, base)
		links, whole, err = mendplan.FindMoved(ctx, job, base, missing, folder, scan.SizeOf, func(share float64) {
			w.work.report(func() { w.status.done(share) })
		})
		return err
	}, func(err error) {
		w.status.end()
		stopped := ctx.Err() != nil
		stop()
		switch {
		case stopped:
			w.status.say(t("Stopped; no scan was named anew."))
		case err != nil:
			w.tellError(err)
		case len(links) == 0:
			w.status.say(t("All scans are where the job names them."))
		default:
			w.relinkTable(links, folder, whole)
		}
	})
}

// takeRelinks names the scans accepted anew, as one step, and looks at them
// again: a file that is not what the traces were drawn on is told.
func (w *Window) takeRelinks(links []mendplan.Relink) {
	n, changed := 0, 0
	for _, l := range links {
		if l.Found != "" {
			n++
			if l.Changed && !l.After {
				changed++
			}
		}
	}
	if n == 0 {
		return
	}
	w.session.Do("find moved scans", w.session.Job().Relinked(w.session.base, links))
	words := t("Found again: %d scans.", n)
	if changed > 0 {
		words += " " + t("%d of them are not the files the damages were traced on: compare the traces with the picture.", changed)
	}
	w.status.say(words)
	w.checkScans()
}

// droppedForMissing takes a folder or a picture dropped while scans are
// missing as where they are; false when it is to be taken as always.
func (w *Window) droppedForMissing(paths []string) bool {
	if len(paths) != 1 || !scansMissing(w) {
		return false
	}
	folder := paths[0]
	if hasSuffix(folder, mendplan.PictureSuffixes) {
		folder = filepath.Dir(folder)
	}
	words := widget.NewLabel(t("Scans of this job are missing. Look for them in %s, or add what was dropped as new leaves?", filepath.Base(folder)))
	words.Wrapping = fyne.TextWrapWord
	w.confirm(t("Scans not found"), t("Look for them there"), t("Add as new leaves"), words, fyne.NewSize(480, 190), func(yes bool) {
		if yes {
			w.searchMoved(folder)
		} else {
			w.addScans(paths)
		}
	})
	return true
}

// tracedOnOther takes another file for the side in hand whose damages were
// traced on an earlier one: the file is named and what is recorded of the
// earlier stays, so that the traces are compared before they are used. It
// reports false when nothing hangs on the earlier file.
func (w *Window) tracedOnOther(now mendplan.Scan) bool {
	leaf, ok := w.session.Leaf()
	name := w.session.Side()
	was := leaf.SideOf(name).Scan
	traced := slices.ContainsFunc(leaf.Damages, func(d mendplan.Damage) bool { return d.Side == name })
	if !ok || !traced || was.SHA256 == "" {
		return false
	}
	link := mendplan.Relink{ScanPlace: mendplan.ScanPlace{Leaf: leaf.ID, Side: name, Scan: was}, Found: w.session.scanPath(now), Changed: was.SHA256 != now.SHA256}
	w.session.Do("choose scan", w.session.Job().Relinked(w.session.base, []mendplan.Relink{link}))
	w.checkScans()
	if link.Changed {
		w.checkChanged()
	}
	return true
}
