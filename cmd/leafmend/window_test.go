package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// bench is the program running on a display, driven by real events.
type bench struct {
	t    *testing.T
	cmd  *exec.Cmd
	log  bytes.Buffer
	id   string // of the window
	done chan error
	pics string // folder pictures are kept in
	n    int
}

// tools finds what the test needs. go run ./cmd/dev test brings it all and
// starts a display; by hand, on a machine without, the test is passed over.
func tools(t *testing.T) {
	t.Helper()
	var missing []string
	for _, name := range []string{"xdotool", "import"} {
		if _, err := exec.LookPath(name); err != nil {
			missing = append(missing, name)
		}
	}
	if os.Getenv("DISPLAY") == "" {
		missing = append(missing, "a display")
	}
	switch {
	case len(missing) == 0 && os.Getenv("LEAFMEND_WINDOW") == "must":
	case os.Getenv("LEAFMEND_WINDOW") == "must":
		t.Fatalf("the window test needs %s", strings.Join(missing, ", "))
	default:
		t.Skip("the window test takes over a display: go run ./cmd/dev test gives it one of its own")
	}
}

// program builds the real program once.
func program(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "leafmend")
	if out, err := exec.Command("go", "build", "-o", path, ".").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return path
}

func open(t *testing.T, program, home string, args ...string) *bench {
	t.Helper()
	b := &bench{t: t, done: make(chan error, 1), pics: filepath.Join("..", "..", "dist", "window")}
	if err := os.MkdirAll(b.pics, 0o755); err != nil {
		t.Fatal(err)
	}
	b.cmd = exec.Command(program, args...)
	b.cmd.Env = append(os.Environ(), "HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_CACHE_HOME="+home, "FYNE_SCALE=1", "FYNE_THEME=light")
	b.cmd.Stdout, b.cmd.Stderr = &b.log, &b.log
	if err := b.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	go func() { b.done <- b.cmd.Wait() }()
	t.Cleanup(func() { b.cmd.Process.Kill() })
	b.until("a window", func() bool {
		out, _ := exec.Command("xdotool", "search", "--onlyvisible", "--pid", strconv.Itoa(b.cmd.Process.Pid)).Output()
		ids := strings.Fields(string(out))
		if len(ids) > 0 {
			b.id = ids[len(ids)-1]
		}
		return b.id != ""
	})
	b.do("windowmove", b.id, "0", "0")
	b.do("windowfocus", b.id)
	return b
}

// until waits up to half a minute for something to be so.
func (b *bench) until(what string, so func() bool) {
	b.t.Helper()
	for range 300 {
		if so() {
			return
		}
		select {
		case err := <-b.done:
			b.t.Fatalf("the program ended while waiting for %s: %v\n%s", what, err, b.log.String())
		case <-time.After(100 * time.Millisecond):
		}
	}
	b.picture("stuck")
	b.t.Fatalf("waited in vain for %s; see dist/window\n%s", what, b.log.String())
}

func (b *bench) do(args ...string) {
	b.t.Helper()
	if out, err := exec.Command("xdotool", args...).CombinedOutput(); err != nil {
		b.t.Fatalf("xdotool %v: %v\n%s", args, err, out)
	}
}

// keys presses keys one after the other, with time for the window to answer.
func (b *bench) keys(names ...string) {
	b.t.Helper()
	for _, k := range names {
		b.do("key", k)
		time.Sleep(150 * time.Millisecond)
	}
}

func (b *bench) move(p image.Point) {
	b.t.Helper()
	b.do("mousemove", strconv.Itoa(p.X), strconv.Itoa(p.Y))
	time.Sleep(60 * time.Millisecond)
}

func (b *bench) click(p image.Point) {
	b.t.Helper()
	b.move(p)
	b.do("click", "1")
	time.Sleep(400 * time.Millisecond) // slower than a double press
}

func (b *bench) drag(from, to image.Point) {
	b.t.Helper()
	b.move(from)
	b.do("mousedown", "1")
	for i := 1; i <= 8; i++ {
		b.move(from.Add(to.Sub(from).Mul(i).Div(8)))
	}
	b.do("mouseup", "1")
	time.Sleep(200 * time.Millisecond)
}

