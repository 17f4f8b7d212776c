package ui

import (
	"encoding/json"
	"flag"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"leafmend/assets"
	"leafmend/mendplan"
	"leafmend/mendplan/collate"
	"leafmend/mendplan/course"
	"leafmend/mendplan/pdf"
	"leafmend/ui/leafview"
)

var update = flag.Bool("update", false, "rewrite the English catalogue from the sources")

// allWords collects every word that can pass through t: literals in the
// sources, and the tables that are shown.
func allWords(t *testing.T) map[string]bool {
	t.Helper()
	words := map[string]bool{}
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || len(call.Args) == 0 {
				return true
			}
			fun, _ := call.Fun.(*ast.Ident)
			lit, _ := call.Args[0].(*ast.BasicLit)
			if label := undoLabel(call); label != "" {
				words[label] = true
			}
			sel, _ := call.Fun.(*ast.SelectorExpr)
			if lit != nil && (fun != nil && (fun.Name == "t" || fun.Name == "check") || sel != nil && sel.Sel.Name == "Say") {
				if s, err := strconv.Unquote(lit.Value); err == nil {
					words[s] = true
				}
			}
			return true
		})
	}
	for _, c := range commandTable() {
		words[c.words], words[c.help] = true, true
	}
	for _, row := range toolRows() {
		words[row.words], words[row.help] = true, true
	}
	for _, m := range menuOrder {
		words[string(m)] = true
	}
	for _, s := range guideSteps() {
		for _, said := range []string{s.words, s.helps} {
			if said != "" {
				words[said] = true
			}
		}
	}
	for _, k := range leafview.KeysHelp() {
		words[k.Does] = true
	}
	for _, p := range leafview.Phrases() {
		words[p] = true
	}
	tableWords(words)
	printWords(t, words)
	engineWords(t, words)
	delete(words, "")
	return words
}

// printWords adds the words of the printed set and of the questions asked
// before a step: what passes through say, count and ask there, and what the
// print lists itself.
func printWords(t *testing.T, words map[string]bool) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("..", "mendplan", "pdf", "*.go"))
	if err != nil || len(files) == 0 {
		t.Fatal("the sources of the print are not there: ", err)
	}
	files = append(files, filepath.Join("..", "mendplan", "course", "questions.go"))
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok {
				return true
			}
			name := ""
			switch f := call.Fun.(type) {
			case *ast.SelectorExpr:
				name = f.Sel.Name
			case *ast.Ident:
				name = f.Name
			}
			from, to := map[string]int{"say": 0, "count": 1, "add": 1, "ask": 1}[name], map[string]int{"say": 1, "count": 3, "add": 2, "ask": 2}[name]
			for i := from; i < min(to, len(call.Args)); i++ {
				if lit, ok := call.Args[i].(*ast.BasicLit); ok && lit.Kind == token.STRING {
					if s, err := strconv.Unquote(lit.Value); err == nil {
						words[s] = true
					}
				}
			}
			return true
		})
	}
	for _, p := range pdf.Phrases() {
		words[p] = true
	}
	for _, p := range course.CalendarWords() {
		words[p] = true
	}
}

// undoLabel is the label of a step of the job, where a call makes one.
func undoLabel(call *ast.CallExpr) string {
	name := ""
	switch f := call.Fun.(type) {
	case *ast.Ident:
		name = f.Name
	case *ast.SelectorExpr:
		name = f.Sel.Name
	}
	at, ok := map[string]int{"Do": 0, "Amend": 1, "amendDamages": 1, "EditDamages": 0, "EditLeaf": 0, "EditSide": 0, "edit": 0,
		"mend": 0, "editTissue": 1, "put": 0, "setScale": 1, "choice": 0, "changeDamage": 0, "text": 0, "gathering": 0, "sheet": 0}[name]
	if !ok || at >= len(call.Args) {
		return ""
	}
	lit, ok := call.Args[at].(*ast.BasicLit)
	if !ok {
		return ""
	}
	s, err := strconv.Unquote(lit.Value)
	if err != nil {
		return ""
	}
	return s
}

// tableWords adds the words of the domain that are shown as they are.
func tableWords(words map[string]bool) {
	for _, r := range mendplan.RuleTable() {
		words[r.Words], words[r.Group] = true, true
		for _, c := range r.Choices {
			words[c] = true
		}
	}
	for _, k := range slices.Concat(mendplan.MendedKinds(), mendplan.NotedKinds()) {
		words[string(k)] = true
		for _, s := range mendplan.StylesFor(k) {
			words[string(s)] = true
		}
	}
	for _, e := range surfaceEdits() {
		words[e.Label()] = true
	}
	for _, k := range mendplan.StepKinds() {
		words[string(k)] = true
	}
	for _, s := range []course.Freshness{course.Fresh, course.Old, course.Expired, course.Discarded, course.NotYet, course.Undated} {
		words[string(s)] = true
	}
	// What may bound the schedule, and how a check of the order ends.
	for _, n := range []string{"press openings", "blotters", "non-stick sheets", "boards", "in order", "not in order"} {
		words[n] = true
	}
	for _, p := range pdf.Parts() {
		words[partWords(p)] = true
	}
	courseWords(words)
	words["0.5"] = true // how the language writes decimal numbers; see phrase.Tongue.Comma
	for _, n := range []string{"Desktop", "Documents", "Pictures", "Downloads", "Ctrl", "Cmd", "Alt", "Shift"} {
		words[n] = true
	}
}

