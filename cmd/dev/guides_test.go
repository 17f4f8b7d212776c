package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

func TestTheGuideIsPackedInEveryLanguageAndTwiceAlike(t *testing.T) {
	program := filepath.Join(t.TempDir(), "mendplan")
	build := exec.Command("go", "build", "-o", program, "./cmd/mendplan")
	build.Dir, build.Env = filepath.Join("..", ".."), append(os.Environ(), "CGO_ENABLED=0")
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("building: %v: %s", err, out)
	}
	line, err := os.ReadFile(program)
	if err != nil {
		t.Fatal(err)
	}
	a, err := guides(filepath.Join("..", ".."), line)
	if err != nil || len(a) < 2 {
		t.Fatalf("%d guides: %v", len(a), err)
	}
	b, err := guides(filepath.Join("..", ".."), line)
	if err != nil {
		t.Fatal(err)
	}
	for i := range a {
		if !bytes.HasPrefix(a[i].body, []byte("%PDF-")) || a[i].path != b[i].path || !bytes.Equal(a[i].body, b[i].body) {
			t.Errorf("%s is no PDF, or differs the second time", a[i].path)
		}
	}
}
