package ui

import (
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/phrase"
)

// stockPanel edits the tissues and what there is of them.
type stockPanel struct {
	w      *Window
	body   *fyne.Container
	made   string // what the cards were made for
	fill   []func()
	firsts map[string]*textField // the first length of each stock item
	box    fyne.CanvasObject
}

func newStockPanel(w *Window) *stockPanel {
	p := &stockPanel{w: w, body: container.NewVBox()}
	add := newButtonWithIcon(t("Add a tissue"), theme.ContentAddIcon(), p.addTissue)
	add.Importance = widget.HighImportance
	head := container.NewBorder(nil, nil, heading(t("Tissues and stock")), add,
		small(t("Pieces are cut from remnants first, then from as few sheets as can be. Grain is the direction the tissue bends more easily.")))
	p.box = container.New(layout.NewCustomPaddedLayout(4, 4, 8, 8), container.NewBorder(head, nil, nil, nil, container.NewVScroll(p.body)))
	return p
}

func (p *stockPanel) content() fyne.CanvasObject { return p.box }

// refresh makes the cards anew when tissues or stock came or went, else only
// shows the values.
func (p *stockPanel) refresh() {
	j := p.w.session.Job()
	key := ""
	for _, ts := range j.Tissues {
		key += ts.ID + ","
	}
	for _, s := range j.Stock {
		key += s.ID + ":" + s.Tissue + ";"
	}
	if key != p.made || len(p.body.Objects) == 0 {
		p.made, p.fill, p.body.Objects, p.firsts = key, nil, nil, map[string]*textField{}
		for _, ts := range j.Tissues {
			p.body.Add(p.card(ts.ID))
		}
		if len(j.Tissues) == 0 {
			p.body.Add(small(t("There is no tissue yet. Add what is in the drawer.")))
		}
		p.body.Refresh()
	}
	for _, f := range p.fill {
		f()
	}
}

func (p *stockPanel) addTissue() {
	j := p.w.session.Job()
	ts := mendplan.Tissue{ID: j.FreshTissueID(), Name: t("new tissue"), Fibre: "kozo"}
	j = j.WithTissue(ts)
	j = j.WithStock(mendplan.Stock{ID: j.FreshStockID(), Tissue: ts.ID, Kind: mendplan.SheetStock, LengthMM: 900, WidthMM: 600, Count: 1, GrainAlong: "length"})
	p.w.session.Do("add tissue", j)
}

// editTissue changes one tissue, as one step.
func (p *stockPanel) editTissue(id, label string, change func(*mendplan.Tissue)) {
	j := p.w.session.Job()
	if ts, ok := j.Tissue(id); ok {
		change(&ts)
		p.w.session.Do(label, j.WithTissue(ts))
	}
}

// card shows one tissue with its stock.
func (p *stockPanel) card(id string) fyne.CanvasObject {
	tissue := func() mendplan.Tissue { ts, _ := p.w.session.Job().Tissue(id); return ts }
	text := func(label string, get func(mendplan.Tissue) string, set func(*mendplan.Tissue, string) error) *textField {
		f := newTextField(func(s string) {
			ts := tissue()
			if err := set(&ts, s); err != nil {
				p.w.status.say(sentence(errorIn(err)))
				return
			}
			p.editTissue(id, label, func(x *mendplan.Tissue) { *x = ts })
		})
		p.fill = append(p.fill, func() { f.set(get(tissue())) })
		return f
	}
	number := func(unit string, at func(*mendplan.Tissue) *float64) *textField {
		return text("change tissue", func(ts mendplan.Tissue) string { return showPositive(*at(&ts), unit) },
			func(ts *mendplan.Tissue, s string) (err error) { *at(ts), err = parsePositive(s); return err })
	}
	name := text("rename tissue", func(ts mendplan.Tissue) string { return ts.Name }, func(ts *mendplan.Tissue, s string) error { ts.Name = s; return nil })
	fibre := text("change tissue", func(ts mendplan.Tissue) string { return ts.Fibre }, func(ts *mendplan.Tissue, s string) error { ts.Fibre = s; return nil })
	weight := number(" g/m²", func(ts *mendplan.Tissue) *float64 { return &ts.Grammage })
	thick := text("change tissue", func(ts mendplan.Tissue) string { return showPositive(ts.ThicknessMM, " mm") },
		func(ts *mendplan.Tissue, s string) (err error) {
			if ts.ThicknessMM = 0; strings.TrimSpace(s) != "" {
				ts.ThicknessMM, err = mendplan.ParseLength(s, mendplan.Millimetres)
			}
			return err
		})
	colour := text("change tissue", func(ts mendplan.Tissue) string { return ts.Colour }, setColour)
	use := newChoice(func(v string) {
		p.editTissue(id, "change use of tissue", func(ts *mendplan.Tissue) { ts.Use = mendplan.TissueUse(v) })
	})
	p.fill = append(p.fill, func() {
		use.set([]string{"", string(mendplan.ForTears), string(mendplan.ForInfills)}, []string{t("anything"), t("tears and overlays"), t("infills")}, string(tissue().Use))
	})
	remove := newButtonWithIcon("", theme.DeleteIcon(), func() { p.removeTissue(id) })
	remove.Importance = widget.LowImportance
	more := newButtonWithIcon(t("Add stock"), theme.ContentAddIcon(), func() { p.addStock(id) })
	head := container.NewBorder(nil, nil, nil, container.NewHBox(more, remove), name)
	fields := container.NewGridWithColumns(5, captioned(t("fibre"), fibre), captioned(t("weight"), weight), captioned(t("thickness"), thick),
		captioned(t("colour, #rrggbb"), colour), captioned(t("for"), use))
	stock := tight()
	for _, s := range p.w.session.Job().Stock {
		if s.Tissue == id {
			stock.Add(p.stockRow(s.ID))
		}
	}
	return container.NewVBox(head, fields, stock, widget.NewSeparator())
}

