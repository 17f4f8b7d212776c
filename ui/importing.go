package ui

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/scan"
)

// newScan is a picture that was looked at, to become a side of a leaf.
type newScan struct {
	path string
	side mendplan.Side
	err  error // why it cannot be read
}

func (w *Window) addScanDialog() {
	w.choose(choosing{title: t("Add scans"), verb: t("Add"), suffix: mendplan.PictureSuffixes, many: true}, w.addScans)
}

func (w *Window) addFolderDialog() {
	w.choose(choosing{title: t("Add a folder of scans"), verb: t("Use this folder"), suffix: mendplan.PictureSuffixes, folder: true}, w.addScans)
}

// addScans looks at pictures and folders of pictures. One picture becomes a
// leaf at once; of several the user sees first how they are paired.
func (w *Window) addScans(paths []string) {
	paths = withFolders(paths)
	if len(paths) == 0 {
		w.status.say(t("There are no pictures in this folder."))
		return
	}
	ctx, stop := context.WithCancel(context.Background())
	scans := make([]newScan, len(paths))
	w.status.begin(t("Looking at the scans"), stop)
	w.work.start(func() error {
		for i, p := range paths {
			if ctx.Err() != nil {
				return nil
			}
			scans[i] = w.lookAt(ctx, p)
			w.work.report(func() { w.status.done(float64(i+1) / float64(len(paths))) })
		}
		return nil
	}, func(err error) {
		w.status.end()
		if err != nil {
			w.tellError(err)
			return
		}
		if ctx.Err() == nil {
			w.looked(scans)
		}
		stop()
	})
}

// withFolders puts the pictures of a folder in its place.
func withFolders(paths []string) []string {
	var out []string
	for _, p := range paths {
		st, err := os.Stat(p)
		if err != nil || !st.IsDir() {
			out = append(out, p)
			continue
		}
		list, _ := os.ReadDir(p) // what can be listed
		for _, e := range list {
			if !e.IsDir() && !strings.HasPrefix(e.Name(), ".") && hasSuffix(e.Name(), mendplan.PictureSuffixes) {
				out = append(out, filepath.Join(p, e.Name()))
			}
		}
	}
	return out
}

// sureOfEdge is how certain the edge of a leaf must be to be taken without
// asking.
const sureOfEdge = 0.6

// lookAt reads what a picture's headers, checksum and pixels tell. A
// resolution that may be trusted becomes the scale, and an edge found with
// certainty the leaf's edge; anything else is left for the user to decide.
func (w *Window) lookAt(ctx context.Context, path string) newScan {
	abs, err := filepath.Abs(path)
	if err != nil {
		abs = path
	}
	info, err := scan.Inspect(abs)
	if err != nil {
		return newScan{path: abs, err: err}
	}
	sum, err := mendplan.ChecksumScan(abs)
	if err != nil {
		return newScan{path: abs, err: err}
	}
	n := newScan{path: abs, side: mendplan.Side{Scan: mendplan.Scan{Width: info.Width, Height: info.Height, SHA256: sum}}}
	if r, trusted := info.Best(); trusted {
		n.side.Calibration = mendplan.FileCalibration(r.DPIX, r.DPIY, r.DoubtPercent, r.Source)
	}
	pic, err := scan.Open(ctx, abs, scan.OpenOptions{Cache: w.pictures.cache})
	if err != nil {
		n.err = err
		return n
	}
	defer pic.Close()
	img, scale := pic.AtLeast(scan.AnalysisSide)
	n.side.Scan.Look = scan.LookOf(img)
	if o, err := scan.FindOutline(img, scale, scan.OutlineOptions{}); err == nil && o.Confidence >= sureOfEdge {
		n.side.Outline, n.side.TrueEdge = o.Polygon, slices.Clone(o.TrueEdge[:])
	}
	return n
}

// looked goes on once all pictures were looked at.
func (w *Window) looked(scans []newScan) {
	var good []newScan
	var bad []error
	for _, s := range scans {
		if s.err != nil {
			bad = append(bad, s.err)
			continue
		}
		good = append(good, s)
	}
	switch {
	case len(good) == 0:
		w.tellError(bad[0])
	case len(scans) == 1:
		w.makeLeaves(good, []mendplan.Pair{{Front: good[0].path}})
	default:
		w.pairingDialog(good, bad)
	}
}

