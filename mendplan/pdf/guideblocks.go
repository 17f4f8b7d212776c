package pdf

import "strings"

// block sets a block of the guide.
func (g *guideBook) block(b GuideBlock) error {
	switch b.Kind {
	case GuideHeading:
		g.section(b.Plain())
	case GuideItem:
		g.runs(b, guideMargin+guideIndent)
		g.y += 0.8
	case GuideFigure:
		g.y += 1
		return g.picture(b.Picture, b.Plain())
	default:
		g.runs(b, guideMargin)
		g.y += 2
	}
	return nil
}

// section sets a heading; it stays with what follows.
func (g *guideBook) section(title string) {
	g.room(26)
	g.y += 2
	g.f.Bookmark(g.face.printable(title), 1, g.y)
	g.font("B", 11)
	g.colour(black)
	for _, l := range g.lines(title, g.w-2*guideMargin) {
		g.text(guideMargin, g.y+4, l)
		g.y += 5.5
	}
	g.y += 1.5
}

// runs sets the text of a block, and the mark of an item before its first
// line.
func (g *guideBook) runs(b GuideBlock, x float64) {
	lines := g.wrap(b.Runs, g.w-guideMargin-x)
	for i, l := range lines {
		g.keep(i, len(lines))
		g.colour(black)
		if i == 0 {
			g.font("", guideSize)
			g.text(guideMargin, g.y+3.6, b.Mark)
		}
		at := x
		for _, r := range l {
			g.font(r.Style, guideSize)
			g.text(at, g.y+3.6, r.Words)
			at += g.f.GetStringWidth(g.face.printable(r.Words))
		}
		g.y += guideLead
	}
}

// keep begins a new page before line i of n where too few lines would stand
// together.
func (g *guideBook) keep(i, n int) {
	stay := 1
	if i == 0 {
		stay = min(n, leastLines)
	}
	if n-i == leastLines || n <= leastLines+1 && i == 0 {
		stay = n - i
	}
	g.room(float64(stay) * guideLead)
}

// wrap breaks runs into lines no wider than width, between words.
func (g *guideBook) wrap(runs []GuideRun, width float64) [][]GuideRun {
	var lines [][]GuideRun
	var line []GuideRun
	used := 0.0
	for _, word := range GuideWords(runs) {
		wide, bare := 0.0, 0.0
		for i, r := range word {
			g.font(r.Style, guideSize)
			w := g.f.GetStringWidth(g.face.printable(r.Words))
			wide += w
			if i == len(word)-1 {
				w = g.f.GetStringWidth(g.face.printable(strings.TrimRight(r.Words, " ")))
			}
			bare += w
		}
		if len(line) > 0 && used+bare > width {
			lines, line, used = append(lines, line), nil, 0
		}
		line, used = append(line, word...), used+wide
	}
	if len(line) > 0 {
		lines = append(lines, line)
	}
	return lines
}
