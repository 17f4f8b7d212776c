package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// onCleanSystem installs the package on a Debian made for this trial, with
// whatever it says it depends on and nothing else, does the main job with it
// as a person without special rights, by the command line from the scans and
// in the window by real events, and takes it off again.
func onCleanSystem(deb, release string) (err error) {
	if os.Getuid() != 0 || !onPath("debootstrap")() {
		return errors.New("a clean system can be made by root only, with debootstrap installed")
	}
	s, err := newCleanSystem(release)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, s.close()) }()
	if err := s.install(deb); err != nil {
		return err
	}
	if err := s.fileTypeKnown(); err != nil {
		return err
	}
	if err := s.mainJob(); err != nil {
		return err
	}
	if err := s.windowWalk(); err != nil {
		return err
	}
	return s.takeOff()
}

// install has the system's own package manager bring what is needed.
func (s *cleanSystem) install(deb string) error {
	data, err := os.ReadFile(deb)
	if err != nil {
		return fmt.Errorf("reading the package: %w", err)
	}
	if err := os.WriteFile(s.outside("/leafmend.deb"), data, 0o644); err != nil {
		return fmt.Errorf("handing the package over: %w", err)
	}
	if err := s.run("apt-get", "update"); err != nil {
		return err
	}
	before, err := s.packages()
	if err != nil {
		return err
	}
	if err := s.run("apt-get", "install", "--yes", "/leafmend.deb"); err != nil {
		return err
	}
	after, err := s.packages()
	if err != nil {
		return err
	}
	brought := slices.DeleteFunc(after, func(p string) bool { return slices.Contains(before, p) })
	fmt.Printf("installed on a system of %d packages; it brought %d: %s\n", len(before), len(brought)-1, strings.Join(brought, " "))
	return nil
}

// fileTypeKnown checks with the desktop's own tools, brought for that, that
// job files open with the program and that its entry is well-formed.
func (s *cleanSystem) fileTypeKnown() error {
	if err := s.run("apt-get", "install", "--yes", "--no-install-recommends", "shared-mime-info", "desktop-file-utils", "xdg-utils", "libglib2.0-bin", "man-db"); err != nil {
		return err
	}
	if err := s.run("desktop-file-validate", "/usr/share/applications/leafmend.desktop"); err != nil {
		return err
	}
	job := home + "/a.leafmend"
	if err := errors.Join(s.give("sampledata/job/programme.leafmend", job), s.handOver()); err != nil {
		return err
	}
	for _, ask := range []struct {
		line []string
		want string
	}{
		{[]string{"gio", "info", "--attributes=standard::content-type", job}, "application/x-leafmend+json"},
		{[]string{"xdg-mime", "query", "default", "application/x-leafmend+json"}, "leafmend.desktop"},
		{[]string{"man", "--pager=cat", "mendplan"}, "MENDPLAN(1)"},
		{[]string{"man", "--pager=cat", "leafmend"}, "LEAFMEND(1)"},
	} {
		out, err := s.person(ask.line...)
		if err != nil || !strings.Contains(out, ask.want) {
			return errors.Join(fmt.Errorf("%s does not tell %s, but:\n%s", strings.Join(ask.line, " "), ask.want, out), err)
		}
	}
	fmt.Println("known to the desktop: entry, file type, programs to open it, manual pages")
	return nil
}

// give lays a file of the project into the system.
func (s *cleanSystem) give(file, to string) error {
	data, err := os.ReadFile(file)
	if err != nil {
		return fmt.Errorf("reading what the trial needs: %w", err)
	}
	if err := os.MkdirAll(filepath.Dir(s.outside(to)), 0o755); err != nil {
		return fmt.Errorf("making the folder of %s: %w", to, err)
	}
	if err := os.WriteFile(s.outside(to), data, 0o644); err != nil {
		return fmt.Errorf("laying down %s: %w", to, err)
	}
	return nil
}

