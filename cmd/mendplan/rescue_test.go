package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"leafmend/mendplan"
)

func TestADamagedJobIsCheckedAndRescuedElsewhere(t *testing.T) {
	whole, err := os.ReadFile(filepath.Join("..", "..", "sampledata", "job", "programme.leafmend"))
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	path, to := filepath.Join(dir, "a.leafmend"), filepath.Join(dir, "new", "b.leafmend")
	if err := os.WriteFile(path, whole[:len(whole)*2/3], 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(filepath.Dir(to), 0o755); err != nil {
		t.Fatal(err)
	}
	do := func(args ...string) (int, string, string) {
		var out, errs bytes.Buffer
		code := run(context.Background(), args, &out, &errs)
		return code, out.String(), errs.String()
	}
	code, out, errs := do("check", path)
	if code != exitProblems || !strings.Contains(out, "cut short") || !strings.Contains(out, "lost: ") || !strings.Contains(out, "damages") {
		t.Errorf("check: code %d\n%s%s", code, out, errs)
	}
	if code, out, errs = do("check", "-rescue", to, path); code != exitProblems {
		t.Fatalf("rescue: code %d\n%s%s", code, out, errs)
	}
	job, problems, err := mendplan.LoadFile(to)
	if err != nil || len(problems) > 0 || len(job.Leaves) == 0 {
		t.Fatalf("the rescued job: %v %v", err, problems)
	}
	if scan := job.Leaves[0].Front.Scan.Path; !strings.HasPrefix(scan, "../") {
		t.Errorf("the scan is named %q from the new folder", scan)
	}
	if code, _, errs = do("check", "-rescue", to, path); code != exitFile || !strings.Contains(errs, "already") {
		t.Errorf("a file that was there: code %d, %s", code, errs)
	}
	if code, _, _ = do("check", "-rescue", path, path); code != exitFile {
		t.Errorf("rescue over the damaged file: code %d", code)
	}
	if code, out, _ = do("check", "-json", path); code != exitProblems || !strings.Contains(out, `"damages_read"`) {
		t.Errorf("as JSON: code %d\n%s", code, out)
	}
	if code, _, _ = do("check", "-rescue", filepath.Join(dir, "c.leafmend"), to); code != exitUsage {
		t.Errorf("a whole job was rescued: code %d", code)
	}
	if after, err := os.ReadFile(path); err != nil || !bytes.Equal(after, whole[:len(whole)*2/3]) {
		t.Error("the damaged file was changed")
	}
}
