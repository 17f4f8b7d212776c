package geom

import (
	"encoding/json"
	"math"
	"slices"
	"testing"
)

func TestSizesOfRingsAndAreas(t *testing.T) {
	sq := square(0, 0, 10)
	frame := Area{sq, square(2, 2, 4).Reverse()}
	near(t, "square", sq.SignedArea(), 100, 0)
	near(t, "square reversed", sq.Reverse().SignedArea(), -100, 0)
	near(t, "square far away", Ring(Translate(Pt{1e6, 1e6}).points(sq)).SignedArea(), 100, 1e-9)
	near(t, "perimeter of a square", sq.Perimeter(), 40, 0)
	near(t, "frame", frame.Area(), 84, 0)
	near(t, "perimeter of a frame", frame.Perimeter(), 56, 0)
	near(t, "two points", (Ring{{0, 0}, {1, 1}}).SignedArea(), 0, 0)
	if frame.Empty() || !(Area{}).Empty() || len(frame.Rings()) != 2 || len(frame.Points()) != 8 {
		t.Error("a frame has two rings of four points; an empty area none")
	}
	if got := (Ring{{0, 0}, {1, 0}, {1, 1}}).Reverse(); !slices.Equal(got, Ring{{0, 0}, {1, 1}, {1, 0}}) {
		t.Errorf("reversed: %v; the first point must stay", got)
	}
	if (Ring{}).Reverse() != nil || (Ring{}).Closed() != nil || len(sq.Closed()) != 5 {
		t.Error("empty rings stay empty; a closed square has five points")
	}
}

func TestContainsByTheNonZeroRule(t *testing.T) {
	twice := append(square(0, 0, 10), square(0, 0, 10)...)
	frame := Area{square(0, 0, 10), square(2, 2, 4).Reverse()}
	cases := []struct {
		name string
		got  bool
		want bool
	}{
		{"middle of a square", square(0, 0, 10).Contains(Pt{5, 5}), true},
		{"middle of one run backwards", square(0, 0, 10).Reverse().Contains(Pt{5, 5}), true},
		{"middle of one run twice", twice.Contains(Pt{5, 5}), true},
		{"beside, level with a corner", square(0, 0, 10).Contains(Pt{-1, 10}), false},
		{"beside, level with the top", square(0, 0, 10).Contains(Pt{-1, 0}), false},
		{"level with two corners of a lozenge", Ring{{0, 5}, {5, 0}, {10, 5}, {5, 10}}.Contains(Pt{5, 5}), true},
		{"hole of a frame", frame.Contains(Pt{3, 3}), false},
		{"wood of a frame", frame.Contains(Pt{1, 1}), true},
		{"nothing", (Ring{}).Contains(Pt{}), false},
	}
	for _, c := range cases {
		if c.got != c.want {
			t.Errorf("%s: %v", c.name, c.got)
		}
	}
}

func TestBoxes(t *testing.T) {
	b := Box{Pt{0, 0}, Pt{10, 20}}
	e := EmptyBox()
	if b.Width() != 10 || b.Height() != 20 || e.Width() != 0 || e.Height() != 0 || !e.Empty() || b.Empty() || (Box{}).Empty() {
		t.Error("sizes of boxes")
	}
	if b.Union(e) != b || e.Union(b) != b || b.Union(Box{Pt{-1, 5}, Pt{3, 30}}) != (Box{Pt{-1, 0}, Pt{10, 30}}) {
		t.Error("unions of boxes")
	}
	if b.Expand(2) != (Box{Pt{-2, -2}, Pt{12, 22}}) || !b.Expand(-6).Empty() || !e.Expand(5).Empty() {
		t.Error("grown and shrunk boxes")
	}
	if !b.Overlaps(Box{Pt{10, 20}, Pt{11, 21}}) || b.Overlaps(Box{Pt{10.1, 0}, Pt{11, 5}}) || b.Overlaps(e) || e.Overlaps(e) {
		t.Error("overlaps of boxes")
	}
	if !b.Contains(Pt{10, 0}) || b.Contains(Pt{5, 21}) || e.Contains(Pt{}) || b.Centre() != (Pt{5, 10}) {
		t.Error("points in boxes")
	}
	if b.Ring().SignedArea() != 200 || !(Area)(nil).Bounds().Empty() || (Path{{3, 1}, {2, 9}}).Bounds() != (Box{Pt{2, 1}, Pt{3, 9}}) {
		t.Error("rings and bounds of boxes")
	}
}

func TestPointsAreWrittenAsPairs(t *testing.T) {
	out, err := json.Marshal(Path{{1.5, -2}})
	if err != nil || string(out) != "[[1.5,-2]]" {
		t.Errorf("written as %s, error %v", out, err)
	}
	var p Pt
	if err := json.Unmarshal([]byte("[3,4]"), &p); err != nil || p != (Pt{3, 4}) {
		t.Errorf("read as %v, error %v", p, err)
	}
	for _, bad := range []string{"[1]", "[1,2,3]", `"1,2"`, "{}", "[null,true]"} {
		if err := json.Unmarshal([]byte(bad), &p); err == nil {
			t.Errorf("%s was read as a point", bad)
		}
	}
	if (Pt{}).Unit() != (Pt{}) || (Pt{3, 4}).Unit().Dist(Pt{0.6, 0.8}) > 1e-15 || (Pt{math.Inf(1), 0}).Finite() || !(Pt{1, 2}).Finite() {
		t.Error("unit vectors and finite points")
	}
}

func TestCrossingsOfSegmentsAndRings(t *testing.T) {
	if !SegmentsCross(Pt{0, 0}, Pt{10, 10}, Pt{0, 10}, Pt{10, 0}) {
		t.Error("the diagonals of a square cross")
	}
	for name, s := range map[string][4]Pt{
		"touching ends":         {{0, 0}, {5, 5}, {5, 5}, {9, 0}},
		"an end on the other":   {{0, 0}, {10, 0}, {5, 0}, {5, 5}},
		"on one line":           {{0, 0}, {10, 0}, {5, 0}, {15, 0}},
		"apart":                 {{0, 0}, {10, 0}, {0, 1}, {10, 1}},
		"lines cross, not they": {{0, 0}, {1, 1}, {0, 10}, {10, 0}},
	} {
		if SegmentsCross(s[0], s[1], s[2], s[3]) {
			t.Errorf("%s is no crossing", name)
		}
	}
	cases := []struct {
		name string
		r    Ring
		want bool
	}{
		{"a square", square(0, 0, 10), false},
		{"a bow tie", Ring{{0, 0}, {10, 10}, {10, 0}, {0, 10}}, true},
		{"a bow tie through a shared point", Ring{{0, 0}, {5, 5}, {10, 10}, {10, 0}, {5, 5}, {0, 10}}, true},
		{"two triangles touching at a point", Ring{{0, 0}, {5, 5}, {0, 10}, {10, 10}, {5, 5}, {10, 0}}, false},
		{"through a point that lies on an edge", Ring{{0, 0}, {10, 0}, {10, 10}, {5, 10}, {5, 0}, {5, -5}, {0, -5}}, true},
		{"touching an edge with a point", Ring{{0, 0}, {10, 0}, {10, 10}, {5, 0}, {0, 10}}, false},
		{"a line there and back", Ring{{0, 0}, {10, 0}, {20, 0}, {10, 0}}, false},
		{"run through twice", append(square(0, 0, 10), square(0, 0, 10)...), false},
		{"nothing", nil, false},
	}
	for _, c := range cases {
		if got := SelfCrosses(c.r); got != c.want {
			t.Errorf("%s crosses itself: %v", c.name, got)
		}
	}
}
