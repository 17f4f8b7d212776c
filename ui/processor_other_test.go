//go:build !unix

package ui

import "time"

var begun = time.Now()

// processorTime is the time by the clock where the system does not tell how
// long the process has been at work.
func processorTime() time.Duration { return time.Since(begun) }
