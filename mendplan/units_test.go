package mendplan_test

import (
	"math"
	"testing"

	"leafmend/mendplan"
)

// Unit conversions of margins printed in the manuals; the inch is 25.4 mm by
// definition (international yard and pound agreement, 1959).
func TestParseLengthReadsWhatPeopleType(t *testing.T) {
	for _, c := range []struct {
		name, text string
		units      mendplan.Units
		mm         float64
	}{
		{"an eighth", "1/8 in", mendplan.Millimetres, 3.175},
		{"three sixteenths", "3/16 in", mendplan.Millimetres, 4.7625},
		{"a quarter as one character", "¼ in", mendplan.Millimetres, 6.35},
		{"three eighths with a mark", "3/8\"", mendplan.Millimetres, 9.525},
		{"half", "0.5 in", mendplan.Millimetres, 12.7},
		{"five eighths", "5/8 inch", mendplan.Millimetres, 15.875},
		{"three quarters, bare, in inches", "3/4", mendplan.Inches, 19.05},
		{"three inches, bare", "3", mendplan.Inches, 76.2},
		{"mixed", "1 3/8 in", mendplan.Millimetres, 34.925},
		{"mixed without a space", "1⅜ in", mendplan.Millimetres, 34.925},
		{"a decimal comma", "9,5 mm", mendplan.Inches, 9.5},
		{"centimetres", "1.2 cm", mendplan.Millimetres, 12},
		{"below nothing", "−2", mendplan.Millimetres, -2},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := mendplan.ParseLength(c.text, c.units)
			if err != nil || math.Abs(got-c.mm) > 1e-9 {
				t.Errorf("ParseLength(%q) = %v, %v; want %v", c.text, got, err, c.mm)
			}
		})
	}
}

func TestParseLengthRefusesWhatIsNoLength(t *testing.T) {
	for _, text := range []string{"", "mm", "1/0 in", "1 2 3", "ten", "1e9", "NaN", "inf", "0x10", "1/2/3", "--3", "1.5 1/2"} {
		if v, err := mendplan.ParseLength(text, mendplan.Millimetres); err == nil {
			t.Errorf("ParseLength(%q) = %v, want an error", text, v)
		}
	}
}

func TestLengthShowsInBothUnits(t *testing.T) {
	for _, c := range []struct {
		mm           float64
		metric, inch string
	}{
		{12.7, "12.7 mm", "1/2 in"},
		{34.925, "34.9 mm", "1 3/8 in"},
		{76.2, "76.2 mm", "3 in"},
		{10, "10 mm", "13/32 in"},
		{0, "0 mm", "0 in"},
		{-2, "–2 mm", "–3/32 in"},
	} {
		if got := mendplan.Millimetres.Length(c.mm); got != c.metric {
			t.Errorf("%v mm: got %q, want %q", c.mm, got, c.metric)
		}
		if got := mendplan.Inches.Length(c.mm); got != c.inch {
			t.Errorf("%v mm in inches: got %q, want %q", c.mm, got, c.inch)
		}
	}
}

func FuzzParseLength(f *testing.F) {
	for _, s := range []string{"1 3/8 in", "9,5 mm", "⅜", "-", "1/0", "99999999999999999999"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		v, err := mendplan.ParseLength(s, mendplan.Inches)
		if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
			t.Errorf("ParseLength(%q) = %v", s, v)
		}
	})
}
