package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"leafmend/mendplan"
)

// climbing are names that would lead out of a folder, or to something that is
// no file, if a program took them for paths.
var climbing = []string{"../../escape", "/escape", `..\..\escape`, `C:\escape`, "//host/share/escape", "~/escape", "escape\x00.svg", "..", ".", "", "CON", "a/../../escape", "…/escape", strings.Repeat("../", 40) + "escape"}

// TestNoNameInAJobLeadsOutOfTheFolderWrittenTo gives every name of a job, one
// after the other, a path that climbs, writes all that can be written, and
// looks for files anywhere else than where they were asked for.
func TestNoNameInAJobLeadsOutOfTheFolderWrittenTo(t *testing.T) {
	root := t.TempDir()
	in, out := filepath.Join(root, "a", "b", "in"), filepath.Join(root, "a", "b", "out")
	if err := os.MkdirAll(in, 0o755); err != nil {
		t.Fatal(err)
	}
	file := smallJob(t, in)
	plain, _, err := mendplan.LoadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	before := filesBelow(t, root, out)
	for i, name := range climbing {
		job := plain.WithLeaf(plain.Leaves[0])
		leaf := job.Leaves[0]
		leaf.ID, leaf.Mark, leaf.Name = name, name, name
		job.Leaves = []mendplan.Leaf{leaf}
		job.Title, job.Number, job.Owner = name, name, name
		job.Gatherings = []mendplan.Gathering{{ID: name, Signature: name, Sheets: []mendplan.SheetPlace{{Leaf: name}}}}
		if err := mendplan.SaveFile(file, job); err != nil {
			t.Fatalf("%q: %v", name, err)
		}
		to := filepath.Join(out, string(rune('a'+i)))
		if err := os.MkdirAll(to, 0o755); err != nil {
			t.Fatal(err)
		}
		for _, form := range []string{"json", "csv", "record", "svg", "annotations", "tei"} {
			if r := mendplanRun("export", "-effort", "5", "-as", form, "-o", filepath.Join(to, form), file); r.code > exitProblems {
				t.Errorf("%q exported as %s gave %+v", name, form, r)
			}
		}
		for _, args := range [][]string{
			{"print", "-effort", "5", "-only", "leaves", "-o", filepath.Join(to, "set.pdf"), file},
			{"relink", "-from", in, "-o", filepath.Join(to, "linked.leafmend"), file},
			{"check", "-rescue", filepath.Join(to, "rescued.leafmend"), file},
		} {
			if r := mendplanRun(args...); r.code > exitUsage {
				t.Errorf("%q, %s gave %+v", name, args[0], r)
			}
		}
	}
	if after := filesBelow(t, root, out); !slices.Equal(before, after) {
		t.Errorf("files outside the folder written to were\n%v, are\n%v", before, after)
	}
	if n := len(filesBelow(t, out, "")); n < 7*len(climbing) {
		t.Errorf("only %d files were written", n)
	}
}

// filesBelow lists the files below a folder but those below another.
func filesBelow(t *testing.T, folder, but string) (files []string) {
	t.Helper()
	err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err == nil && path == but {
			return fs.SkipDir
		}
		if err == nil && !d.IsDir() {
			files = append(files, path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// TestAJobThatNamesNoFilesAsScansIsDoneAtOnce lets a job name as its scans
// what a program that opens it would read for ever.
func TestAJobThatNamesNoFilesAsScansIsDoneAtOnce(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("there are no such devices on Windows")
	}
	dir := t.TempDir()
	file := smallJob(t, dir)
	job, _, err := mendplan.LoadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	pipe := filepath.Join(dir, "pipe.png")
	makePipe(t, pipe)
	for _, path := range []string{"/dev/zero", "/dev/random", "/dev/stdin", pipe, dir, "/proc/self/mem", "../../../../../../../../etc/passwd"} {
		leaf := job.Leaves[0]
		leaf.Front.Scan.Path = path
		leaf.Front.Scan.SHA256 = strings.Repeat("0", 64)
		if err := mendplan.SaveFile(file, job.WithLeaf(leaf)); err != nil {
			t.Fatal(err)
		}
		for _, args := range [][]string{
			{"check", file}, {"inspect", path},
			{"print", "-effort", "5", "-only", "leaves", "-o", filepath.Join(dir, "x.pdf"), file},
			{"relink", "-from", dir, "-o", filepath.Join(dir, "y.leafmend"), file},
		} {
			os.Remove(filepath.Join(dir, "y.leafmend"))
			done := make(chan result, 1)
			go func() { done <- mendplanRun(args...) }()
			select {
			case r := <-done:
				if args[0] != "relink" && r.code == exitDone { // relink asks only whether there is a file
					t.Errorf("%s with the scan %s found nothing amiss", args[0], path)
				}
			case <-time.After(time.Minute):
				t.Fatalf("%s with the scan %s does not end", args[0], path)
			}
		}
	}
}
