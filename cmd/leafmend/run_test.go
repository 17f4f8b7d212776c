package main

import (
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
	"leafmend/ui/oneloop"
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
			root := t.TempDir()
			was := fyne.CurrentApp()
			app, events := oneloop.NewApp()
			t.Cleanup(func() { fyne.SetCurrentApp(was) })
			opt := ui.Options{Version: "9.9", Files: []string{scanned(t)}, Recovery: filepath.Join(root, "recovery")}
			opt.Keep(root)
			win := looped{Window: test.NewTempWindow(t, nil)}
			win.loop = func() {
				late := time.After(time.Minute)
				for !strings.HasPrefix(win.Title(), "•") {
					select {
					case f := <-events:
						f()
						continue
					case <-late:
						t.Error("the scan did not become a leaf")
					}
					break
				}
				c.end(app)
			}
			if well := run(app, win, opt); well != c.well {
				t.Errorf("ended well: %v", well)
			}
			if copies, _ := filepath.Glob(filepath.Join(root, "recovery", "*.leafmend")); len(copies) != 1 {
				t.Errorf("recovery copies: %v", copies)
			}
			again := ui.Options{Version: "9.9"}
			again.Keep(root)
			defer again.Watched.Done()
			reports := again.Watched.Reports()
			if (len(reports) == 1) != c.report || again.Watched.LastRun().Fault != c.report {
				t.Fatalf("reports %v, told as %+v", reports, again.Watched.LastRun())
			}
			if c.report {
				data, err := os.ReadFile(reports[0])
				if err != nil || !strings.Contains(string(data), "no way to draw this") || !strings.Contains(string(data), "leafmend/run_test.go:") {
					t.Errorf("the report says %v\n%s", err, data)
				}
			}
		})
	}
}
