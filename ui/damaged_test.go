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
