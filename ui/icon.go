package ui

import (
	"fmt"
	"image/color"
	"strings"

	"fyne.io/fyne/v2"

	"leafmend/assets"
)

// iconResource is one of our drawings in a colour of the theme. Its name
// tells the colour, since the toolkit keeps pictures by name.
type iconResource struct {
	name   string
	colour fyne.ThemeColorName
}

// iconIn returns the drawing in a colour of the theme.
func iconIn(name string, colour fyne.ThemeColorName) fyne.Resource { return iconResource{name, colour} }

// Name implements [fyne.Resource].
func (i iconResource) Name() string {
	return "leafmend-" + i.name + "-" + hexOf(shade(i.colour)) + ".svg"
}

// Content implements [fyne.Resource].
func (i iconResource) Content() []byte {
	drawing := string(assets.Icon(i.name))
	return []byte(strings.ReplaceAll(drawing, "#000000", "#"+hexOf(shade(i.colour))))
}

// hexOf writes a colour as six digits.
func hexOf(c color.Color) string {
	r, g, b, _ := c.RGBA()
	return fmt.Sprintf("%02x%02x%02x", r>>8, g>>8, b>>8)
}
