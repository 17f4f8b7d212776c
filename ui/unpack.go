package ui

import (
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"leafmend/mendplan"
)

// unpack writes the files of a compiled-in folder to dir. Files that are
// there already are left alone, since the user may have worked on them.
func unpack(files fs.FS, dir string) error {
	return fs.WalkDir(files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return fmt.Errorf("reading the sample: %w", err)
		}
		path := filepath.Join(dir, filepath.FromSlash(name))
		if d.IsDir() {
			if err := os.MkdirAll(path, 0o755); err != nil {
				return fmt.Errorf("making a folder for the sample: %w", err)
			}
			return nil
		}
		if st, err := os.Stat(path); err == nil && st.Size() > 0 {
			return nil
		}
		return copyOut(files, name, path)
	})
}

func copyOut(files fs.FS, name, path string) error {
	f, err := files.Open(name)
	if err != nil {
		return fmt.Errorf("reading %s of the sample: %w", name, err)
	}
	defer f.Close()
	return mendplan.WriteFile(path, func(w io.Writer) error {
		_, err := io.Copy(w, f)
		return err
	})
}
