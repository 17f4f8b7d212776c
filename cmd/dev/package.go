package main

import (
	"bytes"
	"crypto/sha256"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"time"

	"leafmend/mendplan"
)

// targets are the systems the command line is built for.
var targets = []struct{ system, arch string }{
	{"darwin", "amd64"}, {"darwin", "arm64"},
	{"linux", "amd64"}, {"linux", "arm64"},
	{"windows", "amd64"}, {"windows", "arm64"},
}

// pack writes every package to dist/. The window is built for this machine
// and packed on Linux only, since it needs C; the command line for all.
func pack(args []string) error {
	flags := flag.NewFlagSet("package", flag.ContinueOnError)
	lineOnly := flags.Bool("cli", false, "only the command-line programs, which need no C")
	out := flags.String("o", "dist", "the folder to write to")
	if err := flags.Parse(args); err != nil {
		return err
	}
	when, err := packDate()
	if err != nil {
		return err
	}
	if err := os.MkdirAll(*out, 0o755); err != nil {
		return fmt.Errorf("making the folder for the packages: %w", err)
	}
	made, err := packLines(*out, when)
	if err != nil {
		return err
	}
	if !*lineOnly && runtime.GOOS == "linux" {
		more, err := packWindow(*out, when)
		if err != nil {
			return err
		}
		made = append(made, more...)
	}
	return writeSums(*out, made)
}

// packDate is the date in all packages: SOURCE_DATE_EPOCH if it is set, else
// that of the commit, so that one commit always gives the same bytes.
func packDate() (time.Time, error) {
	words := os.Getenv("SOURCE_DATE_EPOCH")
	if words == "" {
		out, err := exec.Command("git", "log", "-1", "--format=%ct").Output()
		if err != nil {
			return time.Time{}, fmt.Errorf("asking for the date of the commit (%w): outside a clone, set SOURCE_DATE_EPOCH to seconds since 1970", err)
		}
		words = string(bytes.TrimSpace(out))
	}
	seconds, err := strconv.ParseInt(words, 10, 64)
	if err != nil {
		return time.Time{}, fmt.Errorf("the date of the packages: “%s” are no seconds since 1970", words)
	}
	return time.Unix(seconds, 0).UTC(), nil
}

// compiled builds one program so that it does not depend on the place it was
// built in, and returns its bytes.
func compiled(env []string, program string) ([]byte, error) {
	dir, err := os.MkdirTemp("", "leafmend-package-")
	if err != nil {
		return nil, fmt.Errorf("making a folder to build in: %w", err)
	}
	defer os.RemoveAll(dir)
	file := filepath.Join(dir, "program")
	if err := goDo(env, "build", "-trimpath", "-buildvcs=false", "-ldflags", "-s -w -buildid=", "-o", file, program); err != nil {
		return nil, err
	}
	return os.ReadFile(file)
}

// packLines packs the command line for every target.
func packLines(out string, when time.Time) (made []string, err error) {
	for _, t := range targets {
		env := []string{"CGO_ENABLED=0", "GOOS=" + t.system, "GOARCH=" + t.arch, "GOAMD64=v1", "GOARM64=v8.0", "GOFLAGS="}
		text, err := licences(".", env, "./cmd/mendplan")
		if err != nil {
			return nil, err
		}
		program, err := compiled(env, "./cmd/mendplan")
		if err != nil {
			return nil, err
		}
		name := fmt.Sprintf("mendplan-%s-%s-%s", mendplan.Version, t.system, t.arch)
		files := []entry{{name + "/LICENCES.txt", 0o644, text}, {name + "/mendplan", 0o755, program}}
		var packed []byte
		if t.system == "windows" {
			name, files[1].path = name+".zip", files[1].path+".exe"
			packed, err = zipped(files, when)
		} else {
			name += ".tar.gz"
			packed, err = tarGz(files, "", when)
		}
		if err == nil {
			err = os.WriteFile(filepath.Join(out, name), packed, 0o644)
		}
		if err != nil {
			return nil, fmt.Errorf("making %s: %w", name, err)
		}
		made = append(made, name)
	}
	return made, nil
}

