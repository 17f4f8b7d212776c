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
	"strings"
	"unicode/utf8"

	"leafmend/mendplan/phrase"
)

// The job file is one JSON object: "format" and "version" first, then the
// fields of [Job]. Names of fields end in their unit. Points are pairs on one
// line, so that a moved point is one changed line.
const (
	// FileFormat is the value of the field "format".
	FileFormat = "leafmend job"
	// FileVersion is the version written. Files of every version from 1 on
	// are read; a newer one is refused.
	FileVersion = 1
	// FileSuffix ends the names of job files.
	FileSuffix = ".leafmend"

	mostFileBytes = 128 << 20 // a job of 10,000 damages is about 10 MB
)

// FileError is a fault in reading or writing a file, told for the user: which
// file, where in it, what is the matter and what can be done.
type FileError struct {
	Path   string
	Place  phrase.Phrase // "line 12, column 5", or zero
	Words  phrase.Phrase
	Remedy phrase.Phrase
	Detail string // what a library of others said, in its own English; for reports
	Err    error  // the cause, may be nil
}

// Error puts file, place, fault and remedy into one line of English.
func (e *FileError) Error() string { return e.line(nil, e.Detail) }

// In says the same in a tongue, without what only a report needs.
func (e *FileError) In(t phrase.Tongue) string { return e.line(t, "") }

func (e *FileError) line(t phrase.Tongue, detail string) string {
	var b strings.Builder
	b.WriteString(e.Path)
	if !e.Place.IsZero() {
		b.WriteString(", " + e.Place.In(t))
	}
	b.WriteString(": " + e.Words.In(t))
	if detail != "" {
		b.WriteString(" (" + detail + ")")
	}
	if !e.Remedy.IsZero() {
		b.WriteString("; " + e.Remedy.In(t))
	}
	return b.String()
}

// Unwrap returns the cause.
func (e *FileError) Unwrap() error { return e.Err }

// header is what every job file begins with.
type header struct {
	Format    string `json:"format"`
	Version   int    `json:"version"`
	WrittenBy string `json:"written_by"` // version of the program; files before 0.1.0 do not say
}

// LoadFile reads the job file at path. Problems tell what was odd but could
// be read; an error is a *[FileError] and means there is no job.
func LoadFile(path string) (Job, []Problem, error) {
	data, err := ReadJob(path)
	if err != nil {
		return Job{}, nil, err
	}
	return DecodeFile(path, data)
}

// DecodeFile is [Decode] of the bytes of the file at path, which its errors
// name.
func DecodeFile(path string, data []byte) (Job, []Problem, error) {
	j, problems, err := Decode(data)
	return j, problems, inFile(path, err)
}

// ReadJob reads the bytes of a job file, at most as many as one may hold and
// one more. Of a disk that fails in between it returns what came, besides the
// error.
func ReadJob(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, openFault(path, err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, mostFileBytes+1))
	if err != nil {
		return data, &FileError{Path: path, Words: phrase.Of("the file could not be read to its end"), Remedy: phrase.Of("check the disk or the network folder and try again"), Err: err}
	}
	return data, nil
}

// tooLarge refuses the bytes of a file that can be no job's.
func tooLarge(data []byte) error {
	if len(data) > mostFileBytes {
		return &FileError{Words: phrase.Of("the file is far larger than any job"), Remedy: phrase.Of("choose the job file, its name ends in %s", FileSuffix)}
	}
	return nil
}

// inFile names the file in an error that was found in its bytes.
func inFile(path string, err error) error {
	var fe *FileError
	if errors.As(err, &fe) {
		fe.Path = path
	}
	return err
}

// SaveFile writes the job to path; the old file stays if anything fails.
func SaveFile(path string, j Job) error {
	data, err := Encode(j)
	if err != nil {
		return &FileError{Path: path, Words: phrase.Of("the job could not be put into words"), Remedy: phrase.Of("save under another name and report this"), Err: err}
	}
	return SaveEncoded(path, data)
}

