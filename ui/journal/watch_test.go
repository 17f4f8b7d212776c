package journal_test

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"leafmend/ui/journal"
)

// endingVar names how this test's own program, started anew, is to end.
const (
	endingVar = "LEAFMEND_TEST_ENDING"
	folderVar = "LEAFMEND_TEST_FOLDER"
)

func TestMain(m *testing.M) {
	if how := os.Getenv(endingVar); how != "" {
		child(how, os.Getenv(folderVar))
		return
	}
	os.Exit(m.Run())
}

// child is a run of the program that ends in one of many ways.
func child(how, dir string) {
	j := journal.Open(filepath.Join(dir, "log"))
	w := journal.Watch(filepath.Join(dir, "crash"), j, "Leafmend 9.9 on testing", time.Now(), running)
	j.Log().Info("the run began", "n", 42)
	switch how {
	case "panic in a goroutine":
		go func() { panic(errors.New("cannot go on with /home/weber/Heft 2.tif")) }()
		time.Sleep(time.Minute)
	case "write to a nil map":
		var m map[string]int
		m["x"] = 1
	case "stack without end":
		endless(1)
	case "nil pointer":
		var p *struct{ a [10]int }
		fmt.Println(p.a[3])
	case "killed":
		if self, err := os.FindProcess(os.Getpid()); err == nil {
			self.Kill()
		}
		time.Sleep(time.Minute)
	case "asked to end":
		end := make(chan os.Signal, 1)
		signal.Notify(end, syscall.SIGTERM)
		if self, err := os.FindProcess(os.Getpid()); err == nil {
			self.Signal(syscall.SIGTERM)
		}
		<-end
		w.Done()
		j.Close()
	case "a panic that ended it":
		func() {
			defer func() { w.Crash(recover(), "goroutine 1 [running]:\n") }()
			panic("side 7: Heft 2.tif")
		}()
		os.Exit(1)
	case "a panic that was caught":
		func() {
			defer func() { w.Mishap(time.Now(), recover(), "goroutine 1 [running]:\n") }()
			panic("side 7: Heft 2.tif")
		}()
		w.Done()
	case "well":
		w.Done()
		j.Close()
	}
}

func endless(n int) int { return endless(n+1) + 1 }

func running(pid int) bool {
	p, err := os.FindProcess(pid)
	return err == nil && p.Signal(syscall.Signal(0)) == nil
}

func TestARunThatDoesNotEndWellLeavesAReport(t *testing.T) {
	for _, c := range []struct {
		how    string
		report bool
		says   []string
	}{
		{"panic in a goroutine", true, []string{"panic:", "cannot go on with", "goroutine", "watch_test.go", "n=42"}},
		{"write to a nil map", true, []string{"assignment to entry in nil map", "watch_test.go", "n=42"}},
		{"stack without end", true, []string{"newstack", "endless", "n=42"}},
		{"nil pointer", true, []string{"nil pointer", "watch_test.go", "n=42"}},
		{"killed", true, []string{"ended from outside", "n=42"}},
		{"a panic that ended it", true, []string{"panic: side 7", "n=42"}},
		{"a panic that was caught", true, []string{"was caught", "side 7", "n=42"}},
		{"asked to end", false, nil},
		{"well", false, nil},
	} {
		t.Run(c.how, func(t *testing.T) {
			dir := t.TempDir()
			cmd := exec.Command(os.Args[0])
			cmd.Env = append(os.Environ(), endingVar+"="+c.how, folderVar+"="+dir)
			out, err := cmd.CombinedOutput()
			if bad := c.report && !strings.Contains(c.how, "caught"); (err != nil) != bad {
				t.Fatalf("ended with %v:\n%.500s", err, out)
			}
			j := journal.Open(filepath.Join(dir, "log"))
			w := journal.Watch(filepath.Join(dir, "crash"), j, "Leafmend 9.9 on testing", time.Now(), running)
			reports, last := w.Reports(), w.LastRun()
			w.Done()
			if fault := c.report && c.how != "killed" && !strings.Contains(c.how, "caught"); last.Fault != fault || (last.Report != "") != (fault || c.how == "killed") {
				t.Errorf("the last run is told as %+v", last)
			}
			if (len(reports) == 1) != c.report || len(reports) > 1 {
				t.Fatalf("%d reports", len(reports))
			}
			if left, _ := filepath.Glob(filepath.Join(dir, "crash", "*.running")); len(left) > 0 {
				t.Errorf("left behind: %v", left)
			}
			if !c.report {
				return
			}
			data, err := os.ReadFile(reports[0])
			if err != nil {
				t.Fatal(err)
			}
			text := string(data)
			for _, want := range append(c.says, "Leafmend 9.9") {
				if !strings.Contains(text, want) {
					t.Errorf("the report does not say %q:\n%.1500s", want, text)
				}
			}
			for _, gone := range []string{"weber", "Heft", dir} {
				if strings.Contains(text, gone) {
					t.Errorf("the report says %q:\n%.1500s", gone, text)
				}
			}
		})
	}
}

func TestOnlyTheNewestReportsAreKept(t *testing.T) {
	dir := t.TempDir()
	w := journal.Watch(dir, nil, "Leafmend", time.Now(), running)
	begin := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	for i := range 12 {
		w.Mishap(begin.Add(time.Duration(i)*time.Second), fmt.Sprint("fault ", i), "")
	}
	w.Mishap(begin.Add(11*time.Second), "fault of the same second", "")
	w.Done()
	reports := w.Reports()
	if len(reports) != journal.MostReports {
		t.Fatalf("%d reports are kept", len(reports))
	}
	for i, want := range []string{"fault of the same second", "fault 11", "fault 10", "fault 9", "fault 8"} {
		if data, err := os.ReadFile(reports[i]); err != nil || !strings.Contains(string(data), want) {
			t.Errorf("report %d is not that of %q: %v", i, want, err)
		}
	}
}

func TestARunThatGoesOnElsewhereIsLeftAlone(t *testing.T) {
	dir := t.TempDir()
	other := filepath.Join(dir, "4711.running")
	if err := os.WriteFile(other, []byte("Leafmend\n---\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	w := journal.Watch(dir, nil, "Leafmend", time.Now(), func(pid int) bool { return pid == 4711 })
	w.Done()
	if _, err := os.Stat(other); err != nil || len(w.Reports()) > 0 {
		t.Errorf("%v, %d reports", err, len(w.Reports()))
	}
	again := journal.Watch(dir, nil, "Leafmend", time.Now(), func(int) bool { return false })
	again.Done()
	if _, err := os.Stat(other); err == nil || len(again.Reports()) != 1 {
		t.Errorf("%v, %d reports", err, len(again.Reports()))
	}
}

func TestWithoutAFolderNothingIsWatchedAndNothingFails(t *testing.T) {
	file := filepath.Join(t.TempDir(), "a file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, w := range []*journal.Watched{nil, {}, journal.Watch(filepath.Join(file, "crash"), nil, "Leafmend", time.Now(), running)} {
		if w.Mishap(time.Now(), "x", ""); len(w.Reports()) > 0 {
			t.Error("there are reports")
		}
		w.Done()
	}
}
