//go:build !unix

package scan_test

import "time"

var started = time.Now()

// processorTime stands in with the time passed, which is no less on a frame
// painted by one goroutine.
func processorTime() time.Duration { return time.Since(started) }
