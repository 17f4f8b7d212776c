//go:build linux || darwin

package mendplan_test

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"leafmend/mendplan"
)

const nobody = 65534 // a user without rights, on Linux and macOS

// sayFault is what the child does that meets a fault: it saves a large job at
// path under the fault named and says what came of it.
func sayFault(task, path string) {
	dir, name := filepath.Split(path)
	err := os.Chdir(dir) // the folders above may be closed to nobody
	switch {
	case err != nil:
	case task == "without rights":
		if os.Getuid() == 0 {
			err = syscall.Setuid(nobody)
		}
	case task == "with little room":
		signal.Ignore(syscall.SIGXFSZ) // the write fails instead of ending the process
		limit := syscall.Rlimit{Cur: 10_000, Max: 10_000}
		err = syscall.Setrlimit(syscall.RLIMIT_FSIZE, &limit)
	}
	if err != nil {
		fmt.Println("cannot be tried:", err)
		return
	}
	if err := mendplan.SaveFile(name, jobNumbered(22)); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("saved")
}

// oldJob saves a small job in a folder of its own.
func oldJob(t *testing.T, dir string) (path string, bytes []byte) {
	t.Helper()
	path = filepath.Join(dir, "old.leafmend")
	if err := mendplan.SaveFile(path, jobNumbered(0)); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return path, data
}

func said(t *testing.T, task, path string) string {
	t.Helper()
	out, err := child(task, path).Output()
	if err != nil {
		t.Fatalf("the child: %v\n%s", err, out)
	}
	words := strings.TrimSpace(string(out))
	if strings.HasPrefix(words, "cannot be tried") {
		t.Skip("this system does not let the fault be made: " + words)
	}
	return words
}

// keptWith checks that the old file is as it was, alone in its folder, and
// that what the user reads names file, fault and remedy.
func keptWith(t *testing.T, path string, old []byte, words, remedy string) {
	t.Helper()
	if now, err := os.ReadFile(path); err != nil || !bytes.Equal(now, old) {
		t.Errorf("the old file is not as it was: %d bytes, %v", len(now), err)
	}
	if parts := partsIn(t, filepath.Dir(path)); len(parts) > 0 {
		t.Errorf("left behind: %q", parts)
	}
	for _, part := range []string{filepath.Base(path), "the job could not be saved, the old file is as it was", remedy} {
		if !strings.Contains(words, part) {
			t.Errorf("%q does not say %q", words, part)
		}
	}
}

func TestAReadOnlyFolderKeepsTheOldJob(t *testing.T) {
	dir := t.TempDir()
	path, old := oldJob(t, dir)
	if err := os.Chmod(dir, 0o555); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.Chmod(dir, 0o755) })
	keptWith(t, path, old, said(t, "without rights", path), "save it in a folder you may write to")
}

// A limit on the size of files cuts a write short just as a full disk does.
func TestAWriteCutShortKeepsTheOldJob(t *testing.T) {
	path, old := oldJob(t, t.TempDir())
	keptWith(t, path, old, said(t, "with little room", path), "make room on the disk")
}

func TestAFullDiskKeepsTheOldJob(t *testing.T) {
	dir := t.TempDir()
	if out, err := exec.Command("mount", "-t", "tmpfs", "-o", "size=16k", "tmpfs", dir).CombinedOutput(); err != nil {
		t.Skipf("a small disk may not be mounted by this user: %v %s", err, bytes.TrimSpace(out))
	}
	t.Cleanup(func() { exec.Command("umount", dir).Run() })
	path, old := oldJob(t, dir)
	err := mendplan.SaveFile(path, jobNumbered(22))
	if err == nil {
		t.Fatal("a job larger than the disk was saved")
	}
	keptWith(t, path, old, err.Error(), "make room on the disk")
}

func TestAFolderThatVanishesIsNamedAndItsJobKept(t *testing.T) {
	shelf := t.TempDir()
	folder, away := filepath.Join(shelf, "network"), filepath.Join(shelf, "gone")
	if err := os.Mkdir(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	path, old := oldJob(t, folder)
	if err := os.Rename(folder, away); err != nil {
		t.Fatal(err)
	}
	err := mendplan.SaveFile(path, jobNumbered(22))
	if err == nil {
		t.Fatal("saved in a folder that is gone")
	}
	keptWith(t, filepath.Join(away, filepath.Base(path)), old, err.Error(), "the folder is gone: save it in another")
}
