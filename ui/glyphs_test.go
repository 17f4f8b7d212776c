package ui

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2/theme"
	"golang.org/x/image/font/sfnt"

	"leafmend/assets"
)

// TestEveryCharacterHasAShape looks up each character of each word that the
// window shows in the fonts it brings: what is not in them is drawn by
// whatever the system has, or as a question mark where it has nothing.
func TestEveryCharacterHasAShape(t *testing.T) {
	faces := map[string][]byte{"regular": theme.DefaultTextFont().Content(), "bold": theme.DefaultTextBoldFont().Content()}
	words := shownWords(t)
	for name, data := range faces {
		face, err := sfnt.Parse(data)
		if err != nil {
			t.Fatal(err)
		}
		missing := map[rune]string{}
		var buf sfnt.Buffer
		for where, text := range words {
			for _, r := range text {
				if r < ' ' {
					continue
				}
				if i, err := face.GlyphIndex(&buf, r); err != nil || i == 0 {
					missing[r] = where
				}
			}
		}
		for r, where := range missing {
			t.Errorf("%U %q, in %s, has no shape in the %s font", r, r, where, name)
		}
	}
}

// shownWords gathers the words of the catalogues, the help pages and the
// program's text.
func shownWords(t *testing.T) map[string]string {
	words := map[string]string{}
	for _, lang := range assets.Languages() {
		for _, page := range []string{"about", "cautions", "guide"} {
			words["help page "+page+" in "+lang.Code] = assets.Help(page, lang.Code)
		}
		catalogue, err := assets.Words(lang.Code)
		if err != nil {
			t.Fatal(err)
		}
		for key, said := range catalogue {
			words[fmt.Sprintf("%s of %q", lang.Code, key)] = said
		}
	}
	for _, folder := range []string{".", "leafview", "../mendplan", "../mendplan/course", "../mendplan/collate"} {
		writtenWords(t, folder, words)
	}
	return words
}

// writtenWords adds the words written in the program's own text, those that
// no catalogue has among them.
func writtenWords(t *testing.T, folder string, words map[string]string) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(folder, "*.go"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no program text in %s: %v", folder, err)
	}
	set := token.NewFileSet()
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(set, name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if call, ok := n.(*ast.CallExpr); ok && strings.HasPrefix(callee(call), "strings.") {
				return false // looked for in what is typed or replaced, not shown
			}
			if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				words[set.Position(lit.Pos()).String()] = plainMinusOf(folder, lit.Value)
			}
			return true
		})
	}
}

// callee is the package and name of a function that is called.
func callee(call *ast.CallExpr) string {
	if s, ok := call.Fun.(*ast.SelectorExpr); ok {
		if x, ok := s.X.(*ast.Ident); ok {
			return x.Name + "." + s.Sel.Name
		}
	}
	return ""
}

// plainMinusOf lets the collation formula have its minus, since the window
// shows it by plainMinus.
func plainMinusOf(folder, words string) string {
	if strings.HasSuffix(folder, "collate") {
		return plainMinus(words)
	}
	return words
}
