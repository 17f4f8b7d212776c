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
	"leafmend/ui/leafview"
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
	view  *leafview.Surface // the leaf with its pieces, only to look at
	seen  string            // leaf and side in view
	over  bool              // the window was closed
}

func (w *Window) openBench() {
	b := &benchView{w: w, win: w.app.NewWindow(t("Bench view") + " — Leafmend"), done: map[string]bool{},
		title: canvas.NewText("", nil), sub: canvas.NewText("", nil), list: tight()}
	b.title.TextSize, b.title.TextStyle.Bold, b.sub.TextSize = 44, true, 22
	hint := widget.NewLabel(t("Space: tick off and go on.  Up, Down: another piece.  Page down, Page up: another leaf.  Escape: close."))
	head := container.New(layout.NewCustomPaddedVBoxLayout(0), b.title, b.sub)
	b.view = leafview.New()
	b.view.SetLook(w.surface.Look())
	habits := leafview.DefaultHabits()
	habits.NavigateOnly = true
	b.view.SetHabits(habits)
	b.view.OnKey = func(name fyne.KeyName, _ fyne.KeyModifier) { b.key(name) }
	b.view.OnRune = func(r rune) {
		if r == ' ' {
			b.key(fyne.KeySpace)
		}
	}
	split := container.NewHSplit(container.NewVScroll(b.list), b.view)
	split.Offset = 0.62
	b.win.SetContent(container.New(layout.NewCustomPaddedLayout(12, 8, 18, 18),
		container.NewBorder(head, hint, nil, nil, split)))
	b.win.SetOnClosed(func() { b.over = true })
	b.win.Canvas().SetOnTypedKey(func(e *fyne.KeyEvent) { b.key(e.Name) })
	w.session.planChanged.listen(b.refresh)
	w.session.placeChanged.listen(b.refresh)
	b.refresh()
	b.win.Resize(fyne.NewSize(1180, 720))
	b.win.Show()
}

func (b *benchView) key(name fyne.KeyName) {
	switch name {
	case fyne.KeySpace:
		if b.at < len(b.rows) {
			label := b.rows[b.at].Label
			b.done[label] = !b.done[label]
			b.tickLeaf()
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
	if !ok || b.over {
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
	b.show(leaf)
	b.title.Refresh()
	b.sub.Refresh()
	b.list.Refresh()
}

// show draws the leaf from the side that is up for the piece in hand.
func (b *benchView) show(leaf mendplan.Leaf) {
	side := b.w.session.Side()
	var chosen []int
	if b.at < len(b.rows) {
		side, chosen = b.rows[b.at].Side, []int{b.rows[b.at].Damage}
	}
	if key := leaf.ID + string(side); key != b.seen {
		b.seen = key
		sc := leaf.SideOf(side).Scan
		b.view.SetPicture(blankFor(leaf, side))
		if pic, ok := b.w.pictures.get(b.w.session.scanPath(sc), sc.Page); ok {
			b.view.SetPicture(painter{pic})
		}
	}
	b.view.SetScene(sceneOf(leaf, side, b.w.session.Plan(), chosen))
	b.view.Select(chosen...)
}

// tickLeaf ticks the leaf off once all its pieces are on.
func (b *benchView) tickLeaf() {
	for _, p := range b.rows {
		if !b.done[p.Label] {
			return
		}
	}
	if leaf, ok := b.w.session.Leaf(); ok && !leaf.Mended {
		b.w.session.EditLeaf("tick leaf off", func(l mendplan.Leaf) mendplan.Leaf { l.Mended = true; return l })
	}
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
	side := t("%s up", sideShort(p.Side)) + " · "
	body := container.NewHBox(text(mark+" ", 30, true), text(p.Label+"   ", 34, true),
		text(fmt.Sprintf("%s   %s   %s", side, unitsOf(b.w.session.Job()).Size(p.BlankLengthMM, p.BlankWidthMM), ts.Name), 22, false))
	return newPressRow(container.NewStack(ground, body), func() { b.at = i; b.key(fyne.KeySpace) })
}

// showMenu opens a menu at a place of the window.
func showMenu(menu *fyne.Menu, c fyne.Canvas, at fyne.Position) {
	widget.ShowPopUpMenuAtPosition(menu, c, at)
}