// makeLeaves adds a leaf for each pair, as one step.
func (w *Window) makeLeaves(scans []newScan, pairs []mendplan.Pair) {
	byPath := map[string]newScan{}
	for _, s := range scans {
		byPath[s.path] = s
	}
	j := w.session.Job()
	if len(j.Tissues) == 0 && len(j.Leaves) == 0 {
		j.Tissues, j.Stock = mendplan.StarterTissues()
	}
	side := func(path string) mendplan.Side {
		s, ok := byPath[path]
		if !ok {
			return mendplan.Side{}
		}
		s.side.Scan.Path = w.session.namedScan(path)
		return s.side
	}
	first, unscaled, edges, sides := "", 0, 0, 0
	for _, p := range pairs {
		leaf := mendplan.Leaf{ID: j.FreshLeafID(), Front: side(p.Front), Back: side(p.Back)}
		leaf.Mark, leaf.Kind = freshMark(j), kindOf(leaf.Front)
		leaf.Name = nameOf(p, leaf.Mark)
		for _, s := range []mendplan.Side{leaf.Front, leaf.Back} {
			if !s.Scan.Present() {
				continue
			}
			sides++
			if !s.Calibration.Known() {
				unscaled++
			}
			if len(s.TrueEdge) == 4 {
				edges++
			}
		}
		if first == "" {
			first = leaf.ID
		}
		j = j.WithLeaf(leaf)
	}
	w.session.Do("add scans", j)
	w.log().Info("added", "scans", len(scans), "leaves", len(pairs))
	w.session.Show(first, mendplan.Front)
	w.showStage(stageTrace)
	w.guide.did(guideScans)
	words := t("Added: %s; the edge was found on %d of %d.", leafCount(len(pairs)), edges, sides)
	if unscaled > 0 {
		words += " " + t("No resolution that can be trusted: %d. Set the scale before tracing.", unscaled)
	}
	w.status.say(words)
	w.focusSurface()
}

func leafCount(n int) string {
	if n == 1 {
		return t("1 leaf")
	}
	return t("%d leaves", n)
}

// kindOf guesses what lies on a scan from its shape: what is clearly wider
// than tall is taken for a folded sheet opened flat (common practice, no
// source). It can be changed at the leaf.
func kindOf(s mendplan.Side) mendplan.LeafKind {
	w, h := float64(s.Scan.Width), float64(s.Scan.Height)
	if e := s.TrueEdge; len(e) == 4 {
		w, h = e[0].Dist(e[1]), e[0].Dist(e[3])
	}
	if w > 1.1*h {
		return mendplan.Bifolium
	}
	return mendplan.SingleLeaf
}

// nameOf names a leaf after its scans: what their names share, without the
// word for the side; nothing when that is the mark alone.
func nameOf(p mendplan.Pair, mark string) string {
	name := strings.TrimSuffix(filepath.Base(p.Front), filepath.Ext(p.Front))
	if p.Back != "" {
		back := filepath.Base(p.Back)
		n := 0
		for n < len(name) && n < len(back) && name[n] == back[n] {
			n++
		}
		name = strings.TrimRight(name[:n], " ._-")
	}
	if name == mark {
		return ""
	}
	return name
}

// freshMark is the next number not yet used as a leaf's mark.
func freshMark(j mendplan.Job) string {
	used := map[string]bool{}
	for _, l := range j.Leaves {
		used[l.Mark] = true
	}
	n := 1
	for used[strconv.Itoa(n)] {
		n++
	}
	return strconv.Itoa(n)
}

// scanForSide gives the side that is shown a scan.
func (w *Window) scanForSide() {
	w.choose(choosing{title: t("Choose the scan of this side"), verb: t("Use"), suffix: mendplan.PictureSuffixes}, func(paths []string) {
		var n newScan
		w.aside(t("Reading the scan"), func(ctx context.Context) error { n = w.lookAt(ctx, paths[0]); return n.err }, func(err error) {
			if err != nil {
				w.tellError(err)
				return
			}
			n.side.Scan.Path = w.session.namedScan(n.path)
			if w.tracedOnOther(n.side.Scan) {
				return
			}
			w.session.EditSide("choose scan", func(side mendplan.Side) mendplan.Side {
				same := side.Scan.Width == n.side.Scan.Width && side.Scan.Height == n.side.Scan.Height
				if side.Calibration.Known() && same {
					n.side.Calibration = side.Calibration
				}
				if same && len(side.TrueEdge) == 4 {
					n.side.Outline, n.side.TrueEdge = side.Outline, side.TrueEdge
				}
				return n.side
			})
			w.checkScans()
		})
	})
}
