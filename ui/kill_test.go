//go:build linux || darwin

package ui

import (
	"bufio"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"leafmend/mendplan"
	"leafmend/sampledata"
)

var (
	kills       = flag.Int("kills", 12, "how often the window is killed by the kill test; 300 to prove it anew")
	killsAtOnce = flag.Int("kills-at-once", 4, "windows that run side by side in the kill test")
)

// mostLost is what a crash may take.
const mostLost = 5 * time.Second

// TestAWindowKilledAtAnyMomentLosesFiveSecondsAtMost kills the window while
// it edits, keeps copies, saves for the first time, saves under other names,
// and takes up what the kill before left. After each kill every job file is
// whole and one of the states that were saved, there is at most one copy, and
// the next window has all but the last seconds of the edits.
func TestAWindowKilledAtAnyMomentLosesFiveSecondsAtMost(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes half a minute; run without -short")
	}
	tally := &killTally{hits: map[string]int{}}
	var wait sync.WaitGroup
	lines := min(*killsAtOnce, *kills)
	for line := range lines {
		share := *kills / lines
		if line < *kills%lines {
			share++
		}
		wait.Go(func() {
			k := &killLine{t: t, dir: t.TempDir(), task: []string{"sample", "new", "sample"}[line%3],
				chance: rand.New(rand.NewPCG(uint64(line), 300)), name: fmt.Sprintf("line %d", line), tally: tally}
			if err := k.prepare(); err != nil {
				t.Error(err)
				return
			}
			for i := range share {
				if err := k.kill(i + 2*line); err != nil {
					t.Errorf("%s, kill %d: %v", k.name, i, err)
					return
				}
			}
			if err := k.look(); err != nil {
				t.Errorf("%s, at the end: %v", k.name, err)
			}
		})
	}
	wait.Wait()
	t.Logf("%d kills; worst loss %.2f s, %d kills beyond %v with the machine %.1f times overloaded; %d edits in all of which %d were lost; hits: %v",
		tally.kills, tally.worst.Seconds(), tally.beyond, mostLost, overload(), tally.edits, tally.lost, tally.hits)
	if tally.kills != *kills {
		t.Errorf("%d kills of %d", tally.kills, *kills)
	}
}

// overload is by how much the machine has more to do than it can, at least 1:
// a window that is not given a processor cannot keep its time. It is 1 where
// the system does not tell.
func overload() float64 {
	data, _ := os.ReadFile("/proc/loadavg")
	var load float64
	_, _ = fmt.Sscan(string(data), &load)
	return max(1, load/float64(2*runtime.NumCPU()))
}

type killTally struct {
	mu                 sync.Mutex
	kills, edits, lost int
	beyond             int // kills that took more than mostLost
	worst              time.Duration
	hits               map[string]int
}

// killLine is a folder in which one window after the other is killed; each
// goes on from what the last left.
type killLine struct {
	t      *testing.T
	name   string
	task   string
	dir    string
	chance *rand.Rand
	open   string // the job that was in hand last
	have   int    // the number that must be had by the next window
	tally  *killTally
}

// heard is what a window told before it was killed.
type heard struct {
	edits  map[int]time.Time
	ready  int // −1 when it was killed before
	last   string
	saved  map[string]int
	killed time.Time
}

func (k *killLine) prepare() error {
	if err := os.MkdirAll(filepath.Join(k.dir, "job"), 0o755); err != nil || k.task == "new" {
		return err
	}
	k.open = filepath.Join(k.dir, "job", "programme.leafmend")
	return unpack(sampledata.Files(), filepath.Join(k.dir, "job"))
}

func (k *killLine) start(task string) (*exec.Cmd, io.Reader, error) {
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), "LC_ALL=en_GB.UTF-8", killTask+"="+task, killFolder+"="+k.dir, killOpen+"="+k.open, killSeed+"="+strconv.FormatUint(k.chance.Uint64(), 10))
	if testing.Verbose() {
		cmd.Stderr = os.Stderr
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		return nil, nil, err
	}
	return cmd, out, cmd.Start()
}

// kill runs a window, kills it and judges what is left. A third of the kills
// come at any time of editing, the others a moment after a certain act began.
func (k *killLine) kill(i int) error {
	cmd, out, err := k.start(k.task)
	if err != nil {
		return err
	}
	cue, skip, after := "ready", 0, time.Duration(k.chance.IntN(9000))*time.Millisecond
	moment := time.Duration(k.chance.IntN(30_000)) * time.Microsecond
	switch i % 6 {
	case 1:
		cue, skip, after = "save", k.chance.IntN(2), moment
	case 2, 5:
		cue, skip, after = "copy", k.chance.IntN(2), moment
	case 3:
		cue, after = "offered", 2*moment
	case 4:
		cue, after = "copied", time.Duration(k.chance.IntN(3500))*time.Millisecond
	}
	stop := time.AfterFunc(25*time.Second, func() { cmd.Process.Kill() }) // where the cue does not come, as without a copy
	h := heard{edits: map[int]time.Time{}, ready: -1, saved: map[string]int{}}
	var mu sync.Mutex
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		what, err := k.hear(&h, lines.Text())
		if err != nil {
			cmd.Process.Kill()
			cmd.Wait()
			return err
		}
		if what == "ready" && cue == "offered" {
			cue = "edit" // there was nothing to take up
		}
		if what == cue {
			if skip--; skip < 0 {
				cue = ""
				time.AfterFunc(after, func() {
					mu.Lock()
					defer mu.Unlock()
					cmd.Process.Kill()
					h.killed = time.Now()
				})
			}
		}
	}
	stop.Stop()
	cmd.Wait() // ends with "signal: killed", as it should
	mu.Lock()
	defer mu.Unlock()
	if h.killed.IsZero() {
		h.killed = time.Now()
	}
	return k.judge(h)
}

