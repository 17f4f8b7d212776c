package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// traced returns the damages of the leaf that the sample leaves to trace.
func traced(j saved) int { return len(j.Leaves[len(j.Leaves)-1].Damages) }

// TestWindow walks through the sample job by real events: a tear traced along
// the picture, a point moved, undo, redo, another tissue, cut list, print,
// save, quit, open again. Pictures of each stage are left in dist/window.
func TestWindow(t *testing.T) {
	p := newProgram(t, needsWindow(t))
	p.start("programme.leafmend", "-sample")
	job := filepath.Join(p.home, ".config", "fyne", "leafmend", "sample", "programme.leafmend")
	p.picture("01-sample")
	// Page down to the leaf left to trace, the last of five; there more
	// presses change nothing, and one that came too early does no harm.
	p.key("Next", "Next", "Next", "Next", "Next", "Next", "Next")
	p.traceAndMove(job)
	p.anotherTissue(job)
	p.cutAndPrint(job)
	p.work(job)
	p.quit()
	p.again(job)
}

// traceAndMove traces a tear that leads in from the right edge, moves its
// middle point, and takes that back and again.
func (p *program) traceAndMove(job string) {
	p.t.Helper()
	before := p.traceAlong(job)
	same := func(j saved) bool {
		return traced(j) == 1 && slices.Equal(j.Leaves[len(j.Leaves)-1].Damages[0].Points, before)
	}

	// The strip under the leaf may have moved the view by half its height
	// when it went; a drag beside the point chooses nothing and moves nothing.
	for _, y := range []string{"457", "473"} {
		p.key("v", "ctrl+a")
		p.drag("855", y, "860", "500")
		p.key("ctrl+s")
		p.picture("03-moved")
		if data, err := os.ReadFile(job); err == nil {
			var j saved
			if json.Unmarshal(data, &j) == nil && !same(j) {
				break
			}
		}
	}
	j := p.saveUntil(job, "the moved point in the file", func(j saved) bool { return traced(j) == 1 && !same(j) })
	after := j.Leaves[len(j.Leaves)-1].Damages[0].Points
	moved := 0
	for i := range min(len(before), len(after)) {
		if before[i] != after[i] {
			moved++
		}
	}
	if len(before) != len(after) || moved != 1 {
		p.t.Errorf("%d points of %d moved, and there are %d now; want one", moved, len(before), len(after))
	}
	p.key("ctrl+z")
	p.saveUntil(job, "the point back in its place", same)
	p.key("ctrl+z")
	p.saveUntil(job, "no tear after undo", func(j saved) bool { return traced(j) == 0 })
	p.key("ctrl+y")
	p.saveUntil(job, "the tear after redo", same)
}

// traceAlong traces the tear by three presses and returns its points. The path
// along the picture is found aside, and a press that comes before it draws
// straight, as the user would see; then the tear is taken back and traced
// again, with a longer look before each press.
func (p *program) traceAlong(job string) [][2]float64 {
	p.t.Helper()
	defer func() { p.rest = 0 }()
	for _, p.rest = range []int{restLooks, 12, 30, 60} {
		p.key("t")
		for _, at := range [][2]string{{"793", "453"}, {"855", "457"}, {"913", "462"}} {
			p.press(at[0], at[1])
		}
		p.key("Return")
		p.picture("02-traced")
		j := p.saveUntil(job, "the traced tear in the file", func(j saved) bool { return traced(j) == 1 })
		d := j.Leaves[len(j.Leaves)-1].Damages[0]
		if d.Kind == "tear" && len(d.Points) > 3 {
			return d.Points
		}
		p.key("ctrl+z")
		p.saveUntil(job, "the tear taken back", func(j saved) bool { return traced(j) == 0 })
	}
	p.t.Fatal("three presses along a tear gave three points; following the picture gives more")
	return nil
}

// anotherTissue gives the tear in hand another tissue.
func (p *program) anotherTissue(job string) {
	p.t.Helper()
	p.key("v", "ctrl+a", "shift+t") // the one damage of the leaf
	p.saveUntil(job, "another tissue in the file", func(j saved) bool {
		d := j.Leaves[len(j.Leaves)-1].Damages
		return len(d) == 1 && len(d[0].Mends) == 1 && d[0].Mends[0].Tissue != ""
	})
	p.picture("04-tissue")
}

// cutAndPrint looks at the cut list and prints the set.
func (p *program) cutAndPrint(job string) {
	p.t.Helper()
	p.key("ctrl+3")
	p.picture("05-cuts")
	p.key("ctrl+p")
	p.picture("06-print")
	p.key("Return") // the parts as they are
	p.key("Return") // the name as it is
	pdf := strings.TrimSuffix(job, ".leafmend") + ".pdf"
	p.until("the printed set", func() bool {
		data, err := os.ReadFile(pdf)
		return err == nil && bytes.HasPrefix(data, []byte("%PDF-")) && bytes.Contains(data[max(len(data)-64, 0):], []byte("%%EOF"))
	})
	p.still()
	p.picture("07-printed")
}

// work checks the order by keys and ticks a piece off at the bench.
func (p *program) work(job string) {
	p.t.Helper()
	p.key("alt+7")
	p.picture("08-gatherings")
	p.key("alt+8")
	for range 5 {
		p.key("Return") // as shown
	}
	p.picture("09-order")
	for i, page := range []string{"before", "steps", "paste", "days", "trimming", "papers"} {
		p.key("alt+" + string(rune('1'+i)))
		p.picture("1" + string(rune('0'+i)) + "-" + page)
	}
	p.key("ctrl+1", "ctrl+b")
	p.until("the bench view", func() bool { return p.titled("Bench view") })
	p.focus("Bench view")
	p.still()
	p.focus("Bench view") // a window still being made may have lost it again
	p.still()
	p.key("space", "space") // each press ticks one; none takes back
	p.picture("16-bench")
	p.key("Escape")
	p.until("the bench view to close", func() bool { return !p.titled("Bench view") })
	p.focus("programme.leafmend")
	p.saveUntil(job, "the ticked piece in the file", func(j saved) bool { return len(j.Leaves[len(j.Leaves)-1].PiecesOn) > 0 })
}

// again opens the job from its file: what was done is there.
func (p *program) again(job string) {
	p.t.Helper()
	before, err := os.ReadFile(job)
	if err != nil {
		p.t.Fatal(err)
	}
	p.start("programme.leafmend", p.inside+strings.TrimPrefix(job, p.home))
	p.picture("17-again")
	if p.titled("•") {
		p.t.Error("a job just opened is shown as changed")
	}
	p.saveUntil(job, "the job as it was", func(j saved) bool { return traced(j) == 1 })
	if after, err := os.ReadFile(job); err != nil || !bytes.Equal(before, after) {
		p.t.Errorf("opened and saved again, the file is another one: %v", err)
	}
	p.quit()
}
