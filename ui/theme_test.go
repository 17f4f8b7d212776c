package ui

import (
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// contrastOf is the ratio of contrast of the Web Content Accessibility
// Guidelines 2.1, W3C 2018: 1 for none, 21 for black on white.
func contrastOf(a, b color.Color) float64 {
	light := func(c color.Color) float64 {
		sum := 0.0
		r, g, bl, _ := c.RGBA()
		for i, v := range []uint32{r, g, bl} {
			x := float64(v) / 65535
			if x <= 0.03928 {
				x /= 12.92
			} else {
				x = math.Pow((x+0.055)/1.055, 2.4)
			}
			sum += x * []float64{0.2126, 0.7152, 0.0722}[i]
		}
		return sum
	}
	p, q := light(a), light(b)
	return (math.Max(p, q) + 0.05) / (math.Min(p, q) + 0.05)
}

func TestWordsStandOutFromTheirGround(t *testing.T) {
	for _, high := range []bool{false, true} {
		for _, appearance := range []Appearance{Light, Dark} {
			l := look{appearance: appearance, highContrast: high}
			for _, words := range []fyne.ThemeColorName{theme.ColorNameForeground, colourQuiet, theme.ColorNameDisabled,
				theme.ColorNameWarning, theme.ColorNameError, theme.ColorNamePrimary} {
				for _, ground := range []fyne.ThemeColorName{theme.ColorNameBackground, colourPanel} {
					least := 4.0
					if high {
						least = 7
					}
					if got := contrastOf(l.Color(words, 0), l.Color(ground, 0)); got < least {
						t.Errorf("%s, high contrast %v: %s on %s has %.1f, want %g", appearance, high, words, ground, got, least)
					}
				}
			}
		}
	}
}
