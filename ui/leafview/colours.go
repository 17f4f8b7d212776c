package leafview

import "image/color"

// Colours of our own. Cores are light, for they lie in dark casings; they
// were chosen to differ in lightness too, and the pattern of each line tells
// the kind without them.
var (
	casingColour = color.RGBA{18, 20, 24, 255}
	white        = color.RGBA{255, 255, 255, 255}
	selection    = color.RGBA{255, 255, 255, 255}
	grabbed      = color.RGBA{255, 122, 60, 255}
	tissueFill   = color.RGBA{236, 250, 244, 255}
	tissueInk    = color.RGBA{0, 92, 84, 255}
	tissueStrong = color.RGBA{170, 245, 225, 255}
	edgeCore     = color.RGBA{214, 214, 208, 255}
	trueEdgeCore = color.RGBA{255, 236, 170, 255}
	foldCore     = color.RGBA{222, 200, 255, 255}
	offerCore    = color.RGBA{255, 255, 255, 255}
	toolCore     = color.RGBA{255, 244, 200, 255}
	snapColour   = color.RGBA{120, 255, 190, 255}
	lightAround  = color.RGBA{190, 190, 190, 255}
	darkAround   = color.RGBA{52, 52, 52, 255}
	blackAround  = color.RGBA{0, 0, 0, 255}
	focusColour  = color.RGBA{88, 150, 255, 255}
	noted        = color.RGBA{216, 216, 216, 255}
	kindColours  = map[Kind]color.RGBA{
		Tear:  {255, 186, 58, 255},
		Split: {255, 146, 214, 255},
		Loss:  {108, 202, 255, 255},
		Weak:  {186, 238, 120, 255},
		Nicks: {255, 234, 130, 255},
		Hole:  {164, 222, 255, 255},
		Rust:  {255, 158, 122, 255},
	}
)

// casingOpacity lets a little of the paper through the casing.
const casingOpacity = 0.85

// colour returns the core colour of a kind.
func (l Look) colour(k Kind) color.RGBA {
	if c, ok := l.Colours[k]; ok {
		return c
	}
	if c, ok := kindColours[k]; ok {
		return c
	}
	return noted
}

// focus returns the colour of the border that shows the keyboard's focus.
func (l Look) focus() color.RGBA {
	if l.Focus.A == 0 {
		return focusColour
	}
	return l.Focus
}

// around returns the neutral surround of the picture.
func (l Look) around() color.RGBA {
	switch {
	case l.HighContrast && l.Dark:
		return blackAround
	case l.HighContrast:
		return white
	case l.Dark:
		return darkAround
	}
	return lightAround
}

// patternOf returns the dashes of a kind's core; nil is solid.
func patternOf(k Kind) dash {
	switch k {
	case Tear, Loss, Hole, Nicks:
		return nil
	case Rust:
		return dash{6, 3}
	case Split:
		return dash{14, 5}
	case Weak:
		return dash{2.5, 4}
	}
	return dash{9, 3, 2, 3}
}

// otherDash is the pattern of everything that belongs to the other side.
var otherDash = dash{5, 5}
