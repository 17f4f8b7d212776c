// Package draw draws the sample's leaves as if they lay on a scanner: paper
// with its fibres, tone and foxing, print of two inks, tears with bared
// fibre and standing hairs, losses, a split fold, pricks with rust, old
// stains, and the backing with the leaf's soft shadow.
//
// [Leaf] is a pure function of a [Spec]: it uses no clock and no shared
// source of chance, so the same spec gives the same pixels every time. All
// shapes are settled in millimetres first and drawn afterwards, so a spec at
// another resolution is the same leaf. [Know] tells the truth about a leaf
// without drawing it; [Programme] is the invented job itself.
//
// Both sides share one set of shapes. The back shows them mirrored, and of a
// slanting tear it shows the other flank.
//
// The package serves the sample's generator and tests only; the program must
// not import it. It draws with golang.org/x/image and its Go typefaces.
package draw
