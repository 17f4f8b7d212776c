package ui

import (
	"context"
	"image"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/scan"
)

// changedScan is a picture that is not what the damages were traced on, with
// the ways in which the traces may lie on it.
type changedScan struct {
	w     *Window
	leaf  mendplan.Leaf
	side  mendplan.SideName
	now   mendplan.Scan
	ways  []scan.Refit
	way   int
	small image.Image
	k     float64 // pixels of small to one of the scan
	words *widget.Label
	shown *canvas.Image
	yes   *answerButton
	d     *dialog.CustomDialog
}

// changedHere reports whether the scan in hand is another file than was traced
// on.
func changedHere(w *Window) bool {
	l, ok := w.session.Leaf()
	return ok && w.scanProblem(l.ID, w.session.Side()) == mendplan.ScanChanged
}

// checkChanged looks aside at the picture of the side in hand and shows the
// traces on it.
func (w *Window) checkChanged() {
	leaf, ok := w.session.Leaf()
	if !ok {
		return
	}
	c := &changedScan{w: w, leaf: leaf, side: w.session.Side()}
	was := leaf.SideOf(c.side)
	path := w.session.scanPath(was.Scan)
	ctx, stop := context.WithCancel(context.Background())
	w.status.begin(t("Comparing the traces with the picture"), stop)
	w.work.start(func() error { return c.compare(ctx, was, path) }, func(err error) {
		w.status.end()
		stopped := ctx.Err() != nil
		stop()
		switch {
		case stopped:
			w.status.say(t("Stopped; the scan is still to be checked."))
		case err != nil:
			w.tellError(err)
		default:
			c.show()
		}
	})
}

// compare reads the picture there is now and judges it against what the job
// still knows of the earlier one.
func (c *changedScan) compare(ctx context.Context, was mendplan.Side, path string) error {
	sum, err := mendplan.ChecksumScan(path)
	if err != nil {
		return err
	}
	pic, err := scan.Open(ctx, path, scan.OpenOptions{Page: was.Scan.Page, Cache: c.w.pictures.cache})
	if err != nil {
		return err
	}
	defer pic.Close()
	img, scale := pic.AtLeast(scan.AnalysisSide)
	now := scan.Now{Width: pic.Bounds().Dx(), Height: pic.Bounds().Dy(), Img: img, Scale: scale}
	if o, err := scan.FindOutline(img, scale, scan.OutlineOptions{}); err == nil {
		now.Outline = o
	}
	earlier := scan.Earlier{Width: was.Scan.Width, Height: was.Scan.Height, Look: was.Scan.Look}
	if len(was.Outline) > 2 {
		earlier.Outline.Polygon = was.Outline
	}
	if len(was.TrueEdge) == 4 {
		earlier.Outline.TrueEdge = [4]geom.Pt(was.TrueEdge)
	}
	c.now = was.Scan
	c.now.Width, c.now.Height, c.now.SHA256, c.now.Look = now.Width, now.Height, sum, scan.LookOf(img)
	c.ways = scan.RefitPicture(earlier, now)
	small := pic.Thumbnail(previewSide)
	c.small, c.k = small, float64(small.Rect.Dx())/float64(max(1, now.Width))
	return ctx.Err()
}

func (c *changedScan) show() {
	w := c.w
	c.words = widget.NewLabel("")
	c.words.Wrapping = fyne.TextWrapWord
	c.shown = canvas.NewImageFromImage(nil)
	c.shown.FillMode = canvas.ImageFillContain
	c.shown.SetMinSize(fyne.NewSize(300, 220))
	body := container.NewBorder(c.words, nil, nil, nil, c.shown)
	c.d = dialog.NewCustomWithoutButtons(t("Do the traces fit this picture?")+" "+leafTitle(c.leaf)+", "+sideShort(c.side), body, w.win)
	later := w.answerButton(t("Not now"), widget.MediumImportance, func() { c.d.Hide() })
	other := w.answerButton(t("Another way up"), widget.MediumImportance, func() {
		c.way = (c.way + 1) % len(c.ways)
		c.tell()
	})
	if len(c.ways) < 2 {
		other.Disable()
	}
	c.yes = w.answerButton("", widget.HighImportance, func() { c.d.Hide(); c.accept() })
	c.tell()
	c.d.SetButtons([]fyne.CanvasObject{later, other, c.yes})
	room := w.win.Canvas().Size()
	c.d.Resize(fyne.NewSize(min(940, room.Width-40), min(700, room.Height-40)))
	w.present(c.d, nil)
	if c.yes.Importance == widget.HighImportance {
		w.win.Canvas().Focus(c.yes)
	} else {
		w.win.Canvas().Focus(later)
	}
}

