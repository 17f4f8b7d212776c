package mendplan

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"os"

	"leafmend/mendplan/phrase"
)

// CheckScans looks for the scans of a job in its folder and tells which are
// missing, unreadable or no longer the files they were. It reads the files
// whole for their checksum, but decodes no picture.
func CheckScans(job Job, folder string) []Problem {
	var out []Problem
	for _, leaf := range job.Leaves {
		for _, side := range []SideName{Front, Back} {
			s := leaf.SideOf(side)
			s.After.SHA256 = "" // nothing is traced on it: another file there is no fault
			for _, sc := range []Scan{s.Scan, s.After} {
				if !sc.Present() {
					continue
				}
				if p := checkScan(ScanPath(folder, sc), sc); p != nil {
					p.Leaf, p.Side = leaf.ID, side
					out = append(out, *p)
				}
			}
		}
	}
	return out
}

func checkScan(path string, s Scan) *Problem {
	sum, err := ChecksumScan(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return &Problem{Kind: ScanMissing, Weight: Doubt, Words: phrase.Of("The scan %s is not there.", s.Path),
			Hint: phrase.Of("Look whether it was moved or renamed, and point to it again; the traces are kept.")}
	case err != nil:
		return &Problem{Kind: ScanMissing, Weight: Doubt, Words: phrase.Of("The scan %s could not be read.", s.Path),
			Hint: phrase.Of("Check its permissions and the disk it is on.")}
	case s.SHA256 != "" && sum != s.SHA256:
		return &Problem{Kind: ScanChanged, Weight: Doubt, Words: phrase.Of("The scan %s is not the file the damages were traced on.", s.Path),
			Hint: phrase.Of("Compare the traces with the picture before using them, or put the old file back.")}
	}
	return nil
}

// MissingScans lists the scans of a job in folder whose files are not there.
func MissingScans(job Job, folder string) (missing []ScanPlace) {
	for _, p := range job.ScanPlaces() {
		if st, err := os.Stat(ScanPath(folder, p.Scan)); err != nil || !st.Mode().IsRegular() {
			missing = append(missing, p)
		}
	}
	return missing
}

// ChecksumScan is [ChecksumFile] of a scan. A job names its scans, so what is
// no plain file is refused: a pipe or a device would be read for ever.
func ChecksumScan(path string) (string, error) {
	st, err := os.Stat(path)
	if err != nil {
		return "", openFault(path, err)
	}
	if !st.Mode().IsRegular() {
		return "", &FileError{Path: path, Words: phrase.Of("this is not a plain file"), Remedy: phrase.Of("choose a picture file")}
	}
	return ChecksumFile(path)
}

// Checksum returns the SHA-256 of bytes in hexadecimal, as [ChecksumFile] does
// of those of a file.
func Checksum(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// ChecksumFile returns the SHA-256 of a file in hexadecimal, as kept in
// [Scan.SHA256].
func ChecksumFile(path string) (string, error) {
	f, err := os.Open(path)
	if err != nil {
		return "", openFault(path, err)
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return "", &FileError{Path: path, Words: phrase.Of("the file could not be read to its end"), Remedy: phrase.Of("check the disk or the network folder and try again"), Err: err}
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}
