// Package assets holds what the window shows besides the job: pictures, words
// in several languages, and the help. Everything is compiled in; the package
// imports nothing of the program.
package assets

import (
	"embed"
	"encoding/json"
	"fmt"
	"path"
	"slices"
	"strings"
)

//go:embed icon.svg icons words help
var files embed.FS

// AppIcon returns the program's icon, an SVG drawing.
func AppIcon() []byte {
	b, err := files.ReadFile("icon.svg")
	if err != nil {
		panic("the program's icon is not compiled in: " + err.Error()) // go:embed makes this impossible
	}
	return b
}

// Icon returns a small drawing by name, an SVG of 24 × 24 units drawn with
// black strokes, to be recoloured by whoever shows it; nil if there is none.
func Icon(name string) []byte {
	b, err := files.ReadFile("icons/" + name + ".svg")
	if err != nil {
		return nil
	}
	return b
}

// Language is one language the window can speak.
type Language struct {
	Code string // such as "en"
	Name string // as its speakers write it
}

// Languages lists what there are catalogues for, English first.
func Languages() []Language { return slices.Clone(languages) }

var languages = []Language{{"en", "English"}, {"de", "Deutsch"}}

// Words returns the catalogue of a language: from the English words to those
// of the language. English maps to itself; a word that is missing is shown in
// English.
func Words(code string) (map[string]string, error) {
	b, err := files.ReadFile("words/" + code + ".json")
	if err != nil {
		return nil, fmt.Errorf("there are no words in “%s”", code)
	}
	var words map[string]string
	if err := json.Unmarshal(b, &words); err != nil {
		return nil, fmt.Errorf("reading the words in “%s”: %w", code, err)
	}
	return words, nil
}

// Help returns a page of the help by name, in Markdown, in the language or
// else in English; "" if there is no such page.
func Help(name, code string) string {
	for _, c := range []string{code, "en"} {
		if b, err := files.ReadFile(path.Join("help", name+"."+c+".md")); err == nil {
			return strings.TrimSpace(string(b))
		}
	}
	return ""
}
