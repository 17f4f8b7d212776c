// Package export writes a plan in open forms that other programs read: JSON
// and CSV of pieces and sheets, CSV of the record of the work, SVG of a leaf in
// millimetres, and W3C Web Annotations of the damages on a scan.
//
// Names of fields end in their unit: _mm, _mm2, _g, _px. Lengths of pieces
// lie in the leaf frame (origin at the head-left corner of the front, x
// right, y down), lengths on sheets in the sheet's own frame: x along its
// width, y along its length. Output is the same, byte for byte, for the same
// plan.
package export