// tell shows the way in hand: words, picture and what the button would do.
func (c *changedScan) tell() {
	r := c.ways[c.way]
	c.words.SetText(c.verdict(r))
	c.shown.Image = tracesOn(c.small, c.leaf, c.side, r.Map, c.k)
	c.shown.Refresh()
	c.yes.Importance = widget.HighImportance
	switch r.Verdict {
	case scan.Fits:
		c.yes.SetText(t("The traces fit this picture"))
	case scan.Moves:
		c.yes.SetText(t("Carry the traces over as shown"))
	default:
		c.yes.Importance = widget.DangerImportance
		c.yes.SetText(t("They fit as shown: use them"))
	}
}

// verdict says in words what the comparison found, with its doubt.
func (c *changedScan) verdict(r scan.Refit) string {
	var words string
	switch r.Verdict {
	case scan.Fits:
		words = t("The picture shows the leaf where it was: the traces seem to fit as they are.")
	case scan.Moves:
		words = t("The picture shows the same leaf elsewhere: %s. The traces can be carried over as shown.", c.movedWords(r))
	case scan.Differs:
		words = t("This seems to be another leaf, or another side: the traces do not fit. Choose the right scan, or put the old file back.")
	default:
		words = t("Outline and print do not tell for sure whether this is the same picture: look closely before you use the traces.")
	}
	if r.Outlines && r.Verdict != scan.Differs {
		words += " " + t("The outlines agree to %s on average, and a place may be off by %s.", c.length(r.Residual), c.length(r.Doubt))
	}
	if r.Looked {
		words += " " + t("Likeness of the print: %.0f of 100.", 100*max(0, r.Look))
	}
	if r.Verdict != scan.Fits && r.Verdict != scan.Moves {
		words += " " + t("Until you decide, the traces stay as they are and the leaf stays marked.")
	}
	return words
}

// movedWords says what became of the picture.
func (c *changedScan) movedWords(r scan.Refit) string {
	var parts []string
	if r.Turn > 0 {
		parts = append(parts, t("turned by %d°", 90*r.Turn))
	}
	if k := geomScale(r.Map); k < 0.995 || k > 1.005 {
		parts = append(parts, t("%.0f %% of the size", 100*k))
	}
	if !r.Whole {
		parts = append(parts, t("shifted or cut"))
	}
	return strings.Join(parts, ", ")
}

// length tells a distance on the picture now in millimetres where the side has
// a scale, else in pixels.
func (c *changedScan) length(px float64) string {
	cal := c.leaf.SideOf(c.side).Calibration
	k := geomScale(c.ways[c.way].Map)
	if cal.MMPerPxX > 0 && k > 0 {
		return thickness(px / k * cal.MMPerPxX)
	}
	return t("%.1f pixels", px)
}

// accept puts the side on the picture as shown, as one step.
func (c *changedScan) accept() {
	r := c.ways[c.way]
	by := r.Map
	if r.Verdict == scan.Fits {
		by = geom.Identity()
	}
	j := c.w.session.Job()
	leaf, ok := j.Leaf(c.leaf.ID)
	if !ok || leaf.SideOf(c.side).Scan != c.leaf.SideOf(c.side).Scan {
		c.w.status.say(t("The scan was changed meanwhile: compare again."))
		return
	}
	next, ok := j.OnPicture(c.leaf.ID, c.side, c.now, by)
	if !ok {
		c.w.status.say(t("The traces cannot be carried over like that."))
		return
	}
	c.w.session.Do("check traces on changed scan", next)
	c.w.session.found = slices.DeleteFunc(slices.Clone(c.w.session.found), func(p mendplan.Problem) bool {
		return aboutFile(p) && p.Leaf == c.leaf.ID && p.Side == c.side
	})
	c.w.status.say(t("The traces belong to this picture now; undo takes that back."))
	c.w.checkScans()
}
