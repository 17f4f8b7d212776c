package mendplan_test

import (
	"fmt"
	"runtime"
	"strings"
	"testing"

	"leafmend/mendplan"
)

// spent returns how many bytes were made room for in all while f ran.
func spent(f func()) uint64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	f()
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc
}

// Files that are small on the disk must not become large in memory: what is
// refused is refused before room is made for it.
func TestFilesOfFarTooMuchAreRefusedWithinBounds(t *testing.T) {
	job := func(rest string) string { return "{\"format\":\"leafmend job\",\"version\":1," + rest + "}" }
	many := func(s string, n int) string { return strings.Repeat(s+",", n-1) + s }
	for _, c := range []struct {
		name, data, says string
		mostMB           uint64 // of Decode and Salvage together
	}{
		{"a million damages", job(`"leaves":[{"damages":[` + many(`{"number":1}`, 1_000_000) + `]}]`), "far more records", 400},
		{"a million leaves that are nothing", job(`"leaves":[` + many(`{}`, 1_000_000) + `]`), "far more records", 400},
		{"a million numbers for leaves", job(`"leaves":[` + many(`0`, 1_000_000) + `]`), "far more records", 400},
		{"a trace of ten million points", job(`"leaves":[{"damages":[{"number":1,"points_px":[` + many(`[1,2]`, 10_000_000) + `]}]}]`), "far more records", 100},
		{"brackets a hundred thousand deep", strings.Repeat("[", 100_000), "", 100},
		{"records a hundred thousand deep", job(`"x":` + strings.Repeat(`{"a":`, 100_000)), "", 100},
		{"a number beyond all", job(`"last_damage_number":1e999`), "", 5},
		{"not a number", job(`"last_damage_number":NaN`), "", 5},
	} {
		t.Run(c.name, func(t *testing.T) {
			data := []byte(c.data)
			c.data = ""
			used := spent(func() {
				if _, _, err := mendplan.Decode(data); err == nil || !strings.Contains(err.Error(), c.says) {
					t.Errorf("got %v, want %q", err, c.says)
				}
				if len(data) < 1<<20 {
					_, _, _ = mendplan.Salvage(data) // must return
				}
			})
			if used > c.mostMB<<20 {
				t.Errorf("%d MB were used, at most %d are allowed", used>>20, c.mostMB)
			}
			t.Logf("%d MB of file, %d MB used", len(data)>>20, used>>20)
		})
	}
}

// Numbers that are numbers, but no sizes, come to problems and not to pieces
// or a panic.
func TestNumbersThatAreNoSizesAreLivedWith(t *testing.T) {
	for _, n := range []string{"1e308", "-1e308", "-0", "1e-320", "9007199254740993", "1e999", "NaN", "Infinity"} {
		data := fmt.Appendf(nil, `{"format":"leafmend job","version":1,"leaves":[{"id":"a","front":{"calibration":{"mm_per_px_x":%s,"mm_per_px_y":%[1]s},"true_edge_px":[[0,0],[%[1]s,0],[%[1]s,9],[0,9]]},"damages":[{"number":1,"kind":"tear","side":"front","points_px":[[0,0],[%[1]s,%[1]s],[5,5]]}]}],"tissues":[{"id":"t","name":"x","grammage_g_per_m2":%[1]s}],"stock":[{"id":"s","tissue":"t","length_mm":%[1]s,"width_mm":%[1]s,"count":1}]}`, n)
		job, _, err := mendplan.Decode(data)
		if err != nil {
			if job, _, err = mendplan.Salvage(data); err != nil {
				t.Errorf("%s: %v", n, err)
				continue
			}
		}
		mendplan.Compute(job)
		if _, err := mendplan.Encode(job); err != nil {
			t.Errorf("%s: what was read cannot be saved: %v", n, err)
		}
	}
}

// Ten thousand fields of a newer program cost about as much as one to keep:
// one pass over the file.
func TestManyUnknownFieldsAreKeptInOnePass(t *testing.T) {
	var b strings.Builder
	b.WriteString("{\"format\":\"leafmend job\",\"version\":1,\"leaves\":[{\"id\":\"a\",\"damages\":[")
	const n = 10_000
	for i := range n {
		if i > 0 {
			b.WriteByte(',')
		}
		fmt.Fprintf(&b, `{"number":%d,"kind":"tear","side":"front","points_px":[[1,2],[3,4]],"depth":"d%d"}`, i+1, i)
	}
	b.WriteString("]}]}")
	job, _, err := mendplan.Decode([]byte(b.String()))
	if err != nil || len(job.Unknown) != n {
		t.Fatalf("%d unknown fields, %v", len(job.Unknown), err)
	}
	var out []byte
	if used := spent(func() { out, err = mendplan.Encode(job) }); err != nil || used > 200<<20 {
		t.Errorf("%d MB were used, %v", used>>20, err)
	}
	if got := strings.Count(string(out), `"depth": "d`); got != n {
		t.Errorf("%d of %d fields were kept", got, n)
	}
}
