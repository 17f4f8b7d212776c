package mendplan

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"leafmend/mendplan/phrase"
)

// Library is what a workshop keeps from job to job: its tissues and what is
// in the drawer, its house rules, its recipes of paste. It lives in a file of
// its own and is put into a job, or taken from one, when the user says so; a
// job never changes because the library did. The zero value is empty.
type Library struct {
	Tissues []Tissue `json:"tissues,omitempty"`
	Stock   []Stock  `json:"stock,omitempty"`
	Rules   Rules    `json:"rules,omitempty"`
	Recipes []Recipe `json:"recipes,omitempty"`
}

const (
	libraryFormat  = "leafmend library"
	libraryVersion = 1
	// LibrarySuffix ends the names of library files.
	LibrarySuffix    = ".leafmend-library"
	mostLibraryBytes = 8 << 20 // ten thousand tissues are 2 MB
)

// libraryFile is a library as it is written.
type libraryFile struct {
	Format  string `json:"format"`
	Version int    `json:"version"`
	Library
}

// Write writes the library as indented JSON, the same bytes each time.
func (l Library) Write(w io.Writer) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	if err := enc.Encode(libraryFile{libraryFormat, libraryVersion, l}); err != nil {
		return fmt.Errorf("writing the library: %w", err)
	}
	return nil
}

// ReadLibrary reads a library of at most 8 MB. Faults are told as
// [FileError] with place and remedy, without a path.
func ReadLibrary(r io.Reader) (Library, error) {
	data, err := io.ReadAll(io.LimitReader(r, mostLibraryBytes+1))
	switch {
	case err != nil:
		return Library{}, &FileError{Words: phrase.Of("the library could not be read"), Remedy: phrase.Of("check the disk it is on"), Err: err}
	case len(data) > mostLibraryBytes:
		return Library{}, &FileError{Words: phrase.Of("the file is far larger than any library"), Remedy: phrase.Of("choose a file whose name ends in %s", LibrarySuffix)}
	case len(bytes.TrimSpace(data)) == 0:
		return Library{}, &FileError{Words: phrase.Of("the file is empty"), Remedy: phrase.Of("import a copy of the library")}
	}
	var f libraryFile
	if err := json.Unmarshal(data, &f); err != nil {
		fe := jsonFault(data, err)
		fe.Remedy = phrase.Of("import a copy of the library, or remove the file to begin an empty one")
		return Library{}, fe
	}
	if f.Format != libraryFormat {
		return Library{}, &FileError{Words: phrase.Of("this is not a Leafmend library"), Remedy: phrase.Of("choose a file whose name ends in %s", LibrarySuffix)}
	}
	if f.Version > libraryVersion || f.Version < 1 {
		return Library{}, &FileError{Words: phrase.Of("the library has version %d, this program reads up to version %d", f.Version, libraryVersion), Remedy: phrase.Of("open it with a newer Leafmend")}
	}
	return f.Library, nil
}

// LoadLibrary reads a library file; one that is not there is empty.
func LoadLibrary(path string) (Library, error) {
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return Library{}, nil
	}
	if err != nil {
		return Library{}, openFault(path, err)
	}
	defer f.Close()
	l, err := ReadLibrary(f)
	var fe *FileError
	if errors.As(err, &fe) {
		fe.Path = path
	}
	return l, err
}

// SaveLibrary replaces a library file, making its folder; a failure leaves
// the old file.
func SaveLibrary(path string, l Library) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return &FileError{Path: path, Words: phrase.Of("the library's folder could not be made"), Remedy: saveRemedy(err), Err: err}
	}
	if err := WriteFile(path, l.Write); err != nil {
		return &FileError{Path: path, Words: phrase.Of("the library could not be saved, the old file is as it was"), Remedy: saveRemedy(err), Err: err}
	}
	return nil
}

// WithTissuesOf returns the library with the job's tissues and their stock:
// a tissue of the same name is replaced with all that was kept of it, others
// stay.
func (l Library) WithTissuesOf(j Job) Library {
	out := Library{Rules: l.Rules, Recipes: l.Recipes}
	kept := Job{Tissues: slices.Clone(l.Tissues), Stock: slices.Clone(l.Stock)}
	for _, t := range j.Tissues {
		if i := sameTissue(kept.Tissues, t); i >= 0 {
			id := kept.Tissues[i].ID
			kept.Tissues = slices.Delete(kept.Tissues, i, i+1)
			kept.Stock = slices.DeleteFunc(kept.Stock, func(s Stock) bool { return s.Tissue == id })
		}
	}
	kept = addTissues(kept, j.Tissues, j.Stock)
	out.Tissues, out.Stock = kept.Tissues, kept.Stock
	return out
}

// TissuesInto returns the job with the tissues of the library that it lacks,
// by name, and their stock, under fresh IDs. What the job has stays as it is.
func (l Library) TissuesInto(j Job) Job {
	var lacking []Tissue
	for _, t := range l.Tissues {
		if sameTissue(j.Tissues, t) < 0 {
			lacking = append(lacking, t)
		}
	}
	return addTissues(j, lacking, l.Stock)
}

// WithRulesOf returns the library with the job's rules and recipes as the
// workshop's own.
func (l Library) WithRulesOf(j Job) Library {
	l.Rules, l.Recipes = j.Rules, slices.Clone(j.Recipes)
	return l
}

// RulesInto returns the job with the workshop's rules over its own, and the
// recipes that it lacks by name.
func (l Library) RulesInto(j Job) Job {
	for _, r := range RuleTable() {
		if v, ok := l.Rules[r.Key]; ok {
			j.Rules = j.Rules.With(r.Key, v)
		}
	}
	recipes := slices.Clone(j.Recipes)
	used := map[string]bool{}
	for _, r := range recipes {
		used[r.ID] = true
	}
	for _, r := range l.Recipes {
		if slices.ContainsFunc(recipes, func(o Recipe) bool { return sameName(o.Name, r.Name) }) {
			continue
		}
		if r.ID == "" || used[r.ID] {
			r.ID = freshID("P", len(recipes)+1, used)
		}
		used[r.ID] = true
		recipes = append(recipes, r)
	}
	j.Recipes = recipes
	return j
}

// addTissues adds tissues with what of the stock is theirs, under fresh IDs.
func addTissues(j Job, tissues []Tissue, stock []Stock) Job {
	for _, t := range tissues {
		old := t.ID
		t.ID = j.FreshTissueID()
		j = j.WithTissue(t)
		for _, s := range stock {
			if s.Tissue == old {
				s.ID, s.Tissue = j.FreshStockID(), t.ID
				j = j.WithStock(s)
			}
		}
	}
	return j
}

func sameTissue(list []Tissue, t Tissue) int {
	return slices.IndexFunc(list, func(o Tissue) bool { return sameName(o.Name, t.Name) })
}

func sameName(a, b string) bool { return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b)) }
