//go:build unix

package leafview

import (
	"syscall"
	"testing"
	"time"
)

// cpu reports the processor time of an operation beside its time by the clock,
// which others on the machine make longer. Call it before the loop and what it
// returns after.
func cpu(b *testing.B) func() {
	used := func() time.Duration {
		var u syscall.Rusage
		if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
			return 0
		}
		return time.Duration(u.Utime.Nano() + u.Stime.Nano())
	}
	b.ResetTimer()
	start := used()
	return func() { b.ReportMetric(float64((used()-start).Microseconds())/1000/float64(b.N), "cpu-ms/op") }
}
