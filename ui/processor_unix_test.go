//go:build unix

package ui

import (
	"syscall"
	"time"
)

// processorTime is how long the process has been at work on any processor.
func processorTime() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
