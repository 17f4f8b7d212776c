package mendplan

import (
	"bytes"
	"encoding/json"
	"strings"
	"unicode/utf8"
)

// Limits of salvage: what lies beyond is told as lost.
const (
	mostSalvageLines = 2_000_000
	mostSalvageDepth = 64  // of records in records; a job has eight
	mostTries        = 200 // lines tried sign by sign
	mostTryBytes     = 300 // length of a line so tried
	gapBytes         = 40  // so many unreadable bytes may hide the border of two leaves
)

// fileLine is one line of a job file, read by itself. A job file is written
// with one field or member a line and as many spaces before it as records
// are around it; so a fault in one line hides nothing of the others, and
// the spaces tell where a line belongs when brackets are lost.
type fileLine struct {
	indent  int
	number  int    // in the file, from 1
	name    string // of the field; "" in lists
	named   bool
	value   string // JSON, one value; "" where there is none
	opens   bool   // a record or list begins
	closes  bool   // one ends
	mended  bool   // a sign of the value had to be guessed: it is not to be trusted
	gap     bool   // so much before it is unreadable that it may belong elsewhere
	problem bool   // something of the line was unreadable
}

// readLine reads one line without the spaces before it; ok is false when
// anything of it is no job file's.
func readLine(text string) (l fileLine, ok bool) {
	rest := text
	if strings.HasPrefix(rest, `"`) {
		end := stringEnd(rest)
		if end < 0 {
			return l, false
		}
		if strings.HasPrefix(rest[end:], ": ") {
			if json.Unmarshal([]byte(rest[:end]), &l.name) != nil {
				return l, false
			}
			l.named, rest = true, rest[end+2:]
		}
	}
	switch rest {
	case "{", "[":
		l.opens = true
		return l, true
	case "}", "]", "},", "],":
		l.closes = true
		return l, !l.named
	}
	l.value = strings.TrimSuffix(rest, ",")
	return l, l.value != "" && json.Valid([]byte(l.value))
}

// stringEnd returns where a JSON string at the start of s ends, -1 when it
// does not.
func stringEnd(s string) int {
	for i := 1; i < len(s); i++ {
		switch s[i] {
		case '\\':
			i++
		case '"':
			return i + 1
		}
	}
	return -1
}

// liner reads the lines of a file and mends what it can.
type liner struct {
	out   []fileLine
	torn  int // unreadable bytes since the last line that could be read
	tries int
	cut   bool // there were more lines than are read
	bad   []int
}

func (r *liner) take(raw []byte, number int, last bool) {
	raw = bytes.TrimRight(raw, " \r\t")
	text := bytes.TrimLeft(raw, " ")
	if len(text) == 0 {
		return
	}
	if len(r.out) >= mostSalvageLines || len(raw)-len(text) > mostSalvageDepth {
		r.cut = r.cut || len(r.out) >= mostSalvageLines
		r.lost(number, len(text))
		return
	}
	l, ok := readLine(string(text))
	ok = ok && utf8.Valid(text)
	l.indent = len(raw) - len(text)
	if ok && last && l.value != "" && !strings.HasSuffix(string(text), ",") {
		l.mended, l.problem = true, true // it may go on where the file is cut
	}
	if !ok {
		r.mend(string(raw), number)
		return
	}
	r.add(l, number)
}

func (r *liner) add(l fileLine, number int) {
	l.number, l.gap = number, r.torn >= gapBytes
	r.torn = 0
	if l.problem {
		r.bad = append(r.bad, number)
	}
	r.out = append(r.out, l)
}

func (r *liner) lost(number, bytes int) {
	r.torn += bytes
	r.bad = append(r.bad, number)
}

// mend finds out what an unreadable line was: by one sign put right, by two
// lines run together, or at least by the name of its field.
func (r *liner) mend(raw string, number int) {
	clean, wrong := plainText(raw)
	if wrong < gapBytes && len(clean) <= mostTryBytes && r.tries < mostTries {
		r.tries++
		if lines := oneSign(clean, wrong); lines != nil {
			for _, l := range lines {
				l.problem = true
				r.add(l, number)
			}
			return
		}
	}
	text := strings.TrimLeft(clean, " ")
	if end := stringEnd(text); strings.HasPrefix(text, `"`) && end > 0 && strings.HasPrefix(text[end:], ": ") {
		l := fileLine{indent: len(clean) - len(text), named: true, mended: true, problem: true}
		if json.Unmarshal([]byte(text[:end]), &l.name) == nil {
			if rest := strings.TrimSuffix(text[end+2:], ","); strings.HasPrefix(rest, `"`) {
				l.value = quoted(strings.Trim(rest, `"`))
			}
			r.add(l, number)
			r.torn = wrong
			return
		}
	}
	if wrong == 0 {
		wrong = len(text)
	}
	r.lost(number, wrong)
}

func quoted(s string) string {
	b, err := json.Marshal(s)
	if err != nil {
		return ""
	}
	return string(b)
}

// plainText puts the sign for the unknown where a byte is no text, and
// returns how many were.
func plainText(s string) (string, int) {
	wrong := 0
	var b strings.Builder
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		if r == utf8.RuneError && n == 1 || r < ' ' {
			wrong++
			r = utf8.RuneError
		}
		b.WriteRune(r)
		i += n
	}
	return b.String(), wrong
}

// oneSign returns the lines that come of putting one sign right; nil when
// none does. A value whose own sign was guessed is marked as not to be
// trusted.
func oneSign(raw string, wrong int) []fileLine {
	signs := []rune(raw)
	indent := len(raw) - len(strings.TrimLeft(raw, " "))
	from := max(0, indent-1)
	if wrong > 0 {
		from = 0
	}
	if l, ok := lineFrom(raw); ok { // the bad bytes were inside a text
		l.mended = true
		return []fileLine{l}
	}
	if wrong > 1 {
		return nil // more than one sign: a guess would be a guess at more
	}
	for i := from; i < len(signs); i++ {
		before, after := string(signs[:i]), string(signs[i+1:])
		for _, c := range []string{" ", `"`, ":", "{", "}", "[", "]", ",", "", "\ufffd"} {
			if l, ok := lineFrom(before + c + after); ok {
				l.mended = l.value != "" && i >= len(signs)-utf8.RuneCountInString(l.value)-1 && strings.TrimRight(after, ",") != "" || c == "\ufffd"
				return []fileLine{l}
			}
		}
		if strings.HasPrefix(after, " ") {
			a, okA := lineFrom(strings.TrimRight(before, " "))
			b, okB := lineFrom(after)
			if okA && okB {
				return []fileLine{a, b}
			}
		}
	}
	return nil
}

func lineFrom(raw string) (fileLine, bool) {
	text := strings.TrimLeft(raw, " ")
	l, ok := readLine(text)
	l.indent = len(raw) - len(text)
	return l, ok
}