// courseWords adds the words of the course of the work that are shown as they
// are.
func courseWords(words map[string]bool) {
	for _, c := range course.AllCautions() {
		words[c.Topic], words[c.Words] = true, true
	}
	for _, s := range course.StopList() {
		words[s] = true
	}
	for _, r := range course.PublishedRecipes() {
		words[r.Name], words[r.Method] = true, true
	}
	for _, p := range workPages() {
		words[p.words], words[p.help] = true, true
	}
	for _, v := range []collate.Verdict{collate.InPlace, collate.TurnedUp, collate.HeadDown, collate.Elsewhere, collate.Unknown} {
		words[string(v)] = true
	}
	for _, e := range []mendplan.EdgeName{mendplan.HeadEdge, mendplan.TailEdge, mendplan.LeftEdge, mendplan.RightEdge, mendplan.ForeEdge, mendplan.Gutter} {
		words[string(e)] = true
	}
	for _, r := range []mendplan.TestResult{mendplan.Stable, mendplan.Bleeds, mendplan.Changes} {
		words[string(r)] = true
	}
	words[course.Defer] = true
}

// surfaceEdits is one edit of every label that the tracing surface gives a
// step of the job.
func surfaceEdits() []leafview.Edit {
	edits := []leafview.Edit{leafview.Fork{}, leafview.Divide{}, leafview.Join{}, leafview.Delete{},
		leafview.Delete{Refs: []int{1, 2}}, leafview.TrueEdge{}, leafview.MoveOther{}, leafview.MoveGrip{}, leafview.DropGrip{}, leafview.Outline{}, leafview.FoldLine{},
		leafview.Change{Why: leafview.MoveShape, Shapes: make([]leafview.Geometry, 2)}}
	for _, why := range []leafview.Why{leafview.MovePoint, leafview.InsertPoint, leafview.DeletePoint, leafview.MoveShape,
		leafview.Nudge, leafview.Extend, leafview.Retrace, leafview.Reshape, leafview.DeleteFork} {
		edits = append(edits, leafview.Change{Why: why})
	}
	for _, k := range slices.Concat(mendplan.MendedKinds(), mendplan.NotedKinds()) {
		edits = append(edits, leafview.Add{Kind: leafview.Kind(k)})
	}
	return edits
}

func TestEnglishCatalogueIsComplete(t *testing.T) {
	words := allWords(t)
	path := filepath.Join("..", "assets", "words", "en.json")
	if *update {
		out := map[string]string{}
		for w := range words {
			out[w] = w
		}
		data, err := json.MarshalIndent(out, "", " ")
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, append(data, '\n'), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	have := map[string]string{}
	if err := json.Unmarshal(data, &have); err != nil {
		t.Fatal(err)
	}
	for w := range words {
		if have[w] != w {
			t.Errorf("%q is not in the English catalogue: run the tests of ui with -update", w)
		}
	}
	for w := range have {
		if !words[w] {
			t.Errorf("%q is in the English catalogue, but nowhere shown", w)
		}
	}
}

func TestOtherCataloguesAreCompleteAndTakeTheSameValues(t *testing.T) {
	words := allWords(t)
	for _, l := range assets.Languages() {
		if l.Code == "en" {
			continue
		}
		have, err := assets.Words(l.Code)
		if err != nil {
			t.Errorf("%s is offered, but: %v", l.Name, err)
			continue
		}
		for w := range words {
			tr, ok := have[w]
			if !ok || tr == "" {
				t.Errorf("%s lacks %q", l.Name, w)
				continue
			}
			if a, b := takes(w), takes(tr); !slices.Equal(a, b) {
				t.Errorf("%s: %q takes %v, %q takes %v", l.Name, w, a, tr, b)
			}
		}
	}
}

func TestWindowAndSurfaceSpeakTheLanguageOfTheSettings(t *testing.T) {
	t.Cleanup(func() { useLanguage("en") })
	app := test.NewTempApp(t)
	settings{app.Preferences()}.SetLanguage("de")
	w := build(app, test.NewTempWindow(t, nil), Options{Recovery: filepath.Join(t.TempDir(), "recovery")}, worker{inPlace: true})
	w.newJob()
	withLeaf(t, w)
	german, err := assets.Words("de")
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for _, p := range leafview.Phrases() {
		all = append(all, german[p])
	}
	if hint := w.surface.Hint(); !slices.Contains(all, hint) {
		t.Errorf("the surface says %q in a German window", hint)
	}
	if file := w.win.MainMenu().Items[0].Label; file != "Datei" {
		t.Errorf("the first menu is called %q in a German window", file)
	}
	for s := stageTrace; s <= stageWork; s++ {
		w.showStage(s)
		if m := w.win.Content().MinSize(); m.Width > 1024 || m.Height > 700 {
			t.Errorf("stage %d needs %.0f × %.0f in German, a small screen has 1024 × 700", s, m.Width, m.Height)
		}
	}
}
