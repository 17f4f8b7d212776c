package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// benchView is a window of its own for the bench: one leaf in large type, its
// pieces in the order of pasting, read from a metre away.
type benchView struct {
	w     *Window
	win   fyne.Window
	done  map[string]bool // labels of pieces ticked off
	at    int             // row in hand
	rows  []mendplan.Piece
	title *canvas.Text
	sub   *canvas.Text
	list  *fyne.Container
}

func (w *Window) openBench() {
	b := &benchView{w: w, win: w.app.NewWindow(t("Bench view") + " — Leafmend"), done: map[string]bool{},
		title: canvas.NewText("", nil), sub: canvas.NewText("", nil), list: tight()}
	b.title.TextSize, b.title.TextStyle.Bold, b.sub.TextSize = 44, true, 22
	hint := widget.NewLabel(t("Space: tick off and go on.  Up, Down: another piece.  Page down, Page up: another leaf.  Escape: close."))
	head := container.New(layout.NewCustomPaddedVBoxLayout(0), b.title, b.sub)
	b.win.SetContent(container.New(layout.NewCustomPaddedLayout(12, 8, 18, 18),
		container.NewBorder(head, hint, nil, nil, container.NewVScroll(b.list))))
	b.win.Canvas().SetOnTypedKey(func(e *fyne.KeyEvent) { b.key(e.Name) })
	w.session.planChanged.listen(b.refresh)
	w.session.placeChanged.listen(b.refresh)
	b.refresh()
	b.win.Resize(fyne.NewSize(1000, 680))
	b.win.Show()
}

func (b *benchView) key(name fyne.KeyName) {
	switch name {
	case fyne.KeySpace:
		if b.at < len(b.rows) {
			label := b.rows[b.at].Label
			b.done[label] = !b.done[label]
			if b.done[label] && b.at < len(b.rows)-1 {
				b.at++
			}
		}
	case fyne.KeyDown:
		b.at = min(b.at+1, max(len(b.rows)-1, 0))
	case fyne.KeyUp:
		b.at = max(b.at-1, 0)
	case fyne.KeyPageDown:
		b.w.stepLeaf(1)
	case fyne.KeyPageUp:
		b.w.stepLeaf(-1)
	case fyne.KeyEscape:
		b.win.Close()
		return
	}
	b.refresh()
}

// refresh shows the leaf in hand: pieces of the front first, then the back,
// each in its order of application.
func (b *benchView) refresh() {
	leaf, ok := b.w.session.Leaf()
	if !ok {
		return
	}
	b.title.Text, b.title.Color = leafTitle(leaf), shade(theme.ColorNameForeground)
	b.sub.Color = shade(colourQuiet)
	b.rows = b.rows[:0]
	for _, side := range []mendplan.SideName{mendplan.Front, mendplan.Back} {
		for _, p := range b.w.session.Plan().Pieces {
			if p.Leaf == leaf.ID && p.Side == side {
				b.rows = append(b.rows, p)
			}
		}
	}
	b.at = min(b.at, max(len(b.rows)-1, 0))
	ticked := 0
	b.list.Objects = nil
	for i, p := range b.rows {
		if b.done[p.Label] {
			ticked++
		}
		b.list.Add(b.row(i, p))
	}
	b.sub.Text = t("%d of %d pieces are on", ticked, len(b.rows))
	b.title.Refresh()
	b.sub.Refresh()
	b.list.Refresh()
}

func (b *benchView) row(i int, p mendplan.Piece) fyne.CanvasObject {
	mark := "□"
	colour := fyne.ThemeColorName(theme.ColorNameForeground)
	if b.done[p.Label] {
		mark, colour = "✓", theme.ColorNameSuccess
	}
	text := func(words string, size float32, bold bool) *canvas.Text {
		c := canvas.NewText(words, shade(colour))
		c.TextSize, c.TextStyle.Bold = size, bold
		return c
	}
	ts, _ := b.w.session.Job().Tissue(p.Tissue)
	ground := canvas.NewRectangle(nil)
	if i == b.at {
		ground.FillColor = shade(colourChosen)
	}
	side := t("%s up", sideShort(p.Side))
	body := container.NewHBox(text(mark+" ", 30, true), text(p.Label+"   ", 34, true),
		text(fmt.Sprintf("%s   %s   %s", side, unitsOf(b.w.session.Job()).Size(p.BlankLengthMM, p.BlankWidthMM), ts.Name), 22, false))
	return newPressRow(container.NewStack(ground, body), func() { b.at = i; b.key(fyne.KeySpace) })
}

// showMenu opens a menu at a place of the window.
func showMenu(menu *fyne.Menu, c fyne.Canvas, at fyne.Position) {
	widget.ShowPopUpMenuAtPosition(menu, c, at)
}
