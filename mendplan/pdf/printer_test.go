package pdf_test

import (
	"bytes"
	"image"
	"math"
	"os/exec"
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/pdf"
)

// firstShape returns the box of the first template on a page drawn at ten dots
// to the millimetre: of all ink that hangs together with the first ink below
// the words. Millimetres, from the middles of its lines.
func firstShape(t *testing.T, img image.Image, below int) (w, h float64) {
	t.Helper()
	var start image.Point
	for y := below; y < below+200 && start == (image.Point{}); y++ {
		for x := 100; x < 400; x++ {
			if dark(img, x, y) {
				start = image.Pt(x, y)
				break
			}
		}
	}
	if start == (image.Point{}) {
		t.Fatal("there is no template")
	}
	seen, todo := map[image.Point]bool{start: true}, []image.Point{start}
	box := image.Rectangle{Min: start, Max: start}
	for len(todo) > 0 {
		p := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		box = image.Rect(min(box.Min.X, p.X), min(box.Min.Y, p.Y), max(box.Max.X, p.X), max(box.Max.Y, p.Y))
		for dy := -1; dy <= 1; dy++ {
			for dx := -1; dx <= 1; dx++ {
				if q := p.Add(image.Pt(dx, dy)); !seen[q] && q.In(img.Bounds()) && dark(img, q.X, q.Y) {
					seen[q] = true
					todo = append(todo, q)
				}
			}
		}
	}
	return float64(box.Dx()-1) / 10, float64(box.Dy()-1) / 10
}

func TestAPrinterThatIsOffGetsTemplatesThatComeOutRight(t *testing.T) {
	job, plan := twoLeaves(mendplan.A4)
	plan.Pieces = plan.Pieces[:1] // 76.2 × 12.7 mm, printed upright
	for _, p := range []pdf.Printer{{}, {BarAcross: 97.1, BarUpright: 98.4}, {BarAcross: 101.5}, {BarUpright: 95}} {
		path := save(t, write(t, job, plan, pdf.Options{Only: []pdf.Part{pdf.Templates}, Printer: p}))
		img := tenPerMM(t, path, 1)
		kx, ky := 1.0, 1.0 // what this printer makes of lengths
		if p.BarAcross > 0 {
			kx = p.BarAcross / 100
		}
		if p.BarUpright > 0 {
			ky = p.BarUpright / 100
		}
		below := 235
		if p != (pdf.Printer{}) {
			below = 268 // one line of words more
		}
		w, h := firstShape(t, img, below)
		if w, h = w*kx, h*ky; math.Abs(w-12.7) > 0.25 || math.Abs(h-76.2) > 0.25 {
			t.Errorf("%+v: the template comes out as %.2f × %.2f mm, want 12.7 × 76.2", p, w, h)
		}
		for i, across := range []bool{true, false} {
			if mm := float64(longestRun(img, across)) / 10 * []float64{kx, ky}[i]; math.Abs(mm-100) > 0.35 {
				t.Errorf("%+v: bar across %v comes out as %.2f mm", p, across, mm)
			}
		}
		out, err := exec.Command(reader(t, "pdftotext"), "-layout", path, "-").Output()
		if err != nil || strings.Contains(string(out), "Corrected for a printer") != (p != pdf.Printer{}) {
			t.Errorf("%+v: the page does not say what it is: %v\n%s", p, err, out)
		}
		if !strings.Contains(string(out), "76.2 × 12.7 mm") {
			t.Errorf("%+v: the true size is not said:\n%s", p, out)
		}
	}
}

func TestBarsThatNoPrinterGivesAreRefused(t *testing.T) {
	job, plan := twoLeaves(mendplan.A4)
	for _, p := range []pdf.Printer{{BarAcross: 89.9}, {BarUpright: 110.1}, {BarAcross: -1}, {BarUpright: math.NaN()}, {BarAcross: math.Inf(1)}} {
		var b bytes.Buffer
		if err := pdf.Write(&b, job, plan, pdf.Options{Printer: p}); err == nil || b.Len() > 0 {
			t.Errorf("%+v gave %d bytes and %v", p, b.Len(), err)
		}
	}
}

// wetJob has an infill of 60 × 40 mm on a leaf whose grain runs head to tail.
func wetJob(grain mendplan.Grain) (mendplan.Job, mendplan.Plan) {
	job, plan := twoLeaves(mendplan.A4)
	job.LeafPaper.Grain = grain
	job.Leaves[0].Damages = job.Leaves[0].Damages[1:]
	p := plan.Pieces[1]
	p.Outline, p.Role, p.Side = box(20, 20, 40, 60), mendplan.RoleFill, mendplan.Front
	p.BlankLengthMM, p.BlankWidthMM, p.BlankDeg, p.BlankCentre = 60, 40, 90, geom.Pt{X: 40, Y: 50}
	plan.Pieces = []mendplan.Piece{p}
	return job, plan
}

// 2.5 % across the grain and 0.25 % along it, the rules' defaults (Book Arts
// mailing list, June 2000).
func TestWetTemplatesAreGrownMoreAcrossTheGrain(t *testing.T) {
	for _, c := range []struct {
		grain mendplan.Grain
		w, h  float64
	}{{mendplan.GrainUpright, 41, 60.15}, {mendplan.GrainAcross, 40.1, 61.5}} {
		job, plan := wetJob(c.grain)
		path := save(t, write(t, job, plan, pdf.Options{Only: []pdf.Part{pdf.Templates}, Wet: true}))
		dw, dh := firstShape(t, tenPerMM(t, path, 1), 235)
		ww, wh := firstShape(t, tenPerMM(t, path, 2), 268)
		if math.Abs(dw-40) > 0.15 || math.Abs(dh-60) > 0.15 || math.Abs(ww-c.w) > 0.15 || math.Abs(wh-c.h) > 0.15 {
			t.Errorf("grain %s: dry %.2f × %.2f, wet %.2f × %.2f mm; want 40 × 60 and %g × %g", c.grain, dw, dh, ww, wh, c.w, c.h)
		}
		out, err := exec.Command(reader(t, "pdftotext"), "-layout", path, "-").Output()
		for _, want := range []string{"for the wet leaf", "2.5 % across", "0.25 % along", "needs a blank of"} {
			if err != nil || !strings.Contains(string(out), want) {
				t.Errorf("not said: %q, %v\n%s", want, err, out)
			}
		}
	}
}

func TestWetTemplatesAreAskedForAndNeedTheGrain(t *testing.T) {
	job, plan := wetJob(mendplan.GrainUnknown)
	text := func(opt pdf.Options) string {
		opt.Only = []pdf.Part{pdf.Templates}
		out, err := exec.Command(reader(t, "pdftotext"), "-layout", save(t, write(t, job, plan, opt)), "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		return string(out)
	}
	if s := text(pdf.Options{}); strings.Contains(s, "wet leaf") {
		t.Errorf("wet templates are printed unasked:\n%s", s)
	}
	if s := text(pdf.Options{Wet: true}); !strings.Contains(strings.Join(strings.Fields(s), " "), "grain of the leaf is not known: 1b-2") {
		t.Errorf("a leaf of unknown grain is not named:\n%s", s)
	}
}
