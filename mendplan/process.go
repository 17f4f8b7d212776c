package mendplan

import "os"

// Process names a process of this machine so that another one that is given
// the same number later is not taken for it. The zero value is no process.
type Process struct {
	PID int `json:"process,omitempty"`
	// Born is when the process began, as the system counts it: it does not
	// change when the clock is set, and is only compared, never reckoned
	// with. "" where the system does not tell.
	Born string `json:"born,omitempty"`
}

// ThisProcess names the process that asks.
func ThisProcess() Process { return thisProcess }

var thisProcess = Process{PID: os.Getpid(), Born: processBorn(os.Getpid())}

// Runs reports whether the process runs. A number that belongs to another
// process now does not count; in doubt the process runs. It asks the system
// and touches no file of the user's.
func (p Process) Runs() bool {
	if !processRuns(p.PID) {
		return false
	}
	if p.Born == "" {
		return true
	}
	born := processBorn(p.PID)
	return born == "" || born == p.Born
}
