package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// guides has the command-line program print the user guide in every language
// it is written in, for share/doc. The same program gives the same bytes.
func guides(root string, line []byte) ([]entry, error) {
	texts, err := filepath.Glob(filepath.Join(root, "assets", "help", "guide.*.md"))
	if err != nil || len(texts) == 0 {
		return nil, fmt.Errorf("packing: the user guide is not under assets/help (%v)", err)
	}
	dir, err := os.MkdirTemp("", "leafmend-guide")
	if err != nil {
		return nil, fmt.Errorf("packing the user guide: %w", err)
	}
	defer os.RemoveAll(dir)
	program := filepath.Join(dir, "mendplan")
	if err := os.WriteFile(program, line, 0o755); err != nil {
		return nil, fmt.Errorf("packing the user guide: %w", err)
	}
	var files []entry
	for _, text := range texts {
		lang := strings.TrimSuffix(strings.TrimPrefix(filepath.Base(text), "guide."), ".md")
		path := filepath.Join(dir, lang+".pdf")
		if out, err := exec.Command(program, "guide", "-o", path, "-lang", lang).CombinedOutput(); err != nil {
			return nil, fmt.Errorf("printing the user guide in “%s”: %w: %s", lang, err, out)
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return nil, fmt.Errorf("packing the user guide: %w", err)
		}
		files = append(files, entry{"share/doc/leafmend/user-guide." + lang + ".pdf", 0o644, data})
	}
	return files, nil
}
