package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"
)

// entry is one file of a package. Folders follow from the paths.
type entry struct {
	path string // with forward slashes, relative
	mode fs.FileMode
	body []byte
}

// tarGz writes entries and their folders, in the order of their names, owned
// by root and dated when: the same entries give the same bytes.
func tarGz(entries []entry, prefix string, when time.Time) ([]byte, error) {
	var out bytes.Buffer
	zw, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err != nil {
		return nil, fmt.Errorf("packing: %w", err)
	}
	tw := tar.NewWriter(zw)
	for _, e := range withFolders(entries) {
		h := &tar.Header{Name: prefix + e.path, Mode: int64(e.mode.Perm()), Size: int64(len(e.body)), ModTime: when,
			Uname: "root", Gname: "root", Typeflag: tar.TypeReg, Format: tar.FormatGNU}
		if e.mode.IsDir() {
			h.Name, h.Typeflag = h.Name+"/", tar.TypeDir
		}
		if err := tw.WriteHeader(h); err != nil {
			return nil, fmt.Errorf("packing %s: %w", e.path, err)
		}
		if _, err := tw.Write(e.body); err != nil {
			return nil, fmt.Errorf("packing %s: %w", e.path, err)
		}
	}
	if err := tw.Close(); err != nil {
		return nil, fmt.Errorf("packing: %w", err)
	}
	if err := zw.Close(); err != nil {
		return nil, fmt.Errorf("packing: %w", err)
	}
	return out.Bytes(), nil
}

// withFolders adds the folders the entries lie in and sorts by name.
func withFolders(entries []entry) []entry {
	all := slices.Clone(entries)
	seen := map[string]bool{".": true}
	for _, e := range entries {
		for dir := path.Dir(e.path); !seen[dir]; dir = path.Dir(dir) {
			seen[dir] = true
			all = append(all, entry{path: dir, mode: fs.ModeDir | 0o755})
		}
	}
	slices.SortFunc(all, func(a, b entry) int { return strings.Compare(a.path, b.path) })
	return all
}

// zipped writes entries as a zip file, for systems where that is usual.
func zipped(entries []entry, when time.Time) ([]byte, error) {
	var out bytes.Buffer
	zw := zip.NewWriter(&out)
	for _, e := range entries {
		h := &zip.FileHeader{Name: e.path, Method: zip.Deflate, Modified: when.UTC()}
		h.SetMode(e.mode)
		w, err := zw.CreateHeader(h)
		if err != nil {
			return nil, fmt.Errorf("packing %s: %w", e.path, err)
		}
		if _, err := w.Write(e.body); err != nil {
			return nil, fmt.Errorf("packing %s: %w", e.path, err)
		}
	}
	if err := zw.Close(); err != nil {
		return nil, fmt.Errorf("packing: %w", err)
	}
	return out.Bytes(), nil
}

// gzipped packs one file without name or date.
func gzipped(data []byte) ([]byte, error) {
	var out bytes.Buffer
	w, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err != nil {
		return nil, fmt.Errorf("packing: %w", err)
	}
	if _, err := w.Write(data); err != nil {
		return nil, fmt.Errorf("packing: %w", err)
	}
	if err := w.Close(); err != nil {
		return nil, fmt.Errorf("packing: %w", err)
	}
	return out.Bytes(), nil
}

// arFile writes members one after the other in the common form of ar (the
// manual page deb(5) names it as the outer form of a Debian package): a line
// of magic, then for each member a header of 60 bytes and the body, filled up
// to an even length.
func arFile(members []entry, when time.Time) ([]byte, error) {
	out := bytes.NewBufferString("!<arch>\n")
	for _, m := range members {
		if len(m.path) > 15 {
			return nil, fmt.Errorf("packing %s: the name is too long for ar", m.path)
		}
		fmt.Fprintf(out, "%-16s%-12d%-6d%-6d%-8o%-10d`\n", m.path, when.Unix(), 0, 0, 0o100000|uint32(m.mode.Perm()), len(m.body))
		out.Write(m.body)
		if len(m.body)%2 == 1 {
			out.WriteByte('\n')
		}
	}
	return out.Bytes(), nil
}