// captioned puts small words over a field.
func captioned(words string, field fyne.CanvasObject) fyne.CanvasObject {
	l := small(words)
	l.Wrapping, l.Truncation = fyne.TextWrapOff, fyne.TextTruncateEllipsis
	return container.New(layout.NewCustomPaddedVBoxLayout(-6), l, field)
}

func setColour(ts *mendplan.Tissue, s string) error {
	if s == "" {
		ts.Colour = ""
		return nil
	}
	if _, err := strconv.ParseUint(s[1:], 16, 32); err != nil || len(s) != 7 || s[0] != '#' {
		return notColour(s)
	}
	ts.Colour = s
	return nil
}

type notColour string

func (n notColour) Error() string { return n.In(nil) }

// In implements [phrase.Sayable].
func (n notColour) In(tongue phrase.Tongue) string {
	return tongue.Say("“%s” is not a colour: write it as #f4eee0", string(n))
}

func (p *stockPanel) removeTissue(id string) {
	ts, _ := p.w.session.Job().Tissue(id)
	p.w.ask(t("Take %s out?", ts.Name), t("Take it out"), []fyne.CanvasObject{
		small(t("Its stock goes with it. Mends that ask for it get another tissue; undo brings it back."))}, nil, func() string {
		j := p.w.session.Job().WithoutTissue(id)
		for _, s := range j.Stock {
			if s.Tissue == id {
				j = j.WithoutStock(s.ID)
			}
		}
		p.w.session.Do("take tissue out", j)
		return ""
	})
}

// addStock adds a sheet and gives the keyboard to its length.
func (p *stockPanel) addStock(tissue string) {
	j := p.w.session.Job()
	id := j.FreshStockID()
	p.w.session.Do("add stock", j.WithStock(mendplan.Stock{ID: id, Tissue: tissue, Kind: mendplan.SheetStock,
		LengthMM: 900, WidthMM: 600, Count: 1, GrainAlong: "length"}))
	if f := p.firsts[id]; f != nil {
		p.w.win.Canvas().Focus(f)
	}
}

// stockRow edits one stock item.
func (p *stockPanel) stockRow(id string) fyne.CanvasObject {
	item := func() mendplan.Stock {
		for _, s := range p.w.session.Job().Stock {
			if s.ID == id {
				return s
			}
		}
		return mendplan.Stock{}
	}
	put := func(label string, s mendplan.Stock) { p.w.session.Do(label, p.w.session.Job().WithStock(s)) }
	length := func(at func(*mendplan.Stock) *float64) *textField {
		f := newTextField(func(text string) {
			s := item()
			v, err := mendplan.ParseLength(text, unitsOf(p.w.session.Job()))
			if err != nil || v < 0 {
				p.w.status.say(t("“%s” is not a length: type something like 9.5 mm or 3/8 in", text))
				return
			}
			*at(&s) = v
			put("change stock", s)
		})
		p.fill = append(p.fill, func() { s := item(); f.set(unitsOf(p.w.session.Job()).Length(*at(&s))) })
		return f
	}
	number := func(get func(mendplan.Stock) string, set func(*mendplan.Stock, float64)) *textField {
		f := newTextField(func(text string) {
			s := item()
			v, err := parsePositive(text)
			if err != nil {
				p.w.status.say(sentence(errorIn(err)))
				return
			}
			set(&s, v)
			put("change stock", s)
		})
		p.fill = append(p.fill, func() { f.set(get(item())) })
		return f
	}
	kind := newChoice(func(v string) { s := item(); s.Kind = mendplan.StockKind(v); put("change stock", s) })
	grain := newChoice(func(v string) { s := item(); s.GrainAlong = v; put("change stock", s) })
	p.fill = append(p.fill, func() {
		s := item()
		kind.set([]string{"sheet", "roll", "remnant"}, []string{t("sheet"), t("roll"), t("remnant")}, string(s.Kind))
		along := s.GrainAlong
		if along == "" {
			along = "length"
		}
		grain.set([]string{"length", "width"}, []string{t("along the length"), t("along the width")}, along)
	})
	count := number(func(s mendplan.Stock) string { return fmt.Sprint(s.Count) }, func(s *mendplan.Stock, v float64) { s.Count = int(v) })
	price := number(func(s mendplan.Stock) string { return showPositive(s.Price, "") }, func(s *mendplan.Stock, v float64) { s.Price = v })
	drop := newButtonWithIcon("", theme.ContentRemoveIcon(), func() { p.w.session.Do("take stock out", p.w.session.Job().WithoutStock(id)) })
	drop.Importance = widget.LowImportance
	first := length(func(s *mendplan.Stock) *float64 { return &s.LengthMM })
	p.firsts[id] = first
	grid := container.NewGridWithColumns(7, captioned(t("stock %s", id), kind), captioned(t("length"), first),
		captioned(t("width"), length(func(s *mendplan.Stock) *float64 { return &s.WidthMM })), captioned(t("how many"), count),
		captioned(t("grain"), grain), captioned(t("kept clear at edges"), length(func(s *mendplan.Stock) *float64 { return &s.MarginMM })),
		captioned(t("price"), price))
	return container.NewBorder(nil, nil, gapWide(18), drop, grid)
}
