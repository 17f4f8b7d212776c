package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestRelinkNamesMovedScansAnewAndTellsChangedOnes(t *testing.T) {
	dir := t.TempDir()
	job := smallJob(t, dir)
	if r := mendplanRun("relink", job); r.code != exitUsage {
		t.Errorf("without a folder: %+v", r)
	}
	if r := mendplanRun("relink", "-from", filepath.Join(dir, "none"), job); r.code != exitFile {
		t.Errorf("a folder that is not there: %+v", r)
	}
	if r := mendplanRun("relink", "-from", dir, job); r.code != exitDone || !strings.Contains(r.out, "0 of 0") {
		t.Errorf("nothing is missing: %+v", r)
	}
	away := filepath.Join(dir, "away", "renamed.png")
	if err := os.Mkdir(filepath.Dir(away), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(filepath.Join(dir, "1f.png"), away); err != nil {
		t.Fatal(err)
	}
	before, _ := os.ReadFile(job)
	var rows []relinkRow
	r := mendplanRun("relink", "-json", "-from", dir, job)
	if err := json.Unmarshal([]byte(r.out), &rows); err != nil || r.code != exitDone || len(rows) != 1 || rows[0].Sure != "same bytes" || rows[0].Found != away {
		t.Errorf("json: %v %+v", err, r)
	}
	if after, _ := os.ReadFile(job); string(before) != string(after) {
		t.Error("the job was written without -o")
	}
	elsewhere := filepath.Join(dir, "away", "new.leafmend")
	for _, out := range []string{elsewhere, job} {
		if r := mendplanRun("relink", "-from", dir, "-o", out, job); r.code != exitDone {
			t.Errorf("relink: %+v", r)
		}
		if r := mendplanRun("check", out); strings.Contains(r.out, "is not there") || strings.Contains(r.out, "not the file") {
			t.Errorf("after relinking: %+v", r)
		}
	}
	_ = os.Remove(away)
	leafPNG(t, filepath.Join(dir, "away", "Renamed.PNG"))
	f, err := os.OpenFile(filepath.Join(dir, "away", "Renamed.PNG"), os.O_APPEND|os.O_WRONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	_, _ = f.WriteString("\n")
	_ = f.Close()
	if r := mendplanRun("relink", "-same", "-from", dir, job); r.code != exitProblems || !strings.Contains(r.out, "0 of 1") {
		t.Errorf("-same took another file: %+v", r)
	}
	if r := mendplanRun("relink", "-from", dir, "-o", job, job); r.code != exitProblems || !strings.Contains(r.out, "same name and size") || !strings.Contains(r.out, "changed") {
		t.Errorf("a changed scan: %+v", r)
	}
	if r := mendplanRun("check", job); !strings.Contains(r.out, "not the file the damages were traced on") {
		t.Errorf("a changed scan was taken silently: %+v", r)
	}
}
