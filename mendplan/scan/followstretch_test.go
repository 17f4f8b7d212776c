package scan

import (
	"image"
	"image/color"
	"math"
	"testing"

	"leafmend/mendplan/geom"
)

// bowed is plain paper with a dark line that bows away from the straight way
// between the ends returned, w × h pixels. faint is how much it darkens.
func bowed(w, h int, rise float64, faint float64) (img *image.RGBA, line []geom.Pt) {
	img = plainLeaf(w, h, image.Rect(0, 0, w, h))
	for x := 40; x <= w-40; x++ {
		t := float64(x-40) / float64(w-80)
		q := geom.Pt{X: float64(x) + 0.5, Y: float64(h)/2 - rise*math.Sin(math.Pi*t)}
		line = append(line, q)
		for y := int(q.Y) - 4; y <= int(q.Y)+4; y++ {
			c := img.RGBAAt(x, y)
			k := 1 - faint*math.Exp(-math.Pow(float64(y)+0.5-q.Y, 2)/2)
			img.SetRGBA(x, y, color.RGBA{uint8(float64(c.R) * k), uint8(float64(c.G) * k), uint8(float64(c.B) * k), 255})
		}
	}
	return img, line
}

func TestStrengthZeroIsStraightAndMoreFollowsMore(t *testing.T) {
	img, line := bowed(700, 300, 90, 0.5)
	a, b := line[0], line[len(line)-1]
	last := math.Inf(1)
	var off []float64
	for _, s := range []float64{0, 0.05, 0.15, 0.3, 0.6, 1} {
		p := Follow(img, []geom.Pt{a, b}, FollowOptions{PxPerMM: 12}.WithStrength(s))
		if s == 0 && len(p) != 2 {
			t.Errorf("at strength 0 the path has %d points, want the straight line's 2", len(p))
		}
		mean, _ := tearMatch(p, line, 5)
		if mean > last+0.3 {
			t.Errorf("at strength %v the path lies %.1f px from the tear, further than at less", s, mean)
		}
		last = mean
		off = append(off, mean)
	}
	if off[0] < 40 || off[4] > 2 || off[5] > 2 {
		t.Errorf("the path lies %.1f px off, want far off at 0 and within 2 px from the usual strength on", off)
	}
	if (FollowOptions{}).WithStrength(7).Strength != 1 || !(FollowOptions{}).WithStrength(math.NaN()).Straight {
		t.Error("a strength beyond its range is not brought inside")
	}
}

func TestALongWayRoundIsLeftWhenStrengthIsLittle(t *testing.T) {
	img, line := bowed(700, 700, 300, 0.5)
	mean := func(s float64) float64 {
		m, _ := tearMatch(Follow(img, []geom.Pt{line[0], line[len(line)-1]}, FollowOptions{PxPerMM: 12}.WithStrength(s)), line, 5)
		return m
	}
	if weak, usual := mean(0.05), mean(UsualStrength); weak < usual+10 {
		t.Errorf("a long way round is followed %.1f px off at strength 0.05 and %.1f px off at the usual", weak, usual)
	}
}

func TestAcrossPlainPaperThePathIsStraightAtAnyAngle(t *testing.T) {
	img := plainLeaf(500, 500, image.Rect(0, 0, 500, 500))
	for deg := 0.0; deg < 360; deg += 17 {
		s, c := math.Sincos(deg * math.Pi / 180)
		a := geom.Pt{X: 250.5, Y: 250.5}
		b := a.Add(geom.Pt{X: 200 * c, Y: 200 * s})
		if p := Follow(img, []geom.Pt{a, b}, FollowOptions{PxPerMM: 20}); geom.Path(p).Length() > 201 {
			t.Errorf("at %v° the path of 200 px is %.1f px long", deg, geom.Path(p).Length())
		}
	}
}

func TestOneChoiceOfWindowAndLevel(t *testing.T) {
	img, line := bowed(2600, 900, 60, 0.6)
	pic := newPicture(Info{Width: 2600, Height: 900}, pyramid(fromImage(img), buffers.get))
	close(pic.sharp)
	a, b := line[0], line[len(line)-1]
	for _, c := range []struct {
		name    string
		opt     FollowOptions
		to      []geom.Pt
		scale   float64
		reaches bool
	}{
		{"at 300 dpi between two places: the finest level", FollowOptions{PxPerMM: 11.8}, []geom.Pt{b}, 1, true},
		{"at 600 dpi: half", FollowOptions{PxPerMM: 23.6}, []geom.Pt{b}, 2, true},
		{"at 1200 dpi: a quarter", FollowOptions{PxPerMM: 47.2}, []geom.Pt{b}, 4, true},
		{"nobody knows where to: some centimetres", FollowOptions{PxPerMM: 11.8}, nil, 1, false},
		{"to no place at all", FollowOptions{PxPerMM: 11.8}, []geom.Pt{{X: math.NaN()}}, 1, false},
	} {
		f := pic.FollowFrom(a, c.opt, c.to...)
		if f.scale != c.scale || f.Reaches(b) != c.reaches {
			t.Errorf("%s: scale %v, reaches the end: %v; want %v and %v", c.name, f.scale, f.Reaches(b), c.scale, c.reaches)
		}
		if !c.reaches {
			continue
		}
		if m, cov := tearMatch(f.To(b), line, 5); m > 3 || cov < 0.9 {
			t.Errorf("%s: %.2f px off, %.2f covered", c.name, m, cov)
		}
	}
	long, end := newPicture(Info{Width: 2600, Height: 900}, pyramid(fromImage(img), buffers.get)), geom.Pt{X: 2e5, Y: 2e5}
	if f := long.FollowFrom(geom.Pt{X: -9, Y: 1e6}, FollowOptions{}, end); len(f.To(end)) < 2 {
		t.Error("places off the picture give no path")
	}
}
