package pdf

import (
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// wetTemplates prints the infills once more as they must be on a leaf that is
// worked wet and has grown. Pieces are sized on the dry scan everywhere else.
func (b *book) wetTemplates() {
	var cells []cell
	var unknown []string
	for _, p := range b.plan.Pieces {
		if p.Role != mendplan.RoleFill {
			continue
		}
		m, ok := mendplan.WetMap(b.job, p)
		if !ok {
			unknown = append(unknown, p.Label)
			continue
		}
		traces := b.tracesOf(p)
		for i, t := range traces {
			traces[i] = m.ApplyPath(t)
		}
		wet := p
		wet.Outline = m.ApplyArea(p.Outline)
		c := b.newCell(wet, traces)
		c.note = b.say("for the wet leaf")
		if l, w := wetBlank(wet); l > p.BlankLengthMM+0.05 || w > p.BlankWidthMM+0.05 {
			c.note += ", " + b.say("needs a blank of %s", b.units.Size(max(l, p.BlankLengthMM), max(w, p.BlankWidthMM)))
		}
		cells = append(cells, c)
	}
	g := mendplan.WetGrowthOf(mendplan.InForce{Job: b.job.Rules})
	b.part = b.say("Templates for the wet leaf")
	b.templateHint = b.say("Only for leaves that are worked wet: grown by %.2g %% across the leaf's grain and %.2g %% along it. They shrink to size with the leaf.", g.AcrossPercent, g.AlongPercent)
	if len(unknown) > 0 {
		b.templateHint += " " + b.say("Not printed, as the grain of the leaf is not known: %s.", strings.Join(unknown, ", "))
	}
	if len(cells) == 0 && len(unknown) > 0 {
		b.templatePage()
	}
	b.templateCells(cells)
	b.templateHint = ""
}

// wetBlank is the rectangle a wet outline takes in the direction of its
// blank, without fringe.
func wetBlank(p mendplan.Piece) (length, width float64) {
	r := geom.RectAlong(p.Outline.Points(), p.BlankDeg)
	return r.Length, r.Width
}
