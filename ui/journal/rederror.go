package journal

import (
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/scan"
)

// Error says an error without what is personal. What its parts name is noted
// first, so that it goes wherever it stands in the words.
func (r *Redactor) Error(err error) string {
	if err == nil {
		return ""
	}
	r.noteIn(err)
	return r.Text(err.Error())
}

// Chain says an error and its causes, one a line, each with its kind.
func (r *Redactor) Chain(err error) string {
	if err == nil {
		return ""
	}
	r.noteIn(err)
	var b strings.Builder
	r.chain(&b, err, 0)
	return b.String()
}

// mostDeep bounds how many causes are told.
const mostDeep = 12

func (r *Redactor) chain(b *strings.Builder, err error, deep int) {
	if err == nil || deep > mostDeep {
		return
	}
	fmt.Fprintf(b, "%s%T: %s\n", strings.Repeat("  ", deep), err, r.Text(err.Error()))
	switch e := err.(type) {
	case interface{ Unwrap() error }:
		r.chain(b, e.Unwrap(), deep+1)
	case interface{ Unwrap() []error }:
		for _, cause := range e.Unwrap() {
			r.chain(b, cause, deep+1)
		}
	}
}

// noteIn notes the paths that the errors of a chain name.
func (r *Redactor) noteIn(err error) {
	switch e := err.(type) {
	case *mendplan.FileError:
		r.NotePath(e.Path)
	case *scan.Refusal:
		r.NotePath(e.Path)
	case *fs.PathError:
		r.NotePath(e.Path)
	case *os.LinkError:
		r.NotePath(e.Old)
		r.NotePath(e.New)
	case *url.Error:
		r.NotePath(e.URL)
	}
	switch e := err.(type) {
	case interface{ Unwrap() error }:
		if cause := e.Unwrap(); cause != nil {
			r.noteIn(cause)
		}
	case interface{ Unwrap() []error }:
		for _, cause := range e.Unwrap() {
			r.noteIn(cause)
		}
	}
}

// sourceLine is a line of a stack that names a file of the source.
var sourceLine = regexp.MustCompile(`^(\s+)(.*[\\/])([^\\/]+\.(?:go|s)):(\d+)(.*)$`)

// Stack takes folders out of a stack of calls: of each file of the source
// its own folder and name stay. Other lines, such as the words of the panic,
// are redacted as texts.
func (r *Redactor) Stack(stack string) string {
	lines := strings.Split(stack, "\n")
	for i, l := range lines {
		switch m := sourceLine.FindStringSubmatch(l); {
		case m != nil:
			lines[i] = m[1] + filepath.Base(strings.TrimRight(m[2], `\/`)) + "/" + m[3] + ":" + m[4]
		case call.MatchString(l):
		default:
			lines[i] = r.Text(l)
		}
	}
	return strings.Join(lines, "\n")
}

// call is a line of a stack that names a function, or a goroutine.
var call = regexp.MustCompile(`^(goroutine \d+ [\w= ]*\[[\w ,()]+\]:|(created by )?[A-Za-z_][\w.\-/%]*\.[\w.\-*()\[\]·]+(\([^/\\]*\)| in goroutine \d+))$`)
