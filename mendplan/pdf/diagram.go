package pdf

import (
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
	"leafmend/mendplan/geom"
)

// diagram draws a gathering as one sees it from the tail, the page numbers on
// both faces of each leaf, and says beside it which leaf it is.
func (fl *flow) diagram(gathering int) {
	b, job := fl.b, fl.b.job
	d := collate.DiagramOf(job, gathering)
	fl.heading(b.say("Gathering %s", b.gatheringName(collate.Name(job, gathering))))
	k := min(5.6, 100/d.Width, (b.bottom()-b.top()-20)/d.Height)
	fl.room(d.Height * k)
	x0, y0 := marginX+2, fl.y
	at := func(p geom.Pt) geom.Pt { return geom.Pt{X: x0 + p.X*k, Y: y0 + p.Y*k} }
	draw := func(path geom.Path) {
		line := make([]geom.Pt, len(path))
		for i, p := range path {
			line[i] = at(p)
		}
		b.polyline(line)
	}
	width := 0.3
	if d.Cover {
		width = 0.8
	}
	for _, j := range d.Joins {
		b.line(black, width)
		if j.Missing {
			b.line(grey, width*0.7)
			b.f.SetDashPattern([]float64{1.2, 1}, 0)
		}
		draw(j.Line)
	}
	for _, l := range d.Leaves {
		b.line(black, width)
		if l.Place.Missing {
			b.line(grey, width*0.7)
			for _, s := range l.Hatch {
				draw(s)
			}
			b.f.SetDashPattern([]float64{1.2, 1}, 0)
		}
		draw(l.Line)
		b.line(black, width)
		draw(l.Stub)
		b.diagramWords(l, at, k)
	}
	fl.y = y0 + d.Height*k + 1
}

func (b *book) diagramWords(l collate.DiagramLeaf, at func(geom.Pt) geom.Pt, k float64) {
	size := min(6.5, k*1.15)
	half := size / ptPerMM * 0.36
	b.colour(black)
	b.font("", size)
	r, v, w := at(l.Recto), at(l.Verso), at(l.Words)
	b.textRight(r.X, r.Y+half-0.25, b.pageLabel(l.Place.Recto.Label))
	b.textRight(v.X, v.Y+half+0.25, b.pageLabel(l.Place.Verso.Label))
	b.font("", min(8, k*1.5))
	b.text(w.X, w.Y+1, b.folioWords(l))
}

func (b *book) folioWords(l collate.DiagramLeaf) string {
	p := l.Place
	var parts []string
	if leaf, ok := b.job.Leaf(p.Leaf); ok {
		parts = append(parts, b.say("leaf %s", markOf(leaf)))
	}
	for _, w := range []struct {
		is    bool
		words string
	}{{l.Single, b.say("single")}, {l.Inset, b.say("laid in")}, {p.Blank, b.say("blank")}, {p.Missing, b.say("missing")}} {
		if w.is {
			parts = append(parts, w.words)
		}
	}
	if note := b.job.Gatherings[p.Gathering].Sheets[p.Sheet].Note; note != "" {
		parts = append(parts, note)
	}
	return b.short(b.say("%d.", p.Folio)+" "+strings.Join(parts, " · "), b.w-marginX-marginX-104)
}

// gatheringName is what a gathering is called; the cover in the language of
// the print.
func (b *book) gatheringName(name string) string {
	if name == "cover" {
		return b.say("cover")
	}
	return name
}

// markOf is a leaf's mark, or its identifier when it has none.
func markOf(leaf mendplan.Leaf) string {
	if leaf.Mark == "" {
		return leaf.ID
	}
	return leaf.Mark
}
