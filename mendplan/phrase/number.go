package phrase

import (
	"fmt"
	"regexp"
	"strings"
)

// decimalKey is the entry of a catalogue that shows how its language writes
// a decimal number: "0,5" in German.
const decimalKey = "0.5"

// Comma tells whether the tongue writes decimal numbers with a comma.
func (t Tongue) Comma() bool { return strings.Contains(t[decimalKey], ",") }

// Figures writes numbers as fmt.Sprintf does, with the decimal sign of the
// tongue; the words of the format are not translated.
func (t Tongue) Figures(format string, values ...any) string {
	said := make([]any, len(values))
	for i, v := range values {
		said[i] = t.value(v)
	}
	return fmt.Sprintf(format, said...)
}

// measure is a text that is a number, or several, with a unit behind: it was
// written by the program and not by a person.
var measure = regexp.MustCompile(`^[−-]?\d+(\.\d+)?( × [−-]?\d+(\.\d+)?)? (mm|cm²|in²|g|g/m²|mL|%|min|h)$`)

// Measure writes what [fmt] and the units of the engine wrote as a number
// with its unit, such as "9.5 mm", in the tongue. Any other text stays.
func (t Tongue) Measure(text string) string {
	if t.Comma() && measure.MatchString(text) {
		return strings.ReplaceAll(text, ".", ",")
	}
	return text
}

// Decimal writes the text of a number in the tongue.
func (t Tongue) Decimal(number string) string {
	if t.Comma() {
		return strings.Replace(number, ".", ",", 1)
	}
	return number
}

// decimal is a number that is written with a comma.
type decimal float64

// Format implements [fmt.Formatter].
func (d decimal) Format(f fmt.State, verb rune) {
	fmt.Fprint(f, strings.Replace(fmt.Sprintf(fmt.FormatString(f, verb), float64(d)), ".", ",", 1))
}
