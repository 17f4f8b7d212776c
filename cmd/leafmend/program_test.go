package main

import (
	"bytes"
	"encoding/json"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"leafmend/cmd/dev/frame"
	"leafmend/ui/journal"
)

// patience bounds every wait: on a busy machine a step takes seconds.
const patience = 45 * time.Second

// program is the real program on a virtual display, driven by real events.
type program struct {
	t      *testing.T
	line   []string // the command that runs it
	home   string   // the user's folder, as this test sees it
	inside string   // the same folder, as the program sees it
	frame  string   // file that holds what the display shows
	watch  []string // command that runs the program and watches it; nil for none
	cmd    *exec.Cmd
	log    *bytes.Buffer
	ended  chan error
	rest   int // looks in a row that must show the same picture; 0 is restLooks
}

// needsWindow skips where there is no display of the test's own: it presses
// keys and buttons, and must not press them into somebody's work.
func needsWindow(t *testing.T) string {
	t.Helper()
	must := os.Getenv("LEAFMEND_WINDOW") == "must"
	file := os.Getenv("LEAFMEND_FRAME")
	if os.Getenv("DISPLAY") == "" || file == "" {
		if must {
			t.Fatal("DISPLAY and LEAFMEND_FRAME must name a virtual display and the file of its picture")
		}
		t.Skip("the test presses keys on a display of its own; `go run ./cmd/dev test` makes one")
	}
	if _, err := exec.LookPath("xdotool"); err != nil {
		if must {
			t.Fatal("xdotool is needed to press keys and buttons")
		}
		t.Skip("xdotool, which presses keys and buttons, is not installed")
	}
	return file
}

func build(t *testing.T) string {
	t.Helper()
	exe := filepath.Join(t.TempDir(), "leafmend")
	if out, err := exec.Command("go", "build", "-o", exe, ".").CombinedOutput(); err != nil {
		t.Fatalf("building: %v\n%s", err, out)
	}
	return exe
}

// newProgram is the program built here, or the one that was installed into a
// system of its own: LEAFMEND_LINE is then the line that runs it, a word to a
// line, LEAFMEND_HOME its user's folder as seen from here, and LEAFMEND_INSIDE
// the same folder as seen from in there.
func newProgram(t *testing.T, frame string) *program {
	t.Helper()
	if line := os.Getenv("LEAFMEND_LINE"); line != "" {
		return &program{t: t, line: strings.Split(line, "\n"), home: os.Getenv("LEAFMEND_HOME"), inside: os.Getenv("LEAFMEND_INSIDE"), frame: frame}
	}
	home := t.TempDir()
	return &program{t: t, line: []string{build(t)}, home: home, inside: home, frame: frame}
}

// start runs the program with a home of its own and waits until its window
// shows the job named and has come to rest.
func (p *program) start(title string, args ...string) {
	p.t.Helper()
	p.log = new(bytes.Buffer)
	line := append(slices.Concat(p.watch, p.line), args...)
	p.cmd = exec.Command(line[0], line[1:]...)
	p.cmd.Env = append(os.Environ(), "HOME="+p.home, "XDG_CONFIG_HOME="+filepath.Join(p.home, ".config"),
		"XDG_CACHE_HOME="+filepath.Join(p.home, ".cache"), "FYNE_SCALE=1", "FYNE_THEME=light",
		"LANG=en_GB.UTF-8", "LC_ALL=", "LC_MESSAGES=", "LANGUAGE=")
	p.cmd.Stdout, p.cmd.Stderr = p.log, p.log
	if err := p.cmd.Start(); err != nil {
		p.t.Fatal(err)
	}
	ended := make(chan error, 1)
	cmd := p.cmd
	go func() { ended <- cmd.Wait() }()
	p.ended = ended
	p.t.Cleanup(func() { cmd.Process.Kill() })
	p.until("the window of "+title, func() bool { return p.titled(title) })
	p.focus(title)
	p.still()
	p.focus(title) // a window still being made may have lost it again
	p.still()
}

// titled reports whether a window with that in its title is there.
func (p *program) titled(title string) bool {
	out, err := exec.Command("xdotool", "search", "--onlyvisible", "--name", title).Output()
	return err == nil && len(bytes.TrimSpace(out)) > 0
}

// focus gives a window the keyboard; there is no window manager to do it.
func (p *program) focus(title string) {
	p.t.Helper()
	p.tool("search", "--onlyvisible", "--name", title, "windowfocus")
}

func (p *program) tool(args ...string) {
	p.t.Helper()
	if out, err := exec.Command("xdotool", args...).CombinedOutput(); err != nil {
		p.picture("failed")
		p.t.Fatalf("xdotool %v: %v\n%s\nthe program said:\n%s", args, err, out, p.log)
	}
}

