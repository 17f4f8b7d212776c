package scan

import (
	"errors"
	"image/jpeg"
	"image/png"
	"io"
	"path/filepath"

	"golang.org/x/image/bmp"

	"leafmend/mendplan/phrase"
)

// Refusal says why a picture is not read and what can be done about it. Every
// error of [Inspect] and [Open] that the file itself causes is one.
type Refusal struct {
	Path   string        // of the file
	What   phrase.Phrase // what is the matter, without the file's name
	Remedy phrase.Phrase // what can be done; may be zero
	Detail string        // what a decoder of others said, in its own English; for reports
	Err    error         // cause, when another error is behind it
}

// Error names the file, the matter and the remedy in one English sentence.
func (r *Refusal) Error() string {
	words := r.What.String()
	if r.Detail != "" {
		words += " (" + r.Detail + ")"
	}
	return r.sentence(words, r.Remedy.String())
}

// In says the same in a tongue, without what only a report needs.
func (r *Refusal) In(t phrase.Tongue) string { return r.sentence(r.What.In(t), r.Remedy.In(t)) }

func (r *Refusal) sentence(what, remedy string) string {
	if r.Path != "" {
		what = filepath.Base(r.Path) + ": " + what
	}
	if remedy != "" {
		what += "; " + remedy
	}
	return what
}

// Unwrap returns the cause.
func (r *Refusal) Unwrap() error { return r.Err }

// remedies that many refusals share.
var (
	saveAgain  = phrase.Of("open it in the program it came from and save it as JPEG, PNG, or TIFF (8 or 16 bit RGB, LZW or uncompressed)")
	copyAgain  = phrase.Of("copy it again from where it came, or scan again")
	raiseLimit = phrase.Of("save a smaller copy, or raise the limit in the settings")
	developRaw = phrase.Of("convert it with the camera's own program to TIFF or JPEG")
)

// notRead is a refusal of a kind of picture that is not read at all.
func notRead(format string, args ...any) error {
	return &Refusal{What: phrase.Of(format, args...), Remedy: saveAgain}
}

// damaged is a refusal of a file that contradicts itself or ends too early.
func damaged(format string, args ...any) error {
	return &Refusal{What: phrase.Of(format, args...), Remedy: copyAgain}
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
		return &Refusal{Path: path, What: phrase.Of("the file ends too early: it is cut short or damaged"), Remedy: copyAgain, Err: err}
	}
	remedy := copyAgain
	var unknownJPEG jpeg.UnsupportedError
	var unknownPNG png.UnsupportedError
	if errors.As(err, &unknownJPEG) || errors.As(err, &unknownPNG) || errors.Is(err, bmp.ErrUnsupported) {
		remedy = saveAgain
	}
	return &Refusal{Path: path, What: phrase.Of("the picture cannot be read"), Remedy: remedy, Detail: err.Error(), Err: err}
}
