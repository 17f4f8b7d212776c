package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Appearance chooses between the light and the dark look.
type Appearance string

// The looks; the zero value follows the system.
const (
	AsSystem Appearance = ""
	Light    Appearance = "light"
	Dark     Appearance = "dark"
)

// TextSize is a size of text by name; the zero value is normal.
type TextSize string

// The sizes of text.
const (
	SmallText  TextSize = "small"
	NormalText TextSize = ""
	LargeText  TextSize = "large"
	HugeText   TextSize = "very large"
)

func (s TextSize) factor() float32 {
	switch s {
	case SmallText:
		return 0.9
	case LargeText:
		return 1.2
	case HugeText:
		return 1.45
	}
	return 1
}

// look is the program's own theme: paper and verdigris. Denser than the
// toolkit's, since the scan needs the room.
type look struct {
	appearance   Appearance
	text         TextSize
	highContrast bool
}

var _ fyne.Theme = look{}

// Names of colours beyond the toolkit's.
const (
	colourPanel    fyne.ThemeColorName = "leafmendPanel"    // ground of panels beside the surface
	colourBar      fyne.ThemeColorName = "leafmendBar"      // ground of the bars above and below
	colourQuiet    fyne.ThemeColorName = "leafmendQuiet"    // words that may be passed over
	colourChosen   fyne.ThemeColorName = "leafmendChosen"   // ground of what is chosen
	colourTissue   fyne.ThemeColorName = "leafmendTissue"   // tissue in drawings of sheets
	colourTissueOn fyne.ThemeColorName = "leafmendTissueOn" // lines and words on tissue
)

type shades map[fyne.ThemeColorName]color.NRGBA

func rgb(hex uint32) color.NRGBA {
	return color.NRGBA{uint8(hex >> 16), uint8(hex >> 8), uint8(hex), 255}
}

func rgba(hex uint32, a uint8) color.NRGBA {
	c := rgb(hex)
	c.A = a
	return c
}

var lightShades = shades{
	theme.ColorNameBackground:          rgb(0xf7f4ed),
	colourPanel:                        rgb(0xf1ede3),
	colourBar:                          rgb(0xe9e3d6),
	colourQuiet:                        rgb(0x6b6558),
	colourChosen:                       rgb(0xd3e4df),
	colourTissue:                       rgb(0xfbf3dc),
	colourTissueOn:                     rgb(0x4a4335),
	theme.ColorNameForeground:          rgb(0x26231d),
	theme.ColorNameForegroundOnPrimary: rgb(0xffffff),
	theme.ColorNamePrimary:             rgb(0x1c6a61),
	theme.ColorNameHyperlink:           rgb(0x1c6a61),
	theme.ColorNameButton:              rgb(0xe4ddcf),
	theme.ColorNameDisabledButton:      rgb(0xece7dc),
	theme.ColorNameDisabled:            rgb(0x736c5e),
	theme.ColorNameHover:               rgba(0x3a3020, 20),
	theme.ColorNamePressed:             rgba(0x3a3020, 44),
	theme.ColorNameFocus:               rgba(0x1c6a61, 70),
	theme.ColorNameSelection:           rgba(0x1c6a61, 64),
	theme.ColorNameInputBackground:     rgb(0xfffdf8),
	theme.ColorNameInputBorder:         rgb(0xbdb4a2),
	theme.ColorNamePlaceHolder:         rgb(0x716a5d),
	theme.ColorNameMenuBackground:      rgb(0xfcfaf5),
	theme.ColorNameOverlayBackground:   rgb(0xfcfaf5),
	theme.ColorNameHeaderBackground:    rgb(0xe9e3d6),
	theme.ColorNameSeparator:           rgb(0xd5cdbd),
	theme.ColorNameScrollBar:           rgba(0x3a3020, 110),
	theme.ColorNameScrollBarBackground: rgba(0x3a3020, 16),
	theme.ColorNameShadow:              rgba(0x000000, 84),
	theme.ColorNameSuccess:             rgb(0x2d7145),
	theme.ColorNameWarning:             rgb(0x9a5b00),
	theme.ColorNameError:               rgb(0xa1262f),
}

