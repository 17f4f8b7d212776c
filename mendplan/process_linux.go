package mendplan

import (
	"bytes"
	"fmt"
	"os"
	"strings"
)

// processBorn is the tick since the machine was started at which a process
// began, with the name of that start; "" when it is not known.
func processBorn(pid int) string {
	stat, err := readLittle(fmt.Sprintf("/proc/%d/stat", pid))
	if err != nil {
		return ""
	}
	// The second field is a name in brackets that may hold anything, so the
	// rest is counted from the last bracket: there the tick is the 20th.
	at := bytes.LastIndexByte(stat, ')')
	fields := bytes.Fields(stat[at+1:])
	if at < 0 || len(fields) < 20 {
		return ""
	}
	boot, err := os.ReadFile("/proc/sys/kernel/random/boot_id")
	if err != nil {
		return string(fields[19])
	}
	return strings.TrimSpace(string(boot)) + "/" + string(fields[19])
}
