package ui

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"leafmend/mendplan"
	"leafmend/mendplan/scan"
	"leafmend/sampledata"
	"leafmend/ui/leafview"
)

// keptWindow is a window whose log and reports are kept in a folder.
func keptWindow(t *testing.T, root string) *Window {
	t.Helper()
	app := test.NewTempApp(t)
	win := test.NewTempWindow(t, nil)
	opt := Options{Version: "9.9", Recovery: filepath.Join(root, "recovery")}
	opt.Keep(root)
	t.Cleanup(func() { opt.Journal.Close() })
	w := build(app, win, opt, worker{inPlace: true})
	win.Resize(fyne.NewSize(1280, 800))
	w.newJob()
	return w
}

// kept reads all that log and reports in a folder hold.
func kept(t *testing.T, root string) string {
	t.Helper()
	var all strings.Builder
	for _, pattern := range []string{"log/*", "crash/*"} {
		files, err := filepath.Glob(filepath.Join(root, pattern))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			data, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			all.Write(data)
		}
	}
	return all.String()
}

func TestNothingPersonalIsInLogReportOrDetails(t *testing.T) {
	home := filepath.Join(t.TempDir(), "Adelheid Krumbiegel")
	t.Setenv("HOME", home)
	root := t.TempDir()
	w := keptWindow(t, root)
	w.Started()
	odd := filepath.Join(t.TempDir(), "Nachlass Mühlhäuser, Käthe", "Lieder: “Heft 2” & Söhne")
	if err := unpack(sampledata.Files(), odd); err != nil {
		t.Fatal(err)
	}
	jobs, _ := filepath.Glob(filepath.Join(odd, "*"+mendplan.FileSuffix))
	scans, _ := filepath.Glob(filepath.Join(odd, "*.jpg"))
	if len(jobs) != 1 {
		t.Fatalf("jobs %v", jobs)
	}
	job := filepath.Join(odd, "Gebührenheft (privat).leafmend")
	if err := os.Rename(jobs[0], job); err != nil {
		t.Fatal(err)
	}
	w.openPath(job)
	t.Cleanup(func() { w.keepLock(nil) })
	j := w.session.Job()
	j.Title, j.Owner, j.Leaves[0].Name = "Wiegenlieder für Hedwig", "Freifrau Hedwig von Sonnborn", "Widmungsblatt"
	w.session.Do("name the job", j)
	w.settings.SetPerson("Adalbert Quirin")
	w.save(nil)
	strange := filepath.Join(odd, "Brief an Quirin 3.tif")
	if err := os.WriteFile(strange, []byte("II*\x00 cut short"), 0o600); err != nil {
		t.Fatal(err)
	}
	var details []string
	trouble := func(err error) {
		if err == nil {
			t.Error("there was to be an error")
		}
		w.tellError(err)
		details = append(details, w.details(err))
		w.closeDialog()
	}
	_, err := scan.Inspect(strange)
	trouble(err)
	_, err = scan.Inspect(filepath.Join(odd, "gone", "Seite Hedwig.png"))
	trouble(err)
	_, _, err = mendplan.LoadFile(strange)
	trouble(err)
	_, _, err = mendplan.LoadFile(filepath.Join(odd, "none.leafmend"))
	trouble(err)
	trouble(mendplan.SaveFile(filepath.Join(odd, "no such folder", "Quirin.leafmend"), j))
	_, err = mendplan.ChecksumFile(odd)
	trouble(err)
	_, err = os.Open(filepath.Join(odd, "Sonnborn"))
	trouble(fmt.Errorf("looking for Sonnborn: %w", err))
	_, err = os.ReadFile(filepath.Join(home, "letters"))
	trouble(fmt.Errorf("in the home of adelheid: %w", err))
	trouble(errors.Join(os.Rename(filepath.Join(odd, "a"), filepath.Join(odd, "b")), os.Remove(filepath.Join(odd, "Privates Bündel"))))
	w.act("print", func() { w.writePDF(filepath.Join(odd, "missing", "Hedwig.pdf"), w.session.Job(), nil, false) })
	details = append(details, w.details(nil))
	w.closeDialog()
	w.act("made to fail", func() { panic("cannot draw " + scans[0] + " of Hedwig von Sonnborn") })
	w.closeDialog()
	w.Ended()
	all := kept(t, root) + strings.Join(details, "\n")
	if len(scans) == 0 || !strings.Contains(all, "msg=opened") || !strings.Contains(all, "msg=saved") || strings.Count(all, "msg=failed") < 8 || !strings.Contains(all, "a panic was caught") {
		t.Fatalf("the log does not tell what was done:\n%.3000s", all)
	}
	names := []string{home, "Adelheid", "Krumbiegel", "Hedwig", "Sonnborn", "Freifrau", "Wiegenlieder", "Widmungsblatt", "Adalbert", "Quirin", "Privates", "Bündel", "Gebührenheft", "Mühlhäuser", "Käthe", "Nachlass", "Lieder:", "Söhne", odd, root}
	for _, s := range scans {
		names = append(names, strings.TrimSuffix(filepath.Base(s), ".jpg"))
	}
	if host, err := os.Hostname(); err == nil && len(host) > 3 {
		names = append(names, host)
	}
	low := strings.ToLower(all)
	for _, n := range names {
		if i := strings.Index(low, strings.ToLower(n)); i >= 0 {
			t.Errorf("%q stands in …%s…", n, low[max(0, i-120):min(len(low), i+120)])
		}
	}
}

