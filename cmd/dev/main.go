// Command dev is the project's one helper for people who build it. It uses
// the standard library only (and the version in mendplan), so that Go alone
// is enough to start.
//
//	go run ./cmd/dev run     set the machine up, build, open the sample job
//	go run ./cmd/dev test    set the machine up, vet, pass every test
//	go run ./cmd/dev package write packages to dist/, the same bytes for the same commit
//	go run ./cmd/dev         list the verbs
//
// Each verb first finds what is missing to build the window (a C compiler,
// OpenGL and X11 headers), says what it will install and installs it where it
// may; else it prints the one line to type.
package main

import (
	"fmt"
	"os"
)

type verb struct {
	name, does string
	run        func(args []string) error
}

var verbs = []verb{
	{"run", "set the machine up, build Leafmend and open the sample job", run},
	{"test", "set the machine up, vet and run every test, the window's too", test},
	{"setup", "only set the machine up", func([]string) error { return setUp(forTest) }},
	{"package", "write the packages for this commit to dist/ (-cli: the command line only)", pack},
	{"trial", "make the Debian package, install it into an empty root, use it, take it off (-clean bookworm: on a clean Debian)", trial},
	{"scale", "measure jobs of 50 to 500 leaves and print the table", scale},
	{"soak", "work in the window at random for an hour and see that nothing grows (-for 10m: shorter)", soak},
	{"race", "run what uses several goroutines under the race detector (needs a C compiler)", race},
	{"vuln", "look for known faults in Go and in the modules used (asks the network)", vuln},
	{"licences", "write anew the licences that the window shows (assets/licences.json)", writeLicences},
	{"sample", "draw the sample job anew (sampledata/)", sample},
}

func main() {
	if len(os.Args) < 2 {
		list()
		return
	}
	for _, v := range verbs {
		if v.name != os.Args[1] {
			continue
		}
		if err := v.run(os.Args[2:]); err != nil {
			fmt.Fprintln(os.Stderr, "dev "+v.name+":", err)
			os.Exit(1)
		}
		return
	}
	fmt.Fprintf(os.Stderr, "dev: there is no verb %q\n", os.Args[1])
	list()
	os.Exit(2)
}

func list() {
	fmt.Println("go run ./cmd/dev VERB")
	for _, v := range verbs {
		fmt.Printf("  %-8s %s\n", v.name, v.does)
	}
}
