package mendplan

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"leafmend/mendplan/phrase"
)

// PictureSuffixes are the endings of names that a search for scans looks at,
// lower case. What a file holds is told by its first bytes, not its name; this
// only keeps the search short.
var PictureSuffixes = []string{".jpg", ".jpeg", ".png", ".tif", ".tiff", ".bmp", ".webp"}

// Bounds of a search for scans, so that a whole disk given by mistake ends in
// good time.
const (
	SearchDepth = 12     // folders within folders
	SearchFiles = 20_000 // pictures
)

// PicturesUnder lists the picture files in folder and the folders in it, in
// the order of their paths. Hidden files and folders, and what is no regular
// file, are passed over; links to folders are not followed. whole is false
// when a bound was met or a folder could not be read. A folder that cannot be
// read at all is an error.
func PicturesUnder(ctx context.Context, folder string) (paths []string, whole bool, err error) {
	root, err := filepath.EvalSymlinks(folder)
	if err == nil {
		_, err = os.ReadDir(root)
	}
	if err != nil {
		return nil, false, &FileError{Path: folder, Words: phrase.Of("the folder could not be read"), Remedy: phrase.Of("choose another folder"), Err: err}
	}
	whole = true
	err = filepath.WalkDir(root, func(p string, d fs.DirEntry, err error) error {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		hidden := p != root && strings.HasPrefix(filepath.Base(p), ".")
		switch {
		case err != nil:
			whole = false
			return fs.SkipDir
		case d.IsDir():
			rel, _ := filepath.Rel(root, p) // p lies under root
			if deep := strings.Count(filepath.ToSlash(rel), "/") >= SearchDepth; deep || hidden {
				whole = whole && !deep
				return fs.SkipDir
			}
		case !hidden && slices.Contains(PictureSuffixes, strings.ToLower(filepath.Ext(p))) && regular(p, d):
			if len(paths) == SearchFiles {
				whole = false
				return fs.SkipAll
			}
			paths = append(paths, p)
		}
		return nil
	})
	return paths, whole, err
}

// regular reports whether p is a file, or a link to one: a pipe would keep its
// reader waiting for ever.
func regular(p string, d fs.DirEntry) bool {
	if d.Type().IsRegular() {
		return true
	}
	st, err := os.Stat(p)
	return err == nil && d.Type()&fs.ModeSymlink != 0 && st.Mode().IsRegular()
}

// Candidates reads of the files at paths what [ProposeRelinks] compares. Those
// whose names answer to a scan wanted come first, with pixel sizes by size;
// only if that leaves scans whose bytes were not found are the others read as
// well, for one that was renamed. A file that cannot be read is left out.
// progress is told shares from 0 to 1 and may be nil.
func Candidates(ctx context.Context, wanted []ScanPlace, paths []string, size func(path string) (width, height int, err error), progress func(float64)) []Candidate {
	likely, others := byLikelihood(wanted, paths)
	missing := map[string]bool{}
	for _, w := range wanted {
		missing[w.Scan.SHA256] = true
	}
	delete(missing, "")
	var out []Candidate
	read := func(p string, named bool) {
		sum, err := ChecksumFile(p)
		if err != nil {
			return
		}
		c := Candidate{Path: p, SHA256: sum}
		if named {
			if c.Width, c.Height, err = size(p); err != nil {
				return
			}
		}
		delete(missing, sum)
		out = append(out, c)
	}
	for i, p := range append(slices.Clone(likely), others...) {
		if ctx.Err() != nil || i >= len(likely) && len(missing) == 0 {
			break
		}
		read(p, i < len(likely))
		if progress != nil {
			progress(float64(i+1) / float64(len(paths)))
		}
	}
	return out
}

// byLikelihood parts the paths whose names answer to a scan wanted from the
// others.
func byLikelihood(wanted []ScanPlace, paths []string) (likely, others []string) {
	stems := map[string]bool{}
	for _, w := range wanted {
		n := nameOfScan(w.Scan.Path)
		stems[n.stem], stems[sideKey(n)] = true, true
	}
	delete(stems, "")
	for _, p := range paths {
		n := nameOfScan(p)
		if stems[n.stem] || stems[sideKey(n)] {
			likely = append(likely, p)
		} else {
			others = append(others, p)
		}
	}
	return likely, others
}

// FindMoved looks in from, and the folders in it, for the scans wanted of a
// job in folder. Files that other scans of the job are read from are not
// proposed. See [PicturesUnder], [Candidates] and [ProposeRelinks].
func FindMoved(ctx context.Context, job Job, folder string, wanted []ScanPlace, from string,
	size func(path string) (width, height int, err error), progress func(float64)) (links []Relink, whole bool, err error) {
	paths, whole, err := PicturesUnder(ctx, from)
	if err != nil {
		return nil, whole, err
	}
	used := map[string]bool{}
	for _, p := range job.ScanPlaces() {
		if !slices.Contains(wanted, p) {
			used[realPath(ScanPath(folder, p.Scan))] = true
		}
	}
	paths = slices.DeleteFunc(paths, func(p string) bool { return used[realPath(p)] })
	found := Candidates(ctx, wanted, paths, size, progress)
	return ProposeRelinks(job, wanted, found), whole, ctx.Err()
}

// realPath is a path without links, so that one file has one name.
func realPath(p string) string {
	if r, err := filepath.EvalSymlinks(p); err == nil {
		p = r
	}
	if a, err := filepath.Abs(p); err == nil {
		p = a
	}
	return p
}
