package mendplan

import (
	"fmt"
	"io"
	"os"
	"path/filepath"

	"leafmend/mendplan/phrase"
)

// WriteFile replaces the file at path with what write writes, or leaves it
// as it was: it writes a temporary file in the same folder, flushes it to the
// disk, and only then renames it over the old one. On any failure the
// temporary file is removed and the old file is untouched. Temporary files
// that programs killed while writing left behind are removed by the next
// write of the same file that succeeds.
func WriteFile(path string, write func(io.Writer) error) (err error) {
	if target, err := filepath.EvalSymlinks(path); err == nil {
		path = target // a link to the file stays a link
	}
	dir := filepath.Dir(path)
	tmp, err := os.CreateTemp(dir, partPattern(path))
	if err != nil {
		return fmt.Errorf("making a file beside %s: %w", path, err)
	}
	defer func() {
		if err != nil {
			tmp.Close()
			os.Remove(tmp.Name())
		}
	}()
	if err := write(tmp); err != nil {
		return fmt.Errorf("writing %s: %w", path, err)
	}
	if err := tmp.Chmod(modeOf(path)); err != nil {
		return fmt.Errorf("setting the permissions of %s: %w", path, err)
	}
	if err := tmp.Sync(); err != nil {
		return fmt.Errorf("flushing %s to disk: %w", path, err)
	}
	if err := tmp.Close(); err != nil {
		return fmt.Errorf("closing %s: %w", path, err)
	}
	if err := os.Rename(tmp.Name(), path); err != nil {
		return fmt.Errorf("putting %s in place: %w", path, err)
	}
	syncFolder(dir)
	cleanParts(path)
	return nil
}

// modeOf keeps the permissions a file has; new files are for all to read.
func modeOf(path string) os.FileMode {
	if st, err := os.Stat(path); err == nil {
		return st.Mode().Perm()
	}
	return 0o644
}

// syncFolder makes the rename itself last. Where folders cannot be flushed,
// the file is complete all the same, so a failure is not reported.
func syncFolder(dir string) {
	if d, err := os.Open(dir); err == nil {
		d.Sync()
		d.Close()
	}
}

// SaveEncoded writes what [Encode] returned to path, as [SaveFile] does, for
// those who need the bytes themselves, such as for their checksum.
func SaveEncoded(path string, data []byte) error {
	err := WriteFile(path, func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	})
	if err != nil {
		return &FileError{Path: path, Words: phrase.Of("the job could not be saved, the old file is as it was"), Remedy: saveRemedy(err), Err: err}
	}
	return nil
}
