package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// mendsPanel lists all damages of the job with their mends; a row leads to
// its place.
type mendsPanel struct {
	w       *Window
	table   *wordTable
	find    *widget.Entry
	kind    *choiceField
	order   *choiceField
	by      int    // column the rows are sorted by; -1 for the order of the job
	only    string // kind shown; "" for all
	count   *widget.Label
	numbers []int // of the rows
	box     fyne.CanvasObject
}

func newMendsPanel(w *Window) *mendsPanel {
	p := &mendsPanel{w: w, count: widget.NewLabel(""), by: -1}
	columns := []column{{t("no."), 50}, {t("leaf"), 190}, {t("damage"), 100}, {t("traced"), 70}, {t("mend"), 110},
		{t("pasted on"), 90}, {t("tissue"), 190}, {t("pieces"), 230}, {t("to heed"), 300}}
	p.table = newWordTable(columns, func(row int) {
		w.takeInHand(p.numbers[row])
		w.focusSurface()
	})
	p.find = widget.NewEntry()
	p.find.SetPlaceHolder(t("Find: leaf, kind, label, note …"))
	p.find.OnChanged = func(string) { p.refresh() }
	p.kind = newChoice(func(id string) { p.only = id; p.refresh() })
	ids, words := []string{""}, []string{t("all kinds")}
	for _, k := range mendplan.MendedKinds() {
		ids, words = append(ids, string(k)), append(words, t(string(k)))
	}
	ids, words = append(ids, "noted"), append(words, t("noted only"))
	p.kind.set(ids, words, "")
	p.order = p.newOrder(columns)
	change := newButton(t("Change all shown…"), p.changeShown)
	top := container.NewBorder(nil, nil, nil, container.NewHBox(p.kind, p.order, change, p.count), p.find)
	p.box = container.NewBorder(container.New(layout.NewCustomPaddedLayout(6, 4, 6, 6), top),
		small(t("Press a row to see it on its leaf.")), nil, nil, p.table)
	return p
}

func (p *mendsPanel) content() fyne.CanvasObject { return p.box }

func (p *mendsPanel) refresh() {
	j := p.w.session.Job()
	byDamage := map[int][]mendplan.Piece{}
	for _, piece := range p.w.session.Plan().Pieces {
		byDamage[piece.Damage] = append(byDamage[piece.Damage], piece)
	}
	heed := map[int]string{}
	for _, pr := range p.w.session.Problems() {
		if pr.Damage > 0 && heed[pr.Damage] == "" {
			heed[pr.Damage] = say(pr.Words)
		}
	}
	var rows [][]string
	p.numbers = p.numbers[:0]
	total := 0
	for _, leaf := range j.Leaves {
		for _, d := range leaf.Damages {
			total++
			row := mendRow(j, leaf, d, byDamage[d.Number], heed[d.Number])
			if p.shown(d, row) {
				rows = append(rows, row)
				p.numbers = append(p.numbers, d.Number)
			}
		}
	}
	p.sort(rows)
	p.count.SetText(t("%d of %d", len(rows), total))
	p.table.show(rows)
}

// shown reports whether a row passes the filters.
func (p *mendsPanel) shown(d mendplan.Damage, row []string) bool {
	if p.only == "noted" && d.Kind.Mended() && !d.NoMend || p.only != "" && p.only != "noted" && string(d.Kind) != p.only {
		return false
	}
	all := strings.ToLower(strings.Join(row, " ") + " " + d.Note)
	for _, word := range strings.Fields(strings.ToLower(p.find.Text)) {
		if !strings.Contains(all, word) {
			return false
		}
	}
	return true
}

// mendRow puts a damage and its mend into words, column by column.
func mendRow(j mendplan.Job, leaf mendplan.Leaf, d mendplan.Damage, pieces []mendplan.Piece, heed string) []string {
	row := []string{fmt.Sprint(d.Number), leafTitle(leaf), t(string(d.Kind)), sideShort(d.Side)}
	if !d.Kind.Mended() || d.NoMend {
		return append(row, t("noted only"), "", "", "", heed)
	}
	side, tissue, labels := "", "", make([]string, len(pieces))
	for i, p := range pieces {
		labels[i] = p.Label
		if i == 0 {
			ts, _ := j.Tissue(p.Tissue)
			side, tissue = sideShort(p.Side), ts.Name
		}
	}
	return append(row, t(string(styleInForce(j, d))), side, tissue, strings.Join(labels, ", "), heed)
}
