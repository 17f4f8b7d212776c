package ui

import (
	"reflect"
	"slices"

	"leafmend/mendplan"
)

// planInput is what of a job a plan follows from: the job without the record
// of the work and without what names things only. Planning is costly, and a
// step recorded or a piece ticked off changes no piece.
func planInput(j mendplan.Job) mendplan.Job {
	j.Title, j.Number, j.Owner, j.Notes = "", "", "", ""
	j.Steps, j.OwnSteps, j.Recipes, j.Batches, j.Samples, j.Orders = nil, nil, nil, nil, nil, nil
	j.Press, j.Examination, j.StopList, j.StartDate, j.LastStep = mendplan.PressRoom{}, mendplan.Examination{}, nil, "", 0
	j.Leaves = slices.Clone(j.Leaves)
	for i := range j.Leaves {
		l := &j.Leaves[i]
		l.Note, l.Mended, l.PiecesOn, l.EdgesTrimmed = "", false, nil, nil
		l.Front.After, l.Back.After = mendplan.Scan{}, mendplan.Scan{}
	}
	return j
}

// replanIfNeeded has the job planned when what a plan follows from is another
// than at the last time.
func (s *Session) replanIfNeeded() {
	now := planInput(s.Job())
	if s.planned != nil && reflect.DeepEqual(*s.planned, now) {
		return
	}
	s.planned = &now
	s.replan()
}
