package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
)

// orderPage is one of the pages of the order.
type orderPage int

const (
	orderSheets orderPage = iota
	orderChecks
)

// orderPanel shows the gatherings of the publication, lets them be put right,
// and leads through the check of the order.
type orderPanel struct {
	*sheetBook
	check *checkBook
	page  orderPage
	heads []*pressable
	parts []panel
	body  *fyne.Container
	box   fyne.CanvasObject
}

func newOrderPanel(w *Window) *orderPanel {
	p := &orderPanel{sheetBook: newSheetBook(w), check: newCheckBook(w)}
	p.parts = []panel{p.sheetBook, p.check}
	row := container.NewHBox()
	for i, id := range []string{"order-gatherings", "order-check"} {
		c := w.command(id)
		head := newPressable("", t(c.words), func() { p.show(orderPage(i)) })
		head.onHint, head.hint = w.status.hover, t(c.help)+"  ["+c.keys[0].String()+"]"
		p.heads = append(p.heads, head)
		row.Add(head)
	}
	p.body = container.NewStack(p.parts[p.page].content())
	p.box = container.New(layout.NewCustomPaddedLayout(2, 2, 6, 6), container.NewBorder(row, nil, nil, nil, p.body))
	return p
}

func (p *orderPanel) content() fyne.CanvasObject { return p.box }

// show brings a page to the front.
func (p *orderPanel) show(page orderPage) {
	if page != p.page {
		p.page = page
		p.body.Objects = []fyne.CanvasObject{p.parts[page].content()}
		p.body.Refresh()
		p.w.letGoOfHidden()
	}
	p.refresh()
	if page == orderChecks {
		p.check.focus()
	}
}

func (p *orderPanel) refresh() {
	for i, head := range p.heads {
		head.set(head.text, orderPage(i) == p.page, false)
	}
	p.parts[p.page].refresh()
}

// showOrder brings a page of the order to the front of the window.
func (w *Window) showOrder(page orderPage) *orderPanel {
	w.showStage(stageOrder)
	p := w.panels[stageOrder].(*orderPanel)
	p.show(page)
	return p
}
