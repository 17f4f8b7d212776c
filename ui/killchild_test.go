//go:build linux || darwin

package ui

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/ui/leafview"
	"leafmend/ui/oneloop"
)

// The test binary starts itself again as a child that is the program: the
// whole window on the toolkit's test driver, with the true timer, the true
// work aside and one goroutine for all events. It edits and saves until it is
// killed and tells every step with its time. It must not reach the tests, so
// it is caught before them.
const (
	killTask   = "LEAFMEND_TEST_KILL"      // "sample", "new" or "look"
	killFolder = "LEAFMEND_TEST_KILL_DIR"  // holds jobs and copies
	killOpen   = "LEAFMEND_TEST_KILL_JOB"  // to open; "" for a new job
	killSeed   = "LEAFMEND_TEST_KILL_SEED" // of its edits
)

func init() {
	if task := os.Getenv(killTask); task != "" {
		seed, err := strconv.ParseUint(os.Getenv(killSeed), 10, 64)
		if err != nil {
			panic(err)
		}
		c := &killChild{task: task, dir: os.Getenv(killFolder), chance: rand.New(rand.NewPCG(seed, 8))}
		c.run(os.Getenv(killOpen))
		os.Exit(0)
	}
}

type killChild struct {
	task    string
	dir     string
	chance  *rand.Rand
	w       *Window
	n       int // of the last edit
	pressed bool
	ready   bool
	keeping bool // a copy is being written
	save    time.Time
}

func (c *killChild) say(what string, n int, more string) {
	fmt.Println(what, n, time.Now().UnixNano(), more)
}

func (c *killChild) run(job string) {
	app, events := oneloop.NewApp()
	opt := Options{Recovery: filepath.Join(c.dir, "recovery")}
	if job != "" {
		opt.Files = []string{job}
	}
	win := test.NewWindow(nil)
	c.w = build(app, win, opt, worker{})
	win.Resize(fyne.NewSize(1280, 800))
	c.say("begin", 0, "")
	c.w.begin()
	next := time.After(0)
	for {
		select {
		case f := <-events:
			f()
		case <-next:
			c.step()
			next = time.After(time.Duration(20+c.chance.IntN(180)) * time.Millisecond)
		}
		if c.w.recover.writing != c.keeping {
			if c.keeping = !c.keeping; c.keeping {
				c.say("copy", c.n, "")
			} else {
				c.say("copied", c.n, "")
			}
		}
	}
}

// step waits for the job, taking up a copy that is offered, and then edits.
func (c *killChild) step() {
	if len(c.w.dialogs) > 0 && strings.Contains(wordsShown(c.w), t("Scans not found")) {
		c.w.closeDialog() // the new job's leaf has no scan on the disk
		return
	}
	if !c.ready {
		if len(c.w.dialogs) > 0 && !c.pressed {
			c.pressed = true
			c.say("offered", 0, "")
			c.press(t("Take it up"))
			return
		}
		c.begin()
		return
	}
	if len(c.w.dialogs) > 0 {
		c.say("asked", c.n, c.w.status.outcome)
		os.Exit(1)
	}
	c.edit()
	if time.Now().After(c.save) {
		c.saveSomewhere()
		c.save = time.Now().Add(time.Duration(500+c.chance.IntN(6000)) * time.Millisecond)
	}
}

