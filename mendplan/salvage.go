package mendplan

import (
	"bytes"
	"errors"
	"slices"

	"leafmend/mendplan/phrase"
)

// LostPart is one thing of a damaged job file that could not be read.
type LostPart struct {
	Line  int           // in the file, from 1; 0 when it is nowhere in it
	Place phrase.Phrase // "leaf 3, damage 4", or zero for the whole job
	Words phrase.Phrase // what is missing, one sentence
}

// Phrase says place, words and line in one.
func (l LostPart) Phrase() phrase.Phrase {
	words := l.Words
	if l.Line > 0 {
		words = phrase.Of("%s (line %d)", words, l.Line)
	}
	if l.Place.IsZero() {
		return words
	}
	return phrase.Of("%s: %s", l.Place, words)
}

// Problem says the same as a problem of the salvaged job.
func (l LostPart) Problem() Problem {
	return Problem{Kind: BadFile, Weight: Doubt, Words: l.Phrase(), Hint: phrase.Of("Look there, and record again what is missing.")}
}

// DamagedKept refuses to write over a damaged file: more of it may yet be
// read in another way.
func DamagedKept(path string) *FileError {
	return &FileError{Path: path, Words: phrase.Of("the damaged file is kept as it is"), Remedy: phrase.Of("save under another name")}
}

// mostLosses bounds the list: whoever lost more has lost the file.
const mostLosses = 1000

// Salvage reads of the bytes of a damaged job file what can be read: one cut
// short, with bytes overwritten, with something in a field that does not
// belong there. Losses tell what is missing, in the order of the file; none
// means that the file is whole. What is not told lost is as it was saved,
// except that a text changed into another text cannot be known. A damage
// whose trace is not whole is kept without a mend, since nothing must be cut
// from half a trace; a scale of which anything is missing is dropped whole.
//
// An error is a *[FileError] and means that nothing of a job was found, or
// that it is a newer program's file. Salvage never panics, and takes time and
// memory in proportion to the file.
func Salvage(data []byte) (Job, []LostPart, error) {
	j, _, err := Decode(data)
	if err == nil {
		return j, nil, nil
	}
	if tooLarge(data) != nil {
		return Job{}, nil, err
	}
	root, lines := readDamaged(data)
	var version int
	for _, k := range root.kids {
		if k.named && k.name == "version" && !k.mended && readInto(k.value, &version) && version > FileVersion {
			return Job{}, nil, err
		}
	}
	if !root.ours() {
		return Job{}, nil, &FileError{Words: phrase.Of("nothing of a job can be read in this file"), Remedy: phrase.Of("open the recovery copy or an earlier copy"), Err: err}
	}
	s := &salvor{}
	s.job(root)
	s.strays(lines)
	if len(s.losses) == 0 { // such as a comma: told, since the file is not whole
		var fe *FileError
		words := phrase.Of("signs could not be read; nothing seems to be missing")
		if errors.As(err, &fe) {
			words = phrase.Of("%s; nothing seems to be missing", fe.Words)
		}
		s.losses = []LostPart{{Words: words}}
	}
	j, problems := settle(s.out)
	for _, p := range problems {
		s.losses = append(s.losses, LostPart{Words: phrase.Of("%s %s", p.Words, p.Hint)})
	}
	slices.SortStableFunc(s.losses, func(a, b LostPart) int { return a.Line - b.Line })
	return j, s.losses, nil
}

// SalvageFile is [Salvage] of the file at path, which is left as it is.
func SalvageFile(path string) (Job, []LostPart, error) {
	data, err := ReadJob(path)
	if err != nil && len(data) == 0 {
		return Job{}, nil, err
	}
	j, losses, err := Salvage(data) // of a failing disk, what came
	return j, losses, inFile(path, err)
}

// readDamaged returns the fields of the file as far as they can be read.
func readDamaged(data []byte) (node, *liner) {
	if !bytes.Contains(data, []byte("\n \"")) {
		data = laidOut(data)
	}
	r := &liner{}
	number := 0
	for len(data) > 0 {
		line, rest, more := bytes.Cut(data, []byte("\n"))
		number++
		r.take(line, number, !more)
		data = rest
	}
	lines := r.out
	if len(lines) > 0 && lines[0].indent == 0 && lines[0].opens && !lines[0].named {
		lines = lines[1:]
	}
	root := node{group: true, open: true}
	t := &treeOf{lines: lines}
	for t.at < len(t.lines) {
		root.kids = append(root.kids, t.kids(1)...)
		if t.at < len(t.lines) && t.lines[t.at].indent < 1 {
			root.open = root.open && !t.lines[t.at].closes
			t.at++
		}
	}
	r.cut = r.cut || root.open
	return root, r
}

// laidOut puts one field a line into a file that another program has written
// in its own way, by the brackets alone.
func laidOut(data []byte) []byte {
	var b bytes.Buffer
	depth, inText := 0, false
	newline := func() {
		b.WriteByte('\n')
		b.Write(bytes.Repeat([]byte(" "), min(max(depth, 0), mostSalvageDepth+1)))
	}
	for i := 0; i < len(data); i++ {
		c := data[i]
		switch {
		case inText:
			b.WriteByte(c)
			if c == '\\' && i+1 < len(data) {
				i++
				b.WriteByte(data[i])
			} else if c == '"' || c == '\n' {
				inText = false
			}
		case c == '"':
			inText = true
			b.WriteByte(c)
		case c == '{' || c == '[':
			depth++
			b.WriteByte(c)
			newline()
		case c == '}' || c == ']':
			depth--
			newline()
			b.WriteByte(c)
		case c == ',':
			b.WriteByte(c)
			newline()
		case c == ':':
			b.WriteString(": ")
		case c != ' ' && c != '\n' && c != '\t' && c != '\r':
			b.WriteByte(c)
		}
	}
	return b.Bytes()
}

// ours reports whether a file has anything that only a job has.
func (n node) ours() bool {
	for _, k := range n.kids {
		if k.named && (k.name == "format" && k.value == quoted(FileFormat) || k.name == "leaves" || k.name == "last_damage_number") {
			return true
		}
		if k.group && !k.named && k.guess() != "" {
			return true
		}
	}
	return false
}
