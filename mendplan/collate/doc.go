// Package collate tells the order of a publication: which page is printed
// where, which leaf is joined to which, how the gatherings are written as a
// formula, and which page numbers must show when leaves are taken off and put
// back.
//
// # Words
//
// A bifolium folded once is two leaves, four pages. Bifolia nested in one
// another are a gathering. A leaf's recto is its front (odd page, on the
// right), its verso its back. The outer side of a bifolium carries its first
// and last page, the inner side the two in the middle. Leaves of a gathering
// are counted as folios, from 1; folio j is joined to folio L+1−j.
//
// Everything here follows from the gatherings of a job and is pure.
package collate
