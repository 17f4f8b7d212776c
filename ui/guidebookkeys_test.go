package ui

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"leafmend/assets"
)

// The command line prints the guide without this package, from a list of the
// commands that is kept beside the guide's text.
func TestTheGuidesListOfCommandsIsTheCommandTable(t *testing.T) {
	var all []assets.Shortcut
	for _, c := range commandTable() {
		s := assets.Shortcut{ID: c.id, Menu: string(c.menu), Words: c.words}
		for _, k := range c.keys {
			s.Keys = append(s.Keys, k.String())
		}
		all = append(all, s)
	}
	var want bytes.Buffer
	e := json.NewEncoder(&want)
	e.SetIndent("", " ")
	e.SetEscapeHTML(false)
	if err := e.Encode(all); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join("..", "assets", "help", "shortcuts.json")
	if *update {
		if err := os.WriteFile(path, want.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(path)
	if err != nil || !bytes.Equal(got, want.Bytes()) {
		t.Errorf("%s is not what the command table says (%v): run this test with -update", path, err)
	}
}
