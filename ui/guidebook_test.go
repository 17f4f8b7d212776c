package ui

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"leafmend/assets"
	"leafmend/mendplan"
)

var (
	namedInGuide = regexp.MustCompile(`\[\[([^\]]+)\]\]`)
	keyInGuide   = regexp.MustCompile(`\{(?:key|rule|keys):[^}]+\}`)
	headInGuide  = regexp.MustCompile(`(?m)^(#+ .*|!\[.*)$`)
)

// guideParts cuts the guide of a language at its chapters, by id.
func guideParts(code string) (ids []string, texts map[string]string) {
	texts = map[string]string{}
	for _, part := range strings.Split("\n"+assets.Help("guide", code), "\n# ")[1:] {
		id := part[strings.Index(part, "{#")+2 : strings.Index(part, "}")]
		ids, texts[id] = append(ids, id), part
	}
	return ids, texts
}

func matches(re *regexp.Regexp, text string) []string {
	var out []string
	for _, m := range re.FindAllStringSubmatch(text, -1) {
		out = append(out, m[len(m)-1])
	}
	slices.Sort(out)
	return out
}

func TestEveryNameInTheGuideIsOneOfTheWindows(t *testing.T) {
	english, err := assets.Words("en")
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range assets.Languages() {
		words, err := assets.Words(l.Code)
		if err != nil {
			t.Fatal(err)
		}
		text := assets.Help("guide", l.Code)
		names := matches(namedInGuide, text)
		if len(names) < 150 {
			t.Errorf("%s: only %d names are marked", l.Code, len(names))
		}
		for _, n := range names {
			if _, ok := english[n]; !ok {
				t.Errorf("%s: the guide names %q, which the window does not say", l.Code, n)
			}
			if _, ok := words[n]; !ok {
				t.Errorf("%s: %q has no words in that language", l.Code, n)
			}
		}
		if strings.Contains(text, "**") {
			t.Errorf("%s: a name is typed in bold by hand: mark it as [[Name]], so that it is checked", l.Code)
		}
		if typed := regexp.MustCompile(`\b(Ctrl|Strg|Alt|Umschalt)\+`).FindString(text); typed != "" {
			t.Errorf("%s: a key is typed by hand (%s): write {key:COMMAND}, so that it never ages", l.Code, typed)
		}
	}
}

func TestTheGuideSaysTheSameInEveryLanguage(t *testing.T) {
	ids, texts := guideParts("en")
	for _, l := range assets.Languages()[1:] {
		others, other := guideParts(l.Code)
		if !slices.Equal(ids, others) {
			t.Fatalf("%s has the chapters %v, English %v", l.Code, others, ids)
		}
		for _, id := range ids {
			for _, re := range []*regexp.Regexp{namedInGuide, keyInGuide} {
				if a, b := matches(re, texts[id]), matches(re, other[id]); !slices.Equal(a, b) {
					t.Errorf("%s, chapter %s: English names\n%v, it\n%v", l.Code, id, a, b)
				}
			}
			if a, b := len(matches(headInGuide, texts[id])), len(matches(headInGuide, other[id])); a != b {
				t.Errorf("%s, chapter %s has %d headings and pictures, English %d", l.Code, id, b, a)
			}
		}
	}
}

// openGuide opens the guide and returns it by its field, which has the
// keyboard.
func openGuide(t *testing.T, w *Window) *guidebook {
	t.Helper()
	if !w.Run("user-guide") {
		t.Fatal("the guide cannot be opened")
	}
	f, ok := w.win.Canvas().Focused().(*dialogEntry)
	if !ok {
		t.Fatalf("the keyboard is with %T", w.win.Canvas().Focused())
	}
	return f.leads.(*guidebook)
}

func TestTheGuideOpensAtWhatIsShown(t *testing.T) {
	w := testWindow(t)
	at := func(want string) {
		t.Helper()
		b := openGuide(t, w)
		if got := b.chapters[b.at].id; got != want {
			t.Errorf("at stage %d the guide opens at %q, want %q", w.stage, got, want)
		}
		w.closeDialog()
	}
	at("first-job")
	withLeaf(t, w)
	at("tracing")
	for s, want := range map[stage]string{stageMends: "margins", stageCuts: "cut-list", stageEstimate: "plan", stageStock: "tissue", stageJob: "margins", stageOrder: "order"} {
		w.showStage(s)
		at(want)
	}
	for page, want := range map[workPage]string{workBefore: "work", workSteps: "work", workPaste: "paste", workDays: "drying", workTrim: "trimming", workPapers: "report"} {
		w.showWork(page)
		at(want)
	}
	ids, _ := guideParts("en")
	for _, want := range []string{"first-job", "tracing", "margins", "cut-list", "plan", "tissue", "order", "work", "paste", "drying", "trimming", "report", "scale"} {
		if !slices.Contains(ids, want) {
			t.Errorf("the guide has no chapter %q", want)
		}
	}
}

