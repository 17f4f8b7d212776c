package ui

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// engineWords adds the sentences of the engine and the print: what stands in
// phrase.Of("…") and phrase.Errorf("…"), in calls of methods say and Say, and
// in the functions that make errors, anywhere under mendplan and in the
// program of the command line, whose tables share them.
func engineWords(t *testing.T, words map[string]bool) {
	t.Helper()
	for _, root := range []string{filepath.Join("..", "mendplan"), filepath.Join("..", "cmd", "mendplan")} {
		engineWordsUnder(t, root, words)
	}
}

func engineWordsUnder(t *testing.T, root string, words map[string]bool) {
	t.Helper()
	err := filepath.WalkDir(root, func(path string, _ fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(f, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || len(call.Args) == 0 {
				return true
			}
			if speaks(call.Fun) {
				if s, ok := literal(call.Args[0]); ok && hasLetters(s) {
					words[s] = true
				}
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// speaks tells whether the first argument of a function is a sentence to be
// translated.
func speaks(fun ast.Expr) bool {
	if f, ok := fun.(*ast.Ident); ok {
		return f.Name == "damaged" || f.Name == "notRead" // refusals of pictures
	}
	sel, ok := fun.(*ast.SelectorExpr)
	if !ok {
		return false
	}
	pkg, _ := sel.X.(*ast.Ident)
	switch sel.Sel.Name {
	case "say", "Say":
		return true
	case "fault": // of a row of a table
		return pkg != nil && pkg.Name == "r"
	case "Of", "Errorf":
		return pkg != nil && pkg.Name == "phrase"
	}
	return false
}

// literal is the value of a string literal, or of several set together.
func literal(e ast.Expr) (string, bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		s, err := strconv.Unquote(e.Value)
		return s, err == nil && e.Kind == token.STRING
	case *ast.BinaryExpr:
		a, okA := literal(e.X)
		b, okB := literal(e.Y)
		return a + b, okA && okB && e.Op == token.ADD
	}
	return "", false
}

// hasLetters tells whether there is anything to translate between the verbs.
func hasLetters(s string) bool {
	return regexp.MustCompile(`\pL`).MatchString(verb.ReplaceAllString(s, ""))
}

var (
	verb  = regexp.MustCompile(`%(\[\d+\])?[-+# 0-9.]*[a-zA-Z%]`)
	index = regexp.MustCompile(`\[(\d+)\]`)
)

// takes lists the verbs of a sentence in the order of the values they take;
// "%[2]s" takes the second.
func takes(s string) []string {
	type taken struct {
		at   int
		verb string
	}
	var all []taken
	next := 1
	for _, v := range verb.FindAllString(s, -1) {
		if m := index.FindStringSubmatch(v); m != nil {
			next, _ = strconv.Atoi(m[1])
		}
		all = append(all, taken{next, index.ReplaceAllString(v, "")})
		next++
	}
	slices.SortStableFunc(all, func(a, b taken) int { return a.at - b.at })
	var out []string
	for _, v := range all {
		out = append(out, v.verb)
	}
	return out
}

func TestATranslationMayTakeItsValuesInAnotherOrder(t *testing.T) {
	for _, c := range []struct {
		english, other string
		same           bool
	}{
		{"%s meets %d.", "%[2]d trifft auf %[1]s.", true},
		{"%s meets %d.", "%s trifft %d.", true},
		{"%s meets %d.", "%d trifft %s.", false},
		{"%s meets %d.", "%s trifft.", false},
		{"%.1f %%", "%.1f %%", true},
		{"%.1f mm", "%.2f mm", false},
	} {
		if got := slices.Equal(takes(c.english), takes(c.other)); got != c.same {
			t.Errorf("%q and %q: same values %v, want %v", c.english, c.other, got, c.same)
		}
	}
}
