package assets

import (
	"encoding/json"
	"fmt"
)

// Shortcut is a command of the window and its keys as they are written on an
// English keyboard, "Ctrl+Shift+S", the one shown in menus first.
type Shortcut struct {
	ID    string   `json:"id"`
	Menu  string   `json:"menu"`
	Words string   `json:"words"`
	Keys  []string `json:"keys,omitempty"`
}

// Shortcuts lists the commands of the window, menu by menu, for programs that
// print the user guide without having the window. A test of the window holds
// the list against its table of commands.
func Shortcuts() []Shortcut {
	var all []Shortcut
	b, err := files.ReadFile("help/shortcuts.json")
	if err == nil {
		err = json.Unmarshal(b, &all)
	}
	if err != nil {
		panic(fmt.Sprintf("the list of commands is not compiled in whole: %v", err)) // go:embed and its test make this impossible
	}
	return all
}

// GuidePicture returns a picture of the user guide by name, a JPEG, in the
// language or else in English; nil if there is none.
func GuidePicture(name, code string) []byte {
	for _, c := range []string{code, "en"} {
		if b, err := files.ReadFile("help/pictures/" + name + "." + c + ".jpg"); err == nil {
			return b
		}
	}
	return nil
}
