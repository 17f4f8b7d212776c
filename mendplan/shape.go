package mendplan

import (
	"bytes"
	"encoding/json"
	"strings"

	"leafmend/mendplan/phrase"
)

// Limits of what a job file may hold. A job of 500 leaves and 10,000 damages
// has about 40,000 records and a million numbers in its traces; a file far
// beyond that is no job, and reading it would fill the memory.
const (
	mostRecords      = 300_000   // objects, and members of lists that are no traces
	mostTraceNumbers = 6_000_000 // numbers of all traces, two for each point
)

// shape is one value of a job file, by its place in the bytes: enough to
// compare which fields are there without making a value of every number.
type shape struct {
	raw    []byte
	fields []shapeField // of an object, in the order of the file
	list   []shape      // of a list with objects in it; the others stay raw
}

type shapeField struct {
	name string
	is   shape
}

func (s shape) field(name string) (shape, bool) {
	for _, f := range s.fields {
		if f.name == name {
			return f.is, true
		}
	}
	return shape{}, false
}

// like returns the field that the JSON reader takes for a name: letters may be
// large or small.
func (s shape) like(name string) (shape, bool) {
	if f, ok := s.field(name); ok {
		return f, true
	}
	for _, f := range s.fields {
		if strings.EqualFold(f.name, name) {
			return f.is, true
		}
	}
	return shape{}, false
}

// shaper walks well-formed JSON once. It counts what is in it and finds
// names that stand twice in one object.
type shaper struct {
	data             []byte
	at               int
	records, numbers int
	twice            string // the first name that stands twice
	twiceAt          int
}

// fileShape returns the shape of well-formed JSON, or why the file is refused.
// Nothing is said of JSON that is not well-formed: check it before.
func fileShape(data []byte) (shape, *FileError) {
	p := &shaper{data: data}
	s := p.value(false)
	switch {
	case p.full():
		return shape{}, &FileError{Place: placeOf(data, int64(p.at)), Words: phrase.Of("the file holds far more records than any job"), Remedy: phrase.Of("choose the job file, its name ends in %s", FileSuffix)}
	case p.twice != "":
		return shape{}, &FileError{Place: placeOf(data, int64(p.twiceAt)), Words: phrase.Of("“%s” stands twice in one record", p.twice), Remedy: phrase.Of("open the recovery copy or an earlier copy")}
	}
	return s, nil
}

func (p *shaper) full() bool { return p.records > mostRecords || p.numbers > mostTraceNumbers }

func (p *shaper) space() byte {
	for p.at < len(p.data) {
		switch c := p.data[p.at]; c {
		case ' ', '\n', '\r', '\t', ',', ':':
			p.at++
		default:
			return c
		}
	}
	return 0
}

// value reads one value; trace tells that it is part of the points of a trace.
func (p *shaper) value(trace bool) shape {
	start := p.space()
	from := p.at
	s := shape{}
	switch start {
	case '{':
		p.records++
		s.fields = p.object()
	case '[':
		s.list = p.array(trace)
	case '"':
		p.text()
	default:
		for p.at < len(p.data) && !bytes.ContainsRune([]byte(" \n\r\t,:]}"), rune(p.data[p.at])) {
			p.at++
		}
	}
	s.raw = p.data[from:p.at]
	return s
}

func (p *shaper) text() []byte {
	from := p.at
	for p.at++; p.at < len(p.data) && p.data[p.at] != '"'; p.at++ {
		if p.data[p.at] == '\\' {
			p.at++
		}
	}
	p.at = min(p.at+1, len(p.data))
	return p.data[from:p.at]
}

func (p *shaper) object() []shapeField {
	var out []shapeField
	var seen map[string]bool // for the few objects with many names, such as pages
	for p.at++; p.space() == '"' && !p.full(); {
		at := p.at
		var name string
		_ = json.Unmarshal(p.text(), &name) // well-formed, as all of it
		trace := len(name) > 3 && name[len(name)-3:] == "_px"
		if seen == nil && len(out) > 64 {
			seen = map[string]bool{}
			for _, f := range out {
				seen[f.name] = true
			}
		}
		if p.twice == "" && (seen[name] || seen == nil && (shape{fields: out}).has(name)) {
			p.twice, p.twiceAt = name, at
		}
		if seen != nil {
			seen[name] = true
		}
		out = append(out, shapeField{name, p.value(trace)})
	}
	p.at = min(p.at+1, len(p.data))
	return out
}

func (s shape) has(name string) bool {
	_, ok := s.field(name)
	return ok
}

// array returns the members when objects are among them.
func (p *shaper) array(trace bool) []shape {
	var out []shape
	var before int // members that were no objects
	for p.at++; !p.full(); {
		c := p.space()
		if c == ']' || c == 0 {
			break
		}
		if trace {
			p.numbers++
		} else if c != '{' {
			p.records++
		}
		m := p.value(trace)
		if c == '{' && out == nil {
			out = make([]shape, before)
		}
		if out != nil {
			out = append(out, m)
		}
		before++
	}
	p.at = min(p.at+1, len(p.data))
	return out
}
