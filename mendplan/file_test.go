package mendplan_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

var update = flag.Bool("update", false, "rewrite the masters under testdata")

// someJob uses every field of the file at least once.
func someJob() mendplan.Job {
	var rules mendplan.Rules
	rules = rules.With(mendplan.SideMargin, mendplan.Num(4)).With(mendplan.TearStyle, mendplan.Choice("strips"))
	return mendplan.Job{
		Title: "Annual of the Lantern Club", Number: "26-014", Owner: "Lantern Club", Notes: "two bifolia",
		Units: mendplan.Inches, Paper: mendplan.Letter,
		LeafPaper: mendplan.LeafDefaults{Grammage: 90, Grain: mendplan.GrainUpright, Coated: true},
		Leaves: []mendplan.Leaf{{
			ID: "L1", Mark: "1", Name: "outer sheet", Kind: mendplan.Bifolium, Grammage: 80, Grain: mendplan.GrainAcross, FoldMM: 148.5,
			Front: mendplan.Side{
				Scan: mendplan.Scan{Path: "scans/1f.jpg", Width: 3508, Height: 2480, SHA256: strings.Repeat("ab", 32), Page: 1},
				Calibration: mendplan.Calibration{Origin: mendplan.FromTwoPoints, MMPerPxX: 0.0847, MMPerPxY: 0.0846, DoubtPercent: 0.2,
					Words: "two points", Points: []geom.Pt{{X: 1, Y: 2}, {X: 1181, Y: 2}}, LengthsMM: []float64{100}},
				Outline:  []geom.Pt{{X: 10, Y: 10}, {X: 3490, Y: 12}, {X: 3488, Y: 2470}},
				TrueEdge: []geom.Pt{{X: 10, Y: 10}, {X: 3490, Y: 10}, {X: 3490, Y: 2470}, {X: 10, Y: 2470}},
			},
			Damages: []mendplan.Damage{
				{Number: 1, Kind: mendplan.Tear, Side: mendplan.Front, Points: []geom.Pt{{X: 10, Y: 500.5}, {X: 300, Y: 520.25}},
					Forks: [][]geom.Pt{{{X: 200, Y: 510}, {X: 220, Y: 600}}}, Start: mendplan.EndEdge, End: mendplan.EndBlind,
					Severity: mendplan.Severe, Unstable: true, Note: "wanders",
					Mends: []mendplan.Mend{{Style: mendplan.Strips, Tissue: "T1", Side: mendplan.Back, Rules: rules}}},
				{Number: 4, Kind: mendplan.Stain, Side: mendplan.Back, Points: []geom.Pt{{X: 1, Y: 1}, {X: 2, Y: 1}, {X: 2, Y: 2}}, NoMend: true},
			},
			Note: "brittle", Mended: true,
		}},
		Tissues:    []mendplan.Tissue{{ID: "T1", Name: "kozo tissue, 5 g/m²", Fibre: "kozo", Grammage: 5, ThicknessMM: 0.03, Colour: "#f3ead8", Use: mendplan.ForTears}},
		Stock:      []mendplan.Stock{{ID: "S1", Tissue: "T1", Kind: mendplan.SheetStock, LengthMM: 970, WidthMM: 640, Count: 3, GrainAlong: "length", MarginMM: 10, Price: 6.5, Currency: "EUR", Note: "drawer 2"}},
		Rules:      rules,
		LastNumber: 4,
	}
}

