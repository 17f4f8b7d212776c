// Package course follows the work: what has been done to which leaf, what
// must be asked before the next step, which paste is fit for use, when leaves
// come out of the press, and how long it all takes.
//
// # Advice, not orders
//
// Nothing here stops anyone. Before a step is recorded, [Questions] tells
// what speaks against it; the conservator answers and decides. Treatments are
// recorded and reminded of, never taught; the cautions defer to local codes
// and licensed practice.
//
// # Time
//
// Nothing reads a clock: whoever asks gives the day. Days are written
// YYYY-MM-DD, hours HH:MM, without a time zone: the bench's own.
package course
