package ui

import (
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/pdf"
	"leafmend/mendplan/scan"
	"leafmend/ui/leafview"
)

// movedPage writes a picture of a page with some print, drawn through change,
// which maps the plain page's pixels to the picture's.
func movedPage(t *testing.T, path string, w, h int, change geom.Affine, print int) {
	t.Helper()
	back, err := change.Inverse()
	if err != nil {
		t.Fatal(err)
	}
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			p := back.Apply(geom.Pt{X: float64(x) + 0.5, Y: float64(y) + 0.5})
			c := color.RGBA{24, 24, 26, 255}
			if p.X >= 40 && p.X < 434 && p.Y >= 40 && p.Y < 512 && !(p.X > 380 && p.Y > 470) {
				c = color.RGBA{232, 224, 204, 255}
				if u, v := int(p.X-80)/60, int(p.Y-90)/70; p.X > 80 && p.X < 380 && p.Y > 90 && p.Y < 440 && (u*7+v*5+u*v*print)%3 == 0 {
					c = color.RGBA{70, 70, 80, 255}
				}
			}
			img.SetRGBA(x, y, c)
		}
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
}

// tracedJob opens a saved job of one leaf with a tear, its scan in a folder
// beside it.
func tracedJob(t *testing.T) (w *Window, job, scan string, tear int) {
	t.Helper()
	w = testWindow(t)
	dir := t.TempDir()
	scan, job = filepath.Join(dir, "scans", "1r.png"), filepath.Join(dir, "job.leafmend")
	movedPage(t, scan, 474, 552, geom.Identity(), 1)
	w.addScans([]string{scan})
	w.session.EditSide("set scale", func(s mendplan.Side) mendplan.Side {
		s.Calibration = mendplan.Calibration{Origin: mendplan.FromTwoPoints, MMPerPxX: 0.254, MMPerPxY: 0.254, DoubtPercent: 0.1, Words: "two points"}
		return s
	})
	if !w.applyEdit(leafview.Add{Kind: leafview.Tear, Points: []geom.Pt{{X: 300, Y: 200}, {X: 360, Y: 220}, {X: 434, Y: 210}}}) {
		t.Fatal("no tear was traced")
	}
	tear = w.session.Selected()[0]
	w.writeJob(job, nil)
	t.Cleanup(func() { w.keepLock(nil) })
	return w, job, scan, tear
}

