package mendplan

import "bytes"

// joinPoints puts each pair of numbers on one line: "[1, 2]". It is given
// JSON that was laid out by lines, in which strings hold no line breaks, so
// only arrays can match. Most of a job file is points, so this is written out
// by hand: a regular expression took longer than all the rest of the encoding.
func joinPoints(b []byte) []byte {
	out := make([]byte, 0, len(b))
	for {
		i := bytes.Index(b, []byte("[\n"))
		if i < 0 {
			return append(out, b...)
		}
		out = append(out, b[:i]...)
		b = b[i:]
		x, y, size := pointAt(b)
		if size == 0 {
			out = append(out, b[:2]...)
			b = b[2:]
			continue
		}
		out = append(append(append(append(append(out, '['), x...), ", "...), y...), ']')
		b = b[size:]
	}
}

// pointAt reads "[", a number, ",", a number, "]", each on its own line, and
// returns how many bytes that takes; 0 when it is something else.
func pointAt(b []byte) (x, y []byte, size int) {
	at := 1
	if x, at = numberAt(b, at); at == 0 || at >= len(b) || b[at] != ',' {
		return nil, nil, 0
	}
	if y, at = numberAt(b, at+1); at == 0 {
		return nil, nil, 0
	}
	if at = pastBlanks(b, at); at == 0 || at >= len(b) || b[at] != ']' {
		return nil, nil, 0
	}
	return x, y, at + 1
}

// numberAt reads a line break, blanks and a number from place at on; the
// place after it is 0 when that is not what is there.
func numberAt(b []byte, at int) (number []byte, after int) {
	if at = pastBlanks(b, at); at == 0 {
		return nil, 0
	}
	end := at
	for end < len(b) && (b[end] >= '0' && b[end] <= '9' || bytes.IndexByte([]byte(".eE+-"), b[end]) >= 0) {
		end++
	}
	if end == at {
		return nil, 0
	}
	return b[at:end], end
}

// pastBlanks returns the place after a line break and the blanks that follow;
// 0 when there is no line break.
func pastBlanks(b []byte, at int) int {
	if at >= len(b) || b[at] != '\n' {
		return 0
	}
	for at < len(b) && (b[at] == '\n' || b[at] == ' ') {
		at++
	}
	return at
}