func TestAJobComesBackAsItWasSaved(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.leafmend")
	want := someJob()
	if err := mendplan.SaveFile(path, want); err != nil {
		t.Fatal(err)
	}
	got, problems, err := mendplan.LoadFile(path)
	if err != nil || len(problems) > 0 {
		t.Fatalf("err %v, problems %v", err, problems)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// The master is the file as it is written now, with a version of the program
// that never changes; a change in how the file is written shows in its diff.
// What was ever written stays under testdata/versions.
func TestTheFileIsWrittenAsTheMaster(t *testing.T) {
	got, err := mendplan.Encode(someJob())
	if err != nil {
		t.Fatal(err)
	}
	got = unversioned(got)
	master := filepath.Join("testdata", "job.leafmend")
	if *update {
		if err := os.WriteFile(master, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(master)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Error(diff)
	}
	if j, _, err := mendplan.Decode(want); err != nil || !cmp.Equal(j, someJob()) {
		t.Errorf("the master does not open as the job it was made from: %v", err)
	}
}

// unversioned puts a constant for the program's version, so that masters do
// not change with it.
func unversioned(file []byte) []byte {
	return bytes.Replace(file, []byte(`"written_by": "`+mendplan.Version+`"`), []byte(`"written_by": "0.0.0"`), 1)
}

func TestDamagedJobFilesAreRefusedWithPlaceAndRemedy(t *testing.T) {
	whole, err := mendplan.Encode(someJob())
	if err != nil {
		t.Fatal(err)
	}
	swap := func(old, new string) []byte {
		if !bytes.Contains(whole, []byte(old)) {
			t.Fatalf("the file holds no %q", old)
		}
		return bytes.Replace(whole, []byte(old), []byte(new), 1)
	}
	for _, c := range []struct {
		name string
		data []byte
		want []string
	}{
		{"an empty file", nil, []string{"empty", "recovery copy"}},
		{"a file cut short", whole[:len(whole)/2], []string{"cut short", "line "}},
		{"not JSON at all", []byte("%PDF-1.7 something"), []string{"not well-formed", "line 1"}},
		{"JSON of something else", []byte(`{"format":"shopping list","version":1}`), []string{"not a Leafmend job"}},
		{"a list", []byte(`[1,2]`), []string{"not a Leafmend job"}},
		{"a newer version", swap(`"version": 1`, `"version": 2`), []string{"version 2", "newer Leafmend"}},
		{"a version that never was", swap(`"version": 1`, `"version": -4`), []string{"never was"}},
		{"words where a number belongs", swap(`"width_px": 3508`, `"width_px": "wide"`), []string{"width_px", "number", "line "}},
		{"a point of three numbers", swap(`[10, 500.5]`, `[10, 500.5, 3]`), []string{"two numbers"}},
		{"a stray byte", swap(`"owner"`, "\x00\"owner\""), []string{"not well-formed", "line 7"}},
		{"bytes that are no text", swap("wanders", "w\xffnders"), []string{"no text", "line "}},
		{"a field that stands twice", swap(`"owner"`, `"title": "", "owner"`), []string{"“title” stands twice", "line 7"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "broken.leafmend")
			if err := os.WriteFile(path, c.data, 0o600); err != nil {
				t.Fatal(err)
			}
			_, _, err := mendplan.LoadFile(path)
			var fe *mendplan.FileError
			if !errors.As(err, &fe) {
				t.Fatalf("got %v, want a FileError", err)
			}
			if fe.Remedy.IsZero() || !strings.Contains(err.Error(), path) {
				t.Errorf("no remedy or no file named in %q", err)
			}
			for _, w := range c.want {
				if !strings.Contains(err.Error(), w) {
					t.Errorf("%q does not say %q", err, w)
				}
			}
		})
	}
}

func TestAMissingFileAndFolderAreNamed(t *testing.T) {
	gone := filepath.Join(t.TempDir(), "no", "such.leafmend")
	if _, _, err := mendplan.LoadFile(gone); err == nil || !strings.Contains(err.Error(), "no such file") {
		t.Errorf("got %v", err)
	}
	if err := mendplan.SaveFile(gone, someJob()); err == nil || !strings.Contains(err.Error(), "folder is gone") {
		t.Errorf("got %v", err)
	}
}

func TestAFailedWriteLeavesTheOldFileAndNothingElse(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.leafmend")
	if err := mendplan.SaveFile(path, someJob()); err != nil {
		t.Fatal(err)
	}
	before, _ := os.ReadFile(path)
	boom := errors.New("disk full")
	err := mendplan.WriteFile(path, func(io.Writer) error { return boom })
	if !errors.Is(err, boom) {
		t.Errorf("got %v", err)
	}
	after, _ := os.ReadFile(path)
	if !bytes.Equal(before, after) {
		t.Error("the old file was changed")
	}
	if entries, _ := os.ReadDir(dir); len(entries) != 1 {
		t.Errorf("%d files are left in the folder, want one", len(entries))
	}
}

func TestSavingKeepsPermissionsAndLinks(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("Windows keeps no such permissions, and links need a privilege there")
	}
	dir := t.TempDir()
	path, link := filepath.Join(dir, "a.leafmend"), filepath.Join(dir, "link.leafmend")
	if err := mendplan.SaveFile(path, someJob()); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(path, 0o640); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(path, link); err != nil {
		t.Fatal(err)
	}
	if err := mendplan.SaveFile(link, mendplan.Job{Title: "new"}); err != nil {
		t.Fatal(err)
	}
	st, err := os.Lstat(link)
	if err != nil || st.Mode()&os.ModeSymlink == 0 {
		t.Error("the link was replaced by a file")
	}
	if st, err := os.Stat(path); err != nil || st.Mode().Perm() != 0o640 {
		t.Errorf("permissions are %v, want 0640", st.Mode().Perm())
	}
}

func TestFieldsOfANewerProgramSurviveASave(t *testing.T) {
	data, err := mendplan.Encode(someJob())
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range []struct{ old, new string }{
		{`"title"`, `"mood": {"a": [1, 2.50]}, "title"`},
		{`"mark": "1"`, `"mark": "1", "humidity": 55`},
		{`"mm_per_px_x"`, `"tilt_deg": 0.25, "mm_per_px_x"`},
		{`"number": 4`, `"number": 4, "depth": "deep"`},
		{`"id": "S1"`, `"id": "S1", "shelf": 3`},
	} {
		data = bytes.Replace(data, []byte(s.old), []byte(s.new), 1)
	}
	j, _, err := mendplan.Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	j.Title = "changed here"
	j = j.WithoutDamage("L1", 1) // its neighbour's fields must stay with the neighbour
	out, err := mendplan.Encode(j)
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Title  string
		Mood   json.RawMessage
		Leaves []struct {
			Humidity float64
			Front    struct {
				Calibration struct {
					Tilt float64 `json:"tilt_deg"`
				}
			}
			Damages []struct {
				Number int
				Depth  string
			}
		}
		Stock []struct{ Shelf int }
	}
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	var mood bytes.Buffer
	if err := json.Compact(&mood, got.Mood); err != nil {
		t.Fatal(err)
	}
	l := got.Leaves[0]
	if got.Title != "changed here" || mood.String() != `{"a":[1,2.50]}` || l.Humidity != 55 || l.Front.Calibration.Tilt != 0.25 ||
		len(l.Damages) != 1 || l.Damages[0].Depth != "deep" || got.Stock[0].Shelf != 3 {
		t.Errorf("not everything came back:\n%s", out)
	}
}

