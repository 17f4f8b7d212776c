package mendplan

import (
	"errors"
	"fmt"
	"hash/fnv"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"syscall"
	"time"
)

// A file being written is named “.NAME.HOST-PID-CHANCE.part”: HOST is a short
// hash of the machine's name and PID the writing process, so that whoever
// comes later can tell whether the writer still lives. A killed writer cannot
// clean up behind itself; the next one that succeeds does it.

// partAge is how far behind the file just written a temporary file of an
// unknown writer must lie before it counts as left behind. Both times are the
// file system's own, so a clock set wrong on this machine does not matter.
const partAge = time.Minute

var partTail = regexp.MustCompile(`^(?:([0-9a-f]{8})-([0-9]+)-)?[0-9]+\.part$`)

// partPrefix begins the names of all temporary files of the file at path.
// Very long names are shortened, since a name may hold 255 bytes only.
func partPrefix(path string) string {
	base := filepath.Base(path)
	if len(base) > 180 {
		base = strings.ToValidUTF8(base[:160], "") + "~" + shortHash(base)
	}
	return "." + base + "."
}

// partPattern is the pattern for a new temporary file of this process.
func partPattern(path string) string {
	return fmt.Sprintf("%s%s-%d-*.part", partPrefix(path), shortHash(hostName()), os.Getpid())
}

func shortHash(s string) string {
	h := fnv.New32a()
	h.Write([]byte(s))
	return fmt.Sprintf("%08x", h.Sum32())
}

// hostName is this machine's name, "" where it has none.
func hostName() string {
	name, err := os.Hostname()
	if err != nil {
		return ""
	}
	return name
}

// RemoveLeftovers removes from a folder the temporary files of every file
// whose writer was a process of this machine that has ended, and returns how
// many. It is for the start, when nothing is being written; a folder that
// cannot be read has none.
func RemoveLeftovers(dir string) (removed int) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return 0
	}
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), ".") && e.Type().IsRegular() && ofDeadWriter(e.Name()) && os.Remove(filepath.Join(dir, e.Name())) == nil {
			removed++
		}
	}
	return removed
}

// anyPart takes host and process out of the name of a temporary file of ours.
var anyPart = regexp.MustCompile(`^\..*\.leafmend(?:\.json)?\.([0-9a-f]{8})-([0-9]+)-[0-9]+\.part$`)

// ofDeadWriter reports whether a name is that of a temporary file of a job, or
// of its lock or note, whose writer on this machine has ended.
func ofDeadWriter(name string) bool {
	m := anyPart.FindStringSubmatch(name)
	return m != nil && deadWriter(m[1], m[2])
}

// cleanParts removes the temporary files that dead writers of the file at
// path left beside it, and of dead writers of this machine those of other jobs
// too: a program killed at the first save under a name leaves no file of that
// name to be written again. What cannot be removed stays: the file itself is
// written, and the next write tries again.
func cleanParts(path string) {
	written, err := os.Stat(path)
	if err != nil {
		return
	}
	dir, prefix := filepath.Dir(path), partPrefix(path)
	entries, err := os.ReadDir(dir)
	if err != nil {
		return
	}
	for _, e := range entries {
		if ofDeadWriter(e.Name()) && e.Type().IsRegular() {
			os.Remove(filepath.Join(dir, e.Name()))
			continue
		}
		tail, ours := strings.CutPrefix(e.Name(), prefix)
		m := partTail.FindStringSubmatch(tail)
		if !ours || m == nil || !e.Type().IsRegular() {
			continue
		}
		info, err := e.Info()
		if err != nil {
			continue // gone meanwhile
		}
		if written.ModTime().Sub(info.ModTime()) > partAge || deadWriter(m[1], m[2]) {
			os.Remove(filepath.Join(dir, e.Name()))
		}
	}
}

// deadWriter reports whether a process of this machine wrote the temporary
// file and has ended. Of other machines' processes nothing is known.
func deadWriter(host, pid string) bool {
	n, err := strconv.Atoi(pid)
	return err == nil && host == shortHash(hostName()) && !processRuns(n)
}

// processRuns reports whether a process of this machine runs; in doubt it
// does.
func processRuns(pid int) bool {
	if pid <= 0 {
		return false
	}
	p, err := os.FindProcess(pid)
	if err != nil {
		return errors.Is(err, fs.ErrPermission)
	}
	defer p.Release()
	if runtime.GOOS == "windows" {
		return true // there, a process that has ended is not found
	}
	err = p.Signal(syscall.Signal(0))
	return !errors.Is(err, os.ErrProcessDone) && !errors.Is(err, syscall.ESRCH)
}
