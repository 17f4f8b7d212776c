package ui

import "image/color"

// ink is an opaque colour for words, given so that the toolkit's menus write
// keys in it as well. Version 2.7 means to write a key with 95 hundredths of
// the alpha of the words, but of that 16-bit number keeps only the lower eight
// bits: from 65535 there remain 50 of 255, and the key can hardly be read.
// From an alpha of 65481, which is opaque to an eighth of a thousandth, there
// remain 254.
type ink struct{ R, G, B uint8 }

const inkAlpha = 65481

// RGBA implements [color.Color].
func (i ink) RGBA() (r, g, b, a uint32) {
	of := func(v uint8) uint32 { return min(uint32(v)*257, 0xfeff) } // no more than alpha, and low bits alike
	return of(i.R), of(i.G), of(i.B), inkAlpha
}

// inkOf returns an opaque colour as ink.
func inkOf(c color.NRGBA) color.Color { return ink{c.R, c.G, c.B} }
