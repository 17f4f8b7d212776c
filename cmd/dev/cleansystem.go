package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// conservator is the person of no special rights who uses a clean system.
const conservator = "conservator"

// cleanSystem is a freshly made Debian in a folder, with nothing in it but
// what Debian calls essential, and a person to use it. Programs in it see its
// own files only; of this machine they have the display, /dev and /proc.
type cleanSystem struct {
	dir     string
	mounted []string
}

// newCleanSystem fetches a Debian of a release such as "bookworm".
func newCleanSystem(release string) (*cleanSystem, error) {
	dir, err := os.MkdirTemp("", "leafmend-clean-")
	if err != nil {
		return nil, fmt.Errorf("making a folder for the clean system: %w", err)
	}
	if err := os.Chmod(dir, 0o755); err != nil { // its users must get in
		return nil, fmt.Errorf("opening the folder of the clean system: %w", err)
	}
	fmt.Println("making a clean", release)
	s := &cleanSystem{dir: dir}
	if err := quiet(exec.Command("debootstrap", "--variant=minbase", release, dir)); err != nil {
		return nil, errors.Join(fmt.Errorf("making a clean %s: %w", release, err), s.close())
	}
	err = errors.Join(
		s.mount("/proc", "--types", "proc", "proc"),
		s.mount("/tmp/.X11-unix", "--bind", "/tmp/.X11-unix"), // where displays are reached
		s.run("useradd", "--create-home", conservator))
	if err != nil {
		return nil, errors.Join(err, s.close())
	}
	return s, nil
}

// mount lets the system see something of this machine.
func (s *cleanSystem) mount(at string, what ...string) error {
	to := s.outside(at)
	if err := os.MkdirAll(to, 0o755); err != nil {
		return fmt.Errorf("making %s to mount on: %w", to, err)
	}
	if err := quiet(exec.Command("mount", append(what, to)...)); err != nil {
		return fmt.Errorf("mounting %s: %w", at, err)
	}
	s.mounted = append(s.mounted, to)
	return nil
}

// close throws the system away, once nothing of this machine is seen from it
// any more: what is still mounted would be thrown away too.
func (s *cleanSystem) close() error {
	for _, to := range slices.Backward(s.mounted) {
		if err := quiet(exec.Command("umount", to)); err != nil {
			return fmt.Errorf("unmounting %s: %w", to, err)
		}
	}
	return os.RemoveAll(s.dir)
}

// run runs a command of the system as its administrator.
func (s *cleanSystem) run(args ...string) error {
	cmd := exec.Command("chroot", append([]string{s.dir}, args...)...)
	cmd.Env = []string{"PATH=/usr/sbin:/usr/bin:/sbin:/bin", "DEBIAN_FRONTEND=noninteractive", "LANG=C.UTF-8"}
	if err := quiet(cmd); err != nil {
		return fmt.Errorf("in the clean system, %s: %w", strings.Join(args, " "), err)
	}
	return nil
}

// asUser is the line that runs a command of the system as the conservator.
func (s *cleanSystem) asUser(args ...string) []string {
	return append([]string{"chroot", "--userspec=" + conservator + ":" + conservator, s.dir, "env", "-i", "--chdir=" + home, "HOME=" + home, "LANG=C.UTF-8", "PATH=/usr/bin:/bin"}, args...)
}

// home is the conservator's folder as seen from within.
const home = "/home/" + conservator

// outside is where a path of the system lies on this machine.
func (s *cleanSystem) outside(path string) string { return filepath.Join(s.dir, path) }

// packages lists what is installed.
func (s *cleanSystem) packages() ([]string, error) {
	out, err := exec.Command("chroot", s.dir, "dpkg-query", "--show", "--showformat=${Package}\n").Output()
	if err != nil {
		return nil, fmt.Errorf("listing the packages of the clean system: %w", err)
	}
	return strings.Fields(string(out)), nil
}

// quiet runs a command and tells what it said only if it fails.
func quiet(cmd *exec.Cmd) error {
	out, err := cmd.CombinedOutput()
	if err != nil {
		return fmt.Errorf("%w\n%s", err, out)
	}
	return nil
}
