package mendplan

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"leafmend/mendplan/phrase"
)

const mmPerInch = 25.4 // exact, by definition

// Length shows a length given in millimetres: "12.5 mm", or to the nearest
// 1/32 inch "1 3/8 in".
func (u Units) Length(mm float64) string {
	if u == Inches {
		return inchFraction(mm) + " in"
	}
	return u.decimal(mm, 1) + " mm"
}

// decimal writes a number with the decimal sign of the units.
func (u Units) decimal(v float64, digits int) string {
	s := trimZeros(v, digits)
	if u == MillimetresComma {
		return strings.Replace(s, ".", ",", 1)
	}
	return s
}

// Size shows a length and a width together: "76.2 × 12.7 mm".
func (u Units) Size(lengthMM, widthMM float64) string {
	if u == Inches {
		return inchFraction(lengthMM) + " × " + inchFraction(widthMM) + " in"
	}
	return u.decimal(lengthMM, 1) + " × " + u.decimal(widthMM, 1) + " mm"
}

// Area shows an area given in square millimetres, in cm² or square inches.
func (u Units) Area(mm2 float64) string {
	if u == Inches {
		return trimZeros(mm2/(mmPerInch*mmPerInch), 2) + " in²"
	}
	return u.decimal(mm2/100, 1) + " cm²"
}

// inchFraction writes inches with a fraction in lowest terms, to 1/32.
func inchFraction(mm float64) string {
	parts := int64(math.Round(math.Abs(mm) / mmPerInch * 32))
	sign := ""
	if mm < 0 && parts != 0 {
		sign = minusSign
	}
	whole, num, den := parts/32, parts%32, int64(32)
	for num != 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	switch {
	case num == 0:
		return sign + strconv.FormatInt(whole, 10)
	case whole == 0:
		return fmt.Sprintf("%s%d/%d", sign, num, den)
	}
	return fmt.Sprintf("%s%d %d/%d", sign, whole, num, den)
}

// minusSign is as wide as a minus and, unlike it, in every font of the window.
const minusSign = "–"

func trimZeros(v float64, digits int) string {
	s := strconv.FormatFloat(v, 'f', digits, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return strings.Replace(s, "-", minusSign, 1)
}

// ParseLength reads what a person types for a length and returns
// millimetres: "9.5", "9,5 mm", "1.2 cm", "3/8 in", "1 3/8\"", "⅜ in". A bare
// number is in the given units.
func ParseLength(text string, u Units) (float64, error) {
	s := strings.ToLower(strings.TrimSpace(text))
	factor := 1.0
	if u == Inches {
		factor = mmPerInch
	}
	for _, unit := range []struct {
		suffix string
		factor float64
	}{{"mm", 1}, {"cm", 10}, {"inches", mmPerInch}, {"inch", mmPerInch}, {"in", mmPerInch}, {"\"", mmPerInch}, {"″", mmPerInch}} {
		if rest, ok := strings.CutSuffix(s, unit.suffix); ok {
			s, factor = strings.TrimSpace(rest), unit.factor
			break
		}
	}
	v, err := parseMixed(s)
	if err != nil || math.IsInf(v*factor, 0) {
		return 0, phrase.Errorf("“%s” is not a length: type something like 9.5 mm or 3/8 in", text)
	}
	return v * factor, nil
}

var vulgar = strings.NewReplacer("½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
	"−", "-", "–", "-", ",", ".", "⁄", "/")

// parseMixed reads a decimal number, a fraction, or a number and a fraction.
func parseMixed(s string) (float64, error) {
	words := strings.Fields(vulgar.Replace(s))
	sign := 1.0
	if len(words) > 0 && strings.HasPrefix(words[0], "-") {
		sign, words[0] = -1, words[0][1:]
	}
	switch len(words) {
	case 1:
		v, err := parseFraction(words[0])
		return sign * v, err
	case 2:
		whole, err := strconv.ParseUint(words[0], 10, 31)
		if err != nil || !strings.Contains(words[1], "/") {
			return 0, strconv.ErrSyntax
		}
		part, err := parseFraction(words[1])
		return sign * (float64(whole) + part), err
	}
	return 0, strconv.ErrSyntax
}

func parseFraction(s string) (float64, error) {
	if top, bottom, ok := strings.Cut(s, "/"); ok {
		a, err1 := strconv.ParseUint(top, 10, 31)
		b, err2 := strconv.ParseUint(bottom, 10, 31)
		if err1 != nil || err2 != nil || b == 0 {
			return 0, strconv.ErrSyntax
		}
		return float64(a) / float64(b), nil
	}
	if s == "" || strings.ContainsAny(s, "eExXnNiIpP_+-") {
		return 0, strconv.ErrSyntax
	}
	return strconv.ParseFloat(s, 64)
}
