//go:build !linux && !darwin && !windows

package mendplan

// processBorn is not known on this system.
func processBorn(int) string { return "" }
