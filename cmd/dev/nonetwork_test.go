package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// reachesNetwork reports whether a package of the standard library or beside
// it can open connections. net/url and net/netip only take addresses apart; the toolkit
// names files by it.
func reachesNetwork(imported string) bool {
	switch imported {
	case "net/url", "net/netip":
		return false
	case "log/syslog", "crypto/tls", "expvar", "golang.org/x/crypto/ssh":
		return true
	}
	for _, root := range []string{"net", "golang.org/x/net", "google.golang.org/grpc"} {
		if imported == root || strings.HasPrefix(imported, root+"/") {
			return true
		}
	}
	return false
}

// Nothing a conservator records leaves the machine: no package of the two
// programs can speak to a network. Tests may, and this helper tests a
// display over a socket.
func TestNoPackageOfTheProgramsReachesTheNetwork(t *testing.T) {
	root := filepath.Join("..", "..")
	files := 0
	for _, folder := range []string{"mendplan", "ui", "assets", "sampledata", "cmd/mendplan", "cmd/leafmend"} {
		err := filepath.WalkDir(filepath.Join(root, filepath.FromSlash(folder)), func(name string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
				return err
			}
			files++
			f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
			if err != nil {
				return err
			}
			for _, spec := range f.Imports {
				imported, err := strconv.Unquote(spec.Path.Value)
				if err != nil {
					return err
				}
				if reachesNetwork(imported) {
					t.Errorf("%s imports %s: the programs use no network", name, imported)
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if files < 100 {
		t.Errorf("only %d files were looked at: is the walk looking at the right folders?", files)
	}
}

// Not even by way of a library does the command line hold the package net.
func TestTheCommandLineHoldsNoNetworkCode(t *testing.T) {
	t.Chdir(filepath.Join("..", ".."))
	held, err := goSays([]string{"CGO_ENABLED=0"}, "list", "-deps", "./cmd/mendplan")
	if err != nil {
		t.Fatal(err)
	}
	if len(held) < 50 {
		t.Fatalf("only %d packages were listed", len(held))
	}
	for _, p := range held {
		if reachesNetwork(p) {
			t.Errorf("cmd/mendplan holds %s", p)
		}
	}
}

func TestNetworkPackagesAreKnown(t *testing.T) {
	for imported, want := range map[string]bool{"net": true, "net/http": true, "net/url": false, "net/netip": false, "net/rpc": true, "golang.org/x/net/proxy": true, "network": false, "os": false} {
		if got := reachesNetwork(imported); got != want {
			t.Errorf("%s: %v", imported, got)
		}
	}
}
