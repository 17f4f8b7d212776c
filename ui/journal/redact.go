package journal

import (
	"net/url"
	"os"
	"os/user"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

// Redactor takes out of texts what could tell who the user is or what the
// job is about. Paths become "…/file3.tif": a running number, so that one
// file can be followed through the log, and the ending of the name. It errs
// on the side of taking out too much. Safe for use by several goroutines.
type Redactor struct {
	mu    sync.Mutex
	words []secret       // what is taken out, the longest first
	files map[string]int // numbers of files, by name without folder
}

// secret is a text that is taken out wherever it stands as a word of its own.
type secret struct{ lower, instead string }

// NewRedactor knows the home folder and the names of user and machine.
func NewRedactor() *Redactor {
	r := &Redactor{files: map[string]int{}}
	if home, err := os.UserHomeDir(); err == nil && len(home) > 1 {
		r.add(home, "~")
		r.add(path.Base(strings.ReplaceAll(home, `\`, "/")), "(user)")
	}
	if u, err := user.Current(); err == nil {
		r.add(u.Username, "(user)")
		r.add(u.Name, "(user)")
		for _, part := range strings.FieldsFunc(u.Name, notLetter) {
			r.add(part, "(user)")
		}
	}
	for _, name := range []string{os.Getenv("USER"), os.Getenv("LOGNAME"), os.Getenv("USERNAME")} {
		r.add(name, "(user)")
	}
	if host, err := os.Hostname(); err == nil {
		r.add(host, "(machine)")
		short, _, _ := strings.Cut(host, ".")
		r.add(short, "(machine)")
	}
	return r
}

// leastSecret is the fewest letters of a name that are taken out as a word:
// shorter ones stand in any sentence. Within paths they go all the same.
const leastSecret = 3

// common are folders of every system, and of the program; their names tell
// nothing.
var common = []string{"leafmend", ".config", "config", "fyne", "sample", "recovery", "home", "users", "user", "tmp", "temp", "var", "usr", "mnt", "media", "run", "root", "private", "volumes", "documents and settings"}

// NotePath has a path of the user taken out from now on: the whole, each
// folder on the way, the name of the file with and without its ending, and
// the longer words of all of these.
func (r *Redactor) NotePath(p string) {
	if p == "" {
		return
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	parts := strings.FieldsFunc(p, slash)
	if len(parts) == 0 {
		return
	}
	short := r.fileName(p)
	r.add(p, "…/"+short)
	for i, part := range parts {
		switch {
		case utf8.RuneCountInString(part) < leastSecret, slices.Contains(common, strings.ToLower(part)):
		case i < len(parts)-1:
			r.add(part, "(folder)")
		default:
			r.add(part, short)
			if stem := strings.TrimSuffix(part, ending(part)); utf8.RuneCountInString(stem) >= leastSecret {
				r.add(stem, strings.TrimSuffix(short, ending(part)))
			}
		}
		if !slices.Contains(common, strings.ToLower(part)) {
			r.addWords(strings.TrimSuffix(part, ending(part)))
		}
	}
}

// addWords notes the longer words of a name alone.
func (r *Redactor) addWords(name string) {
	for _, word := range strings.FieldsFunc(name, notLetter) {
		if utf8.RuneCountInString(word) > leastSecret {
			r.add(word, "(name)")
		}
	}
}

// NoteName has a name or title taken out from now on, as a whole and its
// longer words alone.
func (r *Redactor) NoteName(name string) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if name = strings.TrimSpace(name); utf8.RuneCountInString(name) >= leastSecret {
		r.add(name, "(name)")
	}
	r.addWords(name)
}

// add notes a secret in its place among the others, once.
func (r *Redactor) add(text, instead string) {
	if utf8.RuneCountInString(text) < 2 {
		return
	}
	lower := strings.ToLower(text)
	at, _ := slices.BinarySearchFunc(r.words, lower, func(s secret, l string) int {
		if len(s.lower) != len(l) {
			return len(l) - len(s.lower)
		}
		return strings.Compare(s.lower, l)
	})
	if at < len(r.words) && r.words[at].lower == lower {
		return
	}
	r.words = slices.Insert(r.words, at, secret{lower, instead})
}

// Text takes what is personal out of a text.
func (r *Redactor) Text(text string) string {
	r.mu.Lock()
	defer r.mu.Unlock()
	if !utf8.ValidString(text) {
		text = strings.ToValidUTF8(text, "?")
	}
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		l = address.ReplaceAllStringFunc(l, r.plainAddress)
		l = r.takeOut(l)
		l = quoted.ReplaceAllStringFunc(l, r.quotedPath)
		l = r.barePaths(l)
		l = r.bareNames(l)
		lines[i] = r.takeOut(l)
	}
	return strings.Join(lines, "\n")
}

var (
	address = regexp.MustCompile(`[A-Za-z][A-Za-z0-9+.-]*://[^\s"'<>“”„«»]*`)
	quoted  = regexp.MustCompile(`"[^"]*"|'[^']*'|“[^”]*”|„[^“”]*[“”]|«[^»]*»|‘[^’]*’|` + "`[^`]*`")
	// A path begins a word: with a slash, a drive, a share, or the home sign.
	start = regexp.MustCompile(`(?:^|[\s(\[{<=:,;"'“„«])((?:[A-Za-z]:[\\/]|\\\\|~[\\/]|\.{1,2}[\\/]|/)[^\s/\\])`)
	// Words with a slash between letters: a path from here.
	within = regexp.MustCompile(`[^\s"'“”„«»(),;:…]{2,}[\\/][^\s"'“”„«»(),;:]{2,}`)
	// Names of files without a path.
	named = regexp.MustCompile(`(?i)\.(leafmend-library|leafmend|tiff?|jpe?g|png|bmp|webp|gif|pdf|csv|json|svg|ics|part|lock)\b`)
)

// plainAddress turns the address of a file into its path, and takes any other
// address out.
func (r *Redactor) plainAddress(a string) string {
	if rest, ok := strings.CutPrefix(strings.ToLower(a), "file:"); ok {
		if plain, err := url.PathUnescape(a[len(a)-len(rest):]); err == nil {
			return "…/" + r.fileName(plain)
		}
	}
	return "(address)"
}

// takeOut replaces what was noted, where it is no part of a longer word.
func (r *Redactor) takeOut(l string) string {
	for _, s := range r.words {
		lower := strings.ToLower(l)
		if len(lower) != len(l) { // letters whose small form has another length
			l = lower
		}
		var b strings.Builder
		at := 0
		for {
			i := strings.Index(lower[at:], s.lower)
			if i < 0 {
				break
			}
			from, to := at+i, at+i+len(s.lower)
			if before, _ := utf8.DecodeLastRuneInString(l[:from]); from > 0 && !notLetter(before) && letterFirst(s.lower) {
				b.WriteString(l[at:to])
			} else if after, _ := utf8.DecodeRuneInString(l[to:]); to < len(l) && !notLetter(after) && letterLast(s.lower) {
				b.WriteString(l[at:to])
			} else {
				b.WriteString(l[at:from] + s.instead)
			}
			at = to
		}
		if at > 0 {
			l = b.String() + l[at:]
		}
	}
	return l
}

// quotedPath shortens what stands in quotes when it is a path or the name of
// a file.
func (r *Redactor) quotedPath(q string) string {
	first, n := utf8.DecodeRuneInString(q)
	last, m := utf8.DecodeLastRuneInString(q)
	in := q[n : len(q)-m]
	if strings.HasPrefix(in, "…/") || !strings.ContainsAny(in, `/\`) && named.FindStringIndex(in) == nil {
		return q
	}
	return string(first) + "…/" + r.fileName(in) + string(last)
}

// barePaths shortens paths that stand in no quotes. Their names may hold
// blanks and colons, so that such a path ends only at the last colon with a
// blank behind it, or with the line.
func (r *Redactor) barePaths(l string) string {
	if m := start.FindStringSubmatchIndex(l); m != nil {
		from, rest := m[2], ""
		p := l[from:]
		if i := strings.LastIndex(p, ": "); i >= 0 {
			p, rest = p[:i], p[i:]
		}
		l = l[:from] + "…/" + r.fileName(p) + rest
	}
	return within.ReplaceAllStringFunc(l, func(p string) string {
		if strings.HasPrefix(p, "…") || strings.HasPrefix(p, "~/…") {
			return p
		}
		return "…/" + r.fileName(p)
	})
}

// bareNames takes out names of files that stand alone. A name may hold
// blanks: all before it goes, back to a quote, a colon or the last path.
func (r *Redactor) bareNames(l string) string {
	done := 0
	for {
		m := named.FindStringIndex(l[done:])
		if m == nil {
			return l
		}
		end := done + m[1]
		from := done
		for _, stop := range []string{": ", "…/", `"`, "“", "„", "'", "; ", " · "} {
			if i := strings.LastIndex(l[done:end], stop); i >= 0 {
				from = max(from, done+i+len(stop))
			}
		}
		name := l[from:end]
		if ours.MatchString(name) {
			done = end
			continue
		}
		l = l[:from] + r.fileName(name) + l[end:]
		done = from + len(r.fileName(name))
	}
}

// ours is a name this redactor gave.
var ours = regexp.MustCompile(`^file[0-9]+(\.[A-Za-z0-9-]+)?$`)

// fileName is the name a path gets: a number and its ending.
func (r *Redactor) fileName(p string) string {
	p = strings.TrimRightFunc(p, func(c rune) bool { return slash(c) || unicode.IsSpace(c) })
	if i := strings.LastIndexFunc(p, slash); i >= 0 {
		p = p[i+1:]
	}
	if ours.MatchString(p) {
		return p
	}
	n, ok := r.files[p]
	if !ok {
		n = len(r.files) + 1
		r.files[p] = n
	}
	return "file" + strconv.Itoa(n) + ending(p)
}

// ending is the ending of a file's name if it is one of those known, else "".
func ending(name string) string {
	m := named.FindAllStringIndex(name, -1)
	if len(m) == 0 || m[len(m)-1][1] != len(name) {
		return ""
	}
	return name[m[len(m)-1][0]:]
}

func slash(c rune) bool     { return c == '/' || c == '\\' }
func notLetter(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsDigit(c) }

func letterFirst(s string) bool { c, _ := utf8.DecodeRuneInString(s); return !notLetter(c) }
func letterLast(s string) bool  { c, _ := utf8.DecodeLastRuneInString(s); return !notLetter(c) }
