package pdf

import (
	"math"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
)

// swellMapWidth is the width of a map of added thickness on the page, mm.
const swellMapWidth = 62.0

// swell tells how much thicker the mends make each gathering, with a map from
// the fold on the left to the fore-edge.
func (fl *flow) swell() {
	b := fl.b
	shown := false
	for _, s := range mendplan.Swells(b.job, b.plan.Pieces) {
		if s.Worst <= 0 || s.Cols == 0 || s.Rows == 0 {
			continue
		}
		if !shown {
			fl.heading(b.say("Thickness the mends add"))
			shown = true
		}
		fl.swellOf(s)
	}
}

func (fl *flow) swellOf(s mendplan.Swell) {
	b := fl.b
	k := swellMapWidth / (float64(s.Cols) * mendplan.SwellCell)
	height := min(float64(s.Rows)*mendplan.SwellCell*k, 80)
	k = height / (float64(s.Rows) * mendplan.SwellCell)
	fl.room(height + 6)
	x, y := marginX, fl.y+1
	b.swellMap(s, x, y, k)
	tx, ty := marginX+swellMapWidth+8, y+4
	b.colour(black)
	b.font("B", 9)
	b.text(tx, ty, b.say("Gathering %s", b.gatheringName(b.gatheringOf(s.Gathering))))
	corner := b.say("worst corner, at the tail")
	if s.CornerHead {
		corner = b.say("worst corner, at the head")
	}
	for i, row := range [][2]string{{b.say("at the fold"), b.thick(s.Fold)}, {corner, b.thick(s.Corner)},
		{b.say("most, %s from the fold and %s from the head", b.units.Length(s.WorstAt.X), b.units.Length(s.WorstAt.Y)), b.thick(s.Worst)}} {
		b.font("", 8)
		b.textShrink(tx, ty+5.5+float64(i)*4.6, 82, "", 8, row[0])
		b.font("B", 8)
		b.text(tx+84, ty+5.5+float64(i)*4.6, row[1])
	}
	b.font("", 7)
	b.colour(grey)
	if s.Estimated {
		b.paragraph(tx, ty+21, b.w-marginX-tx, 3.4, b.say("Some tissue's thickness is not measured and was worked out from its weight."))
	}
	b.colour(black)
	fl.y = y + height + 4
}

func (b *book) thick(mm float64) string { return b.figures("%.2f mm", mm) }

// gatheringOf names a gathering by its ID.
func (b *book) gatheringOf(id string) string {
	for i, g := range b.job.Gatherings {
		if g.ID == id {
			return collate.Name(b.job, i)
		}
	}
	return ""
}

// swellMap draws added thickness in shades, the worst place ringed. Cells are
// drawn together so that none is smaller than a millimetre.
func (b *book) swellMap(s mendplan.Swell, x, y, k float64) {
	cell := mendplan.SwellCell * k
	lump := max(int(math.Ceil(1/cell)), 1)
	for r := 0; r < s.Rows; r += lump {
		for c := 0; c < s.Cols; c += lump {
			most := 0.0
			for dr := range min(lump, s.Rows-r) {
				for dc := range min(lump, s.Cols-c) {
					most = max(most, s.MM[(r+dr)*s.Cols+c+dc])
				}
			}
			if most <= 0 {
				continue
			}
			shade := 235 - int(165*most/s.Worst)
			b.fill(ink{shade, shade, shade})
			b.f.Rect(x+float64(c)*cell, y+float64(r)*cell, float64(min(lump, s.Cols-c))*cell, float64(min(lump, s.Rows-r))*cell, "F")
		}
	}
	b.line(grey, 0.2)
	b.f.Rect(x, y, float64(s.Cols)*cell, float64(s.Rows)*cell, "D")
	b.line(black, 0.6)
	b.f.Line(x, y, x, y+float64(s.Rows)*cell) // the fold
	b.line(madder, 0.3)
	b.f.Circle(x+s.WorstAt.X*k, y+s.WorstAt.Y*k, 1.8, "D")
}
