package main

import (
	"flag"
	"fmt"
	"time"
)

// scale prints what jobs from 50 to 500 leaves cost in time and memory.
func scale([]string) error {
	return goDo(headless, "test", "-run", "^$", "-bench", "^BenchmarkScaleTable$", "-benchtime", "1x", "-timeout", "60m", "./ui")
}

// soak works in the window at random for a time and fails when what it holds
// grows.
func soak(args []string) error {
	flags := flag.NewFlagSet("soak", flag.ContinueOnError)
	long := flags.Duration("for", time.Hour, "how long, such as 10m")
	if err := flags.Parse(args); err != nil {
		return err
	}
	return goDo(headless, "test", "-run", "^TestSoak$", "-v", "-timeout", fmt.Sprint(*long*2), "./ui", "-soak", fmt.Sprint(*long))
}

// raced lists what the race detector watches: all that runs on more than one
// goroutine. Proofs that only search longer are left out, since the detector
// makes them ten times slower.
var raced = []struct{ tests, folder string }{
	{"Cancel|Determin|Same|Progress|Stop|Parallel|Goroutine", "./mendplan/nest"},
	{".", "./mendplan/scan"},
	{"Memo|Compute|Layout|Held|History|Lock|File|EachKind", "./mendplan"},
	{"Storm|Settle|Pointer|Keys|Dragged", "./ui/leafview"},
	{"Session|Work|Cuts|Meanwhile|Lock|Remed|Sav|Open|Soak", "./ui"},
}

// race runs those tests under the race detector, which needs a C compiler.
func race([]string) error {
	if err := setUp(forTest); err != nil {
		return err
	}
	for _, r := range raced {
		if err := goDo([]string{"CGO_ENABLED=1", "LANG=C.UTF-8"}, "test", "-race", "-tags", "ci", "-timeout", "30m", "-run", r.tests, r.folder); err != nil {
			return err
		}
	}
	return nil
}