func TestDoubledNumbersAndNamesArePutRightAndTold(t *testing.T) {
	j := someJob()
	j.Leaves = append(j.Leaves, j.Leaves[0])
	j.Leaves[1].Damages = append([]mendplan.Damage{{Number: -3, Kind: mendplan.Loss}}, j.Leaves[1].Damages...)
	j.LastNumber = 0
	data, err := mendplan.Encode(j)
	if err != nil {
		t.Fatal(err)
	}
	got, problems, err := mendplan.Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	if len(problems) != 4 {
		t.Errorf("%d problems, want one for the leaf and three for its damages: %v", len(problems), problems)
	}
	seen := map[int]bool{}
	for _, l := range got.Leaves {
		for _, d := range l.Damages {
			if d.Number < 1 || d.Number > got.LastNumber || seen[d.Number] {
				t.Errorf("number %d is not valid or used twice", d.Number)
			}
			seen[d.Number] = true
		}
	}
	if got.Leaves[0].ID == got.Leaves[1].ID {
		t.Error("two leaves have the same identifier")
	}
}

func TestEditsLeaveTheOldJobAlone(t *testing.T) {
	before := someJob()
	want := someJob()
	j, n := before.AddDamage("L1", mendplan.Damage{Kind: mendplan.Loss, Side: mendplan.Front})
	if n != 5 || j.LastNumber != 5 {
		t.Errorf("the new damage has number %d, the job's last is %d; want 5", n, j.LastNumber)
	}
	d, _ := j.Leaves[0].Damage(1)
	d.Note = "other"
	j = j.WithDamage("L1", d).WithoutDamage("L1", 4).WithTissue(mendplan.Tissue{ID: "T1"}).WithoutStock("S1").WithRule(mendplan.EndMargin, mendplan.Num(3)).MoveLeaf("L1", 7)
	if diff := cmp.Diff(want, before); diff != "" {
		t.Error("an edit changed the job it was made from:", diff)
	}
	if _, _, ok := j.FindDamage(4); ok {
		t.Error("damage 4 is still there")
	}
	if j2, n := j.AddDamage("L9", mendplan.Damage{}); n != 0 || !cmp.Equal(j, j2) {
		t.Error("a damage was added to a leaf that is not there")
	}
}

func FuzzDecode(f *testing.F) {
	whole, err := mendplan.Encode(someJob())
	if err != nil {
		f.Fatal(err)
	}
	f.Add(whole)
	f.Add(whole[:100])
	f.Add([]byte(`{"format":"leafmend job","version":1,"leaves":[{"id":"a"},{"id":"a","x":[[{}]]}],"last_damage_number":9223372036854775807}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		j, _, err := mendplan.Decode(data)
		if err != nil {
			return
		}
		again, err := mendplan.Encode(j)
		if err != nil {
			t.Fatalf("a job that was read cannot be written: %v", err)
		}
		j2, problems, err := mendplan.Decode(again)
		problems = slices.DeleteFunc(problems, func(p mendplan.Problem) bool { return p.Weight == mendplan.Advice }) // of a newer version
		if err != nil || len(problems) > 0 {
			t.Fatalf("a job that was written cannot be read: %v %v\n%s\n%+v", err, problems, again, j2)
		}
	})
}
