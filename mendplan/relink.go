package mendplan

import (
	"cmp"
	"path/filepath"
	"slices"
)

// ScanPlace is where in a job a scan is named.
type ScanPlace struct {
	Leaf  string // ID
	Side  SideName
	After bool // the picture after treatment
	Scan  Scan
}

// ScanPlaces lists every scan that a job names, leaf by leaf, the front
// before the back, the picture after treatment after that before.
func (j Job) ScanPlaces() []ScanPlace {
	var out []ScanPlace
	for _, leaf := range j.Leaves {
		for _, side := range []SideName{Front, Back} {
			s := leaf.SideOf(side)
			if s.Scan.Present() {
				out = append(out, ScanPlace{leaf.ID, side, false, s.Scan})
			}
			if s.After.Present() {
				out = append(out, ScanPlace{leaf.ID, side, true, s.After})
			}
		}
	}
	return out
}

// Candidate is a picture file that may be a scan looked for.
type Candidate struct {
	Path          string // as it can be opened
	SHA256        string // of the file, hexadecimal, lower case; "" when it was not read
	Width, Height int    // pixels, after the file's orientation tag; 0 when not known
}

// Sureness says on what a proposed file rests, the surest first.
type Sureness string

// How sure a proposal is.
const (
	SameBytes  Sureness = "same bytes"         // by checksum, whatever the name
	SameFormat Sureness = "same name and size" // the name and the pixel size, not the checksum
	NameOnly   Sureness = "name only"          // the name without its ending, or but for the word for the side
	Several    Sureness = "several"            // equally good files: none is chosen
	NotFound   Sureness = "not found"
)

// Relink is what is proposed for one scan looked for.
type Relink struct {
	ScanPlace
	Sure   Sureness
	Found  string   // path of the file proposed; "" when several would do or none
	Others []string // paths of further files that would do as well, or of all when Sure is Several
	// Changed says that the file proposed is not, byte by byte, what the
	// traces were drawn on: they must be looked at before they are used.
	Changed bool
}

// ProposeRelinks proposes for each scan wanted the file among those found that
// it most likely is: the same bytes first, then the same name and pixel size,
// then the same name with another ending or size, then a name that differs
// only in the word for the side. Names are compared without regard to case and
// to how accents are composed. Among files of one rank that lies in folders
// named most like before is taken; where that leaves several, none is chosen.
// Scans that shared a file share the one found, and no others do. A file whose
// bytes the job records for another scan is never proposed by its name. The
// answers are in the order of wanted; no file is read.
func ProposeRelinks(job Job, wanted []ScanPlace, found []Candidate) []Relink {
	m := newMatching(job, wanted, found)
	for _, rank := range relinkRanks {
		m.round(rank)
	}
	out := make([]Relink, len(wanted))
	for i, w := range wanted {
		g := m.groups[m.groupOf[i]]
		out[i] = Relink{ScanPlace: w, Sure: g.sure, Others: slices.Clone(g.others)}
		if g.taken >= 0 {
			c := m.found[g.taken]
			out[i].Found = c.Path
			out[i].Changed = w.Scan.SHA256 != "" && c.SHA256 != w.Scan.SHA256
		}
	}
	return out
}

// Relinked returns the job with each scan that has a file found named by it,
// as told from folder, or by its full path when folder is "". What is recorded of the old file stays, its checksum
// with it, so that [CheckScans] goes on telling a changed one. An entry whose
// place no longer names the scan it did is passed over.
func (j Job) Relinked(folder string, links []Relink) Job {
	for _, l := range links {
		leaf, ok := j.Leaf(l.Leaf)
		if !ok || l.Found == "" {
			continue
		}
		side := leaf.SideOf(l.Side)
		at := &side.Scan
		if l.After {
			at = &side.After
		}
		if *at != l.Scan {
			continue
		}
		at.Path = filepath.ToSlash(l.Found)
		if folder != "" {
			at.Path = RelativeScan(folder, l.Found)
		}
		over := leaf.BackOver // which another path alone does not touch
		leaf = leaf.WithSide(l.Side, side)
		leaf.BackOver = over
		j = j.WithLeaf(leaf)
	}
	return j
}

// wantedFile is one file looked for, with all scans that it held.
type wantedFile struct {
	name   scanName
	scan   Scan
	taken  int // of found; −1
	sure   Sureness
	others []string
}

type matching struct {
	found   []Candidate
	names   []scanName
	free    []bool
	groups  []*wantedFile
	groupOf []int           // by wanted
	known   map[string]bool // checksums that the job records
}

func newMatching(job Job, wanted []ScanPlace, found []Candidate) *matching {
	m := &matching{known: map[string]bool{}}
	for _, p := range job.ScanPlaces() {
		m.known[p.Scan.SHA256] = p.Scan.SHA256 != ""
	}
	sorted := slices.Clone(found)
	slices.SortStableFunc(sorted, func(a, b Candidate) int { return cmp.Compare(a.Path, b.Path) })
	m.found = slices.CompactFunc(sorted, func(a, b Candidate) bool { return a.Path == b.Path })
	for _, c := range m.found {
		m.names, m.free = append(m.names, nameOfScan(c.Path)), append(m.free, true)
	}
	at := map[string]int{}
	for _, w := range wanted {
		i, ok := at[w.Scan.Path]
		if !ok {
			i = len(m.groups)
			at[w.Scan.Path] = i
			m.groups = append(m.groups, &wantedFile{name: nameOfScan(w.Scan.Path), scan: w.Scan, taken: -1, sure: NotFound})
		}
		m.groupOf = append(m.groupOf, i)
	}
	return m
}