// picture takes a picture of the display and keeps it under a name.
func (b *bench) picture(name string) image.Image {
	b.t.Helper()
	data, err := exec.Command("import", "-window", "root", "png:-").Output()
	if err != nil {
		b.t.Fatalf("taking a picture: %v", err)
	}
	b.n++
	if err := os.WriteFile(filepath.Join(b.pics, fmt.Sprintf("%02d-%s.png", b.n, name)), data, 0o644); err != nil {
		b.t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		b.t.Fatal(err)
	}
	return img
}

// quit asks the program to close and waits for it.
func (b *bench) quit() {
	b.t.Helper()
	b.keys("ctrl+q")
	select {
	case err := <-b.done:
		if err != nil {
			b.t.Errorf("the program did not end well: %v\n%s", err, b.log.String())
		}
	case <-time.After(20 * time.Second):
		b.picture("not-closed")
		b.t.Fatal("the program did not close")
	}
	for _, bad := range []string{"panic", "Error in Fyne call thread"} {
		if strings.Contains(b.log.String(), bad) {
			b.t.Errorf("the program said %q:\n%s", bad, b.log.String())
		}
	}
}

// drawnLeaf writes a picture of a leaf, in a green nothing else in the window
// has, on black, and a job with it.
var leafGreen = color.RGBA{150, 210, 150, 255}

const (
	scanW, scanH = 1800, 1200
	leafX, leafY = 150, 120 // its corner; it is as far from the other edges
)

func drawnJob(t *testing.T, dir string) string {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, scanW, scanH))
	draw.Draw(img, img.Rect, image.Black, image.Point{}, draw.Src)
	draw.Draw(img, image.Rect(leafX, leafY, scanW-leafX, scanH-leafY), image.NewUniform(leafGreen), image.Point{}, draw.Src)
	var buf bytes.Buffer
	if err := png.Encode(&buf, img); err != nil {
		t.Fatal(err)
	}
	scan := filepath.Join(dir, "leaf.png")
	if err := os.WriteFile(scan, buf.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	sum, err := mendplan.ChecksumFile(scan)
	if err != nil {
		t.Fatal(err)
	}
	job := mendplan.Job{Title: "Window test"}
	job.Tissues, job.Stock = mendplan.StarterTissues()
	x1, y1 := float64(scanW-leafX), float64(scanH-leafY)
	job = job.WithLeaf(mendplan.Leaf{ID: "L1", Mark: "1", Kind: mendplan.SingleLeaf, Front: mendplan.Side{
		Scan:        mendplan.Scan{Path: "leaf.png", Width: scanW, Height: scanH, SHA256: sum},
		Calibration: mendplan.FileCalibration(300, 300, 0.2, "drawn"),
		TrueEdge:    []geom.Pt{{X: leafX, Y: leafY}, {X: x1, Y: leafY}, {X: x1, Y: y1}, {X: leafX, Y: y1}},
	}})
	path := filepath.Join(dir, "job.leafmend")
	if err := mendplan.SaveFile(path, job); err != nil {
		t.Fatal(err)
	}
	return path
}

// whereIsTheLeaf finds the drawn leaf on the display: its box, and how many
// screen pixels one scan pixel takes.
func (b *bench) whereIsTheLeaf() (box image.Rectangle, scale float64) {
	b.t.Helper()
	b.until("the leaf to be painted", func() bool {
		img := b.picture("opened")
		b.n--
		box = image.Rectangle{}
		for y := img.Bounds().Min.Y; y < img.Bounds().Max.Y; y++ {
			for x := 300; x < 900; x++ { // between the lists and the details
				r, g, bl, _ := img.At(x, y).RGBA()
				if near8(r, leafGreen.R) && near8(g, leafGreen.G) && near8(bl, leafGreen.B) {
					box = box.Union(image.Rect(x, y, x+1, y+1))
				}
			}
		}
		return box.Dx() > 250 && math.Abs(float64(box.Dx())/float64(box.Dy())-float64(scanW-2*leafX)/float64(scanH-2*leafY)) < 0.03
	})
	return box, float64(box.Dx()) / float64(scanW-2*leafX)
}

