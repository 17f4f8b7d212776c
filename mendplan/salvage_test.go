package mendplan_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"leafmend/mendplan"
)

// sampleFile is the sample job as it is written now.
func sampleFile(t testing.TB) ([]byte, mendplan.Job) {
	t.Helper()
	job, _, err := mendplan.LoadFile(filepath.Join("..", "sampledata", "job", "programme.leafmend"))
	if err != nil {
		t.Fatal(err)
	}
	data, err := mendplan.Encode(job)
	if err != nil {
		t.Fatal(err)
	}
	return data, job
}

// usable fails unless a job saves, and loads as it was saved.
func usable(t *testing.T, name string, j mendplan.Job) {
	t.Helper()
	data, err := mendplan.Encode(j)
	if err != nil {
		t.Fatalf("%s: what was salvaged cannot be saved: %v", name, err)
	}
	again, problems, err := mendplan.Decode(data)
	if err != nil || len(problems) > 0 {
		t.Fatalf("%s: what was salvaged does not load: %v %v", name, err, problems)
	}
	if out, err := mendplan.Encode(again); err != nil || !bytes.Equal(out, data) {
		t.Fatalf("%s: what was salvaged loads as something else (%v)", name, err)
	}
}

func TestOfAFileCutShortAnywhereTheBeginningIsSalvaged(t *testing.T) {
	data, job := sampleFile(t)
	first := len(`{"format": "leafmend job"`) + 3
	rng := rand.New(rand.NewPCG(8, 8))
	for range 500 {
		cut := first + rng.IntN(len(data)-2-first)
		got, lost, err := mendplan.Salvage(data[:cut])
		name := fmt.Sprintf("cut at byte %d", cut)
		if err != nil || len(lost) == 0 {
			t.Fatalf("%s: %v, %d lost", name, err, len(lost))
		}
		if len(got.Leaves) > len(job.Leaves) {
			t.Fatalf("%s: %d leaves of %d", name, len(got.Leaves), len(job.Leaves))
		}
		for i, l := range got.Leaves {
			want := job.Leaves[i]
			if i < len(got.Leaves)-1 {
				if diff := cmp.Diff(want, l); diff != "" {
					t.Fatalf("%s: leaf %d before the cut is another: %s", name, i, diff)
				}
				continue
			}
			for k, d := range l.Damages {
				if k < len(l.Damages)-1 {
					if diff := cmp.Diff(want.Damages[k], d); diff != "" {
						t.Fatalf("%s: a damage before the cut is another: %s", name, diff)
					}
				} else if cut := len(d.Points); cut < len(want.Damages[k].Points) && !d.NoMend {
					t.Fatalf("%s: half a trace is mended", name)
				}
			}
		}
		if cut%17 == 0 {
			usable(t, name, got)
			mendplan.Pieces(got) // must not fail on it
		}
	}
}

// recordsOf maps the number of each damage to its bytes in the file, with
// what stands before and after it up to its neighbours.
func recordsOf(data []byte) map[int][2]int {
	out := map[int][2]int{}
	lines := bytes.SplitAfter(data, []byte("\n"))
	at, start, number := 0, 0, 0
	for _, l := range lines {
		switch {
		case string(bytes.TrimRight(l, "\n")) == "    {":
			start, number = at-1, 0 // with the break before it
		case bytes.HasPrefix(l, []byte(`     "number": `)):
			fmt.Sscanf(string(l), `     "number": %d`, &number)
		case bytes.HasPrefix(l, []byte("    }")) && number > 0:
			out[number] = [2]int{start, at + len(l)}
			number = 0
		}
		at += len(l)
	}
	return out
}

func TestOneBadByteLosesNoOtherDamage(t *testing.T) {
	data, job := sampleFile(t)
	where := recordsOf(data)
	all := map[int]mendplan.Damage{}
	for _, l := range job.Leaves {
		for _, d := range l.Damages {
			all[d.Number] = d
		}
	}
	if len(where) != len(all) {
		t.Fatalf("%d of %d damages were found in the file", len(where), len(all))
	}
	told, silent := 0, 0
	for seed := range uint64(2000) {
		rng := rand.New(rand.NewPCG(seed, 77))
		bad := bytes.Clone(data)
		at := rng.IntN(len(bad))
		bad[at] = byte(rng.IntN(256))
		if bad[at] == data[at] {
			continue
		}
		name := fmt.Sprintf("seed %d: byte %d, line %d, %q for %q", seed, at, bytes.Count(data[:at], []byte("\n"))+1, bad[at], data[at])
		got, lost, err := mendplan.Salvage(bad)
		if err != nil {
			if at < 60 {
				continue // the head: another format, another version
			}
			t.Fatalf("%s: %v", name, err)
		}
		if len(lost) > 0 {
			told++
		} else {
			silent++
		}
		for n, d := range all {
			if w := where[n]; at >= w[0] && at < w[1] {
				continue
			}
			_, g, ok := got.FindDamage(n)
			if !ok {
				t.Fatalf("%s: damage %d is gone: %v", name, n, lost)
			}
			if diff := cmp.Diff(d, g); diff != "" {
				t.Fatalf("%s: damage %d is another: %s\n%v", name, n, diff, lost)
			}
		}
		if seed%20 == 0 {
			usable(t, name, got)
		}
	}
	t.Logf("%d files with losses told, %d still well-formed", told, silent)
}

