package ui

import (
	"fmt"
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

// shownWords gathers the words of the catalogues and the help pages.
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
	return words
}
