package ui

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
	"leafmend/sampledata"
)

// sampleWindow opens the sample job without its scans: nothing here reads
// them, and everything that is measured is in the job.
func sampleWindow(t *testing.T) *Window {
	t.Helper()
	w := testWindow(t)
	dir := t.TempDir()
	name := "programme.leafmend"
	data, err := fs.ReadFile(sampledata.Files(), name)
	if err == nil {
		err = os.WriteFile(filepath.Join(dir, name), data, 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
	w.openPath(filepath.Join(dir, name))
	w.closeDialog() // the offer to look for the scans, which were not unpacked
	t.Cleanup(func() { w.keepLock(nil) })
	if n := len(w.session.Job().Leaves); n != 5 {
		t.Fatalf("the sample job has %d leaves, want 5", n)
	}
	return w
}

func TestTheStopListIsAnsweredAndTakenBack(t *testing.T) {
	w := sampleWindow(t)
	b := w.showWork(workBefore).first
	all := len(course.StopList())
	for _, c := range b.stops {
		test.Tap(c)
	}
	if n := len(course.OpenStops(w.session.Job())); n != 0 || !strings.Contains(b.state.Text, "All answered") {
		t.Errorf("%d are open after all were answered: %q", n, b.state.Text)
	}
	test.Tap(b.stops[0])
	if n := len(course.OpenStops(w.session.Job())); n != 1 {
		t.Errorf("%d of %d are open after one was taken back", n, all)
	}
	w.Run("undo")
	if n := len(course.OpenStops(w.session.Job())); n != 0 {
		t.Errorf("%d are open after undo", n)
	}
}

func TestDisbindingAsksForTheStopListTheSurveyAndTheCollation(t *testing.T) {
	w := sampleWindow(t)
	p := w.showWork(workSteps)
	p.chooseAll(true)
	p.form.by.SetText("A. B.")
	p.form.kind.pick(string(mendplan.Disbound))
	p.form.record()
	if !w.asking() || len(w.session.Job().Steps) != 0 {
		t.Fatal("taking apart was recorded without asking")
	}
	w.closeDialog()
	for _, k := range []mendplan.StepKind{mendplan.Surveyed, mendplan.Collated} {
		p.form.kind.pick(string(k))
		p.form.record()
	}
	for _, c := range w.showWork(workBefore).first.stops {
		test.Tap(c)
	}
	p = w.showWork(workSteps)
	p.form.kind.pick(string(mendplan.Disbound))
	p.form.record()
	if n := len(w.session.Job().Steps); w.asking() || n != 15 {
		t.Errorf("%d steps, want three for each of five leaves without a question", n)
	}
}

func TestTheExaminationIsKept(t *testing.T) {
	w := sampleWindow(t)
	b := w.showWork(workBefore).first
	f := b.fields[7] // the author
	f.field.SetText("A. Bench")
	f.field.tell()
	if got := w.session.Job().Examination.Author; got != "A. Bench" {
		t.Errorf("the author is %q", got)
	}
}

func TestOwnActsAreRecordedLikeTheOthers(t *testing.T) {
	w := sampleWindow(t)
	j := w.session.Job()
	j.OwnSteps = []mendplan.StepKind{"humidified"}
	w.session.Do("add act", j)
	p := w.showWork(workSteps)
	p.toggle(0)
	p.form.by.SetText("A. B.")
	p.form.kind.pick("humidified")
	p.form.side.pick(string(mendplan.Back))
	p.form.record()
	s := w.session.Job().Steps
	if len(s) != 1 || s[0].Kind != "humidified" || s[0].Side != mendplan.Back {
		t.Errorf("recorded %+v", s)
	}
}

func TestAStepHoldsNothingOfAnotherKind(t *testing.T) {
	w := sampleWindow(t)
	w.showWork(workPaste).paste.cooked()
	p := w.showWork(workSteps)
	p.toggle(0)
	p.form.by.SetText("A. B.")
	for _, k := range []mendplan.StepKind{mendplan.Surveyed, mendplan.Tested, mendplan.MendedStep, mendplan.PressedIn} {
		p.form.kind.pick(string(k))
		p.form.record()
	}
	s := w.session.Job().Steps
	if len(s) != 4 || s[1].Test == nil || s[1].Batch != "" || s[2].Batch != "P1" || s[2].Test != nil || s[3].Batch != "" {
		t.Errorf("recorded %+v; want the fresh batch with the mend alone", s)
	}
	if got := p.form.kind.chosen(); got != string(mendplan.PressedOut) {
		t.Errorf("after the press in comes %s", got)
	}
}

func TestThoseDueAreChosenTogether(t *testing.T) {
	w := sampleWindow(t)
	p := w.showWork(workSteps)
	p.form.by.SetText("A. B.")
	p.toggle(0)
	p.form.record() // the cover is surveyed
	p.form.kind.pick(string(mendplan.Surveyed))
	p.chooseDue()
	if got := p.chosenLeaves(); len(got) != 4 || got[0] == "LC" {
		t.Errorf("due for a survey are %v, want the four that are not surveyed", got)
	}
}

func TestEdgesAreTrimmedOneByOneAndTheLeafGoesBack(t *testing.T) {
	w := sampleWindow(t)
	w.settings.SetPerson("A. B.")
	leaf := "L2"
	w.session.Do("record step", withSteps(w.session.Job(), []mendplan.Step{
		{Leaf: leaf, Kind: mendplan.MendedStep, Date: "2026-03-02", By: "A. B."},
		{Leaf: leaf, Kind: mendplan.PressedIn, Date: "2026-03-02", Time: "15:00", By: "A. B."},
		{Leaf: leaf, Kind: mendplan.PressedOut, Date: "2026-03-03", Time: "15:00", By: "A. B."}}))
	b := w.showWork(workTrim).trims
	var rows []int
	for i, tr := range b.list {
		if tr.Leaf == leaf {
			rows = append(rows, i)
		}
	}
	if len(rows) < 2 {
		t.Fatalf("leaf 2 has %d edges to trim", len(rows))
	}
	for k, row := range rows {
		if done := course.Done(w.session.Job(), leaf, mendplan.TrimmedStep); done {
			t.Errorf("recorded as trimmed after %d of %d edges", k, len(rows))
		}
		b.tick(row)
	}
	if w.asking() || !course.Done(w.session.Job(), leaf, mendplan.TrimmedStep) {
		t.Error("the last edge does not record the leaf as trimmed")
	}
	if !strings.Contains(b.back.Text, "4 | 13") || !strings.Contains(b.back.Text, "leaf 1") {
		t.Errorf("it goes back so: %q, want pages 4 | 13 up, on leaf 1", b.back.Text)
	}
	b.tick(rows[0])
	if l, _ := w.session.Job().Leaf(leaf); len(l.EdgesTrimmed) != len(rows)-1 {
		t.Errorf("%d edges are ticked after one was taken back", len(l.EdgesTrimmed))
	}
}

func TestTrimmingADampLeafAsks(t *testing.T) {
	w := sampleWindow(t)
	w.settings.SetPerson("A. B.")
	b := w.showWork(workTrim).trims
	b.tick(0)
	if l, _ := w.session.Job().Leaf(b.list[0].Leaf); !w.asking() || len(l.EdgesTrimmed) != 0 {
		t.Error("a leaf never mended nor pressed was trimmed without a question")
	}
}

func TestARecipeOfOnesOwnLeavesThePublishedOneAsItIs(t *testing.T) {
	w := sampleWindow(t)
	b := w.showWork(workPaste).paste
	b.recipe.pick("loc")
	form := recipeForm{name: w.newEntry(), method: w.newEntry(), source: w.newEntry()}
	form.name.SetText("mine")
	r := b.recipeOf("loc")
	for _, n := range recipeNumbers(&r) {
		e := w.newEntry()
		e.SetText(showPositive(*n.at, ""))
		form.numbers = append(form.numbers, e)
	}
	form.numbers[0].SetText("40")
	words, out := form.read(r)
	if words != "" || out.StarchG != 40 || out.WaterML != 400 {
		t.Fatalf("%q: %+v", words, out)
	}
	for text, part := range map[string]string{"a few": "Starch", "": "Write starch"} {
		form.numbers[0].SetText(text)
		if words, _ := form.read(r); !strings.Contains(words, part) {
			t.Errorf("%q grams of starch: %q", text, words)
		}
	}
	w.Run("own-recipe")
	if !w.asking() {
		t.Fatal("no form")
	}
	w.closeDialog()
	out.ID = freshRecipe(w.session.Job())
	w.session.Do("write recipe", w.session.Job().WithRecipe(out))
	if b.recipeOf("loc").StarchG != 57 || b.recipeOf(out.ID).StarchG != 40 {
		t.Error("the published recipe was changed, or the own one is not there")
	}
}

func TestTheCalendarShowsWhatHappensOnWhichDay(t *testing.T) {
	w := sampleWindow(t)
	d := w.showWork(workDays).days
	entries, first, last := entriesOf(w.session.Job(), d.plan)
	if course.Day(first) != "2026-03-02" || course.Day(last) != course.Day(d.plan.Reassembly) {
		t.Errorf("from %s to %s", course.Day(first), course.Day(last))
	}
	var all []string
	for _, list := range entries {
		for _, e := range list {
			all = append(all, e.words)
		}
	}
	for _, want := range []string{"mend C", "under weight", "out: ", "put together"} {
		if !slices.ContainsFunc(all, func(s string) bool { return strings.Contains(s, want) }) {
			t.Errorf("the calendar shows no “%s”: %v", want, all)
		}
	}
	d.setRoom(3, "15 cm")
	d.setRoom(6, "")
	if len(d.plan.Problems) == 0 || w.session.Job().Press.WidthMM != 150 {
		t.Error("an opening 150 mm wide takes bifolia of 186 mm without a word")
	}
}

func TestThePictureAfterTreatmentIsKeptWithTheSide(t *testing.T) {
	w := sampleWindow(t)
	w.session.Show("L1", mendplan.Back)
	path := writeScan(t, t.TempDir(), "after.png")
	w.attachAfter(path)
	l, _ := w.session.Job().Leaf("L1")
	if !l.Back.After.Present() || l.Back.After.Width != 474 || l.Front.After.Present() {
		t.Errorf("kept %+v", l.Back.After)
	}
	if got := w.session.scanPath(l.Back.After); got != path {
		t.Errorf("it is looked for at %s, lies at %s", got, path)
	}
	if !w.Run("compare-after") || !w.asking() {
		t.Error("before and after are not shown")
	}
	w.closeDialog()
	saved := filepath.Join(t.TempDir(), "elsewhere.leafmend")
	moved, _ := w.session.ToSave(saved).Leaf("L1")
	if got := mendplan.ScanPath(filepath.Dir(saved), moved.Back.After); got != path {
		t.Errorf("saved elsewhere, it is looked for at %s", got)
	}
	w.attachAfter(filepath.Join(t.TempDir(), "none.png"))
	if !w.asking() {
		t.Error("a file that is not there is taken without a word")
	}
}

func TestTheBenchIsTurnedAndLeftByMouseAndFitsASmallScreen(t *testing.T) {
	w := sampleWindow(t)
	w.session.Show("L2", mendplan.Front)
	w.openBench()
	b := w.bench
	if least := b.win.Content().MinSize(); least.Width > 1024 || least.Height > 700 {
		t.Errorf("the bench view needs %v", least)
	}
	press := func(words string) {
		t.Helper()
		for _, o := range test.LaidOutObjects(b.win.Content()) {
			if p, ok := o.(*pressable); ok && p.text == words {
				p.onPress()
				return
			}
		}
		t.Fatalf("no “%s” to press", words)
	}
	press("Next leaf")
	if leaf, _ := w.session.Leaf(); leaf.ID != "L3" {
		t.Errorf("the next leaf is %s", leaf.ID)
	}
	press("Previous leaf")
	if leaf, _ := w.session.Leaf(); leaf.ID != "L2" {
		t.Errorf("the leaf before is %s", leaf.ID)
	}
	press("Close")
	if b.open {
		t.Error("the bench view stays open")
	}
}

func TestBenchTicksAreKeptInTheJobAndEndInARecordedStep(t *testing.T) {
	w := sampleWindow(t)
	w.settings.SetPerson("A. B.")
	w.session.Show("L2", mendplan.Front)
	w.openBench()
	b := w.bench
	if len(b.rows) < 3 || !strings.Contains(b.caution.Text, "solubility") {
		t.Fatalf("%d pieces; the caution says %q", len(b.rows), b.caution.Text)
	}
	for i := range b.rows {
		b.key(fyne.KeySpace)
		if l, _ := w.session.Job().Leaf("L2"); len(l.PiecesOn) != i+1 {
			t.Fatalf("after %d ticks the job holds %v", i+1, l.PiecesOn)
		}
	}
	l, _ := w.session.Job().Leaf("L2")
	if s, ok := course.Last(w.session.Job(), "L2", mendplan.MendedStep); !l.Mended || !ok || s.By != "A. B." {
		t.Errorf("mended %v, step %+v", l.Mended, s)
	}
	w.Run("undo")
	if l, _ := w.session.Job().Leaf("L2"); l.Mended || len(l.PiecesOn) != len(b.rows)-1 {
		t.Error("undo does not take the last tick back")
	}
	n := len(b.rows)
	b.key(fyne.KeySpace)
	b.key(fyne.KeySpace)
	if l, _ := w.session.Job().Leaf("L2"); len(l.PiecesOn) != n {
		t.Errorf("a press too many leaves %d of %d pieces ticked", len(l.PiecesOn), n)
	}
	b.key(fyne.KeyBackspace)
	if l, _ := w.session.Job().Leaf("L2"); len(l.PiecesOn) != n-1 {
		t.Error("Backspace does not take the tick back")
	}
	b.key(fyne.KeyEscape)
	w.openBench()
	if w.bench != b || !strings.Contains(b.sub.Text, "of") {
		t.Error("the bench view does not open again")
	}
}
