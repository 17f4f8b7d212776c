package ui

import (
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/sampledata"
	"leafmend/ui/leafview"
)

// testWindow builds the whole window on the toolkit's test driver, with all
// work done in place.
func testWindow(t *testing.T) *Window {
	t.Helper()
	app := test.NewTempApp(t)
	win := test.NewTempWindow(t, nil)
	w := build(app, win, Options{Recovery: filepath.Join(t.TempDir(), "recovery")}, worker{inPlace: true})
	win.Resize(fyne.NewSize(1280, 800))
	w.newJob()
	return w
}

// writeScan writes a picture of a light leaf on a dark ground, 100 × 120 mm of
// paper at 100 ppi, and returns its path. PNG states no resolution here.
func writeScan(t *testing.T, dir, name string) string {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, 474, 552))
	for y := range 552 {
		for x := range 474 {
			c := color.RGBA{24, 24, 26, 255}
			if x >= 40 && x < 434 && y >= 40 && y < 512 {
				c = color.RGBA{232, 224, 204, 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	path := filepath.Join(dir, name)
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
	return path
}

// withLeaf adds a leaf of 394 × 472 pixels at 100 ppi, calibrated.
func withLeaf(t *testing.T, w *Window) {
	t.Helper()
	j := w.session.Job()
	scale := mendplan.Calibration{Origin: mendplan.FromTwoPoints, MMPerPxX: 0.254, MMPerPxY: 0.254, DoubtPercent: 0.1, Words: "two points"}
	side := mendplan.Side{Scan: mendplan.Scan{Path: "none.png", Width: 1000, Height: 1200}, Calibration: scale}
	leaf := mendplan.Leaf{ID: j.FreshLeafID(), Mark: freshMark(j), Kind: mendplan.SingleLeaf, Front: side, Back: side}
	w.session.Do("add leaf", j.WithLeaf(leaf))
	w.session.Show(leaf.ID, mendplan.Front)
}

// trace records a tear from inside the leaf to its right edge.
func trace(t *testing.T, w *Window) int {
	t.Helper()
	ok := w.applyEdit(leafview.Add{Kind: leafview.Tear, Points: []geom.Pt{{X: 700, Y: 500}, {X: 850, Y: 540}, {X: 1000, Y: 520}}})
	refs := w.session.Selected()
	if !ok || len(refs) != 1 {
		t.Fatalf("tracing chose %v", refs)
	}
	return refs[0]
}

// newStaticList is a list without rows.
func newStaticList() *keyList {
	return newList(func() int { return 0 }, func() fyne.CanvasObject { return widget.NewLabel("") }, func(int, fyne.CanvasObject) {})
}

// withSample opens the sample job, unpacked into a folder of the test's own,
// so that tests running side by side do not find it locked.
func withSample(t *testing.T, w *Window) {
	t.Helper()
	dir := t.TempDir()
	if err := unpack(sampledata.Files(), dir); err != nil {
		t.Fatal(err)
	}
	jobs, err := filepath.Glob(filepath.Join(dir, "*"+mendplan.FileSuffix))
	if err != nil || len(jobs) != 1 {
		t.Fatalf("the sample has the jobs %v: %v", jobs, err)
	}
	w.openPath(jobs[0])
	t.Cleanup(func() { w.keepLock(nil) })
}
