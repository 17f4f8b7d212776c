package pdf

import (
	"fmt"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// run is a stretch of text in one style: "", "B" or "I".
type run struct{ style, words string }

// markdown sets the text of a chapter: headings, paragraphs, lists, and
// pictures that stand alone in a paragraph. Anything else is an error, so that
// nothing of the guide is lost in print.
func (g *guideBook) markdown(source string) error {
	src := []byte(source)
	doc := goldmark.DefaultParser().Parse(text.NewReader(src))
	for n := doc.FirstChild(); n != nil; n = n.NextSibling() {
		if err := g.block(n, src); err != nil {
			return err
		}
	}
	return nil
}

func (g *guideBook) block(n ast.Node, src []byte) error {
	switch n := n.(type) {
	case *ast.Heading:
		g.section(plainText(n, src))
	case *ast.Paragraph:
		if image, ok := n.FirstChild().(*ast.Image); ok && n.ChildCount() == 1 {
			return g.picture(string(image.Destination), plainText(image, src))
		}
		return g.runs(n, src, guideMargin, 2)
	case *ast.List:
		return g.list(n, src)
	default:
		return fmt.Errorf("the user guide: %s cannot be printed", n.Kind())
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

// list sets items with their numbers or a point before them.
func (g *guideBook) list(list *ast.List, src []byte) error {
	number := list.Start
	for item := list.FirstChild(); item != nil; item = item.NextSibling() {
		for i, part := 0, item.FirstChild(); part != nil; i, part = i+1, part.NextSibling() {
			mark := ""
			if i == 0 {
				mark = "•"
			}
			if i == 0 && list.IsOrdered() {
				mark = fmt.Sprintf("%d.", number)
			}
			if part.Kind() != ast.KindTextBlock && part.Kind() != ast.KindParagraph {
				return fmt.Errorf("the user guide: %s in a list cannot be printed", part.Kind())
			}
			if err := g.item(part, src, mark); err != nil {
				return err
			}
		}
		number++
	}
	g.y += 1.2
	return nil
}

// item sets a part of an item with a mark before its first line.
func (g *guideBook) item(part ast.Node, src []byte, mark string) error {
	runs, err := runsOf(part, src)
	if err != nil {
		return err
	}
	lines := g.wrap(runs, g.w-2*guideMargin-guideIndent)
	for i, l := range lines {
		g.keep(i, len(lines))
		if i == 0 {
			g.font("", guideSize)
			g.colour(black)
			g.text(guideMargin, g.y+3.6, mark)
		}
		g.set(l, guideMargin+guideIndent)
	}
	g.y += 0.8
	return nil
}

// runs sets a paragraph.
func (g *guideBook) runs(n ast.Node, src []byte, x, below float64) error {
	runs, err := runsOf(n, src)
	if err != nil {
		return err
	}
	lines := g.wrap(runs, g.w-guideMargin-x)
	for i, l := range lines {
		g.keep(i, len(lines))
		g.set(l, x)
	}
	g.y += below
	return nil
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

// set writes a line and goes below it.
func (g *guideBook) set(line []run, x float64) {
	g.colour(black)
	for _, r := range line {
		g.font(r.style, guideSize)
		g.text(x, g.y+3.6, r.words)
		x += g.f.GetStringWidth(g.face.printable(r.words))
	}
	g.y += guideLead
}

// wrap breaks runs into lines no wider than width, between words.
func (g *guideBook) wrap(runs []run, width float64) [][]run {
	var lines [][]run
	var line []run
	used := 0.0
	for _, word := range wordsOf(runs) {
		wide, bare := 0.0, 0.0
		for i, r := range word {
			g.font(r.style, guideSize)
			w := g.f.GetStringWidth(g.face.printable(r.words))
			wide += w
			if i == len(word)-1 {
				w = g.f.GetStringWidth(g.face.printable(strings.TrimRight(r.words, " ")))
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

// wordsOf cuts runs after every space; a word may hold several styles.
func wordsOf(runs []run) [][]run {
	var words [][]run
	var word []run
	for _, r := range runs {
		for _, part := range strings.SplitAfter(r.words, " ") {
			if part == "" {
				continue
			}
			word = append(word, run{r.style, part})
			if strings.HasSuffix(part, " ") {
				words, word = append(words, word), nil
			}
		}
	}
	if len(word) > 0 {
		words = append(words, word)
	}
	return words
}

// runsOf reads the text of a paragraph.
func runsOf(n ast.Node, src []byte) ([]run, error) {
	var out []run
	var walk func(n ast.Node, style string) error
	walk = func(n ast.Node, style string) error {
		for c := n.FirstChild(); c != nil; c = c.NextSibling() {
			switch c := c.(type) {
			case *ast.Text:
				words := wordsAt(c, src)
				if c.SoftLineBreak() {
					words += " "
				}
				out = append(out, run{style, words})
			case *ast.String:
				out = append(out, run{style, string(c.Value)})
			case *ast.Emphasis:
				within := "I"
				if c.Level == 2 {
					within = "B"
				}
				if err := walk(c, within); err != nil {
					return err
				}
			default:
				return fmt.Errorf("the user guide: %s in running text cannot be printed", c.Kind())
			}
		}
		return nil
	}
	err := walk(n, "")
	return out, err
}

// wordsAt is the text of a node as it is read: "\\+" is "+".
func wordsAt(n *ast.Text, src []byte) string {
	return string(util.UnescapePunctuations(n.Segment.Value(src)))
}

// plainText is the text of a node without its styles.
func plainText(n ast.Node, src []byte) string {
	var b strings.Builder
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		if t, ok := c.(*ast.Text); ok {
			b.WriteString(wordsAt(t, src))
			if t.SoftLineBreak() {
				b.WriteByte(' ')
			}
			continue
		}
		b.WriteString(plainText(c, src))
	}
	return b.String()
}
