package scan

import (
	"flag"
	"fmt"
	"math"
	"regexp"
	"sort"
	"testing"

	"leafmend/mendplan/geom"
)

var (
	manyLeaves = flag.Int("leaves", 0, "score this many drawn leaves of each kind and print the table")
	leafKinds  = flag.String("kinds", ".", "with -leaves: only the kinds this matches, as in 'white beneath'")
)

// tally sums what was found on some drawn leaves.
type tally struct {
	leaves, good         int // good: outline IoU at least 0.97
	iou, worst           float64
	turn                 float64 // largest error of the rotation, degrees
	want, hit            int     // losses
	said, wrong          int
	tearPx               float64
	tears, covered       float64
	tearsSaid, tearsTrue int // edge tears proposed, and how many of those run along one
	tearsOpen, tearsHit  int // tears that gape, and how many of those were proposed
	judged               []judged
	missed               []string // losses nothing matched, in words
}

// judged is one proposal and whether it was right.
type judged struct {
	Proposal
	right bool
}

func (a tally) plus(b tally) tally {
	if a.leaves == 0 || b.leaves > 0 && b.worst < a.worst {
		a.worst = b.worst
	}
	a.leaves, a.good, a.iou = a.leaves+b.leaves, a.good+b.good, a.iou+b.iou
	a.turn = max(a.turn, b.turn)
	a.want, a.hit, a.said, a.wrong = a.want+b.want, a.hit+b.hit, a.said+b.said, a.wrong+b.wrong
	a.judged = append(a.judged[:len(a.judged):len(a.judged)], b.judged...)
	a.tearsSaid, a.tearsTrue = a.tearsSaid+b.tearsSaid, a.tearsTrue+b.tearsTrue
	a.tearsOpen, a.tearsHit = a.tearsOpen+b.tearsOpen, a.tearsHit+b.tearsHit
	a.tearPx, a.tears, a.covered = a.tearPx+b.tearPx, a.tears+b.tears, a.covered+b.covered
	return a
}

func (a tally) precision() float64 { return 1 - float64(a.wrong)/math.Max(1, float64(a.said)) }
func (a tally) recall() float64    { return float64(a.hit) / math.Max(1, float64(a.want)) }

func (a tally) String() string {
	n := math.Max(1, float64(a.leaves))
	m := math.Max(1, a.tears)
	return fmt.Sprintf("%4d leaves  IoU mean %.4f least %.3f  at 0.97 or better %3.0f%%  turn off by at most %.2f°  losses %4d precision %.3f recall %.3f  tears %.2f px covered %.3f, %d open %d found, %d proposed %d right",
		a.leaves, a.iou/n, a.worst, 100*float64(a.good)/n, a.turn, a.want, a.precision(), a.recall(), a.tearPx/m, a.covered/m, a.tearsOpen, a.tearsHit, a.tearsSaid, a.tearsTrue)
}

// ringsIoU is the shared part of two rings, on pixels.
func ringsIoU(a, b []geom.Pt, w, h int) float64 {
	m, n := rasterise(a, w, h, 1), rasterise(b, w, h, 1)
	both, any := 0, 0
	for i := range m.on {
		if m.on[i] && n.on[i] {
			both++
		}
		if m.on[i] || n.on[i] {
			any++
		}
	}
	return float64(both) / math.Max(1, float64(any))
}

// scoreLeaf runs everything on one drawn leaf: a proposal counts when it
// shares at least half with a true loss.
func scoreLeaf(d drawnLeaf) tally {
	w, h := d.img.Rect.Dx(), d.img.Rect.Dy()
	t := tally{leaves: 1}
	o, err := FindOutline(d.img, 1, OutlineOptions{})
	if err == nil {
		t.iou = ringsIoU(o.Polygon, d.outline, w, h)
		t.turn = math.Abs(o.RotationDeg - d.turn)
	} else {
		t.turn = math.Abs(d.turn)
	}
	t.worst = t.iou
	if t.iou >= 0.97 {
		t.good = 1
	}
	props := ProposeLosses(d.img, 1, o, LossOptions{PxPerMM: d.mm})
	matchLosses(&t, d, props, w, h)
	matchTears(&t, d, props)
	for _, tear := range d.tears {
		l := geom.Path(tear)
		n := l.Length()
		p := Follow(d.img, []geom.Pt{tear[0], l.At(n / 3), l.At(2 * n / 3), tear[len(tear)-1]}, FollowOptions{PxPerMM: d.mm})
		px, cov := tearMatch(p, tear, max(5, 0.5*d.mm))
		t.tearPx, t.covered, t.tears = t.tearPx+px, t.covered+cov, t.tears+1
	}
	return t
}