// handOver makes all that was laid into the person's folder the person's own.
func (s *cleanSystem) handOver() error {
	return s.run("chown", "--recursive", conservator+":"+conservator, home)
}

// person runs a command as the conservator and returns all that it said.
func (s *cleanSystem) person(args ...string) (string, error) {
	line := s.asUser(args...)
	out, err := exec.Command(line[0], line[1:]...).CombinedOutput()
	return string(out), err
}

// mainJob goes from the scans to plan, cut list, printed set and open forms
// with the command line that was installed.
func (s *cleanSystem) mainJob() error {
	files, err := filepath.Glob("sampledata/job/*")
	if err != nil || len(files) == 0 {
		return errors.Join(errors.New("the sample job is not there"), err)
	}
	var scans []string
	for _, f := range files {
		to := home + "/job/" + filepath.Base(f)
		if err := s.give(f, to); err != nil {
			return err
		}
		if strings.HasSuffix(f, ".jpg") {
			scans = append(scans, to)
		}
	}
	if err := s.handOver(); err != nil {
		return err
	}
	const sample = home + "/job/programme.leafmend"
	for _, args := range [][]string{
		append([]string{"new", "-pair", "name", "-o", home + "/begun.leafmend"}, scans...),
		{"check", home + "/begun.leafmend"},
		append([]string{"inspect"}, scans[0]),
		{"plan", sample}, {"cutlist", sample},
		{"print", "-o", home + "/set.pdf", sample},
		{"print", "-lang", "de", "-o", home + "/satz.pdf", sample},
		{"export", "-as", "csv", "-o", home + "/tables", sample},
		{"export", "-as", "record", "-o", home + "/record.json", sample},
	} {
		line := s.asUser(append([]string{"mendplan"}, args...)...)
		if err := verbDone(args[0], exec.Command(line[0], line[1:]...)); err != nil {
			return err
		}
	}
	for _, name := range []string{"set.pdf", "satz.pdf"} {
		if err := isPDF(s.outside(home + "/" + name)); err != nil {
			return err
		}
	}
	fmt.Printf("command line: a job from %d scans, checked; plan, cut list, two printed sets, tables and record of the sample\n", len(scans))
	return nil
}

// windowWalk has the window test drive the window that was installed.
func (s *cleanSystem) windowWalk() error {
	err := windowTest("^TestWindow$", func(screen display) []string {
		line := strings.Join(s.asUser("DISPLAY="+screen.name, "FYNE_SCALE=1", "FYNE_THEME=light", "leafmend"), "\n")
		return []string{"LEAFMEND_LINE=" + line, "LEAFMEND_HOME=" + s.outside(home), "LEAFMEND_INSIDE=" + home}
	})
	if err != nil {
		return err
	}
	fmt.Println("window: the sample walked through by real events in the window that was installed")
	return nil
}

// takeOff removes the package and what came with it, and looks for what was
// left behind. The work of the person must all still be there.
func (s *cleanSystem) takeOff() error {
	if err := s.run("apt-get", "purge", "--yes", "--autoremove", "leafmend"); err != nil {
		return err
	}
	var left []string
	for _, dir := range []string{"/usr", "/etc", "/opt", "/var/lib", "/var/cache"} {
		err := filepath.WalkDir(s.outside(dir), func(path string, _ fs.DirEntry, err error) error {
			if err == nil && (strings.Contains(filepath.Base(path), "leafmend") || strings.Contains(filepath.Base(path), "mendplan")) {
				left = append(left, path)
			}
			return err
		})
		if err != nil {
			return fmt.Errorf("looking for what is left behind: %w", err)
		}
	}
	if len(left) > 0 {
		return fmt.Errorf("taken off, the package left behind %v", left)
	}
	if _, err := os.Stat(s.outside(home + "/set.pdf")); err != nil {
		return fmt.Errorf("taken off, the person's work is gone too: %w", err)
	}
	fmt.Println("taken off: nothing of it is left in the system, and the person's work is there")
	return nil
}
