package leafview

import (
	"image/color"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"leafmend/mendplan/geom"
)

// specimen is a scene with one of everything.
func specimen() Scene {
	return Scene{
		Frame:    Frame{Origin: geom.Pt{X: 30, Y: 30}, X: geom.Pt{X: 6}, Y: geom.Pt{Y: 6}},
		TrueEdge: path(30, 30, 970, 30, 970, 770, 30, 770),
		Fold:     path(500, 20, 500, 780),
		Outline:  path(31, 31, 500, 28, 969, 31, 968, 640, 900, 700, 860, 769, 31, 769),
		Shapes: []Shape{
			{Ref: 1, Kind: Tear, Label: "1", Points: path(968, 200, 930, 214, 900, 205, 860, 240, 800, 250, 770, 290),
				Forks: [][]geom.Pt{path(860, 240, 840, 280, 846, 320)}},
			{Ref: 2, Kind: Loss, Closed: true, Label: "2", Points: path(968, 640, 940, 650, 900, 700, 880, 740, 860, 769, 970, 770)},
			{Ref: 3, Kind: Split, Label: "3", Points: path(500, 770, 501, 640, 500, 560)},
			{Ref: 4, Kind: Weak, Closed: true, Label: "4", Points: path(600, 480, 700, 470, 740, 520, 700, 590, 620, 580, 580, 530)},
			{Ref: 5, Kind: Nicks, Label: "5", Points: path(60, 34, 160, 36, 260, 33)},
			{Ref: 6, Kind: "stain", Closed: true, Label: "6", Points: path(120, 500, 180, 480, 220, 530, 190, 590, 130, 580)},
			{Ref: 7, Kind: Tear, OtherSide: true, Label: "7", Points: path(32, 400, 90, 390, 140, 420, 200, 400)},
			{Ref: 8, Kind: Tear, Label: "8", Points: path(300, 769, 310, 700, 290, 660, 320, 600, 300, 560)},
			{Ref: 9, Kind: Loss, Closed: true, Label: "9", Points: path(250, 300, 330, 280, 360, 340, 320, 390, 260, 370)},
		},
		Pieces: []PieceShape{
			{Label: "1f-1a", Ref: 1, GrainDeg: 20, Strong: true, Rings: [][]geom.Pt{path(980, 180, 930, 196, 900, 186, 850, 222, 792, 232, 752, 282, 772, 306, 820, 270, 832, 330, 862, 332, 866, 290, 880, 250, 905, 226, 930, 234, 980, 222)}},
			{Label: "1f-8a", Ref: 8, GrainDeg: 90, Rings: [][]geom.Pt{path(282, 782, 290, 704, 270, 660, 298, 596, 284, 540, 318, 540, 342, 600, 312, 660, 330, 700, 320, 782)}},
			{Label: "1b-7a", Ref: 7, GrainDeg: 0, OtherSide: true, Rings: [][]geom.Pt{path(20, 382, 90, 372, 140, 402, 216, 384, 216, 416, 140, 438, 90, 408, 20, 418)}},
		},
		Proposals: []Proposal{{ID: 1, Kind: Loss, Points: path(640, 660, 700, 650, 720, 700, 660, 720)}},
	}
}

func TestASurfaceWithOneOfEverythingIsPainted(t *testing.T) {
	for _, c := range []struct {
		name  string
		scale float32
		dress func(s *Surface)
	}{
		{"fit-light", 1, func(*Surface) {}},
		{"fit-dark", 2, func(s *Surface) { l := s.Look(); l.Dark, l.Grid, l.Rulers = true, true, true; s.SetLook(l) }},
		{"chosen", 1, func(s *Surface) {
			l := s.Look()
			l.Rulers = true
			s.SetLook(l)
			s.Select(1)
			s.ZoomToSelection()
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := newRig(t, 1100, 760, c.scale)
			r.s.SetPicture(newPrinted(1000, 800))
			l := r.s.Look()
			l.Overview = true
			r.s.SetLook(l)
			r.s.SetScene(specimen())
			c.dress(r.s)
			r.move(700, 300)
			img := r.win.Canvas().Capture()
			keep(t, c.name+".png", img)
			seen := map[color.RGBA]bool{}
			f := r.frame()
			for i := 0; i+3 < len(f.Pix); i += 4 {
				seen[color.RGBA{f.Pix[i], f.Pix[i+1], f.Pix[i+2], 255}] = true
			}
			for _, k := range []Kind{Tear, Split, Loss}[:1+2*strings.Count(c.name, "fit")] {
				if !seen[r.s.look.colour(k)] {
					t.Errorf("no pixel has the colour of a %s", k)
				}
			}
		})
	}
}

func TestDrawingIsShown(t *testing.T) {
	r := newRig(t, 1100, 760, 1)
	r.s.SetPicture(newPrinted(1000, 800))
	sc := specimen()
	r.s.SetScene(sc)
	r.s.SetTool(LossTool)
	r.s.SetView(2, geom.Pt{X: 640, Y: 420})
	for _, p := range path(420, 300, 560, 240, 700, 320, 690, 460) {
		r.press(p.X, p.Y)
	}
	r.move(520, 520)
	keep(t, "drawing.png", r.win.Canvas().Capture())
	r.s.KeyDown(&fyne.KeyEvent{Name: LoupeKey})
	r.move(560, 240)
	keep(t, "loupe.png", r.win.Canvas().Capture())
}

func TestToolsInHandAreShown(t *testing.T) {
	r := newRig(t, 900, 640, 1)
	r.s.SetPicture(newPrinted(1000, 800))
	r.s.SetScene(specimen())
	l := r.s.Look()
	l.Rulers, l.Grid = true, true
	r.s.SetLook(l)
	r.s.Fit()
	r.s.SetTool(EdgeTool)
	r.move(450, 300)
	away := r.colours(grabbed) // the pointer's marks on the rulers
	r.move(450, 48)
	keep(t, "edge.png", r.win.Canvas().Capture())
	if r.colours(grabbed) < away+500 {
		t.Error("the side under the pointer is not marked")
	}
	r.s.SetTool(MeasureTool)
	for _, p := range path(200, 200, 420, 200, 420, 330, 230, 360, 200, 200) {
		r.press(p.X, p.Y)
	}
	keep(t, "measure.png", r.win.Canvas().Capture())
	if r.colours(toolCore) == 0 {
		t.Error("the measured area is not shown")
	}
	r.s.SetTool(SelectTool)
	r.s.Select(4, 8)
	r.drag(150, 380, 300, 500, 420, 600)
	r.move(430, 420)
	keep(t, "select.png", r.win.Canvas().Capture())
}
