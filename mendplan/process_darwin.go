package mendplan

import (
	"os/exec"
	"strconv"
	"strings"
)

// processBorn is the second at which the system noted the begin of a process;
// "" when it is not known. The system keeps no number that the standard
// library could ask for, but its own list of processes says it.
func processBorn(pid int) string {
	list := exec.Command("/bin/ps", "-o", "lstart=", "-p", strconv.Itoa(pid))
	list.Env = []string{"LC_ALL=C", "TZ=UTC"} // the same words whoever asks
	out, err := list.Output()
	if err != nil {
		return ""
	}
	return strings.Join(strings.Fields(string(out)), " ")
}
