//go:build !unix

package leafview

import "testing"

// cpu only starts the clock where processor time cannot be asked for.
func cpu(b *testing.B) func() {
	b.ResetTimer()
	return func() {}
}
