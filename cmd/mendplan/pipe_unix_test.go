//go:build unix

package main

import (
	"syscall"
	"testing"
)

// makePipe makes a named pipe that nobody writes to.
func makePipe(t *testing.T, path string) {
	t.Helper()
	if err := syscall.Mkfifo(path, 0o600); err != nil {
		t.Fatal(err)
	}
}
