package pdf

import (
	"fmt"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/text"
)

// GuideKind says what a block of the guide is.
type GuideKind int

// The kinds of blocks.
const (
	GuideText    GuideKind = iota // a paragraph
	GuideHeading                  // of a section
	GuideItem                     // of a list
	GuideFigure                   // a picture with its caption
)

// GuideRun is a stretch of text in one style: "" plain, "B" bold, "I" italic.
type GuideRun struct{ Style, Words string }

// GuideBlock is a paragraph, heading, item or picture of the guide.
type GuideBlock struct {
	Kind    GuideKind
	Runs    []GuideRun // of a picture, its caption
	Mark    string     // before an item: "3." or "•"
	Picture string     // its name
}

// Plain is the text of a block without its styles.
func (b GuideBlock) Plain() string {
	var s strings.Builder
	for _, r := range b.Runs {
		s.WriteString(r.Words)
	}
	return s.String()
}

// GuideBlocks reads the text of a chapter: headings, paragraphs, lists, and
// pictures that stand alone in a paragraph. Anything else is an error, so that
// nothing of the guide is lost where it is shown. A backslash stands for
// itself, as keys need it.
func GuideBlocks(markdown string) ([]GuideBlock, error) {
	src := []byte(markdown)
	var out []GuideBlock
	doc := goldmark.DefaultParser().Parse(text.NewReader(src))
	for n := doc.FirstChild(); n != nil; n = n.NextSibling() {
		blocks, err := blocksIn(n, src)
		if err != nil {
			return nil, fmt.Errorf("the user guide: %w", err)
		}
		out = append(out, blocks...)
	}
	return out, nil
}

func blocksIn(n ast.Node, src []byte) ([]GuideBlock, error) {
	switch n := n.(type) {
	case *ast.Heading, *ast.Paragraph:
		b := GuideBlock{}
		var within ast.Node = n
		if n.Kind() == ast.KindHeading {
			b.Kind = GuideHeading
		} else if image, ok := n.FirstChild().(*ast.Image); ok && n.ChildCount() == 1 {
			b.Kind, b.Picture, within = GuideFigure, string(image.Destination), image
		}
		var err error
		b.Runs, err = runsOf(within, "", src)
		return []GuideBlock{b}, err
	case *ast.List:
		return itemsOf(n, src)
	}
	return nil, fmt.Errorf("%s cannot be shown", n.Kind())
}

// itemsOf reads the items of a list, each a single paragraph.
func itemsOf(list *ast.List, src []byte) ([]GuideBlock, error) {
	var out []GuideBlock
	number := list.Start
	for item := list.FirstChild(); item != nil; item = item.NextSibling() {
		part := item.FirstChild()
		if item.ChildCount() != 1 || part.Kind() != ast.KindTextBlock && part.Kind() != ast.KindParagraph {
			return nil, fmt.Errorf("an item of a list holds more than a paragraph")
		}
		b := GuideBlock{Kind: GuideItem, Mark: "•"}
		if list.IsOrdered() {
			b.Mark = fmt.Sprintf("%d.", number)
		}
		var err error
		if b.Runs, err = runsOf(part, "", src); err != nil {
			return nil, err
		}
		out = append(out, b)
		number++
	}
	return out, nil
}

// runsOf reads running text.
func runsOf(n ast.Node, style string, src []byte) ([]GuideRun, error) {
	var out []GuideRun
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Text:
			words := string(c.Segment.Value(src))
			if c.SoftLineBreak() {
				words += " "
			}
			out = append(out, GuideRun{style, words})
		case *ast.Emphasis:
			runs, err := runsOf(c, []string{1: "I", 2: "B"}[c.Level], src)
			if err != nil {
				return nil, err
			}
			out = append(out, runs...)
		default:
			return nil, fmt.Errorf("%s in running text cannot be shown", c.Kind())
		}
	}
	return out, nil
}

// GuideWords cuts runs after every space: lines may be broken between the
// words. A word may hold several styles, as in "(**Save**)".
func GuideWords(runs []GuideRun) [][]GuideRun {
	var words [][]GuideRun
	var word []GuideRun
	for _, r := range runs {
		for _, part := range strings.SplitAfter(r.Words, " ") {
			if part == "" {
				continue
			}
			word = append(word, GuideRun{r.Style, part})
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