// packWindow packs both programs with all that the desktop wants, as a
// Debian package and as a tarball that unpacks into a prefix like /usr/local.
func packWindow(out string, when time.Time) (made []string, err error) {
	if err := setUp(forBuild); err != nil {
		return nil, err
	}
	window, err := compiled([]string{"CGO_ENABLED=1", "CGO_CFLAGS=-g0 -O2", "GOAMD64=v1", "GOFLAGS="}, "./cmd/leafmend")
	if err != nil {
		return nil, err
	}
	line, err := compiled([]string{"CGO_ENABLED=0", "GOAMD64=v1", "GOFLAGS="}, "./cmd/mendplan")
	if err != nil {
		return nil, err
	}
	text, err := licences(".", []string{"CGO_ENABLED=1", "GOFLAGS="}, "./cmd/leafmend", "./cmd/mendplan")
	if err != nil {
		return nil, err
	}
	files, err := installed(".", window, line, text, when)
	if err != nil {
		return nil, err
	}
	guide, err := guides(".", line)
	if err != nil {
		return nil, err
	}
	files = append(files, guide...)
	depends, err := debNeeds(window)
	if err != nil {
		return nil, err
	}
	name := "leafmend-" + mendplan.Version
	tarball, err := tarGz(files, name+"/", when)
	if err != nil {
		return nil, err
	}
	for i := range files {
		files[i].path = "usr/" + files[i].path
	}
	deb, err := debFile(debFacts{mendplan.Version, runtime.GOARCH, depends}, files, when)
	if err != nil {
		return nil, err
	}
	made = []string{name + "-linux-" + runtime.GOARCH + ".tar.gz", "leafmend_" + mendplan.Version + "_" + runtime.GOARCH + ".deb"}
	for i, data := range [][]byte{tarball, deb} {
		if err := os.WriteFile(filepath.Join(out, made[i]), data, 0o644); err != nil {
			return nil, fmt.Errorf("writing %s: %w", made[i], err)
		}
	}
	return made, nil
}

// installed lists what lies where below the prefix.
func installed(root string, window, line, licence []byte, when time.Time) ([]entry, error) {
	files := []entry{{"bin/leafmend", 0o755, window}, {"bin/mendplan", 0o755, line}, {"share/doc/leafmend/copyright", 0o644, licence}}
	fill := strings.NewReplacer("@VERSION@", mendplan.Version, "@DATE@", when.Format("2006-01-02"))
	for _, f := range []struct{ from, to string }{
		{"icon.svg", "share/icons/hicolor/scalable/apps/leafmend.svg"},
		{"icon.svg", "share/icons/hicolor/scalable/mimetypes/application-x-leafmend+json.svg"},
		{"package/leafmend.desktop", "share/applications/leafmend.desktop"},
		{"package/leafmend.xml", "share/mime/packages/leafmend.xml"},
		{"package/leafmend.1", "share/man/man1/leafmend.1.gz"},
		{"package/mendplan.1", "share/man/man1/mendplan.1.gz"},
	} {
		data, err := os.ReadFile(filepath.Join(root, "assets", f.from))
		if err != nil {
			return nil, fmt.Errorf("packing: %w", err)
		}
		if strings.HasSuffix(f.to, ".gz") {
			if data, err = gzipped([]byte(fill.Replace(string(data)))); err != nil {
				return nil, err
			}
		}
		files = append(files, entry{f.to, 0o644, data})
	}
	return files, nil
}

// writeSums lists the packages with their SHA-256 in the form of sha256sum.
func writeSums(out string, made []string) error {
	var sums strings.Builder
	slices.Sort(made)
	for _, name := range made {
		data, err := os.ReadFile(filepath.Join(out, name))
		if err != nil {
			return fmt.Errorf("summing the packages: %w", err)
		}
		fmt.Fprintf(&sums, "%x  %s\n", sha256.Sum256(data), name)
	}
	fmt.Print(sums.String())
	if err := os.WriteFile(filepath.Join(out, "SHA256SUMS"), []byte(sums.String()), 0o644); err != nil {
		return fmt.Errorf("summing the packages: %w", err)
	}
	return nil
}
