package ui

import (
	"context"
	"errors"
	"testing"

	"fyne.io/fyne/v2/test"
)

func TestLongWorkIsShownAndCanBeStopped(t *testing.T) {
	w := testWindow(t)
	var told []error
	w.aside("Looking", func(ctx context.Context) error {
		if !w.status.working.Visible() || w.status.stop.Hidden {
			t.Error("work that takes a while is not shown, or cannot be stopped")
		}
		return errors.New("broken")
	}, func(err error) { told = append(told, err) })
	if len(told) != 1 || told[0] == nil || w.status.working.Visible() {
		t.Errorf("told %v, still shown: %v", told, w.status.working.Visible())
	}
	w.aside("Looking", func(ctx context.Context) error {
		test.Tap(w.status.stop)
		if ctx.Err() == nil {
			t.Error("work that is stopped is not told")
		}
		return nil
	}, func(error) { t.Error("the answer of work that was stopped is taken") })
	if w.status.working.Visible() || w.status.outcome != "Stopped; nothing was changed." {
		t.Errorf("stopped, the status line says %q, progress shown: %v", w.status.outcome, w.status.working.Visible())
	}
}
