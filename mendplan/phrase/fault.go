package phrase

import "errors"

// Fault is an error that can be said in another language. Values of its
// phrase that are errors are its causes: they are said in the same tongue
// where they can be, and [errors.Is] and [errors.As] find them.
type Fault struct{ Phrase }

// Errorf makes a fault of an English sentence and its values, as [Of] makes a
// phrase. A cause is a value like any other and stands at "%s".
func Errorf(english string, values ...any) error { return &Fault{Of(english, values...)} }

// Error says the fault in English.
func (f *Fault) Error() string { return f.String() }

// Unwrap returns the causes.
func (f *Fault) Unwrap() []error {
	var causes []error
	for _, v := range f.Values {
		if err, ok := v.(error); ok {
			causes = append(causes, err)
		}
	}
	return causes
}

// Sayable is what can be said in a tongue: phrases, and errors made of them.
type Sayable interface{ In(Tongue) string }

// SayableIn finds the first error in the chain of err that can be said in a
// tongue; nil when there is none.
func SayableIn(err error) Sayable {
	var s interface {
		error
		Sayable
	}
	if errors.As(err, &s) {
		return s
	}
	return nil
}
