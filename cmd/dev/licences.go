package main

import (
	"bytes"
	"encoding/json"
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

// licencePart is the licence of one module or of code that it took in.
type licencePart struct {
	Name string `json:"name"` // such as "example.org/module v1.2.3, LICENSE"
	Kind string `json:"kind"` // such as "MIT"
	Text string `json:"text"`
}

// licences returns the text of the package's copyright file: our licence,
// that of Go's own library, and those of every module compiled into the
// packages.
func licences(root string, env []string, packages ...string) ([]byte, error) {
	parts, modules, err := licenceParts(root, env, packages...)
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	fmt.Fprintf(&out, "%s\n\n%s\n", parts[0].Name, parts[0].Text)
	fmt.Fprintf(&out, "\nThe programs hold compiled parts of the Go library and of %d modules:\n\n", len(modules))
	for _, m := range modules {
		fmt.Fprintln(&out, "  "+m)
	}
	for _, p := range parts[1:] {
		fmt.Fprintf(&out, "\n%s\n%s\n\n%s\n", strings.Repeat("-", 72), p.Name, p.Text)
	}
	return out.Bytes(), nil
}

// licenceParts returns our licence, that of Go's own library, and those of
// every module compiled into packages, as they lie in the module cache; and
// the modules with their versions.
func licenceParts(root string, env []string, packages ...string) (parts []licencePart, modules []string, err error) {
	const form = "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}\t{{.Dir}}{{end}}{{end}}"
	listed, err := goSays(env, append([]string{"list", "-deps", "-f", form}, packages...)...)
	if err != nil {
		return nil, nil, err
	}
	goRoot, err := goSays(nil, "env", "GOROOT")
	if err != nil {
		return nil, nil, err
	}
	for _, own := range []struct{ name, file string }{{"Leafmend", filepath.Join(root, "LICENSE")}, {"The Go library", filepath.Join(goRoot[0], "LICENSE")}} {
		p, err := readLicence(own.name, own.file)
		if err != nil {
			return nil, nil, err
		}
		parts = append(parts, p)
	}
	slices.Sort(listed)
	for _, m := range slices.Compact(listed) {
		name, dir, ok := strings.Cut(m, "\t")
		if !ok {
			continue // of no module: Go's own
		}
		more, err := licencesIn(name, dir)
		if err != nil {
			return nil, nil, err
		}
		parts, modules = append(parts, more...), append(modules, name)
	}
	return parts, modules, nil
}

// licencesIn returns every licence of a module, those of code it took in too.
func licencesIn(name, dir string) (parts []licencePart, err error) {
	err = filepath.WalkDir(dir, func(file string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (d.Name() == "testdata" || strings.HasPrefix(d.Name(), ".")) {
			return fs.SkipDir
		}
		if !d.Type().IsRegular() || !licenceName.MatchString(d.Name()) || strings.HasSuffix(d.Name(), ".go") {
			return nil
		}
		title := name
		if rel, err := filepath.Rel(dir, file); err == nil {
			title += ", " + filepath.ToSlash(rel)
		}
		p, err := readLicence(title, file)
		parts = append(parts, p)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("looking for the licence of %s: %w", name, err)
	}
	if len(parts) == 0 {
		return nil, fmt.Errorf("the module %s holds no licence: it must not be packed", name)
	}
	return parts, nil
}

func readLicence(title, file string) (licencePart, error) {
	text, err := os.ReadFile(file)
	if err != nil {
		return licencePart{}, fmt.Errorf("reading the licence of %s: %w", title, err)
	}
	words := string(bytes.TrimSpace(bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))))
	kind := licenceKind(words)
	if kind == "" {
		return licencePart{}, fmt.Errorf("the licence of %s is of no kind known to be permissive: read it, and add it to licenceKind or leave the module out", title)
	}
	return licencePart{title, kind, words}, nil
}

// licenceKind names a permissive licence by a clause of its own; "" is none
// that is known. A file may hold two licences, to be read in full.
func licenceKind(text string) string {
	words := strings.ToLower(strings.Join(strings.Fields(text), " "))
	var kinds []string
	for _, k := range []struct{ name, clause string }{
		{"Apache 2.0", "apache license version 2.0"},
		{"OFL 1.1", "sil open font license version 1.1"},
		{"MIT", "permission is hereby granted, free of charge, to any person obtaining a copy"},
		{"BSD 3-clause", "neither the name of"},
		{"ISC", "permission to use, copy, modify, and/or distribute this software for any purpose with or without fee"},
		{"ISC", "permission to use, copy, modify, and distribute this software for any purpose with or without fee"},
		{"zlib", "altered source versions must be plainly marked as such"},
		{"Unlicense", "this is free and unencumbered software released into the public domain"},
		{"ICC profile", "may be copied, distributed, embedded, made, used, and sold without restriction"},
		{"MIT, old style", "provided that the above copyright notice and the following two paragraphs appear"},
	} {
		if strings.Contains(words, k.clause) && !slices.Contains(kinds, k.name) {
			kinds = append(kinds, k.name)
		}
	}
	if len(kinds) == 0 && strings.Contains(words, "redistributions of source code must retain") {
		kinds = append(kinds, "BSD 2-clause")
	}
	return strings.Join(kinds, ", ")
}

// shownLicences is where the window reads them from.
const shownLicences = "assets/licences.json"

// writeLicences writes the licences that the window shows.
func writeLicences([]string) error {
	data, err := licencesShown(".")
	if err != nil {
		return err
	}
	return os.WriteFile(shownLicences, data, 0o644)
}

// licencesShown lists the licences of the window's program.
func licencesShown(root string) ([]byte, error) {
	parts, _, err := licenceParts(root, []string{"CGO_ENABLED=1", "GOFLAGS="}, "leafmend/cmd/leafmend", "leafmend/cmd/mendplan")
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	if err := enc.Encode(parts); err != nil {
		return nil, fmt.Errorf("writing the licences: %w", err)
	}
	return out.Bytes(), nil
}
