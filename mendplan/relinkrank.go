package mendplan

import (
	"path"
	"strings"

	"golang.org/x/text/unicode/norm"
)

// scanName is a path taken apart for comparing, without regard to case and to
// how accents are composed: one system writes é as one sign, another as two.
type scanName struct {
	folders    []string
	file, stem string
	leaf       string // the stem without the word for the side
	side       string // "f", "b" or ""
}

func nameOfScan(p string) scanName {
	p = norm.NFC.String(strings.ToLower(norm.NFC.String(strings.ReplaceAll(p, `\`, "/"))))
	var n scanName
	for _, f := range strings.Split(path.Dir(p), "/") {
		if f != "" && f != "." && f != ".." {
			n.folders = append(n.folders, f)
		}
	}
	n.file = path.Base(p)
	n.stem = strings.TrimSuffix(n.file, path.Ext(n.file))
	leaf, family, back := sideOfName(n.stem)
	n.leaf = strings.Trim(leaf, " ._-")
	if family != "" {
		n.side = "f"
		if back {
			n.side = "b"
		}
	}
	return n
}

// likeness tells how much the folders of two names have in common: the longest
// run of folders that both have in this order, others between them allowed.
func (n scanName) likeness(o scanName) int {
	row := make([]int, len(o.folders)+1)
	for _, a := range n.folders {
		left := 0 // of the row above
		for k, b := range o.folders {
			above := row[k+1]
			if a == b {
				row[k+1] = left + 1
			} else {
				row[k+1] = max(above, row[k])
			}
			left = above
		}
	}
	return row[len(o.folders)]
}

// relinkRank is one way in which a file can answer to a scan: where both have
// the same key, not empty, and fits agrees.
type relinkRank struct {
	sure   Sureness
	wanted func(w *wantedFile) string
	found  func(c Candidate, n scanName) string
	fits   func(w *wantedFile, c Candidate) bool
}

func sameSize(w *wantedFile, c Candidate) bool {
	return w.scan.Width > 0 && w.scan.Width == c.Width && w.scan.Height == c.Height
}

func anySize(*wantedFile, Candidate) bool { return true }

func sideKey(n scanName) string {
	if n.side == "" {
		return ""
	}
	return n.leaf + "\x00" + n.side
}

var relinkRanks = []relinkRank{
	{SameBytes, func(w *wantedFile) string { return w.scan.SHA256 }, func(c Candidate, _ scanName) string { return c.SHA256 }, anySize},
	{SameFormat, func(w *wantedFile) string { return w.name.file }, func(_ Candidate, n scanName) string { return n.file }, sameSize},
	{NameOnly, func(w *wantedFile) string { return w.name.file }, func(_ Candidate, n scanName) string { return n.file }, anySize},
	{NameOnly, func(w *wantedFile) string { return w.name.stem }, func(_ Candidate, n scanName) string { return n.stem }, sameSize},
	{NameOnly, func(w *wantedFile) string { return w.name.stem }, func(_ Candidate, n scanName) string { return n.stem }, anySize},
	{NameOnly, func(w *wantedFile) string { return sideKey(w.name) }, func(_ Candidate, n scanName) string { return sideKey(n) }, anySize},
}

// round gives files of one rank to the scans that have none yet. A file and a
// scan go together when each is the other's best by itself; that is repeated,
// since a file taken no longer stands beside another. Where some are left on
// both sides they are told as several.
func (m *matching) round(r relinkRank) {
	byKey := map[string][]int{}
	for i, c := range m.found {
		key := r.found(c, m.names[i])
		elsewhere := r.sure != SameBytes && m.known[c.SHA256] // it is known to be another scan
		if m.free[i] && key != "" && !elsewhere {
			byKey[key] = append(byKey[key], i)
		}
	}
	wanting := map[string][]*wantedFile{}
	var keys []string
	for _, g := range m.groups {
		key := r.wanted(g)
		if g.sure != NotFound || key == "" || byKey[key] == nil {
			continue
		}
		if wanting[key] == nil {
			keys = append(keys, key)
		}
		wanting[key] = append(wanting[key], g)
	}
	for _, key := range keys {
		for m.pairOff(wanting[key], byKey[key], r) {
		}
		m.tellSeveral(wanting[key], byKey[key], r)
	}
}

// pairOff joins files and scans that are each other's best; false when there
// were none.
func (m *matching) pairOff(groups []*wantedFile, files []int, r relinkRank) bool {
	any := false
	for _, g := range groups {
		if g.sure != NotFound {
			continue
		}
		i, alone := m.bestFile(g, files, r)
		if i < 0 || !alone || !m.bestWanted(i, g, groups, r) {
			continue
		}
		g.taken, g.sure, any = i, r.sure, true
		m.free[i] = false
		if r.sure == SameBytes {
			g.others = m.pathsOf(g, files, r) // further copies
		}
	}
	return any
}

// bestFile is the free file whose folders are most like the scan's, and
// whether there is only one such; −1 when there is none at all.
func (m *matching) bestFile(g *wantedFile, files []int, r relinkRank) (best int, alone bool) {
	best, most := -1, -1
	for _, i := range files {
		if !m.free[i] || !r.fits(g, m.found[i]) {
			continue
		}
		switch like := m.closeness(g, i); {
		case like > most:
			best, most, alone = i, like, true
		case like == most:
			alone = false
		}
	}
	return best, alone
}

// bestWanted reports whether no other scan without a file is as like as g.
func (m *matching) bestWanted(i int, g *wantedFile, groups []*wantedFile, r relinkRank) bool {
	mine := m.closeness(g, i)
	for _, o := range groups {
		if o != g && o.sure == NotFound && r.fits(o, m.found[i]) && m.closeness(o, i) >= mine {
			return false
		}
	}
	return true
}

// closeness weighs folders, and for files of equal bytes the name before them.
func (m *matching) closeness(g *wantedFile, i int) int {
	like := g.name.likeness(m.names[i])
	if g.name.file == m.names[i].file {
		like += 1000
	} else if g.name.stem == m.names[i].stem {
		like += 500
	}
	return like
}

func (m *matching) pathsOf(g *wantedFile, files []int, r relinkRank) []string {
	var out []string
	for _, i := range files {
		if m.free[i] && r.fits(g, m.found[i]) {
			out = append(out, m.found[i].Path)
		}
	}
	return out
}

func (m *matching) tellSeveral(groups []*wantedFile, files []int, r relinkRank) {
	for _, g := range groups {
		if g.sure != NotFound {
			continue
		}
		if others := m.pathsOf(g, files, r); len(others) > 0 {
			g.sure, g.others = Several, others
		}
	}
}
