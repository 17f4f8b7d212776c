package main

import (
	"bytes"
	"encoding/xml"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"
)

func readText(t *testing.T, parts ...string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(append([]string{"..", ".."}, parts...)...))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestTheManualOfTheCommandLineNamesEveryVerb(t *testing.T) {
	manual := readText(t, "assets", "package", "mendplan.1")
	verbs := regexp.MustCompile(`(?m)^\t\{"([a-z]+)", "`).FindAllStringSubmatch(readText(t, "cmd", "mendplan", "main.go"), -1)
	if len(verbs) < 5 {
		t.Fatalf("only %d verbs were found: has their table moved?", len(verbs))
	}
	for _, v := range verbs {
		if !strings.Contains(manual, "\n.BI "+v[1]+" ") {
			t.Errorf("the manual page tells nothing of “%s”", v[1])
		}
	}
}

func TestTheManualOfTheWindowNamesEveryFlag(t *testing.T) {
	manual := readText(t, "assets", "package", "leafmend.1")
	flags := regexp.MustCompile(`flag\.(?:Bool|String|Int|Float64|Duration)\("([a-z-]+)"`).FindAllStringSubmatch(readText(t, "cmd", "leafmend", "main.go"), -1)
	if len(flags) == 0 {
		t.Fatal("no flags were found: have they moved?")
	}
	for _, f := range flags {
		if !strings.Contains(manual, `\-`+f[1]) {
			t.Errorf("the manual page tells nothing of -%s", f[1])
		}
	}
}

func TestTheDesktopKnowsJobFilesByOneType(t *testing.T) {
	var info struct {
		Type struct {
			Name string `xml:"type,attr"`
			Glob struct {
				Pattern string `xml:"pattern,attr"`
			} `xml:"glob"`
		} `xml:"mime-type"`
	}
	if err := xml.Unmarshal([]byte(readText(t, "assets", "package", "leafmend.xml")), &info); err != nil {
		t.Fatal(err)
	}
	if info.Type.Glob.Pattern != "*.leafmend" {
		t.Errorf("job files are known by %q", info.Type.Glob.Pattern)
	}
	if desktop := readText(t, "assets", "package", "leafmend.desktop"); !strings.Contains(desktop, "\nMimeType="+info.Type.Name+";\n") {
		t.Errorf("the desktop entry does not open %s", info.Type.Name)
	}
}

func TestTheDateOfThePackagesCanBeSet(t *testing.T) {
	t.Setenv("SOURCE_DATE_EPOCH", "1772442000")
	if got, err := packDate(); err != nil || !got.Equal(packed) {
		t.Errorf("got %v, %v", got, err)
	}
	t.Setenv("SOURCE_DATE_EPOCH", "yesterday")
	if _, err := packDate(); err == nil {
		t.Error("a date that is none was taken")
	}
}

func TestVersionsOfTheCLibraryAreComparedByNumber(t *testing.T) {
	for _, c := range []struct {
		a, b  string
		older bool
	}{{"2.9", "2.34", true}, {"2.34", "2.9", false}, {"2.2", "2.2.5", true}, {"0", "2.2.5", true}, {"2.34", "PRIVATE", false}, {"2.34", "2.34", false}} {
		if got := olderVersion(c.a, c.b); got != c.older {
			t.Errorf("%s older than %s: %v", c.a, c.b, got)
		}
	}
}

func TestEveryModuleOfTheCommandLineHasItsLicencePacked(t *testing.T) {
	t.Chdir(filepath.Join("..", ".."))
	text, err := licences(".", []string{"CGO_ENABLED=0"}, "./cmd/mendplan")
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"Copyright (c) 2026 The Leafmend authors", "\nThe Go library\n", "\ncodeberg.org/go-pdf/fpdf v", "Copyright (c) 2021 The Go-PDF authors", "\ngolang.org/x/image v"} {
		if !strings.Contains(string(text), want) {
			t.Errorf("the licences do not hold %q", want)
		}
	}
	if home, err := os.UserHomeDir(); err == nil && home != "/" && strings.Contains(string(text), home) {
		t.Error("the licences name a folder of this machine")
	}
}

func TestAModuleWithoutLicenceIsNotPacked(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "license.go"), []byte("package x"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := licencesIn("example.org/x", dir); err == nil {
		t.Error("a module that holds no licence was let in")
	}
	if err := os.WriteFile(filepath.Join(dir, "LICENSE"), []byte("You may not copy this program."), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := licencesIn("example.org/x", dir); err == nil {
		t.Error("a module whose licence permits nothing was let in")
	}
}

// TestTheLicencesShownAreThoseOfTheProgram compares what the window shows
// with the modules that are compiled into it now.
func TestTheLicencesShownAreThoseOfTheProgram(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("the list is that of the program for Linux; other systems need other modules")
	}
	t.Chdir(filepath.Join("..", ".."))
	want, err := licencesShown(".")
	if err != nil {
		t.Fatal(err)
	}
	have, err := os.ReadFile(shownLicences)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(have, want) {
		t.Errorf("%s is not up to date: run go run ./cmd/dev licences", shownLicences)
	}
}