// Encode returns the bytes of a job file.
func Encode(j Job) ([]byte, error) {
	by := Version
	if len(j.Unknown) > 0 && newerVersion(j.NewerBy) {
		by = j.NewerBy
	}
	body, err := json.Marshal(struct {
		header
		Job
	}{header{FileFormat, FileVersion, by}, j})
	if err != nil {
		return nil, fmt.Errorf("encoding the job: %w", err)
	}
	if len(j.Unknown) > 0 {
		if body, err = withUnknown(body, j.Unknown); err != nil {
			return nil, err
		}
	}
	var b bytes.Buffer
	if err := json.Indent(&b, body, "", " "); err != nil {
		return nil, fmt.Errorf("laying out the job file: %w", err)
	}
	b.WriteByte('\n')
	return joinPoints(b.Bytes()), nil
}

// Decode reads the bytes of a job file; see [LoadFile].
func Decode(data []byte) (Job, []Problem, error) {
	if err := tooLarge(data); err != nil {
		return Job{}, nil, err
	}
	if len(bytes.TrimSpace(data)) == 0 {
		return Job{}, nil, &FileError{Words: phrase.Of("the file is empty"), Remedy: phrase.Of("open the recovery copy or an earlier copy")}
	}
	var h header
	if err := json.Unmarshal(data, &h); err != nil {
		return Job{}, nil, jsonFault(data, err)
	}
	if h.Format != FileFormat {
		return Job{}, nil, &FileError{Words: phrase.Of("this is not a Leafmend job"), Remedy: phrase.Of("choose a file whose name ends in %s", FileSuffix)}
	}
	if h.Version > FileVersion {
		return Job{}, nil, &FileError{Words: phrase.Of("the file has version %d, this program reads up to version %d", h.Version, FileVersion), Remedy: phrase.Of("open it with a newer Leafmend")}
	}
	if h.Version < 1 {
		return Job{}, nil, &FileError{Words: phrase.Of("the file says version %d, which never was", h.Version), Remedy: phrase.Of("open the recovery copy or an earlier copy")}
	}
	if at := badText(data); at >= 0 {
		return Job{}, nil, &FileError{Place: placeOf(data, int64(at)), Words: phrase.Of("the file holds bytes that are no text"), Remedy: phrase.Of("open the recovery copy or an earlier copy")}
	}
	raw, fault := fileShape(data) // before anything is made room for
	if fault != nil {
		return Job{}, nil, fault
	}
	j, known := decodeKnown(data)
	if !known {
		j = Job{}
		if err := json.Unmarshal(data, &j); err != nil {
			return Job{}, nil, jsonFault(data, err)
		}
		unknown, err := findUnknown(raw, j)
		if err != nil {
			return Job{}, nil, err
		}
		if old, name := mistaken(unknown); name != "" && !newerVersion(h.WrittenBy) {
			return Job{}, nil, &FileError{Words: phrase.Of("the file is damaged: “%s” seems to be “%s”", old, name), Remedy: phrase.Of("open the recovery copy or an earlier copy")}
		}
		j.Unknown = unknown
		if len(unknown) > 0 && newerVersion(h.WrittenBy) {
			j.NewerBy = h.WrittenBy
		}
	}
	j, problems := settle(j)
	if newerVersion(h.WrittenBy) {
		problems = append(problems, writtenByNewer(h.WrittenBy))
	}
	return j, problems, nil
}

// decodeKnown reads a file that holds no field but known ones, as nearly all
// do; false when it has others, or a fault. Looking for others field by field
// takes three times as long as reading.
func decodeKnown(data []byte) (Job, bool) {
	var all struct {
		header
		Job
	}
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(&all); err != nil {
		return Job{}, false
	}
	return all.Job, true
}

