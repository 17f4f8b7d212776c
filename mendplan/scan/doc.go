// Package scan reads pictures of leaves: what a file says of itself, its
// pixels, and what can be seen in them.
//
// # Two steps
//
// [Inspect] reads the headers alone: format, size, orientation and every
// statement of the file about its resolution, each with what it is worth.
// [Open] decodes the pixels into a [Picture] that can be painted at any scale
// and read at any of its levels.
//
// # Words
//
// A level is the picture at full size (0), half (1), quarter (2) and so on; a
// view is the part of a picture shown in a window; a claim of resolution is
// trusted when it may serve as a scale without asking. A refusal is an error
// with a remedy.
//
// # Frames and units
//
// Pixels are those of the picture as shown: the file's orientation is applied
// to pixels, sizes and resolutions alike, x right and y down, and pixel 0,0
// covers 0 to 1 in both. Resolution is in pixels per inch, sizes in
// millimetres elsewhere. Doubt is in per cent of a length.
//
// # Formats
//
// JPEG, PNG, TIFF and BigTIFF, BMP and WebP are read. What is not, is known
// by its first bytes and named in the error, with what to do. A file's name
// is never looked at.
//
// # Promises
//
// Headers are held against the file's length and a limit of pixels before
// memory is asked for. No file, however damaged, makes this package panic or
// run without end. Colours are those of sRGB.
package scan
