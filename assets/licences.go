package assets

import (
	_ "embed"
	"encoding/json"
	"fmt"
)

//go:embed licences.json
var licences []byte

// Licence is the licence of a part of the program: of the program itself, of
// Go's library, or of a module compiled in.
type Licence struct {
	Name string // the module with its version and the file the text is from
	Kind string // such as "MIT"
	Text string
}

// Licences lists the licences of all that is compiled into the window's
// program, its own first. The list is written by `go run ./cmd/dev licences`.
func Licences() ([]Licence, error) {
	var out []Licence
	if err := json.Unmarshal(licences, &out); err != nil {
		return nil, fmt.Errorf("reading the licences: %w", err)
	}
	return out, nil
}
