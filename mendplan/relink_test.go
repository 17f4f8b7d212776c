package mendplan_test

import (
	"context"
	"fmt"
	"math/rand"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/text/unicode/norm"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// scansOf is a job of n leaves with both sides and files for them.
func scansOf(n int) (mendplan.Job, []mendplan.Candidate) {
	var j mendplan.Job
	var files []mendplan.Candidate
	for i := range n {
		leaf := mendplan.Leaf{ID: fmt.Sprint("L", i+1), Mark: fmt.Sprint(i + 1)}
		for s, name := range []mendplan.SideName{mendplan.Front, mendplan.Back} {
			c := mendplan.Candidate{Path: fmt.Sprintf("scans/Übersicht é/Blatt %02d%s.tif", i+1, "rv"[s:s+1]),
				SHA256: fmt.Sprintf("%064x", 2*i+s+1), Width: 4000 + i, Height: 3000}
			leaf = leaf.WithSide(name, mendplan.Side{Scan: mendplan.Scan{Path: c.Path, Width: c.Width, Height: c.Height, SHA256: c.SHA256}})
			files = append(files, c)
		}
		j = j.WithLeaf(leaf)
	}
	return j, files
}

func moved(files []mendplan.Candidate, rename func(i int, p string) string) []mendplan.Candidate {
	out := make([]mendplan.Candidate, len(files))
	for i, c := range files {
		c.Path = rename(i, c.Path)
		out[i] = c
	}
	return out
}

func rescanned(files []mendplan.Candidate) []mendplan.Candidate {
	for i := range files {
		files[i].SHA256 = fmt.Sprintf("%064x", 10_000+i)
	}
	return files
}

func TestMovedScansAreFoundWhateverBecameOfThem(t *testing.T) {
	job, files := scansOf(12)
	same := func(_ int, p string) string { return "/new/" + p }
	for _, c := range []struct {
		name    string
		have    []mendplan.Candidate
		sure    mendplan.Sureness
		changed bool
	}{
		{"the folder was moved whole", moved(files, same), mendplan.SameBytes, false},
		{"all files were renamed", moved(files, func(i int, _ string) string { return fmt.Sprintf("/new/img_%d.tif", 900-i) }), mendplan.SameBytes, false},
		{"a folder was put between", moved(files, func(_ int, p string) string { return "/new/2026/" + path.Dir(p) + "/tif/" + path.Base(p) }), mendplan.SameBytes, false},
		{"all were scanned anew", rescanned(moved(files, same)), mendplan.SameFormat, true},
		{"names changed case and were scanned anew", rescanned(moved(files, func(_ int, p string) string { return "/new/" + strings.ToUpper(p) })), mendplan.SameFormat, true},
		{"accents are composed otherwise, scanned anew", rescanned(moved(files, func(_ int, p string) string { return "/new/" + norm.NFD.String(p) })), mendplan.SameFormat, true},
		{"exported in another format", rescanned(moved(files, func(_ int, p string) string { return "/new/" + strings.TrimSuffix(p, ".tif") + ".png" })), mendplan.NameOnly, true},
		{"sides named in another way", rescanned(moved(files, func(_ int, p string) string {
			return "/new/" + strings.NewReplacer("r.tif", " front.tif", "v.tif", " back.tif").Replace(p)
		})), mendplan.NameOnly, true},
	} {
		got := mendplan.ProposeRelinks(job, job.ScanPlaces(), c.have)
		for i, l := range got {
			if l.Found != c.have[i].Path || l.Sure != c.sure || l.Changed != c.changed {
				t.Errorf("%s: %s came to %+v, want %s", c.name, l.Scan.Path, l, c.have[i].Path)
			}
		}
	}
}

func TestOneFileIsNeverProposedForTwoScansThatDidNotShareIt(t *testing.T) {
	for seed := range int64(400) {
		r := rand.New(rand.NewSource(seed))
		job, files := scansOf(1 + r.Intn(8))
		if r.Intn(2) == 0 && len(job.Leaves) > 1 { // two leaves on one file of several pages
			l := job.Leaves[1]
			l.Front.Scan = job.Leaves[0].Front.Scan
			l.Front.Scan.Page = 1
			job = job.WithLeaf(l)
		}
		var have []mendplan.Candidate
		there := map[string]bool{}
		for _, c := range files {
			for range r.Intn(3) {
				d := c
				d.Path = "/new/" + []string{"", "a/", "b/a/"}[r.Intn(3)] + []string{c.Path, path.Base(c.Path), strings.ToLower(c.Path), norm.NFD.String(c.Path), fmt.Sprint(r.Int(), ".tif")}[r.Intn(5)]
				switch r.Intn(4) {
				case 0:
					d.SHA256 = fmt.Sprintf("%064x", r.Int())
				case 1:
					d.SHA256, d.Width = fmt.Sprintf("%064x", r.Int()), d.Width/2
				case 2:
					d.SHA256 = files[r.Intn(len(files))].SHA256 // names and bytes went apart
				}
				if !there[d.Path] {
					have = append(have, d)
				}
				there[d.Path] = true
			}
		}
		checkProposals(t, fmt.Sprint("seed ", seed), job, have)
		r.Shuffle(len(have), func(i, k int) { have[i], have[k] = have[k], have[i] })
		checkProposals(t, fmt.Sprint("seed shuffled ", seed), job, have)
	}
}

func checkProposals(t *testing.T, name string, job mendplan.Job, have []mendplan.Candidate) {
	t.Helper()
	byPath := map[string]mendplan.Candidate{}
	for _, c := range have {
		byPath[c.Path] = c
	}
	known := map[string]bool{}
	for _, p := range job.ScanPlaces() {
		known[p.Scan.SHA256] = true
	}
	givenTo := map[string]string{}
	for _, l := range mendplan.ProposeRelinks(job, job.ScanPlaces(), have) {
		c, ok := byPath[l.Found]
		switch {
		case l.Found == "" && (l.Sure != mendplan.NotFound && l.Sure != mendplan.Several || l.Changed):
			t.Errorf("%s: nothing found but %+v", name, l)
		case l.Found == "":
			continue
		case !ok:
			t.Errorf("%s: %s was never there", name, l.Found)
		case l.Changed != (c.SHA256 != l.Scan.SHA256) || (l.Sure == mendplan.SameBytes) == l.Changed:
			t.Errorf("%s: changed told as %v: %+v", name, l.Changed, l)
		case l.Changed && known[c.SHA256]:
			t.Errorf("%s: %s is another scan of the job by its bytes", name, l.Found)
		}
		if was, ok := givenTo[l.Found]; ok && was != l.Scan.Path {
			t.Errorf("%s: %s went to %s and %s", name, l.Found, was, l.Scan.Path)
		}
		givenTo[l.Found] = l.Scan.Path
	}
}

func TestCopiesOfEqualBytesAreToldAndNotChosenBetween(t *testing.T) {
	job, files := scansOf(3)
	two := append(moved(files, func(_ int, p string) string { return "/x/" + p }), moved(files, func(_ int, p string) string { return "/y/" + p })...)
	for _, l := range mendplan.ProposeRelinks(job, job.ScanPlaces(), two) {
		if l.Found != "" || l.Sure != mendplan.Several || len(l.Others) != 2 {
			t.Errorf("of two copies alike came %+v", l)
		}
	}
	loose := append(moved(files, func(_ int, p string) string { return "/x/" + p }), moved(files, func(i int, _ string) string { return fmt.Sprint("/y/", i, ".tif") })...)
	for _, l := range mendplan.ProposeRelinks(job, job.ScanPlaces(), loose) {
		if l.Found != "/x/"+l.Scan.Path || len(l.Others) != 1 {
			t.Errorf("the copy of the same name was to be proposed, the other told: %+v", l)
		}
	}
}

func laidOver(t *testing.T, l mendplan.Leaf) mendplan.Leaf {
	t.Helper()
	l, ok := l.LaidOver(geom.MirrorX(4000))
	if !ok {
		t.Fatal("a mirror was refused")
	}
	return l
}

func TestHalfOfTheScansFoundLeavesTheOtherHalfAlone(t *testing.T) {
	job, files := scansOf(8)
	job = job.WithLeaf(laidOver(t, job.Leaves[0]))
	half := moved(files[:8], func(_ int, p string) string { return "/new/" + p })
	links := mendplan.ProposeRelinks(job, job.ScanPlaces(), half)
	got := job.Relinked("/job", links)
	for i, p := range got.ScanPlaces() {
		want := files[i].Path
		if i < 8 {
			want = "../new/" + want
		}
		if p.Scan.Path != want || p.Scan.SHA256 != files[i].SHA256 {
			t.Errorf("scan %d is named %s, want %s; its checksum must stay", i, p.Scan.Path, want)
		}
	}
	if len(got.Leaves[0].BackOver) != 6 {
		t.Error("a file found again made the sides forget how they lie over one another")
	}
	if job.Leaves[0].Front.Scan.Path != files[0].Path {
		t.Error("the job in hand was written to")
	}
}

func TestASearchReadsFilesAndPassesOverWhatIsNone(t *testing.T) {
	dir := t.TempDir()
	put := func(name, bytes string) string {
		p := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(p), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(p, []byte(bytes), 0o600); err != nil {
			t.Fatal(err)
		}
		return p
	}
	sums := map[string]string{}
	var job mendplan.Job
	for i, name := range []string{"1.png", "2.png", "3.png"} {
		sums[name], _ = mendplan.ChecksumFile(put("was/"+name, name))
		job = job.WithLeaf(mendplan.Leaf{ID: name, Mark: fmt.Sprint(i), Front: mendplan.Side{Scan: mendplan.Scan{Path: "was/" + name, Width: 5, Height: 5, SHA256: sums[name]}}})
	}
	if m := mendplan.MissingScans(job, dir); len(m) != 0 {
		t.Fatalf("missing before anything was moved: %v", m)
	}
	_ = os.Remove(filepath.Join(dir, "was", "1.png"))
	_ = os.Remove(filepath.Join(dir, "was", "2.png"))
	renamed, rescan := put("new/deep/er/IMG.PNG", "1.png"), put("new/2.png", "another")
	put("new/.hidden/1.png", "1.png")
	put("new/notes.txt", "1.png")
	missing := mendplan.MissingScans(job, dir)
	if len(missing) != 2 {
		t.Fatalf("%d missing, want 2", len(missing))
	}
	links, whole, err := mendplan.FindMoved(context.Background(), job, dir, missing, dir, func(string) (int, int, error) { return 5, 5, nil }, nil)
	if err != nil || !whole {
		t.Fatal(err, whole)
	}
	if l := links[0]; l.Found != renamed || l.Sure != mendplan.SameBytes || len(l.Others) != 0 {
		t.Errorf("the renamed scan came to %+v", l)
	}
	if l := links[1]; l.Found != rescan || l.Sure != mendplan.SameFormat || !l.Changed {
		t.Errorf("the rescanned one came to %+v", l)
	}
	after := job.Relinked(dir, links)
	var kinds []mendplan.ProblemKind
	for _, p := range mendplan.CheckScans(after, dir) {
		kinds = append(kinds, p.Kind)
	}
	if fmt.Sprint(kinds) != "[scan changed]" {
		t.Errorf("after relinking the scans' problems are %v, want the changed one told", kinds)
	}
	if _, _, err := mendplan.PicturesUnder(context.Background(), filepath.Join(dir, "nowhere")); err == nil {
		t.Error("a folder that is not there was searched")
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, _, err := mendplan.FindMoved(ctx, job, dir, missing, dir, nil, nil); err == nil {
		t.Error("a search that was stopped told of nothing")
	}
}
