// Package phrase holds sentences that can be said in another language.
//
// The engine writes English: a problem, a reason, a line of the print. A
// [Phrase] keeps the English sentence and the values in it apart, so that the
// window and the print can say it in the user's [Tongue]. The English is the
// key: a catalogue maps it, verbs of [fmt] included, to the other language.
//
//	p := phrase.Of("Piece %s runs into %s.", label, phrase.Of("tear %d", 3))
//	p.String()     // English
//	p.In(german)   // German, where the catalogue has the words; else English
//
// An error whose words can be said is a [Fault].
//
// Numbers, and measures such as "9.5 mm", take the decimal sign of the tongue,
// which its entry for "0.5" shows.
//
// Values that are phrases are said in the same tongue, so a sentence can be
// put together of parts. A translation may take the values in another order
// with the indexes of fmt: "%[2]s".
package phrase

import (
	"fmt"
	"strings"
)

// Tongue maps English sentences to another language. Nil is English.
type Tongue map[string]string

// Say says English words with their values in the tongue, as fmt.Sprintf
// does; without values a percent sign stands for itself. Words the tongue
// lacks stay English.
func (t Tongue) Say(english string, values ...any) string {
	words := english
	if w := t[english]; w != "" {
		words = w
	}
	if len(values) == 0 {
		return words
	}
	said := make([]any, len(values))
	for i, v := range values {
		said[i] = t.value(v)
	}
	return fmt.Sprintf(words, said...)
}

func (t Tongue) value(v any) any {
	switch v := v.(type) {
	case Sayable:
		return v.In(t)
	case []Phrase:
		parts := make([]string, len(v))
		for i, p := range v {
			parts[i] = p.In(t)
		}
		return strings.Join(parts, ", ")
	case string:
		return t.Measure(v)
	case float64:
		if t.Comma() {
			return decimal(v)
		}
	}
	return v
}

// Phrase is a sentence and the values in it. The zero value says nothing.
type Phrase struct {
	English string
	Values  []any // any of them may be a Phrase or another Sayable, or a []Phrase said with commas
}

// Of makes a phrase of English words and the values for its verbs.
func Of(english string, values ...any) Phrase { return Phrase{english, values} }

// In says the phrase in a tongue.
func (p Phrase) In(t Tongue) string { return t.Say(p.English, p.Values...) }

// String says it in English.
func (p Phrase) String() string { return p.In(nil) }

// IsZero tells whether there is nothing to say.
func (p Phrase) IsZero() bool { return p.English == "" }
