package mendplan

import (
	"encoding/json"
	"sort"
)

// node is a value of a damaged job file, as far as it can be read.
type node struct {
	name   string
	named  bool
	line   int
	value  string // JSON; "" for records and lists, and for what is unreadable
	group  bool   // a record or a list
	kids   []node
	mended bool // not to be trusted
	open   bool // its end was not seen
}

// treeOf puts lines together by the spaces before them.
type treeOf struct {
	lines []fileLine
	at    int
}

// kids reads what stands indent spaces in; it stops at a line further out.
func (t *treeOf) kids(indent int) []node {
	var out []node
	for t.at < len(t.lines) {
		l := t.lines[t.at]
		if l.indent < indent || l.gap && indent > 1 {
			return out
		}
		if l.indent > indent { // what it stood in is lost
			n := node{line: l.number, group: true, open: true}
			t.lines[t.at].gap = false
			n.kids = t.kids(indent + 1)
			t.end(&n, indent)
			out = append(out, n)
			continue
		}
		t.lines[t.at].gap = false
		t.at++
		if l.closes {
			continue
		}
		n := node{name: l.name, named: l.named, line: l.number, value: l.value, mended: l.mended, group: l.opens}
		if t.at < len(t.lines) && t.lines[t.at].indent > indent && !t.lines[t.at].gap {
			n.group, n.value = true, ""
			n.kids = t.kids(indent + 1)
		}
		if n.group {
			n.open = true
			t.end(&n, indent)
		}
		out = append(out, n)
	}
	return out
}

// end takes the closing bracket of a record.
func (t *treeOf) end(n *node, indent int) {
	if t.at < len(t.lines) && t.lines[t.at].closes && t.lines[t.at].indent == indent && !t.lines[t.at].gap {
		n.open = false
		t.at++
	}
}

// spread makes nodes of a value that stood on one line, such as a point.
func (n node) spread() node {
	if n.group || len(n.value) == 0 || n.value[0] != '[' && n.value[0] != '{' {
		return n
	}
	out := node{name: n.name, named: n.named, line: n.line, group: true, mended: n.mended}
	var list []json.RawMessage
	if json.Unmarshal([]byte(n.value), &list) == nil {
		for _, v := range list {
			out.kids = append(out.kids, node{line: n.line, value: string(v), mended: n.mended})
		}
		return out
	}
	var fields map[string]json.RawMessage
	if json.Unmarshal([]byte(n.value), &fields) == nil {
		names := make([]string, 0, len(fields))
		for name := range fields {
			names = append(names, name)
		}
		sort.Strings(names)
		for _, name := range names {
			out.kids = append(out.kids, node{name: name, named: true, line: n.line, value: string(fields[name]), mended: n.mended})
		}
	}
	return out
}

// has tells whether a record has a field of a name.
func (n node) has(name string) bool {
	for _, k := range n.kids {
		if k.named && k.name == name {
			return true
		}
	}
	return false
}

// guess names a list whose own line is lost, by what is in it.
func (n node) guess() string {
	for _, k := range n.kids {
		switch {
		case k.has("points_px") || k.has("kind") && k.has("side") && k.has("number"):
			return "damages"
		case k.has("front") || k.has("damages") || k.has("mark"):
			return "leaves"
		}
		for _, g := range k.kids {
			if g.group && !g.named && g.guess() == "damages" {
				return "leaves"
			}
		}
	}
	return ""
}