// badText returns where the first byte is that is not UTF-8; -1 when all are.
// The JSON reader would put a sign for the unknown in its place and say
// nothing.
func badText(data []byte) int {
	if utf8.Valid(data) {
		return -1
	}
	for at := 0; at < len(data); {
		r, n := utf8.DecodeRune(data[at:])
		if r == utf8.RuneError && n == 1 {
			return at
		}
		at += n
	}
	return -1
}

// jsonFault turns a fault of the JSON reader into place, words and remedy.
func jsonFault(data []byte, err error) *FileError {
	fe := &FileError{Words: phrase.Of("the file is damaged"), Remedy: phrase.Of("open the recovery copy or an earlier copy"), Err: err}
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &syntax):
		fe.Place = placeOf(data, syntax.Offset)
		if int(syntax.Offset) >= len(bytes.TrimRight(data, " \t\r\n")) {
			fe.Words = phrase.Of("the file is cut short")
		} else {
			fe.Words, fe.Detail = phrase.Of("the file is not well-formed JSON"), syntax.Error()
		}
	case errors.As(err, &kind) && kind.Field == "":
		fe.Words, fe.Remedy = phrase.Of("this is not a Leafmend job"), phrase.Of("choose a file whose name ends in %s", FileSuffix)
	case errors.As(err, &kind):
		fe.Place = placeOf(data, kind.Offset)
		fe.Words = phrase.Of("“%s” holds something else than what belongs there: %s", kind.Field, plainType(kind.Type.Kind().String()))
		fe.Detail = kind.Value
	default:
		fe.Words, fe.Detail = phrase.Of("the file is damaged"), err.Error()
	}
	return fe
}

func plainType(kind string) phrase.Phrase {
	switch kind {
	case "float64", "int":
		return phrase.Of("a number")
	case "slice", "array":
		return phrase.Of("a list")
	case "struct", "map":
		return phrase.Of("a group of fields")
	case "bool":
		return phrase.Of("true or false")
	}
	return phrase.Of("a text")
}

// placeOf tells line and column of a byte offset, both from 1.
func placeOf(data []byte, offset int64) phrase.Phrase {
	before := data[:min(int(offset), len(data))]
	line := bytes.Count(before, []byte("\n")) + 1
	col := len(before) - bytes.LastIndexByte(before, '\n')
	return phrase.Of("line %d, column %d", line, col)
}

func openFault(path string, err error) *FileError {
	fe := &FileError{Path: path, Words: phrase.Of("the file could not be opened"), Remedy: phrase.Of("check the name and the folder"), Err: err}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		fe.Words = phrase.Of("there is no such file")
	case errors.Is(err, fs.ErrPermission):
		fe.Words, fe.Remedy = phrase.Of("the file may not be read"), phrase.Of("ask for permission or copy it to a folder of your own")
	}
	return fe
}

func saveRemedy(err error) phrase.Phrase {
	switch {
	case errors.Is(err, fs.ErrPermission):
		return phrase.Of("save it in a folder you may write to")
	case errors.Is(err, fs.ErrNotExist):
		return phrase.Of("the folder is gone: save it in another")
	}
	return phrase.Of("make room on the disk or save it in another folder")
}

// ScanPath returns where the picture of a scan lies, given the folder of the
// job file.
func ScanPath(folder string, s Scan) string {
	p := filepath.FromSlash(s.Path)
	if filepath.IsAbs(p) {
		return p
	}
	return filepath.Join(folder, p)
}

// RelativeScan returns path as a job in folder should name it: relative, with
// forward slashes, or as it is where no relative path leads there.
func RelativeScan(folder, path string) string {
	absFolder, err1 := filepath.Abs(folder)
	abs, err2 := filepath.Abs(path)
	if err1 != nil || err2 != nil {
		return filepath.ToSlash(path)
	}
	rel, err := filepath.Rel(absFolder, abs)
	if err != nil {
		return filepath.ToSlash(abs)
	}
	return filepath.ToSlash(rel)
}
