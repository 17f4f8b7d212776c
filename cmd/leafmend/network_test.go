package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// socketOf finds what a program asks of the kernel when it opens a socket.
var socketOf = regexp.MustCompile(`socket(?:pair)?\((AF_\w+|PF_\w+)`)

// TestWindowUsesNoNetwork watches every socket that the program opens while
// the sample job is opened, changed, printed and saved: only sockets of this
// machine's own, such as the display's, are let pass. The toolkit links the
// network library; this shows that it stays asleep.
func TestWindowUsesNoNetwork(t *testing.T) {
	file := needsWindow(t)
	log := filepath.Join(t.TempDir(), "sockets")
	watched(t, log)
	p := newProgram(t, file)
	p.watch = []string{"strace", "-f", "-qq", "-e", "trace=socket,socketpair,connect,sendto", "-o", log}
	p.start("programme.leafmend", "-sample")
	job := filepath.Join(p.home, ".config", "fyne", "leafmend", "sample", "programme.leafmend")
	p.key("Next", "Next", "Next", "Next")
	p.traceAndMove(job)
	p.cutAndPrint(job)
	p.quit()

	data, err := os.ReadFile(log)
	if err != nil {
		t.Fatal(err)
	}
	opened := socketOf.FindAllStringSubmatch(string(data), -1)
	own := 0
	for _, s := range opened {
		switch s[1] {
		case "AF_UNIX", "AF_LOCAL", "PF_UNIX", "PF_LOCAL":
			own++
		default:
			t.Errorf("the program opened a socket of the family %s", s[1])
		}
	}
	if own == 0 {
		t.Error("not even the display's socket was seen: was the program watched at all?")
	}
	if strings.Contains(string(data), "AF_INET") {
		t.Error("the program spoke to an address of the internet")
	}
	t.Logf("%d sockets of this machine, none beyond", own)
}

// watched makes sure that programs can be watched here, with a program of a
// moment. A container may forbid it to everybody.
func watched(t *testing.T, log string) {
	t.Helper()
	if _, err := exec.LookPath("strace"); err != nil {
		if os.Getenv("LEAFMEND_WINDOW") == "must" {
			t.Fatal("strace is needed to watch what the program opens")
		}
		t.Skip("strace, which watches what the program opens, is not installed")
	}
	if out, err := exec.Command("strace", "-o", log, "true").CombinedOutput(); err != nil {
		t.Skipf("this machine lets no program be watched, so its sockets cannot be: %s", out)
	}
}
