package ui

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"

	"leafmend/mendplan"
)

// remedyFinder tries out, one problem after the other and aside, which acts
// resolve the problems that are listed.
type remedyFinder struct {
	w      *Window
	wanted []wantedRemedy
	busy   bool
	known  map[string][]mendplan.Resolution
}

type wantedRemedy struct {
	pr  mendplan.Problem
	box *fyne.Container
}

// want has the acts that resolve a problem put into box when they are found.
func (f *remedyFinder) want(pr mendplan.Problem, box *fyne.Container) {
	f.wanted = append(f.wanted, wantedRemedy{pr, box})
	f.next()
}

// drop forgets what was wanted for boxes that are shown no more.
func (f *remedyFinder) drop(gone *fyne.Container) {
	f.wanted = slices.DeleteFunc(f.wanted, func(a wantedRemedy) bool {
		return slices.Contains(gone.Objects, fyne.CanvasObject(a.box))
	})
}

func (f *remedyFinder) next() {
	if f.busy || len(f.wanted) == 0 {
		return
	}
	ask := f.wanted[0]
	f.wanted = f.wanted[1:]
	key := fmt.Sprint(ask.pr.Kind, ask.pr.Leaf, ask.pr.Damage, ask.pr.Joins, f.w.session.rev)
	if all, ok := f.known[key]; ok {
		f.fill(ask, all)
		f.next()
		return
	}
	f.busy = true
	job, look, rev := f.w.session.Job(), f.w.lookNow(), f.w.session.rev
	var all []mendplan.Resolution
	f.w.work.start(func() error {
		all = job.Resolutions(look, ask.pr)
		return nil
	}, func(err error) {
		f.busy = false
		if rev == f.w.session.rev && err == nil {
			f.remember(key, all)
		}
		f.fill(ask, all)
		f.next()
	})
}

// mostKnown bounds what is remembered; it is of one revision mostly.
const mostKnown = 400

func (f *remedyFinder) remember(key string, all []mendplan.Resolution) {
	if f.known == nil || len(f.known) >= mostKnown {
		f.known = map[string][]mendplan.Resolution{}
	}
	f.known[key] = all
}

func (f *remedyFinder) fill(ask wantedRemedy, all []mendplan.Resolution) {
	for _, x := range all {
		words := say(x.Words)
		ask.box.Add(f.w.actRow(sentenceCase(words), func() { f.w.resolve(ask.pr, words) }))
	}
}
