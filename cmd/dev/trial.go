package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"leafmend/mendplan"
)

// trial makes the Debian package twice, installs it into a folder that plays
// the root of a new system, does the main job with what was installed, and
// takes it off again. Nothing of the machine itself is touched. With -clean the
// root is a Debian made for it, see onCleanSystem.
func trial(args []string) error {
	flags := flag.NewFlagSet("trial", flag.ContinueOnError)
	clean := flags.String("clean", "", "try it on a clean Debian of this `release`, such as bookworm, with all that the package depends on (needs root, debootstrap and the network)")
	if err := flags.Parse(args); err != nil {
		return err
	}
	if runtime.GOOS != "linux" || !onPath("dpkg")() {
		fmt.Println("no dpkg here: the Debian package is not tried")
		return nil
	}
	needs := forHiddenRun
	if *clean != "" {
		needs = forTest
	}
	if err := setUp(needs); err != nil {
		return err
	}
	folder, err := os.MkdirTemp("", "leafmend-trial-")
	if err != nil {
		return fmt.Errorf("making a folder for the trial: %w", err)
	}
	defer os.RemoveAll(folder)
	deb, err := packTwice(folder)
	if err != nil {
		return err
	}
	if *clean != "" {
		return onCleanSystem(deb, *clean)
	}
	return onBareRoot(folder, deb)
}

// onBareRoot installs the package alone, without what it depends on.
func onBareRoot(folder, deb string) error {
	root, err := bareRoot(filepath.Join(folder, "root"))
	if err != nil {
		return err
	}
	if err := root.dpkg("--install", deb); err != nil {
		return err
	}
	if err := errors.Join(root.mainJob(folder), root.window(folder)); err != nil {
		return err
	}
	if err := root.dpkg("--purge", "leafmend"); err != nil {
		return err
	}
	return root.isBare()
}

// packTwice returns the Debian package, made twice with the same bytes.
func packTwice(folder string) (string, error) {
	when, err := packDate()
	if err != nil {
		when = time.Unix(1772442000, 0).UTC() // outside a clone any date will do
	}
	var first []byte
	for _, name := range []string{"a", "b"} {
		dir := filepath.Join(folder, name)
		if err := os.MkdirAll(dir, 0o755); err != nil {
			return "", fmt.Errorf("making a folder for the package: %w", err)
		}
		if _, err := packWindow(dir, when); err != nil {
			return "", err
		}
		data, err := os.ReadFile(filepath.Join(dir, debName()))
		if err != nil {
			return "", fmt.Errorf("reading the package back: %w", err)
		}
		if first == nil {
			first = data
		} else if !bytes.Equal(first, data) {
			return "", errors.New("made twice, the Debian package has other bytes")
		}
	}
	fmt.Printf("%s: %d bytes, the same twice\n", debName(), len(first))
	return filepath.Join(folder, "a", debName()), nil
}

func debName() string { return "leafmend_" + mendplan.Version + "_" + runtime.GOARCH + ".deb" }

// root is a folder that dpkg takes for the root of a system.
type root string

// bareRoot makes one with nothing in it but what dpkg keeps for itself.
func bareRoot(dir string) (root, error) {
	for _, d := range []string{"info", "updates", "triggers"} {
		if err := os.MkdirAll(filepath.Join(dir, "var/lib/dpkg", d), 0o755); err != nil {
			return "", fmt.Errorf("making a bare root: %w", err)
		}
	}
	for _, f := range []string{"status", "available"} {
		if err := os.WriteFile(filepath.Join(dir, "var/lib/dpkg", f), nil, 0o644); err != nil {
			return "", fmt.Errorf("making a bare root: %w", err)
		}
	}
	return root(dir), nil
}

// dpkg runs dpkg on the root alone. What the package depends on is on the
// machine and not in the root, so that is not asked for here.
func (r root) dpkg(args ...string) error {
	all := append([]string{"--root=" + string(r), "--force-not-root,depends,bad-path", "--log=" + filepath.Join(string(r), "dpkg.log")}, args...)
	if err := quiet(exec.Command("dpkg", all...)); err != nil {
		return fmt.Errorf("dpkg %s: %w", strings.Join(args, " "), err)
	}
	return nil
}

// mainJob goes from scans to the printed set with the command line that was
// installed.
func (r root) mainJob(folder string) error {
	program := filepath.Join(string(r), "usr/bin/mendplan")
	out, err := exec.Command(program, "version").CombinedOutput()
	if err != nil || !strings.Contains(string(out), mendplan.Version) {
		return errors.Join(fmt.Errorf("the installed mendplan says its version is “%s”", bytes.TrimSpace(out)), err)
	}
	scans, err := filepath.Glob("sampledata/job/2-*.jpg")
	if err != nil || len(scans) == 0 {
		return errors.Join(errors.New("the scans of the sample job are not there"), err)
	}
	sample := filepath.Join("sampledata", "job", "programme.leafmend")
	begun, pdf := filepath.Join(folder, "begun.leafmend"), filepath.Join(folder, "set.pdf")
	for _, args := range [][]string{
		append([]string{"new", "-o", begun, "-pair", "name"}, scans...), {"check", begun}, {"cutlist", sample}, {"print", "-o", pdf, sample},
	} {
		if err := verbDone(args[0], exec.Command(program, args...)); err != nil {
			return err
		}
	}
	if err := isPDF(pdf); err != nil {
		return err
	}
	fmt.Println("installed: a job made from scans, cut list and printed set of the sample")
	return nil
}

// verbDone runs a verb of the installed command line. Problems that it lists
// are no failure.
func verbDone(verb string, cmd *exec.Cmd) error {
	err := quiet(cmd)
	var code *exec.ExitError
	if err != nil && !(errors.As(err, &code) && code.ExitCode() == 1) { // 1: done, with problems listed
		return fmt.Errorf("the installed mendplan %s: %w", verb, err)
	}
	return nil
}

// isPDF fails unless the file is there and begins as a PDF does.
func isPDF(path string) error {
	if data, err := os.ReadFile(path); err != nil || !bytes.HasPrefix(data, []byte("%PDF-")) {
		return errors.Join(fmt.Errorf("the installed mendplan printed no %s", filepath.Base(path)), err)
	}
	return nil
}

// window starts the installed window and waits until it stands still.
func (r root) window(folder string) error {
	screen, stop, err := startDisplay("1280x800x24")
	if err != nil {
		return err
	}
	defer stop()
	ctx, cancel := context.WithTimeout(context.Background(), 90*time.Second)
	defer cancel()
	cmd := exec.CommandContext(ctx, filepath.Join(string(r), "usr/bin/leafmend"), "-sample")
	cmd.Env = append(os.Environ(), "DISPLAY="+screen.name, "FYNE_SCALE=1", "LANG=C.UTF-8", "HOME="+folder, "XDG_CONFIG_HOME="+filepath.Join(folder, "config"))
	if err := cmd.Start(); err != nil {
		return fmt.Errorf("starting the installed window: %w", err)
	}
	err = <-screen.whenStill(ctx, filepath.Join("dist", "installed.png"))
	cancel()
	cmd.Wait()
	if err != nil {
		return fmt.Errorf("the installed window: %w", err)
	}
	fmt.Println("installed: the window came up; its picture is dist/installed.png")
	return nil
}

// isBare reports what the package left behind when it was taken off.
func (r root) isBare() error {
	if left, err := filepath.Glob(filepath.Join(string(r), "usr", "*")); err != nil || len(left) > 0 {
		return errors.Join(fmt.Errorf("taken off, the package left behind %v", left), err)
	}
	fmt.Println("taken off: nothing is left behind")
	return nil
}
