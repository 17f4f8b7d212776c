package ui

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
)

// outcomeStays is how long an outcome is shown before hints take its place.
const outcomeStays = 6 * time.Second

// statusBar is the line at the foot of the window: the outcome of the last
// act or a hint for the tool in hand; progress; pointer, zoom.
type statusBar struct {
	w                      *Window
	words, pointer, zoom   *widget.Label
	doing                  *widget.Label // what takes a while
	progress               *widget.ProgressBar
	stop                   *pressable
	working                *fyne.Container
	outcome, hint, hovered string
	cancel                 func()
	ground                 *canvas.Rectangle
	box                    *fyne.Container
	later                  *time.Timer
}

func newStatusBar(w *Window) *statusBar {
	b := &statusBar{w: w, words: widget.NewLabel(""), pointer: widget.NewLabel(""), zoom: widget.NewLabel(""),
		progress: widget.NewProgressBar(), ground: canvas.NewRectangle(shade(colourBar))}
	b.words.Truncation = fyne.TextTruncateEllipsis
	b.stop = newPressable("drop", t("Stop"), func() {
		if b.cancel != nil {
			b.cancel()
		}
	})
	// Beside the bar, not in it: on its empty part they could hardly be read.
	b.doing = widget.NewLabel("")
	b.progress.TextFormatter = func() string { return "" }
	bar := container.NewVBox(layout.NewSpacer(), container.NewGridWrap(fyne.NewSize(90, 10), b.progress), layout.NewSpacer())
	b.working = container.NewHBox(b.doing, bar, b.stop)
	b.working.Hide()
	right := container.NewHBox(b.working, b.pointer, b.zoom)
	b.box = container.NewStack(b.ground, container.New(layout.NewCustomPaddedLayout(0, 0, 4, 4),
		container.NewBorder(nil, nil, nil, right, b.words)))
	return b
}

func (b *statusBar) content() fyne.CanvasObject { return b.box }

// say tells the outcome of an act. It takes the place of what the thing under
// the pointer does: mostly that thing was pressed.
func (b *statusBar) say(words string) {
	b.outcome, b.hovered = words, ""
	b.show()
	if b.later != nil {
		b.later.Stop()
	}
	if b.w.work.inPlace {
		return // no clock in tests: the outcome stays
	}
	b.later = time.AfterFunc(outcomeStays, func() {
		fyne.Do(func() {
			b.outcome = ""
			b.show()
		})
	})
}

// hover shows what the thing under the pointer does; "" ends it.
func (b *statusBar) hover(words string) {
	b.hovered = words
	b.show()
}

// tell shows the hint for the tool in hand.
func (b *statusBar) tell(words string) {
	b.hint = words
	b.show()
}

func (b *statusBar) show() {
	words := b.hint
	if b.w.stage != stageTrace || !hasLeaf(b.w) {
		words = ""
	}
	if b.outcome != "" {
		words = b.outcome
	}
	if b.hovered != "" {
		words = b.hovered
	}
	b.words.SetText(words)
	b.pointer.Hidden, b.zoom.Hidden = b.w.stage != stageTrace, b.w.stage != stageTrace
}

// at shows where the pointer is.
func (b *statusBar) at(words string) { b.pointer.SetText(words) }

// scale shows the zoom, in per cent of pixel for pixel.
func (b *statusBar) scale(v float64) {
	if v <= 0 {
		b.zoom.SetText("")
		return
	}
	b.zoom.SetText(fmt.Sprintf("%.0f %%", v*100))
}

// begin shows that something takes a while; cancel stops it.
func (b *statusBar) begin(words string, cancel func()) {
	b.cancel = cancel
	b.progress.SetValue(0)
	b.doing.SetText(words)
	b.stop.Hidden = cancel == nil
	b.working.Show()
}

func (b *statusBar) done(share float64) { b.progress.SetValue(share) }

// end takes the progress away.
func (b *statusBar) end() {
	b.cancel = nil
	b.working.Hide()
}

func (b *statusBar) refresh() {
	b.ground.FillColor = shade(colourBar)
	b.ground.Refresh()
	b.show()
}
