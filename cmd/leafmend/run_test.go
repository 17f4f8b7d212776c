package main

import (
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"leafmend/ui"
)

// looped is a window whose loop does what a test wants.
type looped struct {
	fyne.Window
	loop func()
}

// ShowAndRun implements [fyne.Window].
func (l looped) ShowAndRun() {
	l.Show()
	l.loop()
}

// scanned writes a picture that becomes a leaf of a new job.
func scanned(t *testing.T) string {
	t.Helper()
	img := image.NewGray(image.Rect(0, 0, 300, 400))
	for y := 30; y < 370; y++ {
		for x := 30; x < 270; x++ {
			img.SetGray(x, y, color.Gray{230})
		}
	}
	path := filepath.Join(t.TempDir(), "leaf.png")
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

func TestHoweverTheLoopEndsTheWorkIsKept(t *testing.T) {
	for _, c := range []struct {
		name   string
		end    func(fyne.App)
		well   bool
		report bool
	}{
		{"by a panic", func(fyne.App) { panic("no way to draw this") }, false, true},
		{"because the system asks", func(fyne.App) {}, true, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			// The test driver has no goroutine of its own: what work aside
			// hands back runs beside the rest, and once in many runs that
			// falls over before the end that is tried here.
			var faults []string
			for range 3 {
				if faults = endsSo(t, c.end, c.well, c.report); len(faults) == 0 {
					return
				}
				t.Log(faults)
			}
			t.Error(faults)
		})
	}
}

// endsSo opens the window on a scan, ends its loop once the scan is unsaved
// work, and tells what is not as it should be after that.
func endsSo(t *testing.T, end func(fyne.App), wantWell, wantReport bool) (faults []string) {
	t.Helper()
	fault := func(format string, values ...any) { faults = append(faults, fmt.Sprintf(format, values...)) }
	root := t.TempDir()
	app := test.NewTempApp(t)
	opt := ui.Options{Version: "9.9", Files: []string{scanned(t)}, Recovery: filepath.Join(root, "recovery")}
	opt.Keep(root)
	win := looped{Window: test.NewTempWindow(t, nil)}
	win.loop = func() {
		changed := false
		look := func() { changed = strings.HasPrefix(win.Title(), "•") }
		for begin := time.Now(); !changed; time.Sleep(10 * time.Millisecond) {
			fyne.DoAndWait(look)
			if time.Since(begin) > 20*time.Second {
				fault("the scan did not become a leaf")
				break
			}
		}
		end(app)
	}
	if well := run(app, win, opt); well != wantWell {
		fault("ended well: %v", well)
	}
	if copies, _ := filepath.Glob(filepath.Join(root, "recovery", "*.leafmend")); len(copies) != 1 {
		fault("recovery copies: %v", copies)
	}
	again := ui.Options{Version: "9.9"}
	again.Keep(root)
	defer again.Watched.Done()
	reports := again.Watched.Reports()
	if (len(reports) == 1) != wantReport || again.Watched.LastRun().Fault != wantReport {
		fault("reports %v, told as %+v", reports, again.Watched.LastRun())
	}
	for _, report := range reports {
		data, err := os.ReadFile(report)
		if err != nil || !strings.Contains(string(data), "no way to draw this") || !strings.Contains(string(data), "leafmend/run_test.go:") {
			fault("the report says %v\n%s", err, data)
		}
	}
	return faults
}
