package scan

import (
	"errors"
	"fmt"
	"image/jpeg"
	"image/png"
	"io"
	"path/filepath"

	"golang.org/x/image/bmp"
)

// Refusal says why a picture is not read and what can be done about it. Every
// error of [Inspect] and [Open] that the file itself causes is one.
type Refusal struct {
	Path   string // of the file
	What   string // what is the matter, without the file's name
	Remedy string // what can be done; may be ""
	Err    error  // cause, when another error is behind it
}

// Error names the file, the matter and the remedy in one sentence.
func (r *Refusal) Error() string {
	words := r.What
	if r.Path != "" {
		words = filepath.Base(r.Path) + ": " + words
	}
	if r.Remedy != "" {
		words += "; " + r.Remedy
	}
	return words
}

// Unwrap returns the cause.
func (r *Refusal) Unwrap() error { return r.Err }

// remedies that many refusals share.
const (
	saveAgain  = "open it in the program it came from and save it as JPEG, PNG, or TIFF (8 or 16 bit RGB, LZW or uncompressed)"
	copyAgain  = "copy it again from where it came, or scan again"
	raiseLimit = "save a smaller copy, or raise the limit in the settings"
)

// notRead is a refusal of a kind of picture that is not read at all.
func notRead(format string, args ...any) error {
	return &Refusal{What: fmt.Sprintf(format, args...), Remedy: saveAgain}
}

// damaged is a refusal of a file that contradicts itself or ends too early.
func damaged(format string, args ...any) error {
	return &Refusal{What: fmt.Sprintf(format, args...), Remedy: copyAgain}
}

// refuse puts the file's name on an error. Errors of foreign decoders become
// refusals here, with words a person can use.
func refuse(path string, err error) error {
	var r *Refusal
	if errors.As(err, &r) {
		named := *r
		named.Path = path
		return &named
	}
	if errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, io.EOF) {
		return &Refusal{Path: path, What: "the file ends too early: it is cut short or damaged", Remedy: copyAgain, Err: err}
	}
	remedy := copyAgain
	var unknownJPEG jpeg.UnsupportedError
	var unknownPNG png.UnsupportedError
	if errors.As(err, &unknownJPEG) || errors.As(err, &unknownPNG) || errors.Is(err, bmp.ErrUnsupported) {
		remedy = saveAgain
	}
	return &Refusal{Path: path, What: "the picture cannot be read: " + err.Error(), Remedy: remedy, Err: err}
}