// key presses keys one after the other, and waits for each until what it did
// is drawn.
func (p *program) key(names ...string) {
	p.t.Helper()
	for _, n := range names {
		p.tool("key", "--clearmodifiers", n)
		p.still()
	}
}

// press moves the pointer to a place of the window and presses there.
func (p *program) press(x, y string) {
	p.t.Helper()
	p.tool("mousemove", x, y)
	p.still()
	p.tool("click", "1")
	p.still()
}

// drag moves what lies at one place to another.
func (p *program) drag(x, y, toX, toY string) {
	p.t.Helper()
	p.tool("mousemove", x, y, "mousedown", "1")
	p.still()
	p.tool("mousemove", toX, toY)
	p.still()
	p.tool("mouseup", "1")
	p.still()
}

// restLooks is how many looks in a row must show the same picture before it
// counts as at rest.
const restLooks = 4

// blink is how many pixels of the picture may go on changing at rest: a
// cursor that blinks.
const blink = 120

// still waits until something is shown that does not change any more.
func (p *program) still() {
	p.t.Helper()
	var last *image.RGBA
	same := 0
	p.until("a picture at rest", func() bool {
		img, err := frame.Read(p.frame)
		if err != nil || frame.Plain(img) {
			return false
		}
		if n := -1; last != nil {
			if n = frame.Differ(last, img); n >= 0 && n <= blink {
				same++
			} else {
				same = 0
			}
		}
		last = img
		return same >= max(p.rest, restLooks)
	})
}

// until waits for something that takes a while, and for the program to live.
func (p *program) until(what string, ok func() bool) {
	p.t.Helper()
	for begin := time.Now(); time.Since(begin) < patience; time.Sleep(80 * time.Millisecond) {
		if ok() {
			return
		}
		select {
		case err := <-p.ended:
			p.ended <- err
			p.t.Fatalf("the program ended while %s was awaited: %v\n%s", what, err, p.log)
		default:
		}
	}
	p.picture("failed")
	p.t.Fatalf("%s did not come within %v; the program said:\n%s", what, patience, p.log)
}

// picture keeps a picture of the display beside the build's other output.
func (p *program) picture(name string) {
	img, err := frame.Read(p.frame)
	if err == nil {
		err = frame.Save(filepath.Join("..", "..", "dist", "window", name+".png"), img)
	}
	if err != nil {
		p.t.Logf("no picture %s: %v", name, err)
	}
}

// quit ends the program by its own key and checks that it ended well and left
// no file behind that tells of a crash.
func (p *program) quit() {
	p.t.Helper()
	p.tool("key", "--clearmodifiers", "ctrl+q")
	select {
	case err := <-p.ended:
		if err != nil {
			p.t.Errorf("the program ended with %v:\n%s", err, p.log)
		}
	case <-time.After(patience):
		p.picture("stuck")
		p.t.Fatal("the program did not end")
	}
	if said := p.log.String(); strings.Contains(said, "Error in Fyne call thread") || strings.Contains(said, "panic") || strings.Contains(said, "DATA RACE") {
		p.t.Errorf("the program complained:\n%s", said)
	}
	dir := filepath.Join(p.home, ".config", "fyne", "leafmend")
	if log, err := os.ReadFile(filepath.Join(dir, "log", journal.LogName)); err != nil || !bytes.Contains(log, []byte("msg=end how=left")) {
		p.t.Errorf("the log does not tell of the end: %v\n%s", err, log)
	}
	for _, pattern := range []string{"recovery/*", "sample/.*.lock", "crash/*"} {
		if left, _ := filepath.Glob(filepath.Join(dir, pattern)); len(left) > 0 {
			p.t.Errorf("the program left behind: %v", left)
		}
	}
}

// saved is what the test looks at in the job file.
type saved struct {
	Leaves []struct {
		Mark     string   `json:"mark"`
		PiecesOn []string `json:"pieces_on"`
		Damages  []struct {
			Kind   string       `json:"kind"`
			Points [][2]float64 `json:"points_px"`
			Mends  []struct {
				Tissue string `json:"tissue"`
			} `json:"mends"`
		} `json:"damages"`
	} `json:"leaves"`
}

// saveUntil saves by key, again and again while the program is still at its
// last act, until the file is as it should be.
func (p *program) saveUntil(path, what string, ok func(saved) bool) saved {
	p.t.Helper()
	var j saved
	p.until(what, func() bool {
		p.focus(filepath.Base(path)) // whatever else had the keyboard
		p.tool("key", "--clearmodifiers", "ctrl+s")
		p.still()
		data, err := os.ReadFile(path)
		if err != nil {
			return false
		}
		j = saved{}
		return json.Unmarshal(data, &j) == nil && ok(j)
	})
	return j
}
