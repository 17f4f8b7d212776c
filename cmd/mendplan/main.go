// Command mendplan plans mends without a window: it makes jobs from scans,
// checks and plans them, lays out and prints the cut list, and writes open
// forms for other programs. It needs no display and no C.
//
// Results go to standard output, messages to standard error. Exit codes: 0
// done; 1 done, with problems listed; 2 wrong usage; 3 a file could not be
// read or written.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"

	"leafmend/mendplan"
	"leafmend/mendplan/phrase"
)

// Exit codes.
const (
	exitDone     = 0
	exitProblems = 1
	exitUsage    = 2
	exitFile     = 3
)

// verb is one thing the program does. run returns whether problems were
// listed, or why it could not be done.
type verb struct {
	name, args, does string
	run              func(ctx context.Context, c call) (problems bool, err error)
}

// call is what a verb is given: its arguments and where to write.
type call struct {
	args     []string
	out, err io.Writer
	flags    *flag.FlagSet
}

var verbs = []verb{
	{"new", "-o JOB [-pair] SCAN…", "make a job from scans", newJob},
	{"inspect", "[-json] [-page N] SCAN…", "tell format, size, resolution, outline and proposed losses", inspect},
	{"follow", "[-json] [-strength S] SCAN X,Y X,Y …", "follow a tear between points, in pixels", follow},
	{"check", "[-json] [-rescue NEW] JOB", "list problems only; of a damaged job, what can be read", check},
	{"relink", "-from FOLDER [-o JOB] [-same] [-json] JOB", "look for scans that were moved or renamed", relink},
	{"plan", "[-json] [-effort N] JOB", "pieces, sheets, estimate, problems", plan},
	{"cutlist", "[-json] [-effort N] (JOB | -pieces P.csv -stock S.csv [-gap MM])", "the layout alone", cutlist},
	{"print", "-o FILE.pdf [-only PART,…] [-wet] [-way in|out|both] [-bar-across MM -bar-upright MM] [-lang CODE] JOB", "the printed set", printSet},
	{"guide", "-o FILE.pdf [-lang CODE] [-paper a4|letter]", "the user guide of window and verbs", guide},
	{"export", "-as FORMAT -o PATH JOB", "write an open form: " + exportFormats, exportJob},
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}

// usageError is a mistake in the command line.
type usageError struct{ words string }

func (e usageError) Error() string { return e.words }

func usagef(format string, a ...any) error { return usageError{fmt.Sprintf(format, a...)} }

// run is the program without the process around it.
func run(ctx context.Context, args []string, out, errs io.Writer) int {
	var tongue phrase.Tongue
	if len(args) > 1 && args[0] == "-lang" {
		var err error
		if tongue, err = tongueOf(args[1]); err != nil {
			fmt.Fprintf(errs, "mendplan: %v\n", err)
			return exitUsage
		}
		args = args[2:]
	}
	if len(args) == 0 || args[0] == "help" || args[0] == "-h" || args[0] == "--help" {
		help(out)
		return exitDone
	}
	if args[0] == "version" || args[0] == "--version" {
		fmt.Fprintln(out, "mendplan", mendplan.Version)
		return exitDone
	}
	for _, v := range verbs {
		if v.name == args[0] {
			return runVerb(ctx, v, args[1:], tongue, out, errs)
		}
	}
	fmt.Fprintf(errs, "mendplan: there is no verb %q\n", args[0])
	help(errs)
	return exitUsage
}

// runVerb runs a verb. Errors are said in tongue, or in the language that the
// verb itself was asked for.
func runVerb(ctx context.Context, v verb, args []string, tongue phrase.Tongue, out, errs io.Writer) int {
	c := call{args: args, out: out, err: errs, flags: flag.NewFlagSet(v.name, flag.ContinueOnError)}
	c.flags.SetOutput(io.Discard)
	problems, err := v.run(ctx, c)
	var usage usageError
	switch {
	case errors.Is(err, flag.ErrHelp):
		fmt.Fprintf(out, "mendplan %s %s\n  %s\n", v.name, v.args, v.does)
		c.flags.SetOutput(out)
		c.flags.PrintDefaults()
		return exitDone
	case errors.As(err, &usage):
		fmt.Fprintf(errs, "mendplan %s: %v\nusage: mendplan %s %s\n", v.name, err, v.name, v.args)
		return exitUsage
	case err != nil:
		if own := c.flags.Lookup("lang"); own != nil && own.Value.String() != own.DefValue {
			tongue, _ = tongueOf(own.Value.String()) // the verb has refused those there are no words for
		}
		fmt.Fprintf(errs, "mendplan %s: %s\n", v.name, inTongue(err, tongue))
		return exitFile
	case problems:
		return exitProblems
	}
	return exitDone
}

// inTongue says an error in a tongue where it can be said in one.
func inTongue(err error, tongue phrase.Tongue) string {
	if s := phrase.SayableIn(err); tongue != nil && s != nil {
		return s.In(tongue)
	}
	return err.Error()
}

// parse reads the flags and returns what is left. Flags may stand before or
// after the other arguments.
func (c call) parse() ([]string, error) {
	var rest []string
	args := c.args
	for len(args) > 0 {
		if err := c.flags.Parse(args); err != nil {
			if errors.Is(err, flag.ErrHelp) {
				return nil, err
			}
			return nil, usageError{err.Error()}
		}
		if args = c.flags.Args(); len(args) > 0 {
			rest, args = append(rest, args[0]), args[1:]
		}
	}
	return rest, nil
}

// one returns the only argument left after the flags.
func (c call) one(what string) (string, error) {
	rest, err := c.parse()
	if err != nil {
		return "", err
	}
	if len(rest) != 1 {
		return "", usagef("give one %s, not %d", what, len(rest))
	}
	return rest[0], nil
}

func help(w io.Writer) {
	fmt.Fprintln(w, "mendplan [-lang CODE] VERB …")
	for _, v := range verbs {
		fmt.Fprintf(w, "  %-8s %s\n           mendplan %s %s\n", v.name, v.does, v.name, v.args)
	}
	fmt.Fprintln(w, "  -lang    language in which errors are told: "+languageCodes())
	fmt.Fprintln(w, "  version  tell the program's version")
	fmt.Fprintln(w, "exit codes: 0 done; 1 done, with problems listed; 2 wrong usage; 3 a file could not be read or written")
}
