package draw

import (
	"strconv"
	"strings"
)

// Everything printed here is invented: the society, its town, its players,
// the works they play, and the shops that advertise.

var (
	body    = style{roman, 8.6, 0}
	lean    = style{italic, 8.6, 0}
	small   = style{roman, 7, 10}
	head    = style{smallCaps, 15, 90}
	subhead = style{smallCaps, 10.5, 60}
)

const (
	bodyLead = 4.15
	marginX  = 15.0
)

// folio prints head line and page number.
func (p *Sheet) folio(n int, words string) {
	p.centred(style{smallCaps, 7.5, 120}, 13, words)
	p.line(0.2, Pt{marginX, 15.2}, Pt{p.W - marginX, 15.2})
	p.centred(style{roman, 8.5, 40}, p.H-10, "· "+strconv.Itoa(n)+" ·")
}

func coverFront(p *Sheet) {
	p.inSpot(true)
	p.frameRule(7)
	p.centred(style{smallCaps, 13, 160}, 27, "The Quillhaven")
	p.centred(style{smallCaps, 13, 160}, 34, "Musical Society")
	p.rule(40, 70)
	p.lighthouse(Pt{p.W / 2, 84}, 74)
	p.inSpot(false)
	p.centred(style{bold, 27, 120}, 139, "WINTER")
	p.centred(style{bold, 27, 120}, 150.5, "CONCERT")
	p.centred(style{italic, 11, 20}, 159.5, "in aid of the Lighthouse Band Fund")
	p.inSpot(true)
	p.rule(164.5, 60)
	p.centred(style{smallCaps, 8.5, 140}, 171.5, "Programme · Threepence")
}

func coverBack(p *Sheet) {
	p.inSpot(true)
	p.frameRule(7)
	p.inSpot(false)
	p.centred(style{smallCaps, 9, 120}, 26, "By the Fish Steps")
	p.centred(style{bold, 19, 60}, 38, "PLACKETT & WRAY")
	p.centred(style{italic, 11, 10}, 46, "boots that keep out the estuary")
	p.inSpot(true)
	p.boot(Pt{p.W/2 - 4, 92}, 66)
	p.inSpot(false)
	p.rule(134, 60)
	p.centred(style{smallCaps, 10, 60}, 144, "Soled, heeled and welted")
	p.centred(style{roman, 9, 0}, 151, "while the tide is out")
	p.centred(style{roman, 9, 0}, 158, "4 Sluice Lane · Quillhaven")
	p.inSpot(true)
	p.waves(30, 102, 166, 2, 0.25)
}

func coverInsideFront(p *Sheet) {
	p.centred(head, 30, "Rules of the House")
	p.rule(35, 60)
	y := 46.0
	for i, r := range houseRules {
		p.set(style{bold, 8.6, 0}, marginX+4, y, 1, strconv.Itoa(i+1))
		y = p.block(body, marginX+7, y, p.W-2*marginX-7, bodyLead, r) + 2.2
	}
	p.horn(Pt{p.W / 2, 150}, 30)
}

func coverInsideBack(p *Sheet) {
	p.centred(head, 30, "The Season")
	p.rule(35, 60)
	y := 48.0
	for _, e := range season {
		p.set(subhead, marginX, y, 0, e[0])
		p.set(lean, p.W-marginX, y, 1, e[1])
		y = p.block(body, marginX, y+5, p.W-2*marginX, bodyLead, e[2]) + 4.5
	}
	p.boat(Pt{p.W / 2, 154}, 24)
}

func titlePage(p *Sheet) {
	p.lyre(Pt{p.W / 2, 40}, 34)
	p.sprig(Pt{p.W/2 - 4, 60}, 150, 26)
	p.sprig(Pt{p.W/2 + 4, 60}, 12, 26)
	p.centred(style{smallCaps, 10, 120}, 72, "Thirty-First Season")
	p.inSpot(true)
	p.centred(style{bold, 20, 90}, 87, "PROGRAMME")
	p.inSpot(false)
	p.centred(style{italic, 11, 10}, 96, "of the concert to be given in the")
	p.centred(style{smallCaps, 14, 80}, 106, "Assembly Rooms")
	p.centred(style{italic, 11, 10}, 114, "on the Saturday before the spring tide")
	p.centred(style{italic, 11, 10}, 120.5, "at half past seven in the evening")
	p.rule(128, 70)
	p.centred(style{smallCaps, 9.5, 60}, 138, "Conductor")
	p.centred(style{roman, 11, 20}, 144.5, "Mr Ludo Penhaskett")
	p.centred(style{smallCaps, 9.5, 60}, 154, "Leader of the strings")
	p.centred(style{roman, 11, 20}, 160.5, "Miss Odile Farrowby")
	p.waves(36, 96, 169, 2, 0.22)
}