func matchLosses(t *tally, d drawnLeaf, props []Proposal, w, h int) {
	type pair struct {
		v    float64
		i, j int
	}
	var pairs []pair
	t.want = len(d.losses)
	for j, p := range props {
		if p.Kind == KindEdgeTear {
			continue
		}
		t.said++
		t.wrong++
		for i, l := range d.losses {
			if geom.BoundsOf(l).Overlaps(geom.BoundsOf(p.Polygon)) {
				if v := ringsIoU(l, p.Polygon, w, h); v >= 0.5 {
					pairs = append(pairs, pair{v, i, j})
				}
			}
		}
	}
	sort.SliceStable(pairs, func(a, b int) bool { return pairs[a].v > pairs[b].v })
	usedL, usedP := map[int]bool{}, map[int]bool{}
	defer func() {
		for j, p := range props {
			if p.Kind != KindEdgeTear {
				t.judged = append(t.judged, judged{p, usedP[j]})
			}
		}
		for i, l := range d.losses {
			if !usedL[i] {
				best := 0.0
				for _, p := range props {
					if p.Kind != KindEdgeTear {
						best = max(best, ringsIoU(l, p.Polygon, w, h))
					}
				}
				b := geom.BoundsOf(l)
				t.missed = append(t.missed, fmt.Sprintf("%.0f,%.0f area %.1f mm² best IoU %.2f", b.Min.X, b.Min.Y, math.Abs(geom.Ring(l).SignedArea())/d.mm/d.mm, best))
			}
		}
	}()
	for _, p := range pairs {
		if !usedL[p.i] && !usedP[p.j] {
			usedL[p.i], usedP[p.j] = true, true
			t.hit++
			t.wrong--
		}
	}
}

// matchTears counts the edge tears proposed that keep within a millimetre of a
// true one, and the gaping ones so found.
func matchTears(t *tally, d drawnLeaf, props []Proposal) {
	hit := map[int]bool{}
	for _, p := range props {
		if p.Kind != KindEdgeTear {
			continue
		}
		t.tearsSaid++
		for i, tear := range d.tears {
			if runsAlong(p.Path, tear, d.mm) >= 0.7 {
				t.tearsTrue++
				hit[i] = true
				break
			}
		}
	}
	for i, g := range d.gape {
		if g >= 0.3 && geom.Path(d.tears[i]).Length() > 6*d.mm {
			t.tearsOpen++
			if hit[i] {
				t.tearsHit++
			}
		}
	}
}

// tearMatch is the mean distance both ways, and the share of the true path
// within tol of the one found.
func tearMatch(found, truth []geom.Pt, tol float64) (mean, covered float64) {
	ab, ba := 0.0, 0.0
	for _, p := range truth {
		dd := geom.DistToPath(p, found)
		ab += dd
		if dd <= tol {
			covered++
		}
	}
	f := geom.Path(found)
	const n = 200
	for i := range n {
		ba += geom.DistToPath(f.At(f.Length()*float64(i)/(n-1)), truth)
	}
	return (ab/float64(len(truth)) + ba/n) / 2, covered / float64(len(truth))
}

var (
	drawnBackings = []string{"black", "white", "grey", "felt", "coloured"}
	drawnExtras   = []string{"", "target", "sheet", "lining", "cut", "shadow", "heavy", "worn", "picture", "beneath", "close"}
)

// tell logs one leaf: its figures, what was proposed wrongly and what missed.
func (a tally) tell(t *testing.T, seed int64, backing, extra string) {
	t.Logf("%d %s %s %v", seed, backing, extra, a)
	for _, p := range a.judged {
		if !p.right {
			c := geom.BoundsOf(p.Polygon)
			t.Logf("  wrong: %s %.2f at %.0f,%.0f–%.0f,%.0f: %s", p.Kind, p.Confidence, c.Min.X, c.Min.Y, c.Max.X, c.Max.Y, p.Why)
		}
	}
	for _, m := range a.missed {
		t.Log("  missed: " + m)
	}
}

// TestManyDrawnLeavesTable prints the score table; it is asked for by flag
// because hundreds of leaves take minutes.
func TestManyDrawnLeavesTable(t *testing.T) {
	if *manyLeaves == 0 {
		t.Skip("ask for the table with -leaves N; TestDrawnLeaves holds a few of the same leaves to a minimum")
	}
	byBacking, byExtra, all := map[string]tally{}, map[string]tally{}, tally{}
	kinds, err := regexp.Compile(*leafKinds)
	if err != nil {
		t.Fatal(err)
	}
	for k, extras := range [][]string{drawnExtras, drawnMore} {
		seed := int64(1000 + 4000*k)
		for _, b := range drawnBackings {
			for _, e := range extras {
				for range *manyLeaves {
					seed++
					if !kinds.MatchString(b + " " + e) {
						continue
					}
					s := scoreLeaf(drawLeaf(drawnSpec{seed, b, e}))
					s.tell(t, seed, b, e)
					byBacking[b], byExtra[e], all = byBacking[b].plus(s), byExtra[e].plus(s), all.plus(s)
				}
			}
		}
	}
	for _, b := range drawnBackings {
		t.Logf("%-9s %v", b, byBacking[b])
	}
	for _, e := range append(append([]string{}, drawnExtras...), drawnMore...) {
		t.Logf("%-9s %v", "+"+e, byExtra[e])
	}
	t.Logf("%-9s %v", "all", all)
	all.tellConfidence(t)
}

// tellConfidence logs precision and recall were only proposals of at least a
// confidence made, and how many of those about that confidence are right.
func (a tally) tellConfidence(t *testing.T) {
	for c := 0.4; c < 0.95; c += 0.1 {
		var said, right, near, nearRight float64
		for _, p := range a.judged {
			if p.Confidence < c {
				continue
			}
			said++
			if p.Confidence < c+0.1 {
				near++
			}
			if p.right {
				right++
				if p.Confidence < c+0.1 {
					nearRight++
				}
			}
		}
		t.Logf("confidence %.1f and more: precision %.3f recall %.3f; of %3.0f between %.1f and %.1f right %.2f",
			c, right/math.Max(1, said), right/math.Max(1, float64(a.want)), near, c, c+0.1, nearRight/math.Max(1, near))
	}
}
