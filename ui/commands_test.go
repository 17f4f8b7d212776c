package ui

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"leafmend/assets"
)

func TestEveryCommandHasWordsHelpMenuAndKey(t *testing.T) {
	ids := map[string]bool{}
	for _, c := range commandTable() {
		if ids[c.id] {
			t.Errorf("%s: the id is there twice", c.id)
		}
		ids[c.id] = true
		if c.words == "" || c.help == "" || c.run == nil {
			t.Errorf("%s: words, help or act is missing", c.id)
		}
		if !strings.HasSuffix(c.help, ".") {
			t.Errorf("%s: the help is no sentence: %q", c.id, c.help)
		}
		if !slices.Contains(menuOrder, c.menu) {
			t.Errorf("%s: it is in no menu", c.id)
		}
		if len(c.keys) == 0 {
			t.Errorf("%s: it has no key", c.id)
		}
	}
}

func TestNoKeyMeansTwoThings(t *testing.T) {
	used := map[key]string{}
	for _, c := range commandTable() {
		for _, k := range c.keys {
			if other, ok := used[k]; ok {
				t.Errorf("%s is the key of %s and of %s", k, other, c.id)
			}
			used[k] = c.id
		}
	}
	for _, held := range []key{{fyne.KeyH, 0}, {fyne.KeyQ, 0}, {fyne.KeySpace, 0}} {
		if id, ok := used[held]; ok {
			t.Errorf("%s is held for something on the surface, and is also the key of %s", held, id)
		}
	}
}

func TestEveryCommandIsInTheMenuBar(t *testing.T) {
	w := testWindow(t)
	for _, c := range w.commands {
		item := w.menus.items[c.id]
		found := false
		for _, m := range w.menus.bar.Items {
			found = found || slices.Contains(m.Items, item)
		}
		if !found {
			t.Errorf("%s is in no menu", c.id)
		}
		if item.Shortcut == nil {
			t.Errorf("%s: the menu shows no key", c.id)
		}
	}
}

func TestEveryToolIsACommand(t *testing.T) {
	w := testWindow(t)
	for _, row := range toolRows() {
		if row.key != (key{}) && w.command("tool-"+string(row.id)) == nil {
			t.Errorf("the tool %s is no command", row.id)
		}
		if w.trace.tools.buttons[row.id] == nil {
			t.Errorf("the tool %s is not in the column", row.id)
		}
		if assets.Icon(row.icon) == nil {
			t.Errorf("the tool %s has no drawing", row.id)
		}
	}
}

func TestCommandsDoNothingWhereTheyMakeNoSense(t *testing.T) {
	w := testWindow(t)
	before := w.session.Job()
	for _, c := range w.commands {
		if c.enabled != nil && !c.enabled(w) && w.Run(c.id) {
			t.Errorf("%s ran although it cannot", c.id)
		}
	}
	if len(w.session.Job().Leaves) != len(before.Leaves) || w.session.Unsaved() {
		t.Error("a command that cannot run changed the job")
	}
}

func TestSearchFindsByWordsFirst(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	got := w.matching("next leaf")
	if len(got) == 0 || got[0].id != "next-leaf" {
		t.Fatalf("found %d commands, want next-leaf first", len(got))
	}
	if n := len(w.matching("zebra")); n != 0 {
		t.Errorf("%d commands match nonsense", n)
	}
}

func TestPlainKeysRunCommands(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	w.typedRune('t')
	if got := w.surface.Tool(); got != "tear" {
		t.Errorf("T took %s in hand", got)
	}
	w.typedRune('f')
	if got := w.session.Side(); got != "back" {
		t.Errorf("F shows the %s", got)
	}
	w.typedKey(fyne.KeyPageDown, 0)
	if w.status.outcome == "" {
		t.Error("Page down on the last leaf says nothing")
	}
}

func TestOneKeyGoesToTheFieldsOfEveryStageAndBack(t *testing.T) {
	w := sampleWindow(t)
	w.session.Select(1)
	c := w.win.Canvas()
	for _, id := range []string{"stage-trace", "stage-mends", "stage-cuts", "stage-estimate", "stage-stock", "stage-job", "order-gatherings",
		"work-before", "work-steps", "work-paste", "work-days", "work-trim", "work-papers"} {
		w.Run(id)
		c.Unfocus()
		w.Run("fields")
		if f := c.Focused(); f == nil || f == fyne.Focusable(w.surface) {
			t.Errorf("%s: no field has the keyboard", id)
		}
		w.Run("fields")
		if f := c.Focused(); f != nil && f != fyne.Focusable(w.surface) {
			t.Errorf("%s: the keyboard stays in a field", id)
		}
	}
}

func TestChoicesAreMadeByArrowsAndLetters(t *testing.T) {
	w := sampleWindow(t)
	k := w.showWork(workSteps).form.kind
	k.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	if got := k.chosen(); got != "surveyed" {
		t.Errorf("up from the first comes %s", got)
	}
	k.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	if got := k.chosen(); got != "collated" {
		t.Errorf("down from the first comes %s", got)
	}
	k.TypedRune('M')
	if got := k.chosen(); got != "mended" {
		t.Errorf("M chooses %s", got)
	}
	k.TypedRune('s')
	k.TypedRune('s')
	if got := k.chosen(); got != "surface cleaned" {
		t.Errorf("S twice, from mended, chooses %s", got)
	}
}

func TestWhatIsTypedReplacesWhatStoodInAField(t *testing.T) {
	w := sampleWindow(t)
	f := w.showWork(workSteps).form.hour
	w.win.Canvas().Focus(f)
	for _, r := range "14:30" {
		f.TypedRune(r)
	}
	if f.Text != "14:30" {
		t.Errorf("the field holds %q", f.Text)
	}
}

func TestTheTabsBesideTheLeafHaveKeys(t *testing.T) {
	w := sampleWindow(t)
	for id, tab := range map[string]sideTab{"tab-leaf": tabLeaf, "tab-problems": tabProblems, "tab-damage": tabDetails} {
		w.Run(id)
		if w.side.tab != tab {
			t.Errorf("%s shows tab %d", id, w.side.tab)
		}
	}
}

func TestProblemsAreWalkedBothWays(t *testing.T) {
	w := testWindow(t)
	w.addScans([]string{writeScan(t, t.TempDir(), "leaf.png")})
	trace(t, w)
	if len(w.session.Problems()) == 0 {
		t.Fatal("a leaf without a scale has no problem")
	}
	n := len(w.session.Problems())
	w.Run("prev-problem")
	if w.problem != n-1 {
		t.Errorf("backwards from nowhere comes %d, want the last, %d", w.problem, n-1)
	}
	w.Run("next-problem")
	if w.problem != 0 {
		t.Errorf("after the last comes %d, want the first", w.problem)
	}
}
