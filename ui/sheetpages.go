package ui

import (
	"maps"
	"strconv"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
)

// pagePlaces returns for each of the four fields of the sheet editor — outer
// side left and right, inner side left and right — the place of its page in
// the gathering, from 1; 0 where the sheet has no such page.
func pagePlaces(j mendplan.Job, at sheetAt) (places [4]int, numbers [4]int) {
	for _, p := range collate.Places(j, at.gathering) {
		if p.Sheet != at.sheet {
			continue
		}
		for k, page := range []collate.Page{p.Recto, p.Verso} {
			i := 0
			if page.Side == mendplan.Back {
				i = 2
			}
			if !page.Left {
				i++
			}
			places[i], numbers[i] = 2*p.Folio-1+k, page.Number
		}
	}
	return places, numbers
}

// showPages shows what stands on the pages of the sheet, where it was said.
func (e *sheetEditor) showPages(j mendplan.Job, g mendplan.Gathering) {
	places, numbers := pagePlaces(j, e.at)
	for i, f := range e.pages {
		f.set(g.Pages[places[i]])
		if places[i] == 0 {
			f.SetPlaceHolder("—")
			f.Disable()
			continue
		}
		f.SetPlaceHolder(strconv.Itoa(numbers[i]))
		f.Enable()
	}
}

// setPage notes what stands on a page instead of its number; nothing, or the
// number itself, is the number again.
func (e *sheetEditor) setPage(i int, text string) {
	if _, ok := e.valid(); !ok {
		return
	}
	places, numbers := pagePlaces(e.p.w.session.Job(), e.at)
	if places[i] == 0 {
		return
	}
	text = strings.TrimSpace(text)
	e.gathering("write page number", func(g *mendplan.Gathering) {
		g.Pages = maps.Clone(g.Pages)
		if text == "" || text == strconv.Itoa(numbers[i]) {
			delete(g.Pages, places[i])
			return
		}
		if g.Pages == nil {
			g.Pages = map[int]string{}
		}
		g.Pages[places[i]] = text
	})
}
