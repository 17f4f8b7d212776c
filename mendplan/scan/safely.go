package scan

import (
	"fmt"

	"leafmend/mendplan/phrase"
)

// safely runs work and turns a panic of a foreign decoder into an error: a
// damaged file must not take the program, and the day's work, with it.
func safely(work func() error) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = &Refusal{What: phrase.Of("the file is damaged"), Remedy: copyAgain, Err: fmt.Errorf("decoder stopped: %v", p)}
		}
	}()
	return work()
}