func columns(p *Sheet, n int, title string, rows [][2]string) {
	p.folio(n, "Quillhaven Musical Society")
	p.centred(head, 30, title)
	p.rule(35, 64)
	y := 46.0
	for _, r := range rows {
		if movement, ok := strings.CutPrefix(r[0], "   "); ok {
			p.set(body, marginX+8, y, 0, movement)
			y += 4.8
			continue
		}
		if r[1] == "" {
			y += 2.5
			p.inSpot(true)
			p.centred(subhead, y, r[0])
			p.inSpot(false)
			y += 6
			continue
		}
		p.set(lean, marginX, y, 0, r[0])
		a, b := marginX+lean.width(r[0])+2, p.W-marginX-body.width(r[1])-2
		for x := a + 1; x < b; x += 2.2 {
			p.solid(arc(Pt{x, y - 0.3}, 0.16, 0, 320))
		}
		p.set(body, p.W-marginX, y, 1, r[1])
		y += 5.1
	}
}

func notes(n int, title, by string, paras ...string) Page {
	return func(p *Sheet) {
		p.folio(n, "Notes on the Music")
		p.centred(head, 29, title)
		p.centred(lean, 35, by)
		p.rule(39.5, 50)
		y := 49.0
		for i, words := range paras {
			x, w := marginX, p.W-2*marginX
			if i == 0 {
				p.initial(words[:1], x, y)
				y = p.wrapped(words[1:], x, y, w)
				continue
			}
			y = p.block(body, x, y+1.6, w, bodyLead, words)
		}
		if y < p.H-46 {
			p.guilloche(Pt{p.W / 2, (y+p.H-16)/2 - 1}, min(17, (p.H-22-y)/2.4), 0.13)
		}
	}
}

// initial prints a large first letter, two lines deep, in the spot ink.
func (p *Sheet) initial(letter string, x, y float64) {
	p.inSpot(true)
	p.set(style{bold, 23, 0}, x, y+bodyLead, 0, letter)
	p.inSpot(false)
}

// wrapped prints a paragraph whose first two lines give way to an initial.
func (p *Sheet) wrapped(words string, x, y, w float64) float64 {
	const indent = 8.5
	cut, fits := 0, 0
	for i, r := range words {
		if r != ' ' {
			continue
		}
		if body.width(words[:i]) > 2*(w-indent)-8 {
			break
		}
		cut, fits = i, i
	}
	if fits == 0 {
		return p.block(body, x+indent, y, w-indent, bodyLead, words)
	}
	half := firstLine(words[:cut], w-indent)
	p.spread(body, x+indent, y, w-indent, strings.Fields(words[:half]))
	p.spread(body, x+indent, y+bodyLead, w-indent, strings.Fields(words[half:cut]))
	return p.block(body, x, y+2*bodyLead, w, bodyLead, words[cut:])
}

// firstLine returns how many bytes of the words fill one line.
func firstLine(words string, w float64) int {
	last := 0
	for i, r := range words {
		if r == ' ' {
			if body.width(words[:i]) > w {
				return last
			}
			last = i
		}
	}
	return last
}

func verses(n int, title, by string, stanzas ...[]string) Page {
	return func(p *Sheet) {
		p.folio(n, "Words of the Songs")
		p.centred(head, 29, title)
		p.centred(lean, 35, by)
		p.rule(39.5, 50)
		y := 50.0
		for _, st := range stanzas {
			for k, l := range st {
				p.set(style{roman, 9.4, 0}, 30+4*float64(k%2), y, 0, l)
				y += 4.9
			}
			y += 4.2
		}
		if y < p.H-40 {
			p.sprig(Pt{p.W/2 - 2, (y + p.H - 16) / 2}, 160, 20)
			p.sprig(Pt{p.W/2 + 2, (y + p.H - 16) / 2}, 2, 20)
		}
	}
}
