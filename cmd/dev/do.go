package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"time"
)

// show runs a command with its output on ours.
func show(cmd *exec.Cmd) error {
	cmd.Stdout, cmd.Stderr = os.Stdout, os.Stderr
	return cmd.Run()
}

// goDo runs the go tool in the module's folder with additions to the
// environment.
func goDo(env []string, args ...string) error {
	fmt.Println("go", strings.Join(args, " "))
	cmd := exec.Command("go", args...)
	cmd.Env = append(os.Environ(), env...)
	if err := show(cmd); err != nil {
		return fmt.Errorf("go %s: %w", args[0], err)
	}
	return nil
}

// headless builds without C and without a display: all but the window's own
// driver, which the toolkit's tag "ci" replaces by a driver in memory.
var headless = []string{"CGO_ENABLED=0", "LANG=C.UTF-8"}

func test(args []string) error {
	if err := setUp(forTest); err != nil {
		return err
	}
	if err := goDo(headless, "vet", "-tags", "ci", "./..."); err != nil {
		return err
	}
	if err := goDo(headless, append([]string{"test", "-timeout", "25m", "-tags", "ci", "./..."}, args...)...); err != nil {
		return err
	}
	fmt.Println("building the window; the first time takes some minutes")
	if err := windowTest("Window", func(display) []string { return nil }); err != nil {
		return err
	}
	return trial(nil)
}

// windowTest has the tests of that name drive the real program with real
// events on a virtual display of its own; more adds to their environment.
func windowTest(name string, more func(display) []string) error {
	screen, stop, err := startDisplay("1280x800x24")
	if err != nil {
		return err
	}
	defer stop()
	env := []string{"DISPLAY=" + screen.name, "LEAFMEND_WINDOW=must", "LEAFMEND_FRAME=" + screen.file(), "LANG=C.UTF-8", "FYNE_SCALE=1"}
	return goDo(append(env, more(screen)...), "test", "-count=1", "-run", name, "./cmd/leafmend")
}

func run(args []string) error {
	hidden := !hasDisplay()
	needs := forBuild
	if hidden {
		fmt.Println("no display here: the window opens on a virtual one and leaves a picture")
		needs = forHiddenRun
	}
	if err := setUp(needs); err != nil {
		return err
	}
	program, err := build()
	if err != nil {
		return err
	}
	if len(args) == 0 {
		args = []string{"-sample"}
	}
	if hidden {
		return runHidden(program, args)
	}
	return show(exec.Command(program, args...))
}

func build() (string, error) {
	name := filepath.Join("dist", "leafmend")
	if runtime.GOOS == "windows" {
		name += ".exe"
	}
	fmt.Println("building", name, "(the first time takes some minutes)")
	abs, err := filepath.Abs(name)
	if err != nil {
		return "", fmt.Errorf("finding the folder to build in: %w", err)
	}
	return abs, goDo(nil, "build", "-o", name, "./cmd/leafmend")
}

func hasDisplay() bool {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		return true
	}
	return os.Getenv("DISPLAY") != "" || os.Getenv("WAYLAND_DISPLAY") != ""
}

// runHidden shows the program on a virtual display until the picture stands
// still, keeps a picture of it and ends it.
func runHidden(program string, args []string) error {
	screen, stop, err := startDisplay("1280x800x24")
	if err != nil {
		return err
	}
	defer stop()
	ctx, cancel := context.WithTimeout(context.Background(), 90*time.Second)
	defer cancel()
	cmd := exec.CommandContext(ctx, program, args...)
	cmd.Env = append(os.Environ(), "DISPLAY="+screen.name, "FYNE_SCALE=1", "LANG=C.UTF-8")
	cmd.Stdout, cmd.Stderr = os.Stdout, os.Stderr
	if err := cmd.Start(); err != nil {
		return fmt.Errorf("starting %s: %w", program, err)
	}
	ended := make(chan error, 1)
	go func() { ended <- cmd.Wait() }()
	picture := filepath.Join("dist", "leafmend.png")
	select {
	case err := <-ended:
		return errors.Join(errors.New("the program ended before its window could be seen"), err)
	case err := <-screen.whenStill(ctx, picture):
		cancel()
		<-ended
		if err != nil {
			return err
		}
	}
	abs, err := filepath.Abs(picture)
	if err != nil {
		return fmt.Errorf("finding the picture: %w", err)
	}
	fmt.Println("a picture of the window:", abs)
	return nil
}

// govulncheck is pinned like every other tool; its list of faults is fetched
// anew each time.
const govulncheck = "golang.org/x/vuln/cmd/govulncheck@v1.9.0"

// vuln asks the Go project's list of known faults which of them the programs
// can reach. It is the only verb that needs the network for more than
// modules, so no other calls it. "-db file:///…" asks a copy of the list.
func vuln(args []string) error {
	for _, program := range []string{"./cmd/mendplan", "./cmd/leafmend"} {
		if err := goDo(nil, append(append([]string{"run", govulncheck}, args...), program)...); err != nil {
			return fmt.Errorf("%w (without a way to the list of faults nothing can be said; try again where there is one)", err)
		}
	}
	return nil
}

func sample([]string) error {
	return goDo(headless, "run", "./sampledata/generate")
}
