// Package leafview is the tracing surface: one side of one leaf seen through
// a window that zooms and pans, with everything traced on it, and the tools
// that trace.
//
// # What it knows and does not know
//
// It knows pixels and shapes. It knows no job, window, dialog or file: a
// [Scene] is handed in with [Surface.SetScene], what a person did comes out
// as an [Edit] through [Surface.OnEdit], and the surface changes nothing by
// itself. The owner of the job applies the edit and hands in the next scene.
// One gesture is one edit, so one step of undo.
//
// # Frames and units
//
//   - scan pixels: the picture's own, x right, y down. Every point that
//     crosses the package's border is in scan pixels of the side shown.
//   - device pixels: those of the screen. A [View] maps scan to device.
//   - units: the toolkit's own lengths. Handles, lines and hit areas are so
//     many units wide on any screen; only the surface converts.
//   - millimetres: only through [Frame], and only when the side is calibrated.
//
// # A frame in three layers
//
// The picture is painted at the view once, the scene drawn over it once, and
// only what a hand is moving is drawn anew for each frame. Where the scene or
// the selection changed, only those places are drawn anew (see drawn); a view
// that moved by whole pixels is slid, and a crowded one that zooms is shown
// stretched until it stands still (see motion.go). Lines are drawn into a mask
// of coverage first (see mask.go), so that a frame's cost follows the ink on
// it, not the number of shapes.
//
// # Look
//
// Every line has a dark casing and a light core, so it reads on any paper.
// The kind of damage is told by the pattern of the line, not by colour alone:
// see [Kind]. Pieces of tissue are hatched along their grain. What belongs to
// the other side is dashed.
//
// # Threads
//
// All methods are called on the toolkit's own goroutine; the surface starts
// none of its own, except a timer that comes back through fyne.Do.
package leafview
