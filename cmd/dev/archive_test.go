package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

var packed = time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)

// someFiles has an odd and an even length, since ar fills up odd ones.
func someFiles() []entry {
	return []entry{{"share/doc/b", 0o644, []byte("odd")}, {"bin/a", 0o755, []byte("even")}}
}

func TestATarballHoldsFoldersBeforeTheirFilesAndNothingOfThisMachine(t *testing.T) {
	data, err := tarGz(someFiles(), "x/", packed)
	if err != nil {
		t.Fatal(err)
	}
	zr, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if !zr.ModTime.IsZero() || zr.Name != "" {
		t.Errorf("the gzip header tells %v %q", zr.ModTime, zr.Name)
	}
	var names []string
	for tr := tar.NewReader(zr); ; {
		h, err := tr.Next()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		names = append(names, h.Name)
		if !h.ModTime.Equal(packed) || h.Uid != 0 || h.Gid != 0 || h.Uname != "root" {
			t.Errorf("%s: %v, owner %d %s", h.Name, h.ModTime, h.Uid, h.Uname)
		}
		if body, err := io.ReadAll(tr); h.Name == "x/bin/a" && (err != nil || string(body) != "even" || h.Mode != 0o755) {
			t.Errorf("%s: %q, mode %o, %v", h.Name, body, h.Mode, err)
		}
	}
	if got, want := strings.Join(names, " "), "x/bin/ x/bin/a x/share/ x/share/doc/ x/share/doc/b"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestAZipFileComesBack(t *testing.T) {
	data, err := zipped(someFiles(), packed)
	if err != nil {
		t.Fatal(err)
	}
	zr, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	f, err := zr.Open("bin/a")
	if err != nil {
		t.Fatal(err)
	}
	if body, err := io.ReadAll(f); err != nil || string(body) != "even" || len(zr.File) != 2 || !zr.File[0].Modified.Equal(packed) {
		t.Errorf("%q of %d files, %v", body, len(zr.File), err)
	}
}

// The bytes follow the form told in the manual page deb(5) and ar.h: magic,
// headers of 60 bytes, bodies at even places.
func TestAnArFileHasItsMembersAtEvenPlaces(t *testing.T) {
	data, err := arFile([]entry{{"one", 0o644, []byte("odd")}, {"two", 0o644, []byte("even")}}, packed)
	if err != nil {
		t.Fatal(err)
	}
	want := "!<arch>\n" +
		"one             1772442000  0     0     100644  3         `\nodd\n" +
		"two             1772442000  0     0     100644  4         `\neven"
	if string(data) != want {
		t.Errorf("got\n%s\nwant\n%s", data, want)
	}
	if _, err := arFile([]entry{{path: "sixteen letters!"}}, packed); err == nil {
		t.Error("a name too long for the header was packed")
	}
}

func someDeb(t *testing.T) []byte {
	t.Helper()
	files, err := installed(filepath.Join("..", ".."), []byte("window"), []byte("line"), []byte("licences"), packed)
	if err != nil {
		t.Fatal(err)
	}
	for i := range files {
		files[i].path = "usr/" + files[i].path
	}
	data, err := debFile(debFacts{"1.2.3", "amd64", "libc6 (>= 2.34), libgl1"}, files, packed)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func TestTheSameFilesGiveTheSamePackage(t *testing.T) {
	if a, b := someDeb(t), someDeb(t); !bytes.Equal(a, b) {
		t.Error("two packages of the same files differ")
	}
}

// Debian's own tool reads the package: an independent check of ar, tar and
// control file.
func TestDebiansToolReadsThePackage(t *testing.T) {
	if _, err := exec.LookPath("dpkg-deb"); err != nil {
		t.Skip("dpkg-deb is not on this machine; the forms are checked byte by byte in the other tests")
	}
	dir := t.TempDir()
	deb := filepath.Join(dir, "leafmend.deb")
	if err := os.WriteFile(deb, someDeb(t), 0o644); err != nil {
		t.Fatal(err)
	}
	tool := func(args ...string) string {
		out, err := exec.Command("dpkg-deb", args...).CombinedOutput()
		if err != nil {
			t.Fatalf("dpkg-deb %s: %v\n%s", args[0], err, out)
		}
		return string(out)
	}
	for field, want := range map[string]string{"Package": "leafmend", "Version": "1.2.3", "Architecture": "amd64", "Depends": "libc6 (>= 2.34), libgl1"} {
		if got := strings.TrimSpace(tool("-f", deb, field)); got != want {
			t.Errorf("%s: %q, want %q", field, got, want)
		}
	}
	tool("-I", deb)
	listing := tool("-c", deb)
	for _, want := range []string{"-rwxr-xr-x root/root", "./usr/bin/leafmend\n", "./usr/bin/mendplan\n", "./usr/share/applications/leafmend.desktop\n",
		"./usr/share/mime/packages/leafmend.xml\n", "./usr/share/man/man1/leafmend.1.gz\n", "./usr/share/man/man1/mendplan.1.gz\n",
		"./usr/share/doc/leafmend/copyright\n", "./usr/share/icons/hicolor/scalable/apps/leafmend.svg\n"} {
		if !strings.Contains(listing, want) {
			t.Errorf("the package lists no %q:\n%s", want, listing)
		}
	}
	tool("-x", deb, filepath.Join(dir, "out"))
	if got, err := os.ReadFile(filepath.Join(dir, "out", "usr", "bin", "leafmend")); err != nil || string(got) != "window" {
		t.Errorf("unpacked: %q, %v", got, err)
	}
	tool("-e", deb, filepath.Join(dir, "control"))
	if _, err := exec.LookPath("md5sum"); err != nil {
		return
	}
	check := exec.Command("md5sum", "-c", filepath.Join(dir, "control", "md5sums"))
	check.Dir = filepath.Join(dir, "out")
	if out, err := check.CombinedOutput(); err != nil {
		t.Errorf("the sums do not hold: %v\n%s", err, out)
	}
}

// The package installs into an empty system and leaves it empty again.
func TestThePackageInstallsAndUninstalls(t *testing.T) {
	if _, err := exec.LookPath("dpkg"); err != nil || os.Geteuid() != 0 {
		t.Skip("installing wants dpkg and the rights of root; the package's form is tested without")
	}
	root := t.TempDir()
	deb := filepath.Join(t.TempDir(), "leafmend.deb")
	for _, dir := range []string{"info", "updates", "triggers"} {
		if err := os.MkdirAll(filepath.Join(root, "var", "lib", "dpkg", dir), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	for name, data := range map[string][]byte{filepath.Join(root, "var", "lib", "dpkg", "status"): nil, deb: someDeb(t)} {
		if err := os.WriteFile(name, data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	dpkg := func(args ...string) {
		t.Helper()
		// The empty system has no libraries, so what the package depends on
		// is not asked for; another machine's architecture is let pass.
		args = append([]string{"--root=" + root, "--log=" + os.DevNull, "--force-depends", "--force-architecture", "--force-not-root"}, args...)
		if out, err := exec.Command("dpkg", args...).CombinedOutput(); err != nil {
			t.Fatalf("dpkg %s: %v\n%s", strings.Join(args, " "), err, out)
		}
	}
	program := filepath.Join(root, "usr", "bin", "leafmend")
	dpkg("-i", deb)
	if st, err := os.Stat(program); err != nil || st.Mode().Perm() != 0o755 {
		t.Errorf("installed, the program is not there: %v", err)
	}
	dpkg("-P", "leafmend")
	if _, err := os.Stat(filepath.Join(root, "usr")); !os.IsNotExist(err) {
		t.Errorf("uninstalled, something is left in usr: %v", err)
	}
}
