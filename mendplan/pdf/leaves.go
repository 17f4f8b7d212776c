package pdf

import (
	"strings"

	"codeberg.org/go-pdf/fpdf"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// leaves prints a page for each leaf: both sides with damages and pieces.
func (b *book) leaves() {
	b.part = b.say("Leaves")
	for _, leaf := range b.job.Leaves {
		b.page(false)
		y := b.top()
		b.font("B", 12)
		b.textFit(marginX, y+4, b.w-2*marginX, b.leafTitle(leaf))
		b.font("", 8)
		b.textFit(marginX, y+8.5, b.w-2*marginX, b.leafLine(leaf))
		b.font("", 7)
		b.colour(grey)
		b.textShrink(marginX, y+12, b.w-2*marginX, "", 7, b.scaleLine(leaf))
		b.colour(black)
		y += 15
		scanned := scannedSides(leaf)
		room := (b.bottom() - y - 10) / float64(max(len(scanned), 1))
		for _, side := range scanned {
			y = b.leafSide(leaf, side, y, room-4) + 4
		}
		if len(scanned) < 2 {
			b.font("", 8)
			b.text(marginX, y+3, b.notScanned(scanned))
		}
		b.legend(b.bottom())
	}
}

// scannedSides lists the sides of a leaf that have a scan.
func scannedSides(leaf mendplan.Leaf) []mendplan.SideName {
	var out []mendplan.SideName
	for _, side := range []mendplan.SideName{mendplan.Front, mendplan.Back} {
		if s := leaf.SideOf(side).Scan; s.Present() && s.Width > 0 && s.Height > 0 {
			out = append(out, side)
		}
	}
	return out
}

func (b *book) notScanned(scanned []mendplan.SideName) string {
	switch {
	case len(scanned) == 0:
		return b.say("Neither side is scanned.")
	case scanned[0] == mendplan.Front:
		return b.say("The back is not scanned; pieces for it are shown through, with their labels in brackets.")
	}
	return b.say("The front is not scanned; pieces for it are shown through, with their labels in brackets.")
}

func (b *book) leafTitle(leaf mendplan.Leaf) string {
	if leaf.Name == "" {
		return b.say("Leaf %s", markOf(leaf))
	}
	return b.say("Leaf %s", markOf(leaf)) + ": " + leaf.Name
}

func (b *book) leafLine(leaf mendplan.Leaf) string {
	n := 0
	for _, p := range b.plan.Pieces {
		if p.Leaf == leaf.ID {
			n++
		}
	}
	s := b.count(len(leaf.Damages), "1 damage", "%d damages") + ", " + b.count(n, "1 piece", "%d pieces")
	if _, sheet, problem := mendplan.FrameOf(leaf, mendplan.Front); problem == nil {
		w, h := sheet.Size()
		s += ", " + b.units.Size(w, h)
	}
	if leaf.Note != "" {
		s += ". " + leaf.Note
	}
	return s
}

// scaleLine says what the sizes of a leaf rest on, and how far they may be off.
func (b *book) scaleLine(leaf mendplan.Leaf) string {
	var parts []string
	for _, side := range scannedSides(leaf) {
		c := leaf.SideOf(side).Calibration
		words := b.say("no scale")
		if c.Known() {
			words = b.say(string(c.Origin))
			if c.Words != "" {
				words += ": " + c.Words
			}
			if c.DoubtPercent > 0 {
				words += b.figures(", ±%.2g %%", c.DoubtPercent)
			}
		}
		parts = append(parts, b.say(string(side))+": "+words)
	}
	if len(parts) == 0 {
		return ""
	}
	return b.say("Scale") + ": " + strings.Join(parts, "; ")
}

// leafSide draws one side into a room of the page's width and the given
// height and returns the y below.
func (b *book) leafSide(leaf mendplan.Leaf, side mendplan.SideName, y, room float64) float64 {
	b.font("B", 8.5)
	b.colour(black)
	words := b.say("Front")
	if side == mendplan.Back {
		words = b.say("Back, as seen from there")
	}
	b.text(marginX, y+3, words)
	y, room = y+5, room-5
	scan := leaf.SideOf(side).Scan
	k := min((b.w-2*marginX)/float64(scan.Width), room/float64(scan.Height))
	w, h := float64(scan.Width)*k, float64(scan.Height)*k
	x := (b.w - w) / 2
	b.picture(leaf, side, x, y, w, h)
	b.f.ClipRect(x, y, w, h, false)
	b.leafMarks(leaf, side, at{x, y, k}.point)
	b.f.ClipEnd()
	b.line(grey, 0.15)
	b.f.Rect(x, y, w, h, "D")
	return y + h
}

// at maps scan pixels to the page: k millimetres to a pixel.
type at struct{ x, y, k float64 }

func (a at) point(p geom.Pt) geom.Pt { return geom.Pt{X: a.x + p.X*a.k, Y: a.y + p.Y*a.k} }

// picture puts the scan in place, or says why it is not there.
func (b *book) picture(leaf mendplan.Leaf, side mendplan.SideName, x, y, w, h float64) {
	if b.opt.Picture == nil {
		return
	}
	pic, err := b.pictureOf(leaf, side)
	if err != nil {
		b.font("", 7.5)
		b.colour(madder)
		b.paragraph(x+3, y+6, w-6, 3.6, b.say("The picture is not here: %s", err.Error()))
		b.colour(black)
		return
	}
	name := leaf.ID + "/" + string(side)
	if !b.register(name, pic.JPEG) {
		return
	}
	b.f.ImageOptions(name, x, y, w, h, false, fpdf.ImageOptions{ImageType: "JPEG"}, 0, "")
}

// leafMarks draws pieces and damages, those of the other side dashed.
func (b *book) leafMarks(leaf mendplan.Leaf, side mendplan.SideName, at func(geom.Pt) geom.Pt) {
	frame, _, problem := mendplan.FrameOf(leaf, side)
	for _, p := range b.plan.Pieces {
		if p.Leaf != leaf.ID || problem != nil {
			continue
		}
		for _, ring := range frame.AreaToScan(p.Outline) {
			b.lineOnLeaf(ring, at, indigo, true, p.Side != side)
		}
	}
	for _, d := range leaf.Damages {
		paths, ok := mendplan.TracesOn(leaf, d, side)
		if !ok {
			continue
		}
		for _, path := range paths {
			b.lineOnLeaf(path, at, madder, d.Kind.Closed(), d.Side != side)
		}
	}
	if problem == nil {
		b.pieceLabels(leaf, side, frame, at)
	}
}

// lineOnLeaf draws a line twice, light below and dark above, so that it reads
// on any paper.
func (b *book) lineOnLeaf(pts []geom.Pt, at func(geom.Pt) geom.Pt, c ink, closed, through bool) {
	if len(pts) < 2 {
		return
	}
	line := make([]geom.Pt, 0, len(pts)+1)
	for _, p := range pts {
		line = append(line, at(p))
	}
	if closed {
		line = append(line, line[0])
	}
	width := 0.7
	if through {
		width = 0.45 // quieter: it lies on the other side
	}
	b.line(ink{255, 255, 255}, width)
	b.polyline(line)
	b.line(c, width*0.45)
	if through {
		b.f.SetDashPattern([]float64{1, 0.7}, 0)
	}
	b.polyline(line)
	b.f.SetDashPattern(nil, 0)
}

// pieceLabels writes the labels of the pieces pasted on this side, and in
// brackets those of the other side when that has no scan to show them on.
func (b *book) pieceLabels(leaf mendplan.Leaf, side mendplan.SideName, frame mendplan.Frame, at func(geom.Pt) geom.Pt) {
	b.font("B", 6)
	alone := len(scannedSides(leaf)) == 1
	for _, p := range b.plan.Pieces {
		if p.Leaf != leaf.ID || p.Side != side && !alone || len(p.Outline) == 0 {
			continue
		}
		c := at(frame.ToScan(p.BlankCentre))
		label := p.Label
		if p.Side != side {
			label = "(" + label + ")"
		}
		w := b.f.GetStringWidth(b.face.printable(label)) + 1.2
		b.f.SetFillColor(255, 255, 255)
		b.line(indigo, 0.15)
		b.f.Rect(c.X-w/2, c.Y-1.5, w, 3, "FD")
		b.colour(indigo)
		b.textCentre(c.X, c.Y+0.75, label)
	}
	b.colour(black)
}

// legend says in words what the lines mean.
func (b *book) legend(y float64) {
	b.font("", 7)
	x := marginX
	for _, e := range []struct {
		c     ink
		dash  bool
		words string
	}{{madder, false, b.say("damage")}, {madder, true, b.say("damage traced on the other side")}, {indigo, false, b.say("tissue on this side")}, {indigo, true, b.say("tissue on the other side")}} {
		b.line(e.c, 0.4)
		if e.dash {
			b.f.SetDashPattern([]float64{1, 0.8}, 0)
		}
		b.f.Line(x, y-1, x+8, y-1)
		b.f.SetDashPattern(nil, 0)
		b.colour(black)
		b.text(x+10, y, e.words)
		x += 16 + b.f.GetStringWidth(e.words)
	}
}
