package pdf

import (
	"fmt"
	"strings"

	"codeberg.org/go-pdf/fpdf"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

const pictureGap = 4.0

// tallest is how high a picture may be, so that three rows of them and the
// mends fit on a page: 54 mm on A4.
func (b *book) tallest() float64 { return 54 + (b.h-297)/3 }

// reportLeaf prints a page for one leaf: where its mends are, what they are,
// and both sides before and after treatment.
func (b *book) reportLeaf(leaf mendplan.Leaf) {
	sides := scannedSides(leaf)
	if len(sides) == 0 && len(leaf.Damages) == 0 {
		return
	}
	fl := &flow{b: b}
	fl.page()
	b.font("B", 12)
	b.textFit(marginX, fl.y+4, b.w-2*marginX, b.leafTitle(leaf))
	fl.y += 6
	fl.words(b.leafLine(leaf))
	before := func(side mendplan.SideName) mendplan.Scan { return leaf.SideOf(side).Scan }
	fl.pictureRow(b.say("Mends"), sides, before, func(side mendplan.SideName, r rect) { b.mapOf(leaf, side, r) })
	fl.mendTable(leaf)
	if b.opt.Picture != nil {
		fl.pictureRow(b.say("Before treatment")+b.onDay(leaf, mendplan.Surveyed), sides, before, func(side mendplan.SideName, r rect) {
			pic, err := b.pictureOf(leaf, side)
			b.placePicture(leaf.ID+"/"+string(side), pic, err, r)
		})
	}
	fl.afterRow(leaf)
}

// afterRow shows the sides after treatment, or says that there is no picture.
func (fl *flow) afterRow(leaf mendplan.Leaf) {
	b := fl.b
	var sides []mendplan.SideName
	for _, side := range []mendplan.SideName{mendplan.Front, mendplan.Back} {
		if leaf.SideOf(side).After.Present() {
			sides = append(sides, side)
		}
	}
	if len(sides) == 0 || b.opt.After == nil {
		fl.words(b.say("There is no picture after treatment."))
		return
	}
	after := func(side mendplan.SideName) mendplan.Scan { return leaf.SideOf(side).After }
	fl.pictureRow(b.say("After treatment")+b.onDay(leaf, mendplan.Checked), sides, after, func(side mendplan.SideName, r rect) {
		pic, err := b.opt.After(leaf, side)
		b.placePicture("after/"+leaf.ID+"/"+string(side), pic, err, r)
	})
}

// onDay is the day of the last step of a kind, when it is recorded.
func (b *book) onDay(leaf mendplan.Leaf, kind mendplan.StepKind) string {
	s, ok := course.Last(b.job, leaf.ID, kind)
	if !ok || s.Date == "" {
		return ""
	}
	return ", " + s.Date
}

// pictureRow sets up to two sides side by side under a heading, in the shape
// of their scans.
func (fl *flow) pictureRow(words string, sides []mendplan.SideName, scan func(mendplan.SideName) mendplan.Scan, draw func(mendplan.SideName, rect)) {
	if len(sides) == 0 {
		return
	}
	b := fl.b
	width, height := (b.w-2*marginX-pictureGap)/2, 0.0
	places := make([]rect, len(sides))
	for i, side := range sides {
		s, shape := scan(side), 0.7
		if s.Width > 0 && s.Height > 0 {
			shape = float64(s.Height) / float64(s.Width)
		}
		h := min(width*shape, b.tallest())
		column := 0.0
		if side == mendplan.Back { // also alone: each column is one side down the page
			column = 1
		}
		places[i], height = rect{marginX + column*(width+pictureGap), 0, h / shape, h}, max(height, h)
	}
	fl.room(height + 9)
	b.font("B", 9)
	b.colour(black)
	b.text(marginX, fl.y+4, words)
	fl.y += 6
	for i, r := range places {
		r.y = fl.y
		draw(sides[i], r)
		b.line(grey, 0.15)
		b.f.Rect(r.x, r.y, r.w, r.h, "D")
		b.font("", 7)
		b.colour(grey)
		b.text(r.x, r.y+height+2.8, b.say(string(sides[i])))
		b.colour(black)
	}
	fl.y += height + 4
}

// mapOf draws the mends of a side over its picture.
func (b *book) mapOf(leaf mendplan.Leaf, side mendplan.SideName, r rect) {
	b.picture(leaf, side, r.x, r.y, r.w, r.h)
	scan := leaf.SideOf(side).Scan
	k := r.w / float64(scan.Width)
	b.f.ClipRect(r.x, r.y, r.w, r.h, false)
	b.leafMarks(leaf, side, at{r.x, r.y, k}.point)
	b.f.ClipEnd()
}

// placePicture puts a picture into a rectangle, or says why it is not there.
func (b *book) placePicture(name string, pic Picture, err error, r rect) {
	if err == nil && !b.register(name, pic.JPEG) {
		err = b.f.Error()
	}
	if err != nil {
		b.font("", 7)
		b.colour(madder)
		b.paragraph(r.x+2, r.y+5, r.w-4, 3.4, b.say("The picture is not here: %s", err.Error()))
		b.colour(black)
		return
	}
	b.f.ImageOptions(name, r.x, r.y, r.w, r.h, false, fpdf.ImageOptions{ImageType: "JPEG"}, 0, "")
}

// mendTable lists the damages of a leaf with what answers them.
func (fl *flow) mendTable(leaf mendplan.Leaf) {
	b := fl.b
	var rows [][]string
	for _, d := range leaf.Damages {
		var pieces, tissues, sides []string
		style, done, n := "", 0, 0
		for _, p := range b.plan.Pieces {
			if p.Leaf != leaf.ID || p.Damage != d.Number {
				continue
			}
			n++
			if course.PieceDone(b.job, p) {
				done++
			}
			pieces = append(pieces, p.Label)
			tissues = addNew(tissues, b.tissueName(p.Tissue))
			sides = addNew(sides, b.say(string(p.Side)))
			style = b.say(string(p.Style))
		}
		state := ""
		switch {
		case n > 0 && done == n:
			state = b.say("done")
		case n > 0:
			state = b.say("%d of %d", done, n)
		case d.NoMend || !d.Kind.Mended():
			state = b.say("noted")
		}
		what := b.say(string(d.Kind))
		if d.Note != "" {
			what += ": " + d.Note
		}
		rows = append(rows, []string{fmt.Sprint(d.Number), what, style, strings.Join(sides, ", "), strings.Join(tissues, ", "), strings.Join(pieces, ", "), state})
	}
	fl.table(b.stretch([]column{{b.say("no."), 9, true}, {b.say("damage"), 36, false}, {b.say("mend"), 18, false}, {b.say("side"), 14, false}, {b.say("tissue"), 36, false}, {b.say("pieces"), 40, false}, {b.say("state"), 18, false}}, 5), rows)
}

func addNew(list []string, s string) []string {
	for _, o := range list {
		if o == s {
			return list
		}
	}
	return append(list, s)
}
