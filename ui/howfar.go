package ui

import (
	"context"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// howFar says how far the tissue will go: what of each is opened, what to
// have besides and what to order, and what each leaf takes.
type howFar struct {
	w      *Window
	order  *fyne.Container
	leaves *wordTable
	room   *canvas.Rectangle // height of the table of leaves
	box    *fyne.Container
	asked  int // of the comparisons, so that a stale answer is dropped
}

func newHowFar(w *Window) *howFar {
	p := &howFar{w: w, order: tight(), room: canvas.NewRectangle(nil)}
	p.leaves = newWordTable([]column{{t("leaf"), 150}, {t("pieces"), 60}, {t("area of pieces"), 100}, {t("cost"), 110}, {t("at the bench"), 90}}, nil)
	compare := newButton(t("Compare other ways…"), p.compare)
	p.box = tight(heading(t("How far the tissue goes")), p.order, container.NewHBox(compare), heading(t("For each leaf")), container.NewStack(p.room, p.leaves))
	return p
}

func (p *howFar) refresh() {
	j, plan := p.w.session.Job(), p.w.session.Plan()
	u := unitsOf(j)
	p.order.Objects = nil
	for _, o := range course.OrderList(j, plan) {
		tissue, _ := j.Tissue(o.Tissue)
		p.order.Objects = append(p.order.Objects, widget.NewLabel(tissue.Name), small(orderWords(o, u)))
	}
	var rows [][]string
	for _, c := range course.CostByLeaf(j, plan) {
		leaf, _ := j.Leaf(c.Leaf)
		rows = append(rows, []string{leafTitle(leaf), fmt.Sprint(c.Pieces), u.Area(c.AreaMM2), costWords(c.Costs), t("%.0f min", c.Minutes)})
	}
	p.order.Refresh()
	p.leaves.show(rows)
	const seen = 12 // rows, with the heads; the rest is scrolled to
	row := fyne.MeasureText("X", theme.TextSize(), fyne.TextStyle{}).Height + 3*theme.Padding()
	p.room.SetMinSize(fyne.NewSize(1, row*float32(min(len(rows)+1, seen))))
}

// orderWords says what of a tissue is used, left and lacking.
func orderWords(o course.OrderLine, u mendplan.Units) string {
	words := []string{t("%d of %d sheets are opened", o.Opened, o.InStock)}
	if o.Spare > 0 {
		words = append(words, t("%d more to have as a spare", o.Spare))
	}
	if o.Lacking > 0 {
		words = append(words, t("at least %d more for pieces without a place", o.Lacking))
	}
	if o.Order > 0 && o.SheetMM[0] > 0 {
		words = append(words, t("order %d of %s", o.Order, u.Size(o.SheetMM[0], o.SheetMM[1])))
	} else if o.Order == 0 {
		words = append(words, t("nothing to order"))
	}
	return strings.Join(words, " · ")
}

// costWords are amounts of money, by currency.
func costWords(costs []course.Cost) string {
	if len(costs) == 0 {
		return t("no price")
	}
	words := make([]string, len(costs))
	for i, c := range costs {
		words[i] = strings.TrimSpace(figures("%.2f %s", c.Amount, c.Currency))
	}
	return strings.Join(words, " + ")
}

// compare lays the job out in other ways, aside, and shows them one beside
// the other: without fills, only what is grave, with each other tissue.
func (p *howFar) compare() {
	p.asked++
	asked := p.asked
	j, plan := p.w.session.Job(), p.w.session.Plan()
	var ways []course.Choice
	p.w.aside(t("Laying out the other ways…"), func(ctx context.Context) error {
		ways = course.Choices(ctx, j, plan)
		return nil
	}, func(err error) {
		switch {
		case asked != p.asked: // asked again since
		case err != nil:
			p.w.tellError(err)
		default:
			p.w.status.say("")
			p.show(j, ways)
		}
	})
}

// show sets the ways side by side in a table.
func (p *howFar) show(j mendplan.Job, ways []course.Choice) {
	table := newWordTable([]column{{t("way"), 300}, {t("pieces"), 64}, {t("tissue opened"), 130}, {t("hours"), 60}, {t("paste"), 70}, {t("without a place"), 110}}, nil)
	var rows [][]string
	for _, c := range ways {
		name := t(c.Name)
		if tissue, ok := j.Tissue(c.Tissue); ok {
			name += ": " + tissue.Name
		}
		rows = append(rows, []string{name, fmt.Sprint(c.Pieces), costWords(c.Costs), figures("%.1f", c.Hours), fmt.Sprintf("%.0f g", c.PasteG), fmt.Sprint(c.Unplaced)})
	}
	table.show(rows)
	d := dialog.NewCustomWithoutButtons(t("Ways to do the job"), container.NewBorder(nil,
		small(t("Each way is laid out afresh on the stock there is; costs are those of whole sheets opened.")), nil, nil, table), p.w.win)
	end := p.w.answerButton(t("Close"), widget.HighImportance, func() { d.Hide() })
	d.SetButtons([]fyne.CanvasObject{end})
	room := p.w.win.Canvas().Size()
	d.Resize(fyne.NewSize(min(820, room.Width-40), min(380, room.Height-40)))
	p.w.present(d, nil)
	p.w.win.Canvas().Focus(end)
}
