package ui

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"leafmend/mendplan"
)

// newOrder is the choice of the column that the table of mends is sorted by.
func (p *mendsPanel) newOrder(columns []column) *choiceField {
	c := newChoice(func(id string) {
		p.by, _ = strconv.Atoi(id)
		p.refresh()
	})
	ids, words := []string{"-1"}, []string{t("job order")}
	for i, col := range columns {
		ids, words = append(ids, strconv.Itoa(i)), append(words, t("by: %s", col.head))
	}
	c.set(ids, words, "-1")
	return c
}

// sort brings the rows and their numbers into the order chosen: numbers by
// value, empty cells last, equals in the order of the job.
func (p *mendsPanel) sort(rows [][]string) {
	if p.by < 0 {
		return
	}
	type numbered struct {
		row    []string
		number int
	}
	all := make([]numbered, len(rows))
	for i := range rows {
		all[i] = numbered{rows[i], p.numbers[i]}
	}
	slices.SortStableFunc(all, func(a, b numbered) int { return cellOrder(a.row[p.by], b.row[p.by]) })
	for i := range all {
		rows[i], p.numbers[i] = all[i].row, all[i].number
	}
}

func cellOrder(a, b string) int {
	if (a == "") != (b == "") {
		return cmp.Compare(len(b), len(a)) // nothing comes last
	}
	x, errX := strconv.Atoi(a)
	y, errY := strconv.Atoi(b)
	if errX == nil && errY == nil {
		return cmp.Compare(x, y)
	}
	return cmp.Compare(strings.ToLower(a), strings.ToLower(b))
}

// changeShown changes style, tissue or side of all mends that the filters let
// through, as one step. What is not chosen stays as it is for each.
func (p *mendsPanel) changeShown() {
	j := p.w.session.Job()
	var found []mendplan.Damage
	for _, n := range p.numbers {
		if _, d, ok := j.FindDamage(n); ok && d.Kind.Mended() && !d.NoMend {
			found = append(found, d)
		}
	}
	if len(found) == 0 {
		p.w.status.say(t("None of those shown is mended."))
		return
	}
	const stay = "as it is"
	style, tissue, side := newChoice(ignore), newChoice(ignore), newChoice(ignore)
	ids, words := []string{stay, ""}, []string{t("as it is for each"), t("as the rules say")}
	for _, s := range commonStyles(found) {
		ids, words = append(ids, string(s)), append(words, t(string(s)))
	}
	style.set(ids, words, stay)
	ids, words = []string{stay, ""}, []string{t("as it is for each"), t("first that suits")}
	for _, ts := range j.Tissues {
		ids, words = append(ids, ts.ID), append(words, ts.Name)
	}
	tissue.set(ids, words, stay)
	side.set([]string{stay, "", "front", "back"}, []string{t("as it is for each"), t("as advised"), t("front"), t("back")}, stay)
	body := tight(labelled(t("Mend"), style), labelled(t("Tissue"), tissue), labelled(t("Pasted on"), side))
	p.w.confirm(t("%d damages: changes go to all", len(found)), t("Change"), t("Leave them"), body, fyne.NewSize(460, 260), func(yes bool) {
		if yes {
			p.w.session.Do("change mends", changedMends(j, found, stay, style.chosen(), tissue.chosen(), side.chosen()))
			p.w.status.say(t("%d damages are changed.", len(found)))
		}
	})
}

// commonStyles are those that can answer every one of the damages.
func commonStyles(all []mendplan.Damage) []mendplan.Style {
	out := slices.Clone(mendplan.StylesFor(all[0].Kind))
	for _, d := range all[1:] {
		out = slices.DeleteFunc(out, func(s mendplan.Style) bool { return !slices.Contains(mendplan.StylesFor(d.Kind), s) })
	}
	return out
}

func changedMends(j mendplan.Job, all []mendplan.Damage, stay, style, tissue, side string) mendplan.Job {
	for _, d := range all {
		leaf, _, _ := j.FindDamage(d.Number)
		j = j.WithDamage(leaf.ID, d.WithMend(func(m *mendplan.Mend) {
			if style != stay {
				m.Style = mendplan.Style(style)
			}
			if tissue != stay {
				m.Tissue = tissue
			}
			if side != stay {
				m.Side = mendplan.SideName(side)
			}
		}))
	}
	return j
}

// ignore is for choices that are read when their dialog ends.
func ignore(string) {}
