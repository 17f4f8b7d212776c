package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// mayImport says for each folder which others of the module it may import.
// Imports run one way: cmd → ui → ui/leafview → mendplan and its parts →
// geom. A folder takes the longest entry that is a prefix of it.
var mayImport = map[string][]string{
	"mendplan/geom":       {},
	"mendplan/phrase":     {},
	"mendplan/nest":       {"mendplan/geom", "mendplan/phrase"},
	"mendplan/nest/check": {"mendplan/nest", "mendplan/geom"},
	"mendplan/scan":       {"mendplan/geom", "mendplan/phrase"},
	"mendplan":            {"mendplan/geom", "mendplan/nest", "mendplan/phrase"},
	"mendplan/collate":    {"mendplan", "mendplan/geom", "mendplan/phrase"},
	"mendplan/course":     {"mendplan", "mendplan/collate", "mendplan/phrase"},
	"mendplan/export":     {"mendplan", "mendplan/geom", "mendplan/phrase", "mendplan/nest", "mendplan/collate", "mendplan/course"},
	"mendplan/pdf":        {"mendplan", "mendplan/geom", "mendplan/phrase", "mendplan/nest", "mendplan/collate", "mendplan/course"},
	"ui/leafview":         {"mendplan", "mendplan/geom", "mendplan/phrase", "mendplan/scan"},
	"ui/journal":          {"mendplan", "mendplan/scan"},
	"ui/oneloop":          {},
	"ui":                  {"ui/leafview", "ui/journal", "mendplan", "mendplan/geom", "mendplan/phrase", "mendplan/nest", "mendplan/scan", "mendplan/pdf", "mendplan/export", "mendplan/collate", "mendplan/course", "assets", "sampledata"},
	"assets":              {},
	"sampledata":          {},
	"sampledata/draw":     {},
	"sampledata/large":    {"mendplan", "mendplan/geom"},
	"sampledata/generate": {"sampledata/draw", "mendplan", "mendplan/geom"},
	"cmd/leafmend":        {"ui", "ui/journal", "assets", "sampledata", "mendplan", "mendplan/geom"},
	"cmd/mendplan":        {"mendplan", "mendplan/geom", "mendplan/phrase", "mendplan/nest", "mendplan/scan", "mendplan/pdf", "mendplan/export", "mendplan/collate", "mendplan/course", "assets"},
	"cmd/dev":             {"mendplan", "cmd/dev/frame"},
	"cmd/dev/frame":       {},
}

// testsMayAlso lists what only tests may import beyond that.
var testsMayAlso = map[string][]string{
	"mendplan":      {"mendplan/nest/check", "sampledata", "sampledata/large"},
	"mendplan/nest": {"mendplan/nest/check"},
	"mendplan/scan": {"sampledata", "sampledata/draw"},
	"mendplan/pdf":  {"sampledata"},
	"cmd/mendplan":  {"sampledata", "mendplan/nest/check"},
	"cmd/leafmend":  {"cmd/dev/frame", "ui/oneloop"},
	"cmd/dev/frame": {"cmd/dev/frame"},
	"ui":            {"sampledata", "sampledata/large", "ui/oneloop"},
	"ui/journal":    {"mendplan/phrase"},
	"sampledata":    {"sampledata/draw", "mendplan"},
}

const (
	module  = "leafmend/"
	toolkit = "fyne.io/fyne/v2"
)

func TestImportsRunOneWay(t *testing.T) {
	root := filepath.Join("..", "..")
	files := 0
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && name != root && (strings.HasPrefix(d.Name(), ".") || d.Name() == "dist" || d.Name() == "testdata") {
			return fs.SkipDir
		}
		if !strings.HasSuffix(name, ".go") {
			return nil
		}
		files++
		rel, err := filepath.Rel(root, name)
		if err != nil {
			return err
		}
		checkFile(t, name, filepath.ToSlash(rel))
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if files < 20 {
		t.Errorf("only %d Go files were found: is the walk looking at the right folder?", files)
	}
}

func checkFile(t *testing.T, name, rel string) {
	t.Helper()
	f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
	if err != nil {
		t.Errorf("%s: %v", rel, err)
		return
	}
	folder := path.Dir(rel)
	for _, spec := range f.Imports {
		imported := strings.Trim(spec.Path.Value, `"`)
		if fault := faultOf(folder, imported, strings.HasSuffix(rel, "_test.go")); fault != "" {
			t.Errorf("%s imports %s: %s", rel, imported, fault)
		}
	}
}

// faultOf says in words why folder must not import the package, or "".
func faultOf(folder, imported string, isTest bool) string {
	switch {
	case strings.HasPrefix(imported, toolkit):
		if strings.HasPrefix(folder, "ui") || folder == "cmd/leafmend" {
			if imported == toolkit+"/app" && folder != "cmd/leafmend" {
				return "only cmd/leafmend may import the toolkit's app package, so that all else builds without C"
			}
			return ""
		}
		return "only ui and cmd/leafmend may know the toolkit"
	case folder == "cmd/dev" && strings.Contains(strings.Split(imported, "/")[0], "."):
		return "cmd/dev uses the standard library only"
	case !strings.HasPrefix(imported, module):
		return ""
	}
	target := strings.TrimPrefix(imported, module)
	if target == folder {
		return "" // an outside test of the package itself
	}
	allowed, ok := mayImport[folder]
	if !ok {
		return "folder " + folder + " has no place in the order of imports; see DEVELOPERS.md"
	}
	if slices.Contains(allowed, target) || isTest && slices.Contains(testsMayAlso[folder], target) {
		return ""
	}
	return "the arrow turns: " + folder + " may import " + strings.Join(allowed, ", ")
}

func TestFaultsAreFound(t *testing.T) {
	for _, c := range []struct {
		name, folder, imported string
		isTest, wrong          bool
	}{
		{"geometry knows no trade", "mendplan/geom", "leafmend/mendplan", false, true},
		{"the domain knows no toolkit", "mendplan", toolkit + "/widget", false, true},
		{"the domain decodes no picture", "mendplan", "leafmend/mendplan/scan", false, true},
		{"panels never import the app package", "ui", toolkit + "/app", false, true},
		{"panels may use widgets", "ui", toolkit + "/widget", false, false},
		{"the window's main may import the app package", "cmd/leafmend", toolkit + "/app", false, false},
		{"the helper keeps to the standard library", "cmd/dev", "golang.org/x/image/tiff", false, true},
		{"the domain may lay out", "mendplan", "leafmend/mendplan/nest", false, false},
		{"a test may use the sample", "mendplan", "leafmend/sampledata", true, false},
		{"the program may not turn the sample in", "mendplan", "leafmend/sampledata", false, true},
		{"a folder nobody placed", "util", "leafmend/mendplan", false, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := faultOf(c.folder, c.imported, c.isTest); (got != "") != c.wrong {
				t.Errorf("got %q, want a fault: %v", got, c.wrong)
			}
		})
	}
}

func TestTopLevelHoldsOnlyWhatTheDesignNames(t *testing.T) {
	allowed := []string{"cmd", "mendplan", "ui", "assets", "sampledata", "go.mod", "go.sum", "README.md", "DEVELOPERS.md", "LICENSE"}
	entries, err := os.ReadDir(filepath.Join("..", ".."))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".") && e.Name() != "dist" && !slices.Contains(allowed, e.Name()) {
			t.Errorf("%s has no place at the top level", e.Name())
		}
	}
}
