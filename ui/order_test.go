package ui

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
)

func TestTheOrderIsCheckedSheetBySheet(t *testing.T) {
	w := sampleWindow(t)
	c := w.showOrder(orderChecks).check
	if len(c.laid) != 5 {
		t.Fatalf("%d sheets to lay", len(c.laid))
	}
	c.look("") // the cover, as shown
	if c.at != 1 || c.card.left.Text != "2" || c.card.right.Text != "15" {
		t.Fatalf("row %d shows %s and %s, want 2 and 15", c.at, c.card.left.Text, c.card.right.Text)
	}
	for typed, want := range map[string]collate.Verdict{"16 1": collate.TurnedUp, "15 2": collate.HeadDown, "6 11": collate.Elsewhere, "99": collate.Unknown} {
		c.look(typed)
		if c.at != 1 || c.seen[1].Verdict != want || !strings.HasPrefix(c.card.verdict.Text, "×") {
			t.Errorf("%s: %+v at row %d, the card says %q", typed, c.seen[1], c.at, c.card.verdict.Text)
		}
	}
	w.settings.SetPerson("A. B.")
	c.by.SetText("A. B.")
	c.record(false)
	if len(w.session.Job().Orders) != 0 {
		t.Error("a check that found a sheet out of place was recorded as in order")
	}
	c.look("2 15")
	for range 3 {
		c.look("")
	}
	c.record(false)
	c.record(false)
	if o := w.session.Job().Orders; len(o) != 1 || !w.asking() {
		t.Fatalf("the same name twice was taken without a question: %+v", o)
	}
	w.closeDialog()
	c.by.SetText("C. D.")
	c.record(false)
	if n := goodChecks(w.session.Job()); n != 2 || !strings.Contains(c.count.Text, "2 of 2") {
		t.Errorf("%d people found it in order: %q", n, c.count.Text)
	}
	c.record(true)
	if n := goodChecks(w.session.Job()); n != 0 {
		t.Errorf("%d checks count after one found it wrong", n)
	}
}

func TestPagesAreNamedAsTheyStand(t *testing.T) {
	w := sampleWindow(t)
	p := w.showOrder(orderSheets)
	p.chooseAt(sheetAt{1, 1}) // pages 14, 3 / 4, 13
	p.editor.setPage(1, "33")
	p.editor.setPage(2, "unnumbered")
	rows := collate.Order(w.session.Job(), collate.OutsideIn)
	if rows[2].Left != "unnumbered" || rows[2].Right != "13" {
		t.Errorf("shows %s and %s", rows[2].Left, rows[2].Right)
	}
	p.editor.setPage(1, "3")
	if g := w.session.Job().Gatherings[1]; len(g.Pages) != 1 {
		t.Errorf("the number itself is kept as a name: %v", g.Pages)
	}
}

func TestTheDrawingOfTheGatheringsIsWalkedByKeys(t *testing.T) {
	w := sampleWindow(t)
	p := w.showOrder(orderSheets)
	d := p.drawing
	for range 9 {
		d.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	}
	if want := (sheetAt{1, 3}); p.editor.at != want {
		t.Errorf("at the end %v is chosen, want %v", p.editor.at, want)
	}
	d.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	if want := (sheetAt{1, 2}); p.editor.at != want || d.at != want {
		t.Errorf("%v is chosen, want %v", p.editor.at, want)
	}
	leaf := d.parts[1].diagram.Leaves[0]
	d.Tapped(&fyne.PointEvent{Position: d.point(d.parts[1], leaf.Line[0]).AddXY(30, 0)})
	if want := (sheetAt{1, 0}); p.editor.at != want {
		t.Errorf("a press on the first leaf chooses %v", p.editor.at)
	}
}

func TestAFolderDroppedOnTheWindowIsPairedWithAPreview(t *testing.T) {
	w := testWindow(t)
	dir := t.TempDir()
	for _, n := range []string{"1-front.png", "1-back.png", "2-front.png", "2-back.png", "notes.txt"} {
		writeScan(t, dir, n)
	}
	w.dropped(fyne.NewPos(10, 10), []fyne.URI{storage.NewFileURI(dir)})
	if !w.asking() {
		t.Fatal("the scans of a folder were added without a preview")
	}
	w.closeDialog()
	w.dropped(fyne.NewPos(10, 10), []fyne.URI{storage.NewFileURI(filepath.Join(dir, "1-front.png"))})
	if n := len(w.session.Job().Leaves); n != 1 {
		t.Errorf("one picture dropped makes %d leaves", n)
	}
}

func TestPairsAreCorrected(t *testing.T) {
	w := testWindow(t)
	v := &pairingView{w: w, note: small("")}
	v.pairs = []mendplan.Pair{{Front: "a", Back: "b"}, {Front: "c"}, {Front: "d"}, {Front: "e"}}
	v.list = newStaticList()
	v.swap(0)
	v.part(0)
	v.join(2)
	v.leaveOut(3)
	want := []mendplan.Pair{{Front: "b"}, {Front: "a"}, {Front: "c", Back: "d"}}
	if !slices.Equal(v.pairs, want) {
		t.Errorf("pairs %v, want %v", v.pairs, want)
	}
	if !strings.Contains(v.note.Text, "3 leaves, 1 with both") {
		t.Errorf("the note says %q", v.note.Text)
	}
}

func TestUndoIsNamedInTheLanguageWithItsOwnQuotes(t *testing.T) {
	t.Cleanup(func() { useLanguage("en") })
	w := testWindow(t)
	withLeaf(t, w)
	trace(t, w)
	if got := w.menus.items["undo"].Label; got != "Undo “trace tear”" {
		t.Errorf("the menu says %q", got)
	}
	useLanguage("de")
	w.refreshCommands()
	if got := w.menus.items["undo"].Label; !strings.HasPrefix(got, "Rückgängig: „") || strings.Contains(got, "trace") {
		t.Errorf("the German menu says %q", got)
	}
}