func TestDetailsTellWhatHelps(t *testing.T) {
	w := keptWindow(t, t.TempDir())
	w.logStart()
	w.Started()
	w.Run("stage-stock")
	_, _, err := mendplan.LoadFile(filepath.Join(t.TempDir(), "none.leafmend"))
	w.tellError(err)
	copied := false
	for _, o := range w.win.Canvas().Overlays().List() {
		for _, b := range test.LaidOutObjects(o) {
			if b, ok := b.(*answerButton); ok && b.Text == "Copy details" {
				test.Tap(b)
				copied = true
			}
		}
	}
	if !copied {
		t.Fatal("the dialog has no button that copies details")
	}
	got := w.app.Clipboard().Content()
	for _, want := range []string{"Leafmend 9.9", runtime.GOOS + "/" + runtime.GOARCH, "language: en", "last command: stage-stock", "*mendplan.FileError", "there is no such file", "no such file or directory", "msg=start", "msg=failed"} {
		if !strings.Contains(got, want) {
			t.Errorf("the details do not say %q:\n%s", want, got)
		}
	}
	w.closeDialog()
	if !w.Run("copy-support") || strings.Contains(w.app.Clipboard().Content(), "error:\n") {
		t.Error("the command does not copy details without an error")
	}
}

func TestAPanicInAnActIsToldAndTheWorkKept(t *testing.T) {
	root := t.TempDir()
	w := keptWindow(t, root)
	withLeaf(t, w)
	if w.command("last-report").can(w) {
		t.Error("there is a report before anything happened")
	}
	w.command("about").run = func(*Window) { var m map[string]int; m["x"] = 1 }
	w.Run("about")
	if len(w.dialogs) != 1 || !strings.Contains(w.status.outcome, "made a mistake") {
		t.Errorf("%d dialogs; the status line says %q", len(w.dialogs), w.status.outcome)
	}
	w.surface.OnEdit(leafview.Add{Kind: "no such kind", Points: nil})
	w.closeDialog()
	if copies, _ := filepath.Glob(filepath.Join(root, "recovery", "*"+mendplan.FileSuffix)); len(copies) != 1 {
		t.Errorf("recovery copies: %v", copies)
	}
	if report := kept(t, root); !strings.Contains(report, "assignment to entry in nil map") || !strings.Contains(report, "ui/support_test.go:") {
		t.Errorf("the report says\n%s", report)
	}
	if !w.command("last-report").can(w) || !w.Run("last-report") || len(w.dialogs) != 1 {
		t.Error("the report cannot be seen")
	}
	w.closeDialog()
	trace(t, w) // work goes on
	w.quit()
	w.Ended()
	if left, _ := filepath.Glob(filepath.Join(root, "crash", "*.running")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

func TestAskedToEndTheWorkIsKeptAndTheJobFree(t *testing.T) {
	root := t.TempDir()
	w := keptWindow(t, root)
	withSample(t, w)
	lock := mendplan.LockPath(w.session.Path())
	w.changeForTest()
	w.Ended()
	if copies, _ := filepath.Glob(filepath.Join(root, "recovery", "*"+mendplan.FileSuffix)); len(copies) != 1 {
		t.Errorf("recovery copies: %v", copies)
	}
	if _, err := os.Stat(lock); err == nil {
		t.Error("the job is still locked")
	}
	if left, _ := filepath.Glob(filepath.Join(root, "crash", "*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

// changeForTest makes work that is not saved.
func (w *Window) changeForTest() {
	j := w.session.Job()
	j.Notes = "changed"
	w.session.Do("note", j)
}

func TestTheNextStartTellsOfACrash(t *testing.T) {
	for _, c := range []struct {
		name, said string
		dialogs    int
	}{
		{"a fault of the program is told in a dialog", "panic: no way on\n", 1},
		{"an end from outside is told in the status line", "", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			root := t.TempDir()
			if err := os.MkdirAll(filepath.Join(root, "crash"), 0o700); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(root, "crash", "999999999.running"), []byte("Leafmend 9.8\n---\n"+c.said), 0o600); err != nil {
				t.Fatal(err)
			}
			w := keptWindow(t, root)
			w.recover.putInHand(recoveryNote{}, recovered{job: mendplan.Job{Title: "recovered"}})
			if len(w.dialogs) != c.dialogs || !strings.HasPrefix(w.status.outcome, "Recovered") {
				t.Errorf("after work was taken up: %d dialogs, %q", len(w.dialogs), w.status.outcome)
			}
			w.closeDialog()
			w.begin()
			if len(w.dialogs) != c.dialogs {
				t.Errorf("%d dialogs", len(w.dialogs))
			}
			if c.dialogs == 0 && !strings.Contains(w.status.outcome, "did not end well") {
				t.Errorf("the status line says %q", w.status.outcome)
			}
			w.closeDialog()
			if !w.Run("last-report") {
				t.Fatal("the report cannot be seen")
			}
			w.closeDialog()
			w.quit()
			w.Ended()
			again := keptWindow(t, root)
			again.begin()
			if len(again.dialogs) > 0 || strings.Contains(again.status.outcome, "did not end well") {
				t.Error("it is told a second time")
			}
		})
	}
}

func TestLanguageFollowsTheSystemUntilOneIsChosen(t *testing.T) {
	for _, c := range []struct {
		name   string
		env    map[string]string
		chosen string
		want   string
	}{
		{"nothing named", nil, "", "en"},
		{"German", map[string]string{"LANG": "de_DE.UTF-8"}, "", "de"},
		{"Swiss German", map[string]string{"LANG": "de_CH"}, "", "de"},
		{"with a dash", map[string]string{"LANG": "de-AT"}, "", "de"},
		{"LC_ALL over LANG", map[string]string{"LC_ALL": "en_GB.UTF-8", "LANG": "de_DE.UTF-8"}, "", "en"},
		{"LC_MESSAGES over LANG", map[string]string{"LC_MESSAGES": "de_DE@euro", "LANG": "en_GB.UTF-8"}, "", "de"},
		{"plain C", map[string]string{"LC_ALL": "C.UTF-8", "LANGUAGE": "de", "LANG": "de_DE.UTF-8"}, "", "en"},
		{"a list of wishes", map[string]string{"LANG": "fr_FR.UTF-8", "LANGUAGE": "fr:de:en"}, "", "de"},
		{"a language not spoken", map[string]string{"LANG": "pt_BR.UTF-8"}, "", "en"},
		{"the setting over the system", map[string]string{"LANG": "de_DE.UTF-8"}, "en", "en"},
		{"the other way round", map[string]string{"LANG": "en_US.UTF-8"}, "de", "de"},
	} {
		t.Run(c.name, func(t *testing.T) {
			app := test.NewTempApp(t)
			w := &Window{settings: settings{app.Preferences()}, opt: Options{Locale: localeOf(func(k string) string { return c.env[k] })}}
			w.settings.SetLanguage(c.chosen)
			if got := w.language(); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}
