package scan

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"leafmend/mendplan/phrase"
)

// Info is what a picture file says of itself, read from its headers alone.
// Nothing is decoded to learn it. Width, Height and the resolutions are those
// of the picture as shown, with the file's orientation applied.
type Info struct {
	Path        string // as given
	Format      string // "JPEG", "PNG", "TIFF", "BigTIFF", "BMP", "WebP"
	Bytes       int64  // size of the file
	Width       int    // pixels, as shown
	Height      int    // pixels, as shown
	Orientation int    // 1 to 8 as in TIFF 6.0 tag 274; 1 when the file has none
	Pages       int    // pictures one may choose from; at least 1
	Page        int    // the one described, counted from 0
	Depth       int    // bits per sample as stored
	Colour      string // in words: "grey", "RGB", "YCbCr", "CMYK", "palette", …
	Compression string // in words: "baseline", "LZW", "Group 4", …
	Profile     string // in words what is done about colour: "none", "sRGB", …
	Camera      bool   // the file carries a camera's exposure data

	Resolutions []Resolution // every source found, the one to prefer first
	Problems    []string     // what is odd about the file, one sentence each
}

// Best returns the resolution to propose and whether it may be trusted. It is
// the first trusted one, else the first one; without any it returns the zero
// Resolution and false.
func (i Info) Best() (Resolution, bool) {
	for _, r := range i.Resolutions {
		if r.Trusted {
			return r, true
		}
	}
	if len(i.Resolutions) > 0 {
		return i.Resolutions[0], false
	}
	return Resolution{}, false
}

// Inspect reads the headers of the picture at path: its first page. It reads
// little of the file and decodes nothing. What cannot be read is a [*Refusal].
func Inspect(path string) (Info, error) { return InspectPage(path, 0) }

// SizeOf returns the pixels of the first page, after the file's orientation
// tag; see [Inspect].
func SizeOf(path string) (width, height int, err error) {
	info, err := Inspect(path)
	return info.Width, info.Height, err
}

// InspectPage is [Inspect] for one page of a file with several, counted from 0.
func InspectPage(path string, page int) (Info, error) {
	f, err := openFile(path)
	if err != nil {
		return Info{}, err
	}
	defer f.Close()
	h, err := readHeader(f.blob, page)
	if err != nil {
		return Info{}, refuse(path, err)
	}
	h.Path = path
	return h.Info, nil
}

// Checksum returns the SHA-256 of the file at path as "sha256:" and 64 hex
// digits. It reads the whole file.
func Checksum(path string) (string, error) {
	f, err := openFile(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	sum := sha256.New()
	if _, err := io.Copy(sum, f.File); err != nil {
		return "", fmt.Errorf("checksum of %s: %w", filepath.Base(path), err)
	}
	return "sha256:" + hex.EncodeToString(sum.Sum(nil)), nil
}

// file is an open picture file, seen as a blob.
type file struct {
	*os.File
	blob
}

// openFile opens a plain file for reading and explains in words when it can
// not be one.
func openFile(path string) (file, error) {
	st, err := os.Stat(path)
	switch {
	case os.IsNotExist(err):
		return file{}, &Refusal{Path: path, What: phrase.Of("the file is not there"),
			Remedy: phrase.Of("look whether it was moved or renamed, or its disk is not connected"), Err: err}
	case err != nil:
		return file{}, &Refusal{Path: path, What: phrase.Of("the file cannot be reached"), Remedy: phrase.Of("look at its permissions"), Err: err}
	case !st.Mode().IsRegular():
		return file{}, &Refusal{Path: path, What: phrase.Of("this is not a plain file"), Remedy: phrase.Of("choose a picture file")}
	case st.Size() == 0:
		return file{}, &Refusal{Path: path, What: phrase.Of("the file is empty"), Remedy: phrase.Of("copy or scan it again")}
	}
	f, err := os.Open(path)
	if err != nil {
		return file{}, &Refusal{Path: path, What: phrase.Of("the file cannot be opened"), Remedy: phrase.Of("look at its permissions"), Err: err}
	}
	return file{f, blob{f, st.Size()}}, nil
}
