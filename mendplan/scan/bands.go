package scan

import (
	"runtime"
	"sync"
)

// bands runs work over [0, n) in as many equal parts as there are processors
// and waits for all. Parts are even at their bounds where n allows, so that
// pairs of rows stay together.
func bands(n int, work func(from, to int)) {
	parts := min(runtime.GOMAXPROCS(0), max(1, n/16))
	if parts <= 1 {
		work(0, n)
		return
	}
	var wait sync.WaitGroup
	for i := range parts {
		from, to := n*i/parts&^1, n*(i+1)/parts&^1
		if i == parts-1 {
			to = n
		}
		wait.Add(1)
		go func() {
			defer wait.Done()
			work(from, to)
		}()
	}
	wait.Wait()
}
