package mendplan

import (
	"strconv"
	"syscall"
)

// mayAsk is the right to ask for the times of a process, and no other.
const mayAsk = 0x1000

// processBorn is the time at which a process was made, in the system's own
// count; "" when it is not known.
func processBorn(pid int) string {
	h, err := syscall.OpenProcess(mayAsk, false, uint32(pid))
	if err != nil {
		return ""
	}
	defer syscall.CloseHandle(h)
	var made, ended, kernel, user syscall.Filetime
	if syscall.GetProcessTimes(h, &made, &ended, &kernel, &user) != nil {
		return ""
	}
	return strconv.FormatInt(made.Nanoseconds(), 10)
}