func TestEachKindOfDamageToAFileIsToldByPlace(t *testing.T) {
	data, job := sampleFile(t)
	swap := func(old, new string) []byte {
		if !bytes.Contains(data, []byte(old)) {
			t.Fatalf("the file holds no %q", old)
		}
		return bytes.Replace(data, []byte(old), []byte(new), 1)
	}
	second := bytes.Index(data, []byte(`"number": 2,`))
	over := func(with byte, from, n int) []byte {
		out := bytes.Clone(data)
		copy(out[from:], bytes.Repeat([]byte{with}, n))
		return out
	}
	third := bytes.Index(data, []byte(`"id": "`+job.Leaves[2].ID+`"`))
	mark := job.Leaves[2].Mark
	for _, c := range []struct {
		name   string
		data   []byte
		leaves int
		want   []string
	}{
		{"a wrong type in one field", swap(`"number": 2,`, `"number": "two",`), len(job.Leaves), []string{"“number” could not be read"}},
		{"a doubled name", swap(`"number": 2,`, `"number": 2,`+"\n     "+`"number": 9,`), len(job.Leaves), []string{"damage 2: “number” stands twice"}},
		{"bytes that are no text", swap(`"mark": "`+mark, `"mark": "`+mark+"\xff\xfe"), len(job.Leaves), []string{"“mark” is not quite readable"}},
		{"not a number", swap(`"last_damage_number": `, `"last_damage_number": NaN`), len(job.Leaves), []string{"“last_damage_number” could not be read"}},
		{"a number beyond all", swap(`"mm_per_px_x": `, `"mm_per_px_x": 1e999`), len(job.Leaves), []string{"calibrate again", ", front"}},
		{"text after the end", append(bytes.Clone(data), "\nand more\n{\n"...), len(job.Leaves), []string{"nothing seems to be missing|could not be read as it was"}},
		{"zeros over a damage", over(0, second, 20), len(job.Leaves), []string{"line"}},
		{"zeros over the border of two leaves", over(0, third-300, 400), len(job.Leaves), []string{"which leaf this was cannot be read"}},
		{"a block of garbage", over(0xE9, third-300, 300), len(job.Leaves), []string{"line"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, lost, err := mendplan.Salvage(c.data)
			if err != nil {
				t.Fatal(err)
			}
			var all []string
			for _, l := range lost {
				all = append(all, l.Phrase().String())
			}
			list := strings.Join(all, "\n")
			if len(got.Leaves) != c.leaves {
				t.Errorf("%d leaves, want %d\n%s", len(got.Leaves), c.leaves, list)
			}
			for _, w := range c.want {
				found := false
				for _, either := range strings.Split(w, "|") {
					found = found || strings.Contains(list, either)
				}
				if !found {
					t.Errorf("the list does not say %q:\n%s", w, list)
				}
			}
			usable(t, c.name, got)
		})
	}
}

func TestWhatIsNoJobIsNotSalvaged(t *testing.T) {
	for _, data := range []string{"", "\x00\x00\x00", "%PDF-1.7\n \"x", `{"format":"shopping list"}`, `{"format":"leafmend job","version":7}`, strings.Repeat("[", 100_000), strings.Repeat("\n ", 50_000) + `"`} {
		if j, lost, err := mendplan.Salvage([]byte(data)); err == nil {
			t.Errorf("%.30q gave a job: %d leaves, %v", data, len(j.Leaves), lost)
		}
	}
}

func TestSalvageLeavesTheDamagedFileAlone(t *testing.T) {
	data, _ := sampleFile(t)
	path := filepath.Join(t.TempDir(), "a.leafmend")
	if err := os.WriteFile(path, data[:len(data)/2], 0o400); err != nil {
		t.Fatal(err)
	}
	if _, lost, err := mendplan.SalvageFile(path); err != nil || len(lost) == 0 {
		t.Fatal(err, lost)
	}
	if after, err := os.ReadFile(path); err != nil || !bytes.Equal(after, data[:len(data)/2]) {
		t.Error("the damaged file was changed")
	}
}

func FuzzSalvage(f *testing.F) {
	data, _ := sampleFile(f)
	f.Add(data)
	f.Add(data[:5000])
	f.Add([]byte("{\n \"leaves\": [\n  {\n   \"damages\": [\n    {\n     \"number\": 1,\n     \"points_px\": [\n      [1, 2],\n\x00\x00"))
	f.Add([]byte(`{"format":"leafmend job","version":1,"leaves":[{"id":"a","damages":[{"number":1,"rules":{"x":[[[[`))
	f.Fuzz(func(t *testing.T, data []byte) {
		j, _, err := mendplan.Salvage(data)
		if err != nil {
			return
		}
		out, err := mendplan.Encode(j)
		if err != nil {
			t.Fatalf("what was salvaged cannot be written: %v", err)
		}
		if _, problems, err := mendplan.Decode(out); err != nil || len(problems) > 0 {
			t.Fatalf("what was salvaged cannot be read: %v %v", err, problems)
		}
	})
}
