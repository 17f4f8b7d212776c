package journal

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strconv"
	"strings"
	"time"
)

// While the program runs, a file "PID.running" in the folder of reports says
// so, and the runtime writes into it what it has to say when it must end: an
// uncaught panic, a fault of memory, a stack without end. At the next start
// a file whose process is gone tells that the run did not end well, and
// becomes a report.
const (
	runningSuffix = ".running"
	reportPrefix  = "report-"
	reportSuffix  = ".txt"
	// MostReports is how many reports are kept, the newest.
	MostReports = 5
	mostCrash   = 256 << 10 // bytes of what the runtime wrote that are read
	crashBegins = "---\n"   // ends the head of a running file
)

// Watched is a run that is watched. The zero value watches nothing.
type Watched struct {
	dir     string
	journal *Journal
	head    string
	mark    string // the running file; "" when it could not be made
	last    LastRun
}

// LastRun is a run before this one that did not end well.
type LastRun struct {
	Report string // file of the report; "" when the last run ended well
	Fault  bool   // of the program; else it was ended from outside
}

// Watch begins to watch this run and has the runs before it that did not end
// well put into reports. head is what a report begins with: version and
// system. A folder that cannot be written is no hindrance: the run is then
// not watched. alive tells whether a process runs.
func Watch(dir string, j *Journal, head string, now time.Time, alive func(pid int) bool) *Watched {
	w := &Watched{dir: dir, journal: j, head: strings.TrimSpace(head)}
	if dir == "" || os.MkdirAll(dir, 0o700) != nil {
		return w
	}
	w.collect(now, alive)
	mark := filepath.Join(dir, strconv.Itoa(os.Getpid())+runningSuffix)
	f, err := os.OpenFile(mark, os.O_WRONLY|os.O_CREATE|os.O_TRUNC|os.O_APPEND, 0o600)
	if err != nil {
		return w
	}
	defer f.Close() // the runtime keeps a copy of its own
	if _, err := io.WriteString(f, w.head+"\nstarted: "+now.UTC().Format(time.RFC3339)+"\n"+crashBegins); err != nil {
		os.Remove(mark)
		return w
	}
	w.mark = mark
	debug.SetTraceback("single")                      // the goroutine that failed is enough
	_ = debug.SetCrashOutput(f, debug.CrashOptions{}) // without it the mark alone tells of a crash
	return w
}

// LastRun tells of the run before, as found when the watch began.
func (w *Watched) LastRun() LastRun {
	if w == nil {
		return LastRun{}
	}
	return w.last
}

// Crash notes that the program must end for a panic that was caught too high
// up to go on; the next start makes a report of it.
func (w *Watched) Crash(what any, stack string) {
	if w == nil || w.mark == "" {
		return
	}
	f, err := os.OpenFile(w.mark, os.O_WRONLY|os.O_APPEND, 0o600)
	if err != nil {
		return
	}
	defer f.Close()
	fmt.Fprintf(f, "panic: %v\n\n%s\n", what, stack) // without room the mark alone tells of it
}

// Done ends the watch of a run that ends well: no trace is left.
func (w *Watched) Done() {
	if w == nil || w.mark == "" {
		return
	}
	_ = debug.SetCrashOutput(nil, debug.CrashOptions{})
	os.Remove(w.mark)
	w.mark = ""
}

// collect makes reports of the runs whose process is gone.
func (w *Watched) collect(now time.Time, alive func(int) bool) {
	marks, _ := filepath.Glob(filepath.Join(w.dir, "*"+runningSuffix)) // the pattern is well-formed
	for _, m := range marks {
		pid, err := strconv.Atoi(strings.TrimSuffix(filepath.Base(m), runningSuffix))
		if err == nil && pid != os.Getpid() && alive(pid) {
			continue
		}
		head, said := readMark(m)
		how := "the runtime ended the program"
		if said == "" {
			how = "the program was ended from outside, or the machine stopped"
		}
		if text := w.write(now, head, how, said, Tail(w.journal.Dir())); text != "" && len(w.Reports()) > 0 {
			w.last = LastRun{w.Reports()[0], w.last.Fault || said != ""}
		}
		os.Remove(m)
	}
}

// readMark reads the head of a running file and what the runtime wrote.
func readMark(path string) (head, said string) {
	f, err := os.Open(path)
	if err != nil {
		return "", ""
	}
	defer f.Close()
	data, _ := io.ReadAll(io.LimitReader(f, mostCrash)) // what there is
	head, said, found := strings.Cut(string(data), crashBegins)
	if !found {
		return strings.TrimSpace(head), ""
	}
	return strings.TrimSpace(head), strings.TrimSpace(said)
}

// Mishap keeps a report of a panic that was caught, and returns its words.
func (w *Watched) Mishap(now time.Time, what any, stack string) string {
	if w == nil {
		return ""
	}
	return w.write(now, w.head, "a panic was caught, the program went on", fmt.Sprintf("panic: %v\n\n%s", what, stack), w.journal.Last())
}

// write writes a report and drops the oldest beyond those kept.
func (w *Watched) write(now time.Time, head, how, said string, last []string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\nnoticed: %s\nhow it ended: %s\n", head, now.UTC().Format(time.RFC3339), how)
	if said != "" {
		fmt.Fprintf(&b, "\n%s\n", w.stack(said))
	}
	if len(last) > 0 {
		fmt.Fprintf(&b, "\nlast lines of the log:\n%s\n", strings.Join(last, "\n"))
	}
	text := b.String()
	if w.dir == "" {
		return text
	}
	name := reportPrefix + now.UTC().Format("20060102-150405")
	for n := range 100 {
		path := filepath.Join(w.dir, fmt.Sprintf("%s-%02d%s", name, n, reportSuffix))
		f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
		if os.IsExist(err) {
			continue
		}
		if err == nil {
			_, err = io.WriteString(f, text)
			f.Close()
			if err != nil { // half a report, on a full disk
				os.Remove(path)
			}
		}
		break
	}
	for _, old := range w.Reports()[min(MostReports, len(w.Reports())):] {
		os.Remove(old)
	}
	return text
}

func (w *Watched) stack(said string) string {
	if w.journal == nil {
		return NewRedactor().Stack(said)
	}
	return w.journal.Redactor.Stack(said)
}

// Reports lists the files of the reports kept, the newest first.
func (w *Watched) Reports() []string {
	if w == nil || w.dir == "" {
		return nil
	}
	all, _ := filepath.Glob(filepath.Join(w.dir, reportPrefix+"*"+reportSuffix)) // the pattern is well-formed
	slices.Sort(all)                                                             // names begin with the time
	slices.Reverse(all)
	return all
}
