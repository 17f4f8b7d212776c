// Package scan reads pictures of leaves: what a file says of itself, its
// pixels, and what can be seen in them.
//
// # Two steps
//
// [Inspect] reads the headers alone: format, size, orientation and every
// statement of the file about its resolution, each with what it is worth.
// [Open] decodes the pixels into a [Picture] that can be painted at any scale
// and read at any of its levels. [FirstLook] shows something meanwhile, a
// [Cache] makes the second opening quick, and a [Shelf] keeps the pictures in
// use within a bound of memory.
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
// millimetres. Doubt is in per cent of a length.
//
// # Formats
//
// Read are JPEG (baseline, extended, progressive; grey, YCbCr, RGB, CMYK,
// YCCK), PNG (all), TIFF and BigTIFF (1 to 16 bits; grey, palette, RGB, CMYK,
// YCbCr, CIELAB, with alpha; strips, tiles, planes; uncompressed, PackBits,
// LZW, Deflate, JPEG, fax of all kinds; any page), BMP (uncompressed) and
// WebP. What is not read is known by its first bytes and named in the error,
// with what to do. A file's name is never looked at. Transparent pixels are
// laid on white.
//
// # Colour
//
// Colours are those of sRGB. ICC profiles of matrix and curves, and grey ones,
// are converted; profiles that work by tables, and those of inks, are not, and
// [Info] says so. The gamma and primaries a PNG may give without a profile are
// not applied. More than 8 bits of a sample are rounded to 8.
//
// # What is seen
//
// [FindOutline] proposes where the leaf lies, [ProposeLosses] what is missing
// of it and which tears stand open, [Picture.FollowFrom] a path along a tear,
// [RegisterSides] how the back lies over the front, and [Picture.TextMask]
// where print is. All of these are for a person to accept. A proposal's
// confidence is the share of such proposals that were right on drawn leaves
// whose truth is known; what is more often wrong than right is kept back. The
// mask and the losses tell print from stain and shadow by strokes, edges and
// hue, which no program does without fault: ink as black as a black backing,
// and paper of the backing's own colour, are beyond it.
//
// # Promises
//
// Headers are held against the file's length and a limit of pixels before
// memory is asked for. No file, however damaged, makes this package panic or
// run without end. What is handed out is never changed afterwards; pictures,
// caches and shelves may be used from several goroutines.
package scan
