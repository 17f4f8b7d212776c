package mendplan_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"leafmend/mendplan"
)

func TestAFileOfANewerProgramSaysSoAndGoesOnSayingSo(t *testing.T) {
	data, err := mendplan.Encode(someJob())
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Contains(data, []byte(`"written_by": "`+mendplan.Version+`"`)) {
		t.Fatalf("the file does not tell the version:\n%.200s", data)
	}
	by := func(v, more string) []byte {
		return bytes.Replace(data, []byte(`"written_by": "`+mendplan.Version+`"`), []byte(`"written_by": "`+v+`"`+more), 1)
	}
	for _, c := range []struct {
		version, more string
		told          bool
	}{{"99.0.0", `, "mood": "calm"`, true}, {"99.0.0", "", true}, {mendplan.Version + ".1", "", true}, {mendplan.Version, `, "mood": "calm"`, false}, {"0.0.9", "", false}, {"", "", false}, {"of old", "", false}} {
		j, problems, err := mendplan.Decode(by(c.version, c.more))
		if err != nil {
			t.Fatalf("%s: %v", c.version, err)
		}
		if told := len(problems) == 1 && strings.Contains(problems[0].Words.String(), "newer version"); told != c.told || len(problems) > 1 {
			t.Errorf("version %q: told %v, want %v: %v", c.version, told, c.told, problems)
		}
		out, err := mendplan.Encode(j)
		if err != nil {
			t.Fatal(err)
		}
		want := mendplan.Version
		if c.told && c.more != "" {
			want = c.version // what it wrote is still in the file
		}
		if !bytes.Contains(out, []byte(`"written_by": "`+want+`"`)) || bytes.Contains(out, []byte("mood")) != (c.more != "") {
			t.Errorf("version %q: saved as\n%.200s", c.version, out)
		}
	}
}

// Every record of the file gets a field that is not known; all of them come
// back after an edit.
func TestUnknownFieldsSurviveAtEveryLevel(t *testing.T) {
	for name, job := range map[string]mendplan.Job{"tracing": someJob(), "work": workedJob()} {
		t.Run(name, func(t *testing.T) {
			data, err := mendplan.Encode(job)
			if err != nil {
				t.Fatal(err)
			}
			in := 0
			rules := false // a group of rules holds names of rules, not fields
			var out []byte
			for _, line := range strings.SplitAfter(string(data), "\n") {
				out = append(out, line...)
				open := strings.HasSuffix(line, "{\n")
				rules = strings.Contains(line, `"rules": {`) || strings.Contains(line, `"page_labels": {`)
				if open && !rules {
					out = append(out, fmt.Sprintf("\"from_a_newer_program_%d\": {\"kept\": [%d]},", in, in)...)
					in++
				}
			}
			j, _, err := mendplan.Decode(out)
			if err != nil {
				t.Fatal(err)
			}
			j.Title += " changed"
			back, err := mendplan.Encode(j)
			if err != nil {
				t.Fatal(err)
			}
			for i := range in {
				if !bytes.Contains(back, fmt.Appendf(nil, "\"from_a_newer_program_%d\": {", i)) {
					t.Errorf("the field of record %d of %d is lost", i, in)
				}
			}
			again, _, err := mendplan.Decode(back)
			if err != nil {
				t.Fatal(err)
			}
			if out, err := mendplan.Encode(again); err != nil || !bytes.Equal(out, back) {
				t.Errorf("what was saved loads as something else: %v", err)
			}
			t.Logf("%d records", in)
		})
	}
}

// Whatever version of the program wrote a job, it opens for ever.
func TestEveryVersionEverWrittenOpens(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("testdata", "versions", "*.leafmend"))
	if err != nil || len(files) < 4 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, path := range files {
		before, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		j, problems, err := mendplan.LoadFile(path)
		if err != nil || len(problems) > 0 {
			t.Errorf("%s: %v %v", path, err, problems)
			continue
		}
		if len(j.Unknown) > 0 {
			t.Errorf("%s: %d fields are not known any more, such as %q", path, len(j.Unknown), j.Unknown[0].Name)
		}
		out, err := mendplan.Encode(j)
		if err != nil {
			t.Fatal(err)
		}
		drop := regexp.MustCompile(`(?m)^ "written_by": .*\n`)
		if diff := cmp.Diff(drop.ReplaceAllString(string(before), ""), drop.ReplaceAllString(string(out), "")); diff != "" {
			t.Errorf("%s: not all of it is saved again: %s", path, diff)
		}
	}
}
