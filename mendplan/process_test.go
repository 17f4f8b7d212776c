package mendplan_test

import (
	"os"
	"runtime"
	"testing"

	"leafmend/mendplan"
)

func TestAProcessIsKnownByItsNumberAndItsBegin(t *testing.T) {
	self := mendplan.ThisProcess()
	if self.PID != os.Getpid() || self.Born == "" && (runtime.GOOS == "linux" || runtime.GOOS == "darwin" || runtime.GOOS == "windows") {
		t.Errorf("this process is %+v", self)
	}
	for _, c := range []struct {
		name string
		p    mendplan.Process
		runs bool
	}{
		{"this process", self, true},
		{"this process, of which the begin was not noted", mendplan.Process{PID: self.PID}, true},
		{"its number, given to it after another had it", mendplan.Process{PID: self.PID, Born: "another start/1"}, self.Born == ""},
		{"a process that ended", mendplan.Process{PID: endedPID(t)}, false},
		{"none", mendplan.Process{}, false},
	} {
		if c.p.Runs() != c.runs {
			t.Errorf("%s: runs %v, want %v", c.name, c.p.Runs(), c.runs)
		}
	}
}