func (c *killChild) begin() {
	j := c.w.session.Job()
	if len(j.Tissues) == 0 || len(j.Leaves) == 0 && c.task == "sample" || c.pressed && !c.w.session.Unsaved() {
		return // still being read
	}
	c.n, _ = numberOf(j)
	c.ready = true
	c.save = time.Now().Add(time.Duration(500+c.chance.IntN(6000)) * time.Millisecond)
	if c.task == "look" {
		c.say("ready", c.n, c.w.session.Path())
		os.Exit(0)
	}
	c.say("ready", c.n, c.w.session.Path())
	if len(j.Leaves) == 0 {
		scale := mendplan.Calibration{Origin: mendplan.FromTwoPoints, MMPerPxX: 0.254, MMPerPxY: 0.254, DoubtPercent: 0.1, Words: "two points"}
		side := mendplan.Side{Scan: mendplan.Scan{Path: "none.png", Width: 1000, Height: 1200}, Calibration: scale}
		leaf := mendplan.Leaf{ID: j.FreshLeafID(), Mark: freshMark(j), Kind: mendplan.SingleLeaf, Front: side, Back: side}
		c.w.session.Do("add leaf", numbered(j.WithLeaf(leaf), c.n))
		c.w.session.Show(leaf.ID, mendplan.Front)
	}
}

func (c *killChild) press(words string) {
	for _, o := range test.LaidOutObjects(c.w.win.Canvas().Overlays().Top()) {
		if b, ok := o.(*answerButton); ok && b.Text == words {
			b.OnTapped()
			return
		}
	}
	panic("there is no button " + words + " but " + wordsShown(c.w))
}

// edit does one of the acts of a conservator and numbers the job.
func (c *killChild) edit() {
	w := c.w
	leaf, ok := w.session.Leaf()
	if !ok {
		return
	}
	at := func() geom.Pt { return geom.Pt{X: 100 + 700*c.chance.Float64(), Y: 100 + 900*c.chance.Float64()} }
	j := w.session.Job()
	switch act := c.chance.IntN(4); {
	case len(leaf.Damages) < 12 && act == 0:
		from := at()
		w.applyEdit(leafview.Add{Kind: leafview.Tear, Points: []geom.Pt{from, {X: from.X + 60, Y: from.Y + 20}, {X: from.X + 110, Y: from.Y}}})
		j = w.session.Job()
	case len(leaf.Damages) > 0:
		d := leaf.Damages[c.chance.IntN(len(leaf.Damages))]
		if act == 1 {
			d.NoMend = !d.NoMend
		} else if len(d.Points) > 0 {
			points := append([]geom.Pt(nil), d.Points...)
			points[c.chance.IntN(len(points))].Y += c.chance.Float64() - 0.5
			d.Points = points
		}
		j = j.WithDamage(leaf.ID, d)
	}
	c.n++
	w.session.Do("edit for the test", numbered(j, c.n))
	c.say("edit", c.n, "")
}

func (c *killChild) saveSomewhere() {
	w, n := c.w, c.n
	path := w.session.Path()
	switch {
	case path == "":
		path = filepath.Join(c.dir, "job", "first.leafmend")
	case c.chance.IntN(4) == 0:
		path = filepath.Join(filepath.Dir(path), fmt.Sprintf("as%d.leafmend", c.chance.IntN(3)))
	}
	c.say("save", n, path)
	saved := func() { c.say("saved", n, path) }
	if path == w.session.Path() {
		w.save(saved)
	} else {
		w.writeJob(path, saved)
	}
}

// numbered writes into a job its number and a checksum of what is recorded of
// its damages, so that it can be told whole.
func numbered(j mendplan.Job, n int) mendplan.Job {
	j.Notes = fmt.Sprintf("%d %s", n, damagesSum(j))
	return j
}

// numberOf reads the number; whole is false when the job is not as it was
// numbered. A job never numbered has 0.
func numberOf(j mendplan.Job) (n int, whole bool) {
	number, sum, ok := strings.Cut(j.Notes, " ")
	n, err := strconv.Atoi(number)
	if !ok || err != nil {
		return 0, true
	}
	return n, sum == damagesSum(j)
}

func damagesSum(j mendplan.Job) string {
	h := sha256.New()
	for _, leaf := range j.Leaves {
		b, err := json.Marshal(leaf.Damages)
		if err != nil {
			panic(err)
		}
		fmt.Fprintf(h, "%s %s\n", leaf.ID, b)
	}
	return hex.EncodeToString(h.Sum(nil)[:8])
}
