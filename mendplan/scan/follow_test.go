package scan

import (
	"image"
	"math"
	"reflect"
	"testing"

	"leafmend/mendplan/geom"
)

func TestFollowingKeepsToADrawnTear(t *testing.T) {
	d := drawLeaf(drawnSpec{1001, "black", ""})
	for _, tear := range d.tears {
		l := geom.Path(tear)
		p := Follow(d.img, []geom.Pt{tear[0], l.At(l.Length() / 2), tear[len(tear)-1]}, FollowOptions{PxPerMM: d.mm})
		if px, cov := tearMatch(p, tear, 5); px > 3 || cov < 0.9 {
			t.Errorf("a tear of %.0f px is followed %.2f px off, %.2f covered", l.Length(), px, cov)
		}
		if p[0] != tear[0] || p[len(p)-1] != tear[len(tear)-1] {
			t.Error("the path does not begin and end at the points clicked")
		}
	}
	if len(d.tears) == 0 {
		t.Fatal("the drawn leaf has no tears to follow")
	}
}

// The flood is checked against Bellman and Ford's relaxation to a standstill.
func TestTheFloodFindsTheCheapestPath(t *testing.T) {
	f := &Follower{w: 19, h: 13, scale: 1, seed: 30}
	f.cost = make([]uint8, 19*13)
	for i := range f.cost {
		f.cost[i] = uint8(1 + (i*i*7+i*31)%251)
	}
	f.flood()
	want := make([]uint32, len(f.cost))
	for i := range want {
		want[i] = math.MaxUint32 / 2
	}
	want[f.seed] = 0
	edge := func(i, j, k int) uint32 { return stepLong[k] * (uint32(f.cost[i]) + uint32(f.cost[j])) }
	for range f.cost {
		for i := range f.cost {
			for k := range 8 {
				x, y := i%19+stepX[k], i/19+stepY[k]
				if x >= 0 && y >= 0 && x < 19 && y < 13 {
					want[y*19+x] = min(want[y*19+x], want[i]+edge(i, y*19+x, k))
				}
			}
		}
	}
	for i := range f.cost {
		sum, at := uint32(0), i
		for at != f.seed {
			k := int(f.back[at] - 1)
			next := at + f.step(uint8(k))
			sum += edge(at, next, k)
			at = next
		}
		if sum != want[i] {
			t.Fatalf("the way to pixel %d costs %d, the cheapest %d", i, sum, want[i])
		}
	}
}

func TestFollowingWithNothingToSeeIsStraight(t *testing.T) {
	img := plainLeaf(200, 200, image.Rect(0, 0, 200, 200))
	p := Follow(img, []geom.Pt{{X: 20.25, Y: 30.5}, {X: 170, Y: 30.5}}, FollowOptions{PxPerMM: 10})
	want := []geom.Pt{{X: 20.25, Y: 30.5}, {X: 170, Y: 30.5}}
	if !reflect.DeepEqual(p, want) {
		t.Errorf("on plain paper the path is %v, want %v", p, want)
	}
}

func TestPointsOffThePictureDoNoHarm(t *testing.T) {
	img := plainLeaf(60, 60, image.Rect(10, 10, 50, 50))
	far := []geom.Pt{{X: -500, Y: -500}, {X: 30, Y: 30}, {X: math.NaN()}, {X: 9e9, Y: 4}}
	p := Follow(img, far, FollowOptions{})
	if p[0] != far[0] || p[len(p)-1] != far[3] {
		t.Errorf("ends are %v and %v, want the points given, those that are numbers", p[0], p[len(p)-1])
	}
	f := NewFollower(img, geom.Pt{X: 100, Y: 100}, 2, FollowOptions{})
	if got := f.To(geom.Pt{X: 3, Y: 3}); len(got) != 1 {
		t.Errorf("before From a path has %d points, want 1", len(got))
	}
	f.From(geom.Pt{})
	if got := f.To(geom.Pt{X: 150, Y: 150}); got[0] != (geom.Pt{}) {
		t.Errorf("the path begins at %v, want the seed", got[0])
	}
}

func BenchmarkFollowerFromFiftyMillimetresAt600(b *testing.B) {
	img := plainLeaf(1600, 900, image.Rect(0, 0, 1600, 450))
	f := NewFollower(img, geom.Pt{}, 1, FollowOptions{PxPerMM: 600 / 25.4})
	for b.Loop() {
		f.From(geom.Pt{X: 200, Y: 450})
	}
}

// BenchmarkFollowerTo is one move of the pointer: it must stay well under the
// 16 ms of a frame.
func BenchmarkFollowerTo(b *testing.B) {
	img := plainLeaf(1600, 900, image.Rect(0, 0, 1600, 450))
	f := NewFollower(img, geom.Pt{}, 1, FollowOptions{PxPerMM: 600 / 25.4})
	f.From(geom.Pt{X: 200, Y: 450})
	for b.Loop() {
		f.To(geom.Pt{X: 1381, Y: 452})
	}
}

func BenchmarkNewFollower(b *testing.B) {
	img := plainLeaf(1600, 900, image.Rect(0, 0, 1600, 450))
	for b.Loop() {
		NewFollower(img, geom.Pt{}, 1, FollowOptions{PxPerMM: 600 / 25.4})
	}
}

// The level a 70-megapixel scan is worked on has a third of its pixels each
// way; see OutlineOptions.
func BenchmarkOutlineAndLossesAt70Megapixels(b *testing.B) {
	d := drawLeaf(drawnSpec{1007, "black", "heavy"})
	img := image.NewRGBA(image.Rect(0, 0, 3333, 2333))
	for y := range 2333 {
		for x := range 3333 {
			img.SetRGBA(x, y, d.img.RGBAAt(y*d.img.Rect.Dx()/2333, x*d.img.Rect.Dy()/3333))
		}
	}
	for b.Loop() {
		o, err := FindOutline(img, 3, OutlineOptions{})
		if err != nil {
			b.Fatal(err)
		}
		ProposeLosses(img, 3, o, LossOptions{PxPerMM: 600 / 25.4})
	}
}
