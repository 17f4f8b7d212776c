package main

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// program is the real program on a display, driven by real events.
type program struct {
	t    *testing.T
	exe  string
	home string
	cmd  *exec.Cmd
	log  *bytes.Buffer
}

// needsWindow skips where there is no display to show a window on, unless the
// test was asked for.
func needsWindow(t *testing.T) {
	t.Helper()
	must := os.Getenv("LEAFMEND_WINDOW") == "must"
	if os.Getenv("DISPLAY") == "" && !must {
		t.Skip("there is no display to show the window on; `go run ./cmd/dev test` makes one")
	}
	if _, err := exec.LookPath("xdotool"); err != nil {
		if must {
			t.Fatal("xdotool is needed to press keys and buttons")
		}
		t.Skip("xdotool, which presses keys and buttons, is not installed")
	}
}

func build(t *testing.T) string {
	t.Helper()
	exe := filepath.Join(t.TempDir(), "leafmend")
	if out, err := exec.Command("go", "build", "-o", exe, ".").CombinedOutput(); err != nil {
		t.Fatalf("building: %v\n%s", err, out)
	}
	return exe
}

// start runs the program with a home of its own and waits for its window.
func (p *program) start(args ...string) {
	p.t.Helper()
	p.log = new(bytes.Buffer)
	p.cmd = exec.Command(p.exe, args...)
	p.cmd.Env = append(os.Environ(), "HOME="+p.home, "XDG_CONFIG_HOME="+filepath.Join(p.home, ".config"),
		"XDG_CACHE_HOME="+filepath.Join(p.home, ".cache"), "FYNE_SCALE=1", "LANG=en_GB.UTF-8", "FYNE_THEME=light")
	p.cmd.Stdout, p.cmd.Stderr = p.log, p.log
	if err := p.cmd.Start(); err != nil {
		p.t.Fatal(err)
	}
	p.t.Cleanup(func() { p.cmd.Process.Kill() })
	p.until("the window", func() bool {
		out, err := exec.Command("xdotool", "search", "--name", "Leafmend").Output()
		return err == nil && len(bytes.TrimSpace(out)) > 0
	})
	time.Sleep(3 * time.Second) // the first scan is read and drawn
}

// do presses keys and buttons, and leaves the program time to answer.
func (p *program) do(args ...string) {
	p.t.Helper()
	if out, err := exec.Command("xdotool", args...).CombinedOutput(); err != nil {
		p.t.Fatalf("xdotool %v: %v\n%s", args, err, out)
	}
	time.Sleep(500 * time.Millisecond)
}

// until waits for something that takes a while.
func (p *program) until(what string, ok func() bool) {
	p.t.Helper()
	for range 120 {
		if ok() {
			return
		}
		time.Sleep(250 * time.Millisecond)
	}
	p.picture("failed")
	p.t.Fatalf("%s did not come within 30 s; the program said:\n%s", what, p.log)
}

// picture keeps a picture of the screen beside the build's other output,
// where the tool for it is installed.
func (p *program) picture(name string) {
	dir := filepath.Join("..", "..", "dist", "window")
	if _, err := exec.LookPath("import"); err != nil || os.MkdirAll(dir, 0o755) != nil {
		return
	}
	if out, err := exec.Command("import", "-window", "root", filepath.Join(dir, name+".png")).CombinedOutput(); err != nil {
		p.t.Logf("no picture %s: %v %s", name, err, out)
	}
}

// quit ends the program by its own key and checks that it ended well.
func (p *program) quit() {
	p.t.Helper()
	p.do("key", "ctrl+q")
	done := make(chan error, 1)
	go func() { done <- p.cmd.Wait() }()
	select {
	case err := <-done:
		if err != nil {
			p.t.Errorf("the program ended with %v:\n%s", err, p.log)
		}
	case <-time.After(20 * time.Second):
		p.picture("stuck")
		p.t.Fatal("the program did not end")
	}
	if strings.Contains(p.log.String(), "Error in Fyne call thread") || strings.Contains(p.log.String(), "panic") {
		p.t.Errorf("the program complained:\n%s", p.log)
	}
	if left, _ := filepath.Glob(filepath.Join(p.home, ".config", "fyne", "leafmend", "recovery", "*")); len(left) > 0 {
		p.t.Errorf("a recovery copy was left: %v", left)
	}
}

// saved is what the test looks at in the job file.
type saved struct {
	Leaves []struct {
		Mark    string `json:"mark"`
		Damages []struct {
			Kind   string       `json:"kind"`
			Points [][2]float64 `json:"points_px"`
			Mends  []struct {
				Tissue string `json:"tissue"`
			} `json:"mends"`
		} `json:"damages"`
	} `json:"leaves"`
}

// save saves by key and reads the file once it has changed.
func (p *program) save(path string) saved {
	p.t.Helper()
	before, _ := os.Stat(path)
	p.do("key", "ctrl+s")
	p.until("the saved file", func() bool {
		st, err := os.Stat(path)
		return err == nil && (before == nil || st.ModTime() != before.ModTime())
	})
	data, err := os.ReadFile(path)
	if err != nil {
		p.t.Fatal(err)
	}
	var j saved
	if err := json.Unmarshal(data, &j); err != nil {
		p.t.Fatal(err)
	}
	return j
}

// TestWindow walks through the sample job: trace, undo, redo, another tissue,
// cut list, print, save, quit, open again.
func TestWindow(t *testing.T) {
	needsWindow(t)
	p := &program{t: t, exe: build(t), home: t.TempDir()}
	p.start("-sample")
	job := filepath.Join(p.home, ".config", "fyne", "leafmend", "sample", "programme.leafmend")
	p.picture("1-sample")

	for range 4 {
		p.do("key", "Next") // page down, to the leaf that is left to trace
	}
	time.Sleep(5 * time.Second) // its scan is read, also on a busy machine
	p.do("key", "t")
	for _, at := range [][2]string{{"560", "300"}, {"600", "330"}, {"640", "320"}} {
		p.do("mousemove", at[0], at[1])
		p.do("click", "1")
		p.do("sleep", "0.3") // the path along the picture is found aside
	}
	p.do("key", "Return")
	p.picture("2-traced")
	j := p.save(job)
	leaf := j.Leaves[len(j.Leaves)-1]
	if n := len(leaf.Damages); n != 1 || leaf.Damages[0].Kind != "tear" || len(leaf.Damages[0].Points) < 3 {
		t.Fatalf("leaf %s has %d damages after tracing: %+v", leaf.Mark, n, leaf.Damages)
	}

	p.do("key", "ctrl+z")
	if j := p.save(job); len(j.Leaves[len(j.Leaves)-1].Damages) != 0 {
		t.Error("undo left the tear")
	}
	p.do("key", "ctrl+y")
	p.do("key", "v")
	p.do("mousemove", "600", "330")
	p.do("click", "1")
	p.do("key", "shift+t")
	j = p.save(job)
	if d := j.Leaves[len(j.Leaves)-1].Damages; len(d) != 1 || len(d[0].Mends) != 1 || d[0].Mends[0].Tissue == "" {
		t.Errorf("after redo and another tissue the leaf has %+v", d)
	}

	p.do("key", "ctrl+3")
	p.picture("3-cuts")
	p.do("key", "ctrl+p")
	p.do("key", "Return") // the parts as they are
	p.do("key", "Return") // the name as it is
	pdf := strings.TrimSuffix(job, ".leafmend") + ".pdf"
	p.until("the printed set", func() bool { _, err := os.Stat(pdf); return err == nil })
	p.picture("4-printed")
	p.quit()

	p.start(job)
	p.picture("5-again")
	p.quit()
}
