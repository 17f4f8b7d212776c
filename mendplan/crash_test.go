//go:build linux || darwin

package mendplan_test

import (
	"bufio"
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// The test binary starts itself again as a child that saves. The child must
// not reach the tests, so it is caught before them.
const childTask = "LEAFMEND_TEST_CHILD"

func init() {
	task := os.Getenv(childTask)
	if task == "" {
		return
	}
	if task == "save over and over" {
		saveForEver(os.Getenv("LEAFMEND_TEST_JOB"))
	}
	sayFault(task, os.Getenv("LEAFMEND_TEST_JOB"))
	os.Exit(0)
}

func child(task, path string) *exec.Cmd {
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), childTask+"="+task, "LEAFMEND_TEST_JOB="+path)
	cmd.Stderr = os.Stderr
	return cmd
}

// jobNumbered is a job that follows from its number alone, so that a file can
// be told whole by the number it names. Sizes go up and down.
func jobNumbered(n int) mendplan.Job {
	j := mendplan.Job{Title: strconv.Itoa(n), LastNumber: 1000}
	for i := range 1 + n*7%23 {
		leaf := mendplan.Leaf{ID: fmt.Sprintf("leaf%d", i), Mark: strconv.Itoa(i + 1)}
		for k := range 8 {
			at := float64(n + 10*i + k)
			leaf.Damages = append(leaf.Damages, mendplan.Damage{Number: 8*i + k + 1, Kind: mendplan.Tear, Points: []geom.Pt{{X: at, Y: 1}, {X: at, Y: 90.5}, {X: at + 3, Y: 200}}})
		}
		j.Leaves = append(j.Leaves, leaf)
	}
	return j
}

// saveForEver goes on from the version found and tells each version saved.
func saveForEver(path string) {
	j, _, err := mendplan.LoadFile(path)
	if err != nil {
		fmt.Fprintln(os.Stderr, "child:", err)
		os.Exit(1)
	}
	n, err := strconv.Atoi(j.Title)
	for err == nil {
		n++
		if err = mendplan.SaveFile(path, jobNumbered(n)); err == nil {
			fmt.Println(n)
		}
	}
	fmt.Fprintln(os.Stderr, "child:", err)
	os.Exit(1)
}

// killed runs the child until it has saved once, kills it after a further
// delay, and returns the last version it told of as saved.
func killed(t *testing.T, path string, delay time.Duration) (told int) {
	t.Helper()
	cmd := child("save over and over", path)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		n, err := strconv.Atoi(lines.Text())
		if err != nil {
			t.Fatalf("the child said %q", lines.Text())
		}
		if told == 0 {
			time.AfterFunc(delay, func() { cmd.Process.Kill() })
		}
		told = n
	}
	cmd.Wait() // ends with "signal: killed", as it should
	if told == 0 {
		t.Fatal("the child ended before it had saved once")
	}
	return told
}

// versionOf loads the file and checks that it holds one version and nothing
// else, byte for byte.
func versionOf(t *testing.T, path string) int {
	t.Helper()
	j, problems, err := mendplan.LoadFile(path)
	if err != nil {
		t.Fatalf("the job does not open: %v", err)
	}
	if len(problems) > 0 {
		t.Fatalf("the job opens with problems: %v", problems)
	}
	n, err := strconv.Atoi(j.Title)
	if err != nil {
		t.Fatal(err)
	}
	want, err := mendplan.Encode(jobNumbered(n))
	if err != nil {
		t.Fatal(err)
	}
	if got, err := os.ReadFile(path); err != nil || !bytes.Equal(got, want) {
		t.Fatalf("version %d is not whole: %d bytes, want %d (%v)", n, len(got), len(want), err)
	}
	return n
}

func partsIn(t *testing.T, dir string) (parts []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if strings.HasSuffix(e.Name(), ".part") {
			parts = append(parts, e.Name())
		}
	}
	return parts
}

// A program killed while it saves leaves the old version or the new one,
// loses nothing that was reported as saved, and leaves at most the one
// temporary file it was writing, which the next save removes.
func TestAProgramKilledWhileSavingLosesNothing(t *testing.T) {
	kills := 320
	if testing.Short() {
		kills = 30
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "song book.leafmend")
	if err := mendplan.SaveFile(path, jobNumbered(0)); err != nil {
		t.Fatal(err)
	}
	const seed = 8
	r := rand.New(rand.NewPCG(seed, 0))
	cut, newer := 0, 0
	for kill := range kills {
		told := killed(t, path, time.Duration(r.IntN(8000))*time.Microsecond)
		switch n := versionOf(t, path); n {
		case told:
		case told + 1:
			newer++ // killed between the save and the word of it
		default:
			t.Fatalf("seed %d, kill %d: version %d was saved, the file holds %d", seed, kill, told, n)
		}
		parts := partsIn(t, dir)
		if len(parts) > 1 {
			t.Fatalf("seed %d, kill %d: %d temporary files are left: %q", seed, kill, len(parts), parts)
		}
		cut += len(parts)
	}
	t.Logf("%d kills survived; %d cut a write short, %d came just after a write", kills, cut, newer)
	if cut < kills/20 {
		t.Errorf("only %d of %d kills cut a write short: the delays miss the moment", cut, kills)
	}
	if err := mendplan.SaveFile(path, jobNumbered(0)); err != nil {
		t.Fatal(err)
	}
	if parts := partsIn(t, dir); len(parts) > 0 {
		t.Errorf("a save that succeeded leaves %q", parts)
	}
}