func TestMissingScansAreOfferedOnceAndFoundInAFolder(t *testing.T) {
	w, job, scan, _ := tracedJob(t)
	away := filepath.Join(filepath.Dir(job), "elsewhere", "deep", "renamed.png")
	if err := os.MkdirAll(filepath.Dir(away), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(scan, away); err != nil {
		t.Fatal(err)
	}
	w.openPath(job)
	if len(w.dialogs) != 1 || !scansMissing(w) {
		t.Fatalf("%d dialogs for one missing scan, missing %v", len(w.dialogs), scansMissing(w))
	}
	w.closeDialog()
	w.checkScans()
	if w.asking() {
		t.Error("the offer came a second time")
	}
	w.searchMoved(filepath.Join(filepath.Dir(job), "elsewhere"))
	if len(w.dialogs) != 1 {
		t.Fatalf("no table of what was found: %s", w.status.words.Text)
	}
	w.closeDialog() // looked at and left: nothing is named anew
	if !scansMissing(w) {
		t.Error("a table that was left has named scans anew")
	}
	w.takeRelinks(proposeAll(t, w, filepath.Dir(away)))
	if scansMissing(w) || w.session.scanPath(mustLeaf(t, w).Front.Scan) != away {
		t.Errorf("the scan is named %s", mustLeaf(t, w).Front.Scan.Path)
	}
	if changedHere(w) {
		t.Error("the same bytes are told as changed")
	}
	w.undo()
	if !scansMissing(w) {
		t.Error("relinking was not one step, or undone it is not looked at again")
	}
}

func proposeAll(t *testing.T, w *Window, folder string) []mendplan.Relink {
	t.Helper()
	missing := mendplan.MissingScans(w.session.Job(), w.session.base)
	links, _, err := mendplan.FindMoved(t.Context(), w.session.Job(), w.session.base, missing, folder, scan.SizeOf, nil)
	if err != nil || len(links) == 0 {
		t.Fatal(links, err)
	}
	return links
}

func TestAFolderDroppedWhileScansAreMissingMayBeWhereTheyAre(t *testing.T) {
	w, job, scan, _ := tracedJob(t)
	if err := os.Rename(scan, filepath.Join(filepath.Dir(job), "1r.png")); err != nil {
		t.Fatal(err)
	}
	w.checkScans()
	for w.closeDialog() {
	}
	w.dropped(fyne.NewPos(9, 9), []fyne.URI{storage.NewFileURI(filepath.Dir(job))})
	if len(w.dialogs) != 1 || len(w.session.Job().Leaves) != 1 {
		t.Error("the drop was not asked about")
	}
}

func TestAScanChosenByHandIsTakenFromNoOther(t *testing.T) {
	w := testWindow(t)
	place := func(p string) mendplan.ScanPlace {
		return mendplan.ScanPlace{Leaf: "L1", Side: mendplan.Front, Scan: mendplan.Scan{Path: p, SHA256: p}}
	}
	v := &relinkView{w: w, note: small(""), list: newStaticList(), take: []bool{true, false, false}, links: []mendplan.Relink{
		{ScanPlace: place("a"), Found: "/x/a", Sure: mendplan.SameBytes}, {ScanPlace: place("b"), Sure: mendplan.NotFound}, {ScanPlace: place("b"), Sure: mendplan.NotFound}}}
	v.chosen(1, "/x/a", "another")
	if v.links[0].Found != "" || v.take[0] || v.links[1].Found != "/x/a" || !v.links[1].Changed || v.links[2].Found != "/x/a" || !v.take[2] {
		t.Errorf("after choosing by hand: %+v", v.links)
	}
	for _, l := range append(v.links, mendplan.Relink{Sure: mendplan.Several, Others: []string{"x", "y"}}, mendplan.Relink{Sure: mendplan.NameOnly, Changed: true}) {
		if sureWords(l) == "" {
			t.Errorf("nothing says how sure %+v is", l)
		}
	}
}

func TestChangedScansAreComparedAndCarriedOver(t *testing.T) {
	half := geom.Affine{A: -1, C: 474, E: -1, F: 552}
	for _, c := range []struct {
		name   string
		w, h   int
		change geom.Affine
		print  int
		want   string // of the verdict; what is carried follows from it
	}{
		{"other bytes, same picture", 474, 552, geom.Translate(geom.Pt{X: 0.01}), 1, "fits"},
		{"twice the size", 948, 1104, geom.Scale(2, 2), 1, "moves"},
		{"upside down", 474, 552, half, 1, "moves"},
		{"a quarter turned", 552, 474, geom.Affine{B: 1, D: -1, F: 474}, 1, "moves"},
		{"a margin cut off", 440, 520, geom.Translate(geom.Pt{X: -20, Y: -22}), 1, "moves"},
		{"shifted by 30 pixels", 510, 590, geom.Translate(geom.Pt{X: 30, Y: 30}), 1, "moves"},
		{"another page", 474, 552, geom.Identity(), 2, "differs"},
	} {
		w, job, scan, tear := tracedJob(t)
		movedPage(t, scan, c.w, c.h, c.change, c.print)
		if c.want == "fits" { // the very pixels in other bytes
			movedPage(t, scan, c.w, c.h, geom.Identity(), 1)
			f, err := os.OpenFile(scan, os.O_APPEND|os.O_WRONLY, 0)
			if err != nil {
				t.Fatal(err)
			}
			_, _ = f.WriteString("more")
			_ = f.Close()
		}
		w.openPath(job)
		if !changedHere(w) {
			t.Errorf("%s: the change was not told", c.name)
			continue
		}
		if _, held := w.heldBack(); held([]pdf.Part{pdf.Templates}) == "" || held([]pdf.Part{pdf.Order}) != "" {
			t.Errorf("%s: templates are not held back, or more than they", c.name)
		}
		before := mustLeaf(t, w)
		x := &changedScan{w: w, leaf: before, side: mendplan.Front}
		if err := x.compare(t.Context(), before.Front, scan); err != nil {
			t.Fatal(err)
		}
		if got := string(x.ways[0].Verdict); got != c.want {
			t.Errorf("%s: %s, want %s: %+v", c.name, got, c.want, x.ways[0])
			continue
		}
		w.checkChanged()
		if len(w.dialogs) != 1 {
			t.Fatalf("%s: no picture to look at", c.name)
		}
		w.closeDialog()
		if got := mustLeaf(t, w); got.Front.Scan != before.Front.Scan || got.Damages[0].Points[0] != before.Damages[0].Points[0] {
			t.Errorf("%s: left without an answer, the job has changed", c.name)
		}
		if c.want == "differs" {
			continue
		}
		x.accept()
		after := mustLeaf(t, w)
		d, _ := after.Damage(tear)
		e, _ := before.Damage(tear)
		worst := 0.0
		for i, p := range e.Points {
			worst = max(worst, d.Points[i].Dist(c.change.Apply(p))*0.254/geomScale(c.change))
		}
		t.Logf("%s: traces come to lie within %.3f mm", c.name, worst)
		if worst > 0.3 || changedHere(w) || after.Front.Scan.Width != c.w {
			t.Errorf("%s: off by %.2f mm, still told as changed %v", c.name, worst, changedHere(w))
		}
		if _, held := w.heldBack(); held([]pdf.Part{pdf.Templates}) != "" {
			t.Errorf("%s: answered, and still held back", c.name)
		}
		w.undo()
		if !changedHere(w) {
			t.Errorf("%s: undone, the change is no longer told", c.name)
		}
		w.keepLock(nil)
	}
}

func TestAnotherFileForATracedSideIsComparedBeforeItIsUsed(t *testing.T) {
	w, _, scan, _ := tracedJob(t)
	before := mustLeaf(t, w)
	other := filepath.Join(filepath.Dir(scan), "other.png")
	movedPage(t, other, 474, 552, geom.Identity(), 2)
	n := w.lookAt(t.Context(), other)
	n.side.Scan.Path = w.session.namedScan(other)
	if !w.tracedOnOther(n.side.Scan) || !changedHere(w) || len(w.dialogs) != 1 {
		t.Error("another file took the traces without a word")
	}
	if got := mustLeaf(t, w).Front.Scan; got.SHA256 != before.Front.Scan.SHA256 || !strings.HasSuffix(got.Path, "other.png") {
		t.Errorf("the record is %+v", got)
	}
}