func near8(v uint32, want uint8) bool { return math.Abs(float64(v>>8)-float64(want)) < 6 }

// saved presses save and waits until the file holds what is asked for.
func (b *bench) saved(path, what string, so func(mendplan.Job) bool) mendplan.Job {
	b.t.Helper()
	var job mendplan.Job
	b.keys("ctrl+s")
	b.until(what, func() bool {
		var err error
		job, _, err = mendplan.LoadFile(path)
		return err == nil && so(job)
	})
	return job
}

func damages(n int) func(mendplan.Job) bool {
	return func(j mendplan.Job) bool { return len(j.Leaves[0].Damages) == n }
}

func TestWindowFromTraceToCutList(t *testing.T) {
	tools(t)
	exe, home, dir := program(t), t.TempDir(), t.TempDir()
	path := drawnJob(t, dir)
	b := open(t, exe, home, path)
	box, scale := b.whereIsTheLeaf()
	at := func(x, y float64) image.Point { // scan pixels to the display
		return image.Pt(box.Min.X+int((x-leafX)*scale), box.Min.Y+int((y-leafY)*scale))
	}

	b.click(at(900, 900)) // the surface takes the keys
	b.keys("t")
	b.click(at(leafX, 500))
	b.click(at(450, 520))
	b.click(at(700, 480))
	b.keys("Return")
	b.picture("tear-traced")
	job := b.saved(path, "the tear in the file", damages(1))
	d := job.Leaves[0].Damages[0]
	first, last := d.Points[0], d.Points[len(d.Points)-1]
	if tol := 8 / scale; d.Kind != mendplan.Tear || first.Dist(geom.Pt{X: leafX, Y: 500}) > tol || last.Dist(geom.Pt{X: 700, Y: 480}) > tol {
		t.Errorf("traced %s from %v to %v", d.Kind, first, last)
	}

	b.keys("ctrl+z")
	b.saved(path, "the tear undone", damages(0))
	b.keys("ctrl+y")
	b.saved(path, "the tear done again", damages(1))

	b.keys("v")
	b.click(at(575, 500)) // beside the line, on nothing
	b.click(at(last.X, last.Y))
	b.drag(at(last.X, last.Y), at(900, 300))
	job = b.saved(path, "the end of the tear moved", func(j mendplan.Job) bool {
		pts := j.Leaves[0].Damages[0].Points
		return pts[len(pts)-1].Dist(geom.Pt{X: 900, Y: 300}) < 12/scale
	})
	if got := job.Leaves[0].Damages[0].Points[0]; got != first {
		t.Errorf("the other end moved too, from %v to %v", first, got)
	}
	b.picture("point-moved")

	b.keys("ctrl+3")
	time.Sleep(2 * time.Second)
	b.picture("cut-list")
	b.keys("ctrl+4")
	time.Sleep(time.Second)
	b.picture("estimate")
	b.quit()

	again := open(t, exe, home, path)
	again.n = b.n
	again.whereIsTheLeaf()
	again.picture("reopened")
	again.quit()
	if job, _, err := mendplan.LoadFile(path); err != nil || len(job.Leaves[0].Damages) != 1 || len(mendplan.Compute(job).Pieces) == 0 {
		t.Errorf("after closing and opening the job holds no mend: %v", err)
	}
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) != 2 {
		t.Errorf("the job's folder holds %d files, want job and scan: %v", len(entries), err)
	}
}

func TestWindowRefusesWhatIsNoJob(t *testing.T) {
	tools(t)
	exe, home, dir := program(t), t.TempDir(), t.TempDir()
	bad := filepath.Join(dir, "bad.leafmend")
	if err := os.WriteFile(bad, []byte("{\"format\": \"leafmend job\", \"vers"), 0o600); err != nil {
		t.Fatal(err)
	}
	b := open(t, exe, home, bad)
	time.Sleep(2 * time.Second)
	b.n = 20
	b.picture("a-damaged-job")
	b.keys("Escape")
	time.Sleep(time.Second)
	b.quit()
	if data, err := os.ReadFile(bad); err != nil || !strings.HasSuffix(string(data), "vers") {
		t.Error("the damaged file was changed")
	}
}
