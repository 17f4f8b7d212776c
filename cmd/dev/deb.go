package main

import (
	"bytes"
	"crypto/md5"
	"debug/elf"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
)

// providers names the Debian package of each library the window may need.
var providers = map[string]string{
	"libc.so.6": "libc6", "libm.so.6": "libc6", "libdl.so.2": "libc6", "librt.so.1": "libc6", "libpthread.so.0": "libc6",
	"ld-linux-x86-64.so.2": "libc6", "ld-linux-aarch64.so.1": "libc6", "libresolv.so.2": "libc6",
	"libGL.so.1": "libgl1", "libX11.so.6": "libx11-6", "libXcursor.so.1": "libxcursor1", "libXi.so.6": "libxi6",
	"libXinerama.so.1": "libxinerama1", "libXrandr.so.2": "libxrandr2", "libXxf86vm.so.1": "libxxf86vm1",
}

// debNeeds reads from a program which packages it depends on, with the
// version of the C library its symbols ask for.
func debNeeds(program []byte) (string, error) {
	f, err := elf.NewFile(bytes.NewReader(program))
	if err != nil {
		return "", fmt.Errorf("reading what the program needs: %w", err)
	}
	libraries, err := f.ImportedLibraries()
	if err != nil {
		return "", fmt.Errorf("reading what the program needs: %w", err)
	}
	symbols, err := f.ImportedSymbols()
	if err != nil {
		return "", fmt.Errorf("reading what the program needs: %w", err)
	}
	var needs []string
	for _, lib := range libraries {
		name, ok := providers[lib]
		if !ok {
			return "", fmt.Errorf("the program needs %s, whose package is not known: add it to providers in cmd/dev/deb.go", lib)
		}
		needs = append(needs, name)
	}
	libc := "0"
	for _, s := range symbols {
		if v, ok := strings.CutPrefix(s.Version, "GLIBC_"); ok && olderVersion(libc, v) {
			libc = v
		}
	}
	slices.Sort(needs)
	needs = slices.Compact(needs)
	if i := slices.Index(needs, "libc6"); i >= 0 && libc != "0" {
		needs[i] = "libc6 (>= " + libc + ")"
	}
	return strings.Join(needs, ", "), nil
}

// olderVersion compares versions of numbers and dots.
func olderVersion(a, b string) bool {
	as, bs := strings.Split(a, "."), strings.Split(b, ".")
	for i := range min(len(as), len(bs)) {
		x, err1 := strconv.Atoi(as[i])
		y, err2 := strconv.Atoi(bs[i])
		if err1 != nil || err2 != nil {
			return false // GLIBC_PRIVATE and the like
		}
		if x != y {
			return x < y
		}
	}
	return len(as) < len(bs)
}

// debFacts is what the control file of a package says.
type debFacts struct {
	version, arch, depends string
}

// debWords ends the control file. What is recommended is looked for by the
// window as it starts, for pointers, screens and input; it runs without.
const debWords = `Recommends: libgl1-mesa-dri, libxcursor1, libxi6, libxinerama1, libxrandr2, libxxf86vm1
Section: misc
Priority: optional
Description: plan the mending of folded-sheet publications
 Leafmend works out, from scans of damaged leaves, every piece of Japanese
 tissue with its margins and grain, how all pieces come out of the sheets and
 remnants at hand, what to cook of paste, and prints a cut list and templates
 at true size. It uses no network.
`

// debFile writes a Debian package. There are no scripts to run: the desktop
// reads entry, icon and file type by the triggers of its own packages.
func debFile(facts debFacts, files []entry, when time.Time) ([]byte, error) {
	var sums strings.Builder
	size := 0
	for _, f := range withFolders(files) {
		if f.mode.IsRegular() {
			fmt.Fprintf(&sums, "%x  %s\n", md5.Sum(f.body), f.path)
			size += len(f.body)/1024 + 1
		}
	}
	control := fmt.Sprintf("Package: leafmend\nVersion: %s\nArchitecture: %s\nMaintainer: The Leafmend authors\nInstalled-Size: %d\n", facts.version, facts.arch, size)
	if facts.depends != "" {
		control += "Depends: " + facts.depends + "\n"
	}
	about, err := tarGz([]entry{{"control", 0o644, []byte(control + debWords)}, {"md5sums", 0o644, []byte(sums.String())}}, "./", when)
	if err != nil {
		return nil, err
	}
	data, err := tarGz(files, "./", when)
	if err != nil {
		return nil, err
	}
	return arFile([]entry{{"debian-binary", 0o644, []byte("2.0\n")}, {"control.tar.gz", 0o644, about}, {"data.tar.gz", 0o644, data}}, when)
}