// hear takes in a line; the number of a job in hand must be what the kill
// before left.
func (k *killLine) hear(h *heard, line string) (what string, err error) {
	var n int
	var at int64
	var path string
	if _, err := fmt.Sscan(line, &what, &n, &at); err != nil {
		return "", fmt.Errorf("the window said %q", line)
	}
	if f := strings.SplitN(line, " ", 4); len(f) == 4 {
		path = f[3]
	}
	switch what {
	case "ready":
		if n != k.have {
			return "", fmt.Errorf("the window went on from edit %d, not %d", n, k.have)
		}
		h.ready = n
	case "edit":
		h.edits[n] = time.Unix(0, at)
	case "saved":
		h.saved[path], k.open = n, path
	case "asked":
		return "", fmt.Errorf("the window asked in between: %s", path)
	}
	h.last = what
	return what, nil
}

// look has a last window take up what is left and tell its number.
func (k *killLine) look() error {
	cmd, out, err := k.start("look")
	if err != nil {
		return err
	}
	stop := time.AfterFunc(time.Minute, func() { cmd.Process.Kill() })
	defer stop.Stop()
	h := heard{edits: map[int]time.Time{}, ready: -1, saved: map[string]int{}}
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		if _, err := k.hear(&h, lines.Text()); err != nil {
			cmd.Process.Kill()
			cmd.Wait()
			return err
		}
	}
	cmd.Wait()
	if h.ready != k.have {
		return fmt.Errorf("the last window has edit %d, not %d", h.ready, k.have)
	}
	return nil
}

// judge reads what a killed window left, without touching it.
func (k *killLine) judge(h heard) error {
	files, err := k.files(h)
	if err != nil {
		return err
	}
	hit := k.moment(h)
	got, err := k.next(files)
	if err != nil {
		return err
	}
	if got < k.have {
		return fmt.Errorf("the next window would go on from edit %d, and %d was had before", got, k.have)
	}
	loss, lost := time.Duration(0), 0
	for n, at := range h.edits {
		if n > got {
			lost++
			loss = max(loss, h.killed.Sub(at))
		}
	}
	k.tally.mu.Lock()
	k.tally.kills++
	k.tally.edits += len(h.edits)
	k.tally.lost += lost
	k.tally.worst = max(k.tally.worst, loss)
	k.tally.hits[hit]++
	if loss > mostLost {
		k.tally.beyond++
	}
	k.tally.mu.Unlock()
	k.have = got
	if loss > time.Duration(float64(mostLost)*overload()) {
		return fmt.Errorf("%d edits of the last %.2f s are lost (%s)", lost, loss.Seconds(), hit)
	}
	return nil
}

// files checks that every job file is whole, just as some edit made it, and
// not older than what was told as saved.
func (k *killLine) files(h heard) (map[string]int, error) {
	numbers := map[string]int{}
	paths, _ := filepath.Glob(filepath.Join(k.dir, "job", "*"+mendplan.FileSuffix))
	for _, path := range paths {
		n, err := k.whole(path)
		switch {
		case err != nil:
			return nil, err
		case n < h.saved[path]:
			return nil, fmt.Errorf("%s holds edit %d, though %d was saved", filepath.Base(path), n, h.saved[path])
		}
		numbers[path] = n
	}
	return numbers, nil
}

func (k *killLine) whole(path string) (int, error) {
	j, problems, err := mendplan.LoadFile(path)
	if err != nil {
		return 0, err
	}
	if len(problems) > 0 && k.task == "new" {
		return 0, fmt.Errorf("%s opens with problems: %v", filepath.Base(path), problems)
	}
	n, whole := numberOf(j)
	if !whole {
		return 0, fmt.Errorf("%s is not what edit %d made", filepath.Base(path), n)
	}
	return n, nil
}

// next is the number the next window will have: that of the one copy, else of
// the job opened. It looks at a copy of the folder, since looking cleans.
func (k *killLine) next(files map[string]int) (int, error) {
	look := filepath.Join(k.dir, "look")
	if err := os.RemoveAll(look); err != nil {
		return 0, err
	}
	copies := filepath.Join(k.dir, "recovery")
	if _, err := os.Stat(copies); err == nil {
		if err := os.CopyFS(look, os.DirFS(copies)); err != nil {
			return 0, err
		}
	}
	left, _ := leftCopies(look, "", time.Now())
	if len(left) > 1 {
		return 0, fmt.Errorf("%d copies are left", len(left))
	}
	if len(left) == 1 {
		return k.whole(left[0].file)
	}
	newest := 0 // saved, and killed before it was told
	for path, n := range files {
		if n >= newest && n > 0 {
			newest, k.open = n, path
		}
	}
	return newest, nil
}

// moment tells by what lies about where the kill hit.
func (k *killLine) moment(h heard) string {
	in := func(folder string) bool {
		entries, _ := os.ReadDir(filepath.Join(k.dir, folder))
		for _, e := range entries {
			if info, err := e.Info(); err == nil && strings.HasSuffix(e.Name(), ".part") && h.killed.Sub(info.ModTime()) < time.Second {
				return true
			}
		}
		return false
	}
	switch {
	case h.ready < 0 && h.last == "offered":
		return "taking up"
	case h.ready < 0:
		return "opening"
	case in("job"):
		return "in a save's write"
	case in("recovery"):
		return "in a copy's write"
	case h.last == "save":
		return "saving"
	case h.last == "copy":
		return "keeping a copy"
	}
	return "between"
}
