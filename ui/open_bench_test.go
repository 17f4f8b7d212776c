package ui

import (
	"context"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"leafmend/mendplan"
	"leafmend/sampledata"
)

// aside stands for the planner while only the window's own work is measured:
// in the program, planning runs beside it.
type aside struct{}

func (aside) pieces(mendplan.Job) ([]mendplan.Piece, []mendplan.Problem) { return nil, nil }

func (aside) finish(context.Context, mendplan.Search, mendplan.Job, []mendplan.Piece, []mendplan.Problem) mendplan.Plan {
	return mendplan.Plan{}
}

// BenchmarkOpeningAJobOfTwoHundredLeaves measures all that the user waits for
// before the window can be used: reading the file, and every panel shown.
// Scans, thumbnails and the plan come after.
func BenchmarkOpeningAJobOfTwoHundredLeaves(b *testing.B) {
	path := filepath.Join(b.TempDir(), "large.leafmend")
	data, err := fs.ReadFile(sampledata.Files(), "programme.leafmend")
	if err == nil {
		err = os.WriteFile(path, data, 0o644)
	}
	if err != nil {
		b.Fatal(err)
	}
	sample, _, err := mendplan.LoadFile(path)
	if err != nil {
		b.Fatal(err)
	}
	if err := mendplan.SaveFile(path, timesOver(sample, 40)); err != nil {
		b.Fatal(err)
	}
	app := test.NewTempApp(b)
	win := test.NewTempWindow(b, nil)
	w := build(app, win, Options{}, worker{inPlace: true})
	win.Resize(fyne.NewSize(1280, 800))
	w.session.planner = aside{}
	for b.Loop() {
		j, problems, err := mendplan.LoadFile(path)
		if err != nil || len(j.Leaves) != 200 {
			b.Fatalf("%d leaves, %v", len(j.Leaves), err)
		}
		w.session.Take(j, "", problems)
		w.showLook()
	}
}

// timesOver is a job with its leaves n times over, without scans.
func timesOver(j mendplan.Job, n int) mendplan.Job {
	out := j
	out.Leaves, out.Gatherings = nil, nil
	for k := range n {
		for _, l := range j.Leaves {
			l.ID = fmt.Sprintf("%s%d", l.ID, k)
			l.Front.Scan.Path, l.Back.Scan.Path = "", ""
			l.Damages = slices.Clone(l.Damages)
			for i := range l.Damages {
				out.LastNumber++
				l.Damages[i].Number, l.Damages[i].Mends = out.LastNumber, nil
			}
			out.Leaves = append(out.Leaves, l)
		}
	}
	return out
}
