package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

var licenceName = regexp.MustCompile(`(?i)^(licen[cs]e|copying|copyright|notice|ofl)([.-][a-z0-9.-]*)?$`)

// goSays returns the lines the go tool answers.
func goSays(env []string, args ...string) ([]string, error) {
	cmd := exec.Command("go", args...)
	cmd.Env = append(os.Environ(), env...)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("go %s: %w", strings.Join(args, " "), err)
	}
	return strings.Split(strings.TrimSpace(string(out)), "\n"), nil
}

// licences returns the text of the package's copyright file: our licence,
// that of Go's own library, and those of every module compiled into the
// packages, as they lie in the module cache.
func licences(root string, env []string, packages ...string) ([]byte, error) {
	ours, err := os.ReadFile(filepath.Join(root, "LICENSE"))
	if err != nil {
		return nil, fmt.Errorf("reading our licence: %w", err)
	}
	var out bytes.Buffer
	fmt.Fprintf(&out, "Leafmend\n\n%s\n", bytes.TrimSpace(ours))
	const form = "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}\t{{.Dir}}{{end}}{{end}}"
	modules, err := goSays(env, append([]string{"list", "-deps", "-f", form}, packages...)...)
	if err != nil {
		return nil, err
	}
	goRoot, err := goSays(nil, "env", "GOROOT")
	if err != nil {
		return nil, err
	}
	slices.Sort(modules)
	modules = slices.DeleteFunc(slices.Compact(modules), func(m string) bool { return m == "" })
	fmt.Fprintf(&out, "\nThe programs hold compiled parts of the Go library and of %d modules:\n\n", len(modules))
	for _, m := range modules {
		name, _, _ := strings.Cut(m, "\t")
		fmt.Fprintln(&out, "  "+name)
	}
	if err := appendLicence(&out, "The Go library", filepath.Join(goRoot[0], "LICENSE")); err != nil {
		return nil, err
	}
	for _, m := range modules {
		name, dir, _ := strings.Cut(m, "\t")
		if err := licencesIn(&out, name, dir); err != nil {
			return nil, err
		}
	}
	return out.Bytes(), nil
}

// licencesIn appends every licence of a module, those of code it took in too.
func licencesIn(out *bytes.Buffer, name, dir string) error {
	found := 0
	err := filepath.WalkDir(dir, func(file string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (d.Name() == "testdata" || strings.HasPrefix(d.Name(), ".")) {
			return fs.SkipDir
		}
		if !d.Type().IsRegular() || !licenceName.MatchString(d.Name()) || strings.HasSuffix(d.Name(), ".go") {
			return nil
		}
		found++
		title := name
		if rel, err := filepath.Rel(dir, file); err == nil {
			title += ", " + filepath.ToSlash(rel)
		}
		return appendLicence(out, title, file)
	})
	if err != nil {
		return fmt.Errorf("looking for the licence of %s: %w", name, err)
	}
	if found == 0 {
		return fmt.Errorf("the module %s holds no licence: it must not be packed", name)
	}
	return nil
}

func appendLicence(out *bytes.Buffer, title, file string) error {
	text, err := os.ReadFile(file)
	if err != nil {
		return fmt.Errorf("reading the licence of %s: %w", title, err)
	}
	text = bytes.TrimSpace(bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n")))
	fmt.Fprintf(out, "\n%s\n%s\n\n%s\n", strings.Repeat("-", 72), title, text)
	return nil
}