func TestTheGuideIsReadByTheKeyboard(t *testing.T) {
	w := testWindow(t)
	w.win.Resize(fyne.NewSize(1024, 700))
	b := openGuide(t, w)
	press := func(k fyne.KeyName) { b.field.TypedKey(&fyne.KeyEvent{Name: k}) }
	press(fyne.KeyUp)
	if b.at != 0 {
		t.Errorf("Up at the first chapter goes to %d", b.at)
	}
	press(fyne.KeyDown)
	press(fyne.KeyDown)
	if b.at != 2 {
		t.Errorf("Down twice shows chapter %d", b.at)
	}
	press(fyne.KeyUp)
	press(fyne.KeyPageDown)
	if b.text.scroll.Offset.Y <= 0 {
		t.Error("Page down does not move the text")
	}
	press(fyne.KeyPageUp)
	if b.text.scroll.Offset.Y != 0 {
		t.Errorf("Page up goes back to %v", b.text.scroll.Offset.Y)
	}
	press(fyne.KeyEscape)
	if w.asking() {
		t.Error("Escape does not close the guide")
	}
}

func TestTheGuideIsSearched(t *testing.T) {
	w := testWindow(t)
	b := openGuide(t, w)
	test.Type(b.field, "mould fil")
	if len(b.found) == 0 || b.chapters[b.at].id != "work" {
		t.Fatalf("“mould fil” is found %d times, and chapter %q is shown", len(b.found), b.chapters[b.at].id)
	}
	marked := 0
	for _, m := range b.text.marks {
		if m.Visible() {
			marked++
		}
	}
	if marked != 1 || b.text.scroll.Offset.Y <= 0 {
		t.Errorf("%d places are marked, and the text is at %v", marked, b.text.scroll.Offset.Y)
	}
	b.field.SetText("remnant")
	first := b.found[b.foundAt]
	b.field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if len(b.found) < 2 || b.found[b.foundAt] == first {
		t.Errorf("Enter stays at %v of %v", first, b.found)
	}
	b.field.SetText("zzz")
	if b.count.Text != "Not found." {
		t.Errorf("what is nowhere is told as %q", b.count.Text)
	}
}

func TestNothingOfTheGuideIsCutOff(t *testing.T) {
	t.Cleanup(func() { useLanguage("en") })
	for _, l := range assets.Languages() {
		app := test.NewTempApp(t)
		app.Preferences().SetString("language", l.Code)
		app.Preferences().SetString("text_size", string(HugeText))
		w := build(app, test.NewTempWindow(t, nil), Options{}, worker{inPlace: true})
		w.win.Resize(fyne.NewSize(1024, 700))
		w.newJob()
		b := openGuide(t, w)
		if size := b.dialog.MinSize(); size.Width > 1024 || size.Height > 700 {
			t.Errorf("%s: the guide needs %v", l.Code, size)
		}
		for i := range b.chapters {
			b.step(i - b.at)
			end := float32(0)
			for j, o := range b.text.rows.Objects {
				if o.Position().Y < end-0.5 {
					t.Errorf("%s, chapter %s: block %d lies over the one before", l.Code, b.chapters[i].id, j)
				}
				checkInside(t, o)
				end = o.Position().Y + o.Size().Height
			}
			if have := b.text.rows.Size().Height; have < end-0.5 {
				t.Errorf("%s, chapter %s: %v of %v can be reached", l.Code, b.chapters[i].id, have, end)
			}
		}
	}
}

func TestTheGuideIsPrintedFromTheWindow(t *testing.T) {
	w := testWindow(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "guide.pdf")
	if !w.Run("print-guide") || !w.closeDialog() {
		t.Fatal("nothing is asked before the guide is printed")
	}
	w.writeGuide(path, false)
	data, err := os.ReadFile(path)
	if err != nil || !strings.HasPrefix(string(data), "%PDF-") {
		t.Errorf("no guide is written: %v", err)
	}
}

// The walk of the chapter "A first job", step by step, on the sample job.
func TestTheFirstJobOfTheGuideIsAsTheGuideSays(t *testing.T) {
	w := testWindow(t)
	withSample(t, w)
	do := func(id string) {
		t.Helper()
		if !w.Run(id) {
			t.Fatalf("the command %s cannot be done now", id)
		}
	}
	do("next-leaf")
	do("flip")
	do("flip")
	leaves := w.session.Job().Leaves
	w.session.Show(leaves[len(leaves)-1].ID, mendplan.Front)
	do("tool-tear")
	before := len(w.session.Plan().Pieces)
	traceTear(t, w, at(900, 700), at(1100, 760))
	if got := len(w.session.Plan().Pieces); got <= before {
		t.Errorf("a tear that was traced has no tissue: %d pieces before, %d after", before, got)
	}
	do("margin-wider")
	do("tool-loss")
	do("stage-cuts")
	do("stage-estimate")
	do("print")
	w.closeDialog()
	do("undo")
	do("redo")
}

// checkInside tells of words that reach over the edges of what holds them.
func checkInside(t *testing.T, o fyne.CanvasObject) {
	t.Helper()
	walk(o, "", func(_ string, c fyne.CanvasObject) {
		box, ok := c.(*fyne.Container)
		if !ok {
			return
		}
		for _, in := range box.Objects {
			if text, ok := in.(*canvas.Text); ok {
				end := text.Position().AddXY(text.MinSize().Width, text.MinSize().Height)
				if end.X > box.Size().Width+0.5 || end.Y > box.Size().Height+0.5 {
					t.Errorf("%q ends at %v of %v", text.Text, end, box.Size())
				}
			}
		}
	})
}
