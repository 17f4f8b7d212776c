package mendplan

import (
	"strconv"
	"strings"

	"leafmend/mendplan/phrase"
)

// Version is the version of Leafmend: of the window, the command line, the
// foot of the printed pages, the packages and the job files written. It
// stands here only.
const Version = "0.1.0"

// newerVersion reports whether a version is later than the program's own.
// Versions are numbers with dots; what is no number counts as nothing.
func newerVersion(v string) bool {
	theirs, ours := strings.Split(v, "."), strings.Split(Version, ".")
	for i := range max(len(theirs), len(ours)) {
		a, b := part(theirs, i), part(ours, i)
		if a != b {
			return a > b
		}
	}
	return false
}

func part(v []string, i int) int {
	if i >= len(v) {
		return 0
	}
	n, err := strconv.Atoi(v[i])
	if err != nil {
		return 0
	}
	return n
}

// mostVersionLetters bounds what of a foreign version is repeated in words.
const mostVersionLetters = 20

// writtenByNewer tells of a job written by a later program.
func writtenByNewer(v string) Problem {
	if r := []rune(v); len(r) > mostVersionLetters {
		v = string(r[:mostVersionLetters])
	}
	return Problem{Kind: BadFile, Weight: Advice, Words: phrase.Of("The job was written by a newer version, %s; this is %s.", v, Version),
		Hint: phrase.Of("What this version does not know is kept as it is and saved with the job.")}
}
