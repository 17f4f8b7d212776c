package scan

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"testing"

	"leafmend/mendplan/geom"
)

// damagedLeaf is a plain leaf with one notch, one hole, one ink blot, one corner
// gone and one slit; 6 pixels to the millimetre.
func damagedLeaf() (*image.RGBA, Outline) {
	leaf := image.Rect(60, 60, 660, 860)
	img := plainLeaf(720, 920, leaf)
	bg := image.NewUniform(color.RGBA{20, 20, 22, 255})
	fill := func(r image.Rectangle, c image.Image) { draw.Draw(img, r, c, image.Point{}, draw.Src) }
	fill(image.Rect(300, 60, 360, 90), bg)   // notch at the head
	fill(image.Rect(400, 500, 424, 524), bg) // hole
	fill(image.Rect(620, 820, 660, 860), bg) // corner
	fill(image.Rect(60, 400, 160, 402), bg)  // slit from the left
	ink := image.NewUniform(color.RGBA{70, 50, 40, 255})
	fill(image.Rect(200, 600, 222, 622), ink)
	for x := 120; x < 600; x += 14 {
		fill(image.Rect(x, 700, x+3, 716), ink)
	}
	o, err := FindOutline(img, 1, OutlineOptions{})
	if err != nil {
		panic(err)
	}
	return img, o
}

func TestEachKindOfLossIsProposedOnceAndInkIsNot(t *testing.T) {
	img, o := damagedLeaf()
	got := map[string][]Proposal{}
	for _, p := range ProposeLosses(img, 1, o, LossOptions{PxPerMM: 6}) {
		got[p.Kind] = append(got[p.Kind], p)
		if p.Why.IsZero() || p.Confidence <= 0 || p.Confidence > 1 {
			t.Errorf("%s without a reason or with confidence %v", p.Kind, p.Confidence)
		}
	}
	for kind, area := range map[string]float64{KindLoss: 60 * 30, KindHole: 24 * 24, KindCornerLoss: 40 * 40} {
		if len(got[kind]) != 1 {
			t.Errorf("%d proposals of kind %s, want 1: %+v", len(got[kind]), kind, got[kind])
			continue
		}
		if a := geom.Ring(got[kind][0].Polygon).SignedArea(); math.Abs(a-area) > 0.2*area {
			t.Errorf("the %s has an area of %.0f, want %.0f within a fifth", kind, a, area)
		}
	}
	if n := len(got[KindEdgeTear]); n != 1 {
		t.Fatalf("%d edge tears, want 1", n)
	}
	p := got[KindEdgeTear][0].Path
	if a, b := p[0], p[len(p)-1]; a.Dist(geom.Pt{X: 60, Y: 401}) > 3 || b.Dist(geom.Pt{X: 160, Y: 401}) > 3 {
		t.Errorf("the tear runs from %v to %v, want from its mouth at (60,401) to its tip at (160,401)", a, b)
	}
}

func TestAnOutlineThatIsNoneGivesNoProposals(t *testing.T) {
	img, o := damagedLeaf()
	nan := o
	nan.Polygon = []geom.Pt{{X: math.NaN()}, {X: 1}, {Y: 1}}
	for _, q := range []Outline{{}, {Polygon: []geom.Pt{{}, {X: 5}}}, nan} {
		if p := ProposeLosses(img, 1, q, LossOptions{}); len(p) != 0 {
			t.Errorf("%d proposals for an outline of %d points", len(p), len(q.Polygon))
		}
	}
}

func TestTheTextMaskCoversInkAndNotPaper(t *testing.T) {
	img, o := damagedLeaf()
	m := TextMask(img, 1, o)
	square := func(x, y, d float64) []geom.Pt {
		return []geom.Pt{{X: x, Y: y}, {X: x + d, Y: y}, {X: x + d, Y: y + d}, {X: x, Y: y + d}}
	}
	if s := m.Share(square(202, 602, 18)); s < 0.95 {
		t.Errorf("an ink blot is covered to %.2f", s)
	}
	if s := m.Share(square(200, 200, 90)); s > 0.01 {
		t.Errorf("bare paper is covered to %.2f", s)
	}
	if s := m.Share([]geom.Pt{{X: 120, Y: 700}, {X: 590, Y: 700}, {X: 590, Y: 716}, {X: 120, Y: 716}}); s < 0.12 || s > 0.4 {
		t.Errorf("a row of strokes, three parts in fourteen ink, is covered to %.2f", s)
	}
	if !m.At(geom.Pt{X: 211, Y: 611}) || m.At(geom.Pt{X: 250, Y: 250}) || m.At(geom.Pt{X: -1, Y: 1e9}) {
		t.Error("single places are told wrongly")
	}
	if new(Mask).Share(square(0, 0, 9)) != 0 || new(Mask).At(geom.Pt{}) {
		t.Error("the zero mask is not empty")
	}
}

func TestTheTextMaskLeavesSoftStainsOut(t *testing.T) {
	img, o := damagedLeaf()
	for y := 130; y < 330; y++ {
		for x := 430; x < 630; x++ {
			k := 1 - 0.14*math.Exp(-(math.Pow(float64(x-530), 2)+math.Pow(float64(y-230), 2))/3600)
			c := img.RGBAAt(x, y)
			img.SetRGBA(x, y, color.RGBA{uint8(float64(c.R) * k), uint8(float64(c.G) * k * k), uint8(float64(c.B) * k * k * k), 255})
		}
	}
	if s := TextMask(img, 1, o).Share([]geom.Pt{{X: 430, Y: 130}, {X: 630, Y: 130}, {X: 630, Y: 330}, {X: 430, Y: 330}}); s > 0.02 {
		t.Errorf("a soft stain is taken for print over %.2f of it", s)
	}
}