var darkShades = shades{
	theme.ColorNameBackground:          rgb(0x1f2022),
	colourPanel:                        rgb(0x26272a),
	colourBar:                          rgb(0x2d2f32),
	colourQuiet:                        rgb(0xa7a298),
	colourChosen:                       rgb(0x2d4a46),
	colourTissue:                       rgb(0x4a463a),
	colourTissueOn:                     rgb(0xf0e9d8),
	theme.ColorNameForeground:          rgb(0xe9e5dc),
	theme.ColorNameForegroundOnPrimary: rgb(0x10211e),
	theme.ColorNamePrimary:             rgb(0x63bfae),
	theme.ColorNameHyperlink:           rgb(0x63bfae),
	theme.ColorNameButton:              rgb(0x3a3c40),
	theme.ColorNameDisabledButton:      rgb(0x303236),
	theme.ColorNameDisabled:            rgb(0x9d998f),
	theme.ColorNameHover:               rgba(0xffffff, 22),
	theme.ColorNamePressed:             rgba(0xffffff, 44),
	theme.ColorNameFocus:               rgba(0x63bfae, 80),
	theme.ColorNameSelection:           rgba(0x63bfae, 72),
	theme.ColorNameInputBackground:     rgb(0x17181a),
	theme.ColorNameInputBorder:         rgb(0x55575c),
	theme.ColorNamePlaceHolder:         rgb(0x8f8b82),
	theme.ColorNameMenuBackground:      rgb(0x2d2f32),
	theme.ColorNameOverlayBackground:   rgb(0x2a2c2f),
	theme.ColorNameHeaderBackground:    rgb(0x2d2f32),
	theme.ColorNameSeparator:           rgb(0x43454a),
	theme.ColorNameScrollBar:           rgba(0xffffff, 110),
	theme.ColorNameScrollBarBackground: rgba(0xffffff, 14),
	theme.ColorNameShadow:              rgba(0x000000, 120),
	theme.ColorNameSuccess:             rgb(0x7cc890),
	theme.ColorNameWarning:             rgb(0xe5b05a),
	theme.ColorNameError:               rgb(0xf08a8a),
}

// contrast holds what differs in high contrast, light and dark.
var contrast = map[bool]shades{
	false: {theme.ColorNameForeground: rgb(0x000000), colourQuiet: rgb(0x2b2b2b), theme.ColorNameBackground: rgb(0xffffff),
		colourPanel: rgb(0xffffff), theme.ColorNameInputBorder: rgb(0x000000), theme.ColorNameSeparator: rgb(0x000000),
		theme.ColorNamePrimary: rgb(0x004d44), theme.ColorNamePlaceHolder: rgb(0x444444),
		theme.ColorNameInputBackground: rgb(0xe6e6e6), // choices have no frame: their ground tells them
		theme.ColorNameDisabled:        rgb(0x3d3d3d), theme.ColorNameWarning: rgb(0x5f3800), theme.ColorNameError: rgb(0x7d1017)},
	true: {theme.ColorNameForeground: rgb(0xffffff), colourQuiet: rgb(0xdddddd), theme.ColorNameBackground: rgb(0x000000),
		colourPanel: rgb(0x000000), theme.ColorNameInputBorder: rgb(0xffffff), theme.ColorNameSeparator: rgb(0xffffff),
		theme.ColorNamePrimary: rgb(0x8ff0df), theme.ColorNamePlaceHolder: rgb(0xcccccc),
		theme.ColorNameInputBackground: rgb(0x333333),
		theme.ColorNameDisabled:        rgb(0xc8c8c8), theme.ColorNameWarning: rgb(0xffd089), theme.ColorNameError: rgb(0xffb3b3)},
}

// dark reports whether the look is dark, given what the system wants.
func (l look) dark(variant fyne.ThemeVariant) bool {
	switch l.appearance {
	case Light:
		return false
	case Dark:
		return true
	}
	return variant == theme.VariantDark
}

// Color implements [fyne.Theme].
func (l look) Color(name fyne.ThemeColorName, variant fyne.ThemeVariant) color.Color {
	dark := l.dark(variant)
	table := lightShades
	if dark {
		table = darkShades
	}
	c, ok := table[name]
	if high, differs := contrast[dark][name]; differs && l.highContrast {
		c, ok = high, true
	}
	switch {
	case ok && name == theme.ColorNameForeground:
		return inkOf(c)
	case ok:
		return c
	}
	if dark {
		variant = theme.VariantDark
	} else {
		variant = theme.VariantLight
	}
	return theme.DefaultTheme().Color(name, variant)
}

// Font implements [fyne.Theme].
func (look) Font(style fyne.TextStyle) fyne.Resource { return theme.DefaultTheme().Font(style) }

// Icon implements [fyne.Theme].
func (look) Icon(name fyne.ThemeIconName) fyne.Resource { return theme.DefaultTheme().Icon(name) }

// Size implements [fyne.Theme].
func (l look) Size(name fyne.ThemeSizeName) float32 {
	k := l.text.factor()
	switch name {
	case theme.SizeNameText:
		return 13 * k
	case theme.SizeNameCaptionText:
		return 11 * k
	case theme.SizeNameSubHeadingText:
		return 15 * k
	case theme.SizeNameHeadingText:
		return 20 * k
	case theme.SizeNameInlineIcon:
		return 17 * k
	case theme.SizeNameInnerPadding:
		return 6
	case theme.SizeNamePadding:
		return 3
	case theme.SizeNameScrollBar:
		return 11
	case theme.SizeNameScrollBarSmall:
		return 5
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius:
		return 4
	}
	return theme.DefaultTheme().Size(name)
}

// shade returns a colour of the theme in use.
func shade(name fyne.ThemeColorName) color.Color {
	settings := fyne.CurrentApp().Settings()
	return settings.Theme().Color(name, settings.ThemeVariant())
}
