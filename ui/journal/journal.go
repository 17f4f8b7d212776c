package journal

import (
	"bytes"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"
)

// lastKept is how many lines are at hand for a report, mostLine how long one
// of them may be in bytes.
const (
	lastKept = 20
	mostLine = 2 << 10
)

// Journal is a log in a folder. Methods may be called from any goroutine.
type Journal struct {
	Redactor *Redactor
	dir      string
	out      *rotated
	log      *slog.Logger

	mu   sync.Mutex
	last [][]byte
}

// Open keeps a log in a folder, which is made with the first line.
func Open(dir string) *Journal {
	j := &Journal{Redactor: NewRedactor(), dir: dir, out: &rotated{dir: dir, most: MostLogSize}}
	h := slog.NewTextHandler(lines{j}, &slog.HandlerOptions{ReplaceAttr: j.replace})
	j.log = slog.New(h)
	return j
}

// Log returns the logger; that of a nil Journal writes nowhere.
func (j *Journal) Log() *slog.Logger {
	if j == nil {
		return slog.New(slog.DiscardHandler)
	}
	return j.log
}

// Dir returns the folder of the log; "" for a nil Journal.
func (j *Journal) Dir() string {
	if j == nil {
		return ""
	}
	return j.dir
}

// Last returns the last lines written, the newest last.
func (j *Journal) Last() []string {
	if j == nil {
		return nil
	}
	j.mu.Lock()
	defer j.mu.Unlock()
	var out []string
	for _, l := range j.last {
		out = append(out, string(l))
	}
	return out
}

// Redact takes what is personal out of a text.
func (j *Journal) Redact(text string) string {
	if j == nil {
		return NewRedactor().Text(text)
	}
	return j.Redactor.Text(text)
}

// Close closes the log file.
func (j *Journal) Close() {
	if j != nil {
		j.out.Close()
	}
}

// replace redacts every text of a line but the level; the time is told to the
// second.
func (j *Journal) replace(groups []string, a slog.Attr) slog.Attr {
	if len(groups) == 0 && a.Key == slog.TimeKey {
		return slog.Time(slog.TimeKey, a.Value.Time().UTC().Truncate(time.Second))
	}
	if len(groups) == 0 && a.Key == slog.LevelKey {
		return a
	}
	switch a.Value.Kind() {
	case slog.KindString:
		a.Value = slog.StringValue(j.Redactor.Text(a.Value.String()))
	case slog.KindAny:
		if err, ok := a.Value.Any().(error); ok {
			a.Value = slog.StringValue(j.Redactor.Error(err))
		} else {
			a.Value = slog.StringValue(j.Redactor.Text(a.Value.String()))
		}
	}
	return a
}

// lines keeps the last lines at hand and hands them on to the file.
type lines struct{ j *Journal }

func (l lines) Write(p []byte) (int, error) {
	n := len(p)
	if n > mostLine {
		p = append(p[:mostLine-1:mostLine-1], '\n')
	}
	l.j.mu.Lock()
	l.j.last = append(l.j.last, bytes.TrimRight(slices.Clone(p), "\n"))
	if len(l.j.last) > lastKept {
		l.j.last = slices.Delete(l.j.last, 0, len(l.j.last)-lastKept)
	}
	l.j.mu.Unlock()
	l.j.out.Write(p)
	return n, nil
}

// Tail returns the last lines of the log in a folder as another run left
// them, the newest last; nil when there are none.
func Tail(dir string) []string {
	f, err := os.Open(filepath.Join(dir, LogName))
	if err != nil {
		return nil
	}
	defer f.Close()
	if st, err := f.Stat(); err == nil && st.Size() > lastKept*mostLine {
		f.Seek(st.Size()-lastKept*mostLine, io.SeekStart)
	}
	data, _ := io.ReadAll(f) // what there is
	all := strings.Split(strings.TrimSpace(string(data)), "\n")
	if len(all) == 1 && all[0] == "" {
		return nil
	}
	return all[max(0, len(all)-lastKept):]
}
