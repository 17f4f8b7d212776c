package ui

import (
	"context"
	"errors"
	"io/fs"
	"path/filepath"
	"strings"
	"syscall"

	"leafmend/mendplan"
	"leafmend/mendplan/phrase"
	"leafmend/mendplan/scan"
)

// said is an error told to the user: what is the matter, and what to do.
type said struct{ what, remedy string }

// inWords turns any error into words for the user, in the language in use.
// It is the one place that does. What has no words in that language, such as
// the complaint of a library of others, is not shown in a foreign one: it is
// in the details that can be copied.
func inWords(err error) said {
	var file *mendplan.FileError
	var refusal *scan.Refusal
	var m mishap
	switch {
	case errors.As(err, &file):
		what := filepath.Base(file.Path)
		if !file.Place.IsZero() {
			what += ", " + say(file.Place)
		}
		return said{what + ": " + say(file.Words), sentence(say(file.Remedy))}
	case errors.As(err, &refusal):
		return said{filepath.Base(refusal.Path) + ": " + say(refusal.What), sentence(say(refusal.Remedy))}
	case errors.As(err, &m):
		return said{t("The program made a mistake and stopped what it was doing."),
			t("Your job is as it was. Save it, and report what you did last.")}
	}
	if s := phrase.SayableIn(err); s != nil {
		return said{sentence(s.In(catalogue)), ""}
	}
	if reason := systemReason(err); reason != "" {
		var path *fs.PathError
		if errors.As(err, &path) && !strings.HasSuffix(path.Path, ".part") { // which the user never sees
			reason = filepath.Base(path.Path) + ": " + reason
		}
		return said{sentence(reason), ""}
	}
	if catalogue == nil {
		return said{sentence(err.Error()), ""}
	}
	return said{t("That failed for a reason that has no words of its own here."), t("“Copy details” keeps what it was.")}
}

// errorIn is what an error says, in one line.
func errorIn(err error) string {
	s := inWords(err)
	if s.remedy == "" {
		return s.what
	}
	return sentence(s.what) + " " + s.remedy
}

// systemReason says in words why the system refused; "" when it is not known.
func systemReason(err error) string {
	for _, r := range []struct {
		is    error
		words string
	}{
		{fs.ErrNotExist, t("there is no such file or folder")},
		{fs.ErrPermission, t("the system does not permit it: choose a folder of your own")},
		{fs.ErrExist, t("there is a file of this name already")},
		{syscall.ENOSPC, t("the disk is full: make room, or choose another")},
		{syscall.EDQUOT, t("your share of the disk is used up: make room, or choose another")},
		{syscall.EROFS, t("the disk is for reading only: choose another")},
		{syscall.EIO, t("the disk reports a fault: look at its plug, or choose another")},
		{syscall.ETIMEDOUT, t("the network folder does not answer: try again, or choose another")},
		{syscall.ESTALE, t("the network folder does not answer: try again, or choose another")},
		{syscall.ENOTCONN, t("the network folder does not answer: try again, or choose another")},
		{syscall.ENAMETOOLONG, t("the name is too long: choose a shorter one")},
		{syscall.EISDIR, t("this is a folder: choose a file")},
		{syscall.ENOTDIR, t("there is no such file or folder")},
		{context.Canceled, t("it was stopped")},
		{context.DeadlineExceeded, t("it took too long and was stopped")},
	} {
		if errors.Is(err, r.is) {
			return r.words
		}
	}
	return ""
}
