package ui

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/sampledata"
)

func TestADamagedJobIsOpenedAsUnsavedWorkAndItsFileStays(t *testing.T) {
	w := testWindow(t)
	dir := t.TempDir()
	if err := unpack(sampledata.Files(), dir); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, "programme"+mendplan.FileSuffix)
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	hurt := whole[:len(whole)*2/3]
	if err := os.WriteFile(path, hurt, 0o600); err != nil {
		t.Fatal(err)
	}
	w.openPath(path)
	if len(w.dialogs) != 1 || w.session.Path() != "" || len(w.session.Job().Leaves) != 0 {
		t.Fatalf("%d dialogs, path %q, %d leaves before the answer", len(w.dialogs), w.session.Path(), len(w.session.Job().Leaves))
	}
	pressIn(t, w, "Open what can be read")
	if w.session.Path() != "" || !w.session.Unsaved() || len(w.session.Job().Leaves) == 0 {
		t.Fatalf("path %q, unsaved %v, %d leaves", w.session.Path(), w.session.Unsaved(), len(w.session.Job().Leaves))
	}
	if name := w.session.proposed; name != "programme (recovered)"+mendplan.FileSuffix {
		t.Errorf("the proposed name is %q", name)
	}
	lost := 0
	for _, p := range w.session.found {
		if p.Kind == mendplan.BadFile {
			lost++
		}
	}
	if lost == 0 {
		t.Error("what was lost is not among the problems")
	}
	w.writeJob(path, nil)
	if after, err := os.ReadFile(path); err != nil || !bytes.Equal(after, hurt) {
		t.Error("the damaged file was written over")
	}
	pressIn(t, w, "Close")
	other := filepath.Join(dir, w.session.proposed)
	w.writeJob(other, nil)
	t.Cleanup(func() { w.keepLock(nil) })
	job, problems, err := mendplan.LoadFile(other)
	if err != nil || len(problems) > 0 || len(job.Leaves) != len(w.session.Job().Leaves) {
		t.Fatalf("saved under another name: %v, %v", err, problems)
	}
	if p := job.Leaves[0].Front.Scan.Path; strings.Contains(p, "/") {
		t.Errorf("the scan beside the job is named %q", p)
	}
}

func TestADamagedJobThatIsLeftChangesNothing(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	before := len(w.session.Job().Leaves)
	path := filepath.Join(t.TempDir(), "x"+mendplan.FileSuffix)
	data, err := mendplan.Encode(w.session.Job())
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, data[:len(data)-30], 0o600); err != nil {
		t.Fatal(err)
	}
	w.openPath(path)
	pressIn(t, w, "Leave it")
	if len(w.dialogs) != 0 || len(w.session.Job().Leaves) != before || w.session.damaged != "" {
		t.Error("the job in hand is another")
	}
}

// TestADamagedCopyOfUnsavedWorkIsTakenUpAsFarAsItCanBeRead cuts short the copy
// that a crash left. What can be read of it is put in hand with the scans it
// names, and the copy stays for whoever can read more of it.
func TestADamagedCopyOfUnsavedWorkIsTakenUpAsFarAsItCanBeRead(t *testing.T) {
	w := testWindow(t)
	dir := t.TempDir()
	if err := unpack(sampledata.Files(), dir); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, "programme"+mendplan.FileSuffix)
	job, _, err := mendplan.LoadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(w.recover.dir, 0o700); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(w.recover.dir, "x"+mendplan.FileSuffix)
	job.Title = "changed and not saved"
	if err := keepCopy(file, recoveryNote{Job: path, Base: dir, Process: endedProcess(t)}, job); err != nil {
		t.Fatal(err)
	}
	whole, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	hurt := whole[:len(whole)*2/3]
	if err := os.WriteFile(file, hurt, 0o600); err != nil {
		t.Fatal(err)
	}
	w.recover.offer(func() {})
	pressIn(t, w, "Take it up")
	pressIn(t, w, "Open what can be read")
	s := w.session
	if len(s.Job().Leaves) == 0 || !s.Unsaved() || s.Path() != "" || s.base != dir || s.proposed != "programme (recovered)"+mendplan.FileSuffix {
		t.Errorf("%d leaves in hand, unsaved %v, path %q, scans from %q, proposed as %q", len(s.Job().Leaves), s.Unsaved(), s.Path(), s.base, s.proposed)
	}
	if after, err := os.ReadFile(file); err != nil || !bytes.Equal(after, hurt) {
		t.Errorf("the damaged copy is another or gone: %v", err)
	}
}
