package pdf

import (
	"fmt"
	"strings"

	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"

	"leafmend/mendplan"
)

// face knows which characters the print's font can draw, so that a missing
// one becomes a question mark and not an empty box.
type face struct {
	font *sfnt.Font
	buf  *sfnt.Buffer
}

func newFace() (face, error) {
	f, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		return face{}, fmt.Errorf("reading the print's font: %w", err)
	}
	return face{f, &sfnt.Buffer{}}, nil
}

// plain are characters the font lacks and what is printed for them.
var plain = strings.NewReplacer("″", "\"", "′", "'", "\t", " ", "\u00a0", " ", "\u202f", " ", "☐", "[ ]")

// printable replaces what the font cannot draw and control characters.
func (fc face) printable(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return ' '
		}
		if g, err := fc.font.GlyphIndex(fc.buf, r); err != nil || g == 0 {
			return '?'
		}
		return r
	}, plain.Replace(s))
}

// say says English words with their values in the language of the print.
func (b *book) say(english string, values ...any) string { return b.opt.Tongue.Say(english, values...) }

// figures writes numbers as fmt.Sprintf does, with the decimal sign of the
// language of the print.
func (b *book) figures(format string, values ...any) string {
	return b.opt.Tongue.Figures(format, values...)
}

// count says how many: one without a number to put in, many with it.
func (b *book) count(n int, one, many string) string {
	if n == 1 {
		return b.say(one)
	}
	return b.say(many, n)
}

// problemWords are the two sentences of a problem.
func (b *book) problemWords(p mendplan.Problem) string {
	return strings.TrimSpace(p.Words.In(b.opt.Tongue) + " " + p.Hint.In(b.opt.Tongue))
}

// pageLabel is what stands on a page: of a cover, and of a page that is gone,
// in the language of the print.
func (b *book) pageLabel(s string) string {
	if n, ok := strings.CutPrefix(s, "cover "); ok {
		return b.say("cover %s", n)
	}
	if s == "missing" {
		return b.say("missing")
	}
	return s
}

func (b *book) font(style string, size float64) { b.f.SetFont("text", style, size) }

// text writes s with its baseline's left end at x, y.
func (b *book) text(x, y float64, s string) { b.f.Text(x, y, b.face.printable(s)) }

func (b *book) textRight(x, y float64, s string) {
	s = b.face.printable(s)
	b.f.Text(x-b.f.GetStringWidth(s), y, s)
}

func (b *book) textCentre(x, y float64, s string) {
	s = b.face.printable(s)
	b.f.Text(x-b.f.GetStringWidth(s)/2, y, s)
}

// textFit writes s, shortened with an ellipsis to what fits into width.
func (b *book) textFit(x, y, width float64, s string) { b.f.Text(x, y, b.short(s, width)) }

// leastSize is the smallest type that words are shrunk to before they are cut
// short, points.
const leastSize = 5.5

// textShrink writes s as textFit does, but first makes the type smaller.
func (b *book) textShrink(x, y, width float64, style string, size float64, s string) {
	s = b.face.printable(s)
	for b.font(style, size); size > leastSize && b.f.GetStringWidth(s) > width; b.font(style, size) {
		size = max(size-0.25, leastSize)
	}
	b.textFit(x, y, width, s)
}

func (b *book) short(s string, width float64) string {
	s = b.face.printable(s)
	if b.f.GetStringWidth(s) <= width {
		return s
	}
	r := []rune(s)
	for len(r) > 0 && b.f.GetStringWidth(string(r)+"…") > width {
		r = r[:len(r)-1]
	}
	return string(r) + "…"
}

// lines breaks s into lines no wider than width.
func (b *book) lines(s string, width float64) []string {
	var out []string
	line := ""
	for _, word := range strings.Fields(b.face.printable(s)) {
		switch {
		case line == "":
			line = word
		case b.f.GetStringWidth(line+" "+word) <= width:
			line += " " + word
		default:
			out = append(out, line)
			line = word
		}
	}
	if line != "" {
		out = append(out, line)
	}
	return out
}

// paragraph writes s in lines no wider than width and returns the y below.
func (b *book) paragraph(x, y, width, lead float64, s string) float64 {
	for _, l := range b.lines(s, width) {
		b.text(x, y, l)
		y += lead
	}
	return y
}
