package assets

import (
	"encoding/xml"
	"strings"
	"testing"
)

func TestDrawingsAreWellFormed(t *testing.T) {
	list, err := files.ReadDir("icons")
	if err != nil || len(list) < 20 {
		t.Fatalf("%d drawings, %v", len(list), err)
	}
	for _, e := range list {
		name := strings.TrimSuffix(e.Name(), ".svg")
		var svg struct {
			XMLName xml.Name `xml:"svg"`
			ViewBox string   `xml:"viewBox,attr"`
		}
		if err := xml.Unmarshal(Icon(name), &svg); err != nil || svg.ViewBox != "0 0 24 24" {
			t.Errorf("%s: %v, box %q", name, err, svg.ViewBox)
		}
		if !strings.Contains(string(Icon(name)), "#000000") {
			t.Errorf("%s has no black to recolour", name)
		}
	}
	if Icon("no such drawing") != nil {
		t.Error("a drawing that is not there was found")
	}
	if err := xml.Unmarshal(AppIcon(), new(struct{})); err != nil {
		t.Errorf("the program's icon: %v", err)
	}
}

func TestEveryLanguageHasWords(t *testing.T) {
	for _, l := range Languages() {
		words, err := Words(l.Code)
		if err != nil || len(words) < 300 {
			t.Errorf("%s has %d words, %v", l.Name, len(words), err)
		}
	}
	if _, err := Words("xx"); err == nil {
		t.Error("words were found for a language that is not there")
	}
}

func TestHelpFallsBackToEnglish(t *testing.T) {
	for _, page := range []string{"cautions", "about"} {
		if text := Help(page, "xx"); !strings.HasPrefix(text, "# ") {
			t.Errorf("the page %s begins %.20q", page, text)
		}
	}
	if Help("no such page", "en") != "" {
		t.Error("a page that is not there was found")
	}
}
