package ui

import (
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
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

// over returns a colour as it is seen on a ground.
func over(c, ground color.Color) color.Color {
	r, g, b, a := c.RGBA()
	r2, g2, b2, _ := ground.RGBA()
	mix := func(x, y uint32) uint16 { return uint16(min(65535, x+y*(65535-a)/65535)) }
	return color.RGBA64{mix(r, r2), mix(g, g2), mix(b, b2), 65535}
}

func TestWordsAndKeysInMenusAndFieldsCanBeRead(t *testing.T) {
	w := testWindow(t)
	for _, high := range []bool{false, true} {
		for _, appearance := range []Appearance{Light, Dark} {
			l := look{appearance: appearance, highContrast: high}
			w.app.Settings().SetTheme(l)
			texts := 0
			for _, off := range []bool{false, true} {
				item := fyne.NewMenuItem("Save", func() {})
				item.Shortcut, item.Disabled = w.command("save").keys[0].shortcut(), off
				menu := widget.NewMenu(fyne.NewMenu("", item))
				menu.Resize(menu.MinSize())
				walk(menu, "", func(path string, o fyne.CanvasObject) {
					if words, ok := o.(*canvas.Text); ok {
						texts++
						ground := l.Color(theme.ColorNameMenuBackground, 0)
						if got := contrastOf(over(words.Color, ground), ground); got < 4.5 {
							t.Errorf("%s, high contrast %v, disabled %v: %q in a menu has a contrast of %.1f, want 4.5", appearance, high, off, words.Text, got)
						}
					}
				})
			}
			if texts < 6 { // words, modifier and key, twice
				t.Errorf("only %d texts were seen in menus", texts)
			}
			ground := l.Color(theme.ColorNameInputBackground, 0)
			for _, words := range []fyne.ThemeColorName{theme.ColorNameForeground, theme.ColorNamePlaceHolder} {
				if got := contrastOf(l.Color(words, 0), ground); got < 4.5 {
					t.Errorf("%s, high contrast %v: %s in a field has a contrast of %.1f, want 4.5", appearance, high, words, got)
				}
			}
		}
	}
}
