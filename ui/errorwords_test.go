package ui

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"time"

	"leafmend/assets"
	"leafmend/mendplan"
	"leafmend/mendplan/course"
	"leafmend/mendplan/export"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/pdf"
	"leafmend/mendplan/phrase"
	"leafmend/mendplan/scan"
)

// strangeTongue translates every sentence of the catalogue into one without
// any letter of English, so that what was not translated can be seen.
func strangeTongue(t *testing.T) phrase.Tongue {
	t.Helper()
	english, err := assets.Words("en")
	if err != nil {
		t.Fatal(err)
	}
	strange := phrase.Tongue{}
	for words := range english {
		var b strings.Builder
		at := 0
		for _, v := range append(verb.FindAllStringIndex(words, -1), []int{len(words), len(words)}) {
			b.WriteString(regexp.MustCompile(`\pL`).ReplaceAllString(words[at:v[0]], "ж"))
			b.WriteString(words[v[0]:v[1]])
			at = v[1]
		}
		strange[words] = b.String()
	}
	return strange
}

// leftover finds words that stayed English. Names of formats (Zstandard), and of
// fields in quotes, are none.
func leftover(said string) []string {
	var out []string
	said = regexp.MustCompile(`“[^”]*”`).ReplaceAllString(said, "")
	for _, w := range regexp.MustCompile(`[a-z]{3,}`).FindAllString(said, -1) {
		if !map[string]bool{"leafmend": true, "library": true, "standard": true}[w] {
			out = append(out, w)
		}
	}
	return out
}

// everyError makes each error that can reach the user, by its place.
func everyError(t *testing.T) map[string]error {
	t.Helper()
	all := map[string]error{}
	dir := t.TempDir()
	file := func(data string) string {
		path := filepath.Join(dir, "1.x")
		if err := os.WriteFile(path, []byte(data), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	masters, err := filepath.Glob(filepath.Join("..", "mendplan", "scan", "testdata", "formats", "*"))
	if err != nil || len(masters) < 50 {
		t.Fatalf("%d masters of formats: %v", len(masters), err)
	}
	for _, m := range masters {
		data, err := os.ReadFile(m)
		if err != nil {
			t.Fatal(err)
		}
		// Whole, and cut short at many places.
		for _, n := range []int{len(data), len(data) * 9 / 10, len(data) / 2, len(data) / 4, 200, 64, 30, 20, 12, 9} {
			if n > len(data) {
				continue
			}
			if p, err := scan.Open(context.Background(), file(string(data[:n])), scan.OpenOptions{}); err != nil {
				all[fmt.Sprintf("%s cut at %d", filepath.Base(m), n)] = err
			} else {
				p.Close()
			}
			// And with a byte of the header changed, as a disk does.
			if n == len(data) {
				for at := 4; at < min(60, n); at += 3 {
					bad := []byte(string(data))
					bad[at] ^= 0x5a
					if p, err := scan.Open(context.Background(), file(string(bad)), scan.OpenOptions{}); err != nil {
						all[fmt.Sprintf("%s changed at %d", filepath.Base(m), at)] = err
					} else {
						p.Close()
					}
				}
			}
		}
	}
	for _, start := range []string{"", "GIF89a", "8BPS", "gimp xcf", "%PDF-1", "%!PS", "AT&TFORM", "SIMPLE  =", "v/1\x01", "#?RADIANCE", "qoif", "<svg", "<?xml", "<html", "PK\x03\x04", "Rar!", "7z\xbc\xaf",
		"\x1f\x8b", "version https://git-lfs", "P6\n", "\x00\x00\x00\x00\x00\x00\x00\x00", "hello there", "\xff\x0a", "IIRO", "1234ftypavif", "1234ftypheic", "1234ftypisom", "II\xbc", "BM", "\x0a\x05\x01"} {
		_, err := scan.Inspect(file(start))
		all["a file of "+start] = err
	}
	_, all["no picture"] = scan.Inspect(filepath.Join(dir, "2.x"))
	_, all["a folder"] = scan.Inspect(dir)
	_, all["no such page"] = scan.InspectPage(filepath.Join("..", "mendplan", "scan", "testdata", "formats", "png-RGB-8.png"), 7)
	_, err = scan.Open(context.Background(), filepath.Join("..", "mendplan", "scan", "testdata", "formats", "png-RGB-8.png"), scan.OpenOptions{MaxPixels: 5})
	all["too large"] = err
	all["no leaf"] = scan.ErrNoLeaf
	_, all["nothing to lay over"] = scan.RegisterSides(scan.Outline{}, scan.Outline{})

	whole, err := mendplan.Encode(mendplan.Job{Title: "1", Leaves: []mendplan.Leaf{{ID: "L1"}}})
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string]string{"empty": "", "cut short": string(whole[:len(whole)/2]), "another list": "[1]", "no JSON": "{x", "another format": "{}",
		"a newer version": strings.Replace(string(whole), `"version": 1`, `"version": 99`, 1), "a version that never was": strings.Replace(string(whole), `"version": 1`, `"version": -1`, 1),
		"a number for a text": strings.Replace(string(whole), `"title": "1"`, `"title": 1`, 1), "a text for a list": strings.Replace(string(whole), `"tissues": null`, `"tissues": "1"`, 1),
		"a text for a number": strings.Replace(string(whole), `"last_damage_number": 0`, `"last_damage_number": "1"`, 1)} {
		_, _, err := mendplan.LoadFile(file(data))
		all["job: "+name] = err
		_, err = mendplan.LoadLibrary(file(data))
		all["library: "+name] = err
	}
	_, _, all["no job"] = mendplan.LoadFile(filepath.Join(dir, "3.x"))
	_, _, all["a folder for a job"] = mendplan.LoadFile(dir)
	_, err = mendplan.LoadLibrary(file(strings.Replace(`{"format": "leafmend library", "version": 99}`, "x", "", 1)))
	all["library: a newer version"] = err
	gone := filepath.Join(dir, "4", "5.x")
	all["saved nowhere"] = mendplan.SaveFile(gone, mendplan.Job{})
	all["library saved nowhere"] = mendplan.SaveLibrary(filepath.Join(file("1"), "6.x"), mendplan.Library{})
	_, _, all["locked nowhere"] = mendplan.Lock(gone, time.Now())
	_, all["no lock to take"] = mendplan.TakeLock(gone, time.Now())
	_, all["checksum of nothing"] = mendplan.ChecksumFile(gone)
	_, all["checksum of a folder"] = mendplan.ChecksumFile(dir)
	all["written nowhere"] = mendplan.WriteFile(gone, nil)

	_, all["no length"] = mendplan.ParseLength("??", mendplan.Millimetres)
	_, all["no day"] = course.ParseDay("??")
	_, all["points too near"] = mendplan.CalibrateByPoints(geom.Pt{}, geom.Pt{X: 1}, 10, 1)
	_, all["no distance"] = mendplan.CalibrateByPoints(geom.Pt{}, geom.Pt{X: 100}, 0, 1)
	_, all["no proportion"] = mendplan.CalibrateByPoints(geom.Pt{}, geom.Pt{X: 100}, 5, 0)
	_, all["no corners"] = mendplan.CalibrateBySize(nil, 1, 1)
	_, all["no size"] = mendplan.CalibrateBySize(make([]geom.Pt, 4), 0, 1)
	_, all["corners that do not fit"] = mendplan.CalibrateBySize(make([]geom.Pt, 4), 10, 10)
	all["nothing to print"] = pdf.Write(&strings.Builder{}, mendplan.Job{}, mendplan.Plan{}, pdf.Options{})
	all["a bar that cannot be"] = pdf.Printer{BarAcross: 50}.Check()
	all["a side that cannot be drawn"] = export.WriteSVG(&strings.Builder{}, mendplan.Job{}, mendplan.Plan{}, mendplan.Leaf{ID: "L1", Mark: "1"}, mendplan.Front)
	all["no number"], all["no colour"] = notNumber("?"), notColour("?")
	all["a mistake of the program"] = mishap{what: "index out of range"}
	all["given up"] = errGivenUp
	for _, e := range []error{fs.ErrNotExist, fs.ErrPermission, fs.ErrExist, syscall.ENOSPC, syscall.EROFS, syscall.EIO, syscall.ESTALE, syscall.ENAMETOOLONG, context.Canceled, errors.New("zlib: invalid header")} {
		all["the system: "+e.Error()] = fmt.Errorf("writing: %w", &fs.PathError{Op: "open", Path: "/7.x", Err: e})
	}
	for name, err := range all {
		if err == nil {
			if strings.HasPrefix(name, "a file of") || !strings.Contains(name, " changed at ") {
				t.Errorf("%s: there was to be an error", name)
			}
			delete(all, name)
		}
	}
	return all
}

func TestNoErrorIsToldInEnglishInAnotherLanguage(t *testing.T) {
	t.Cleanup(func() { catalogue = nil })
	all := everyError(t)
	german, err := assets.Words("de")
	if err != nil {
		t.Fatal(err)
	}
	strange := strangeTongue(t)
	sentences := map[string]bool{}
	all["no such page"].(*scan.Refusal).Path = "1.x"
	all["too large"].(*scan.Refusal).Path = "1.x"
	for name, err := range all {
		catalogue = nil
		english := errorIn(err)
		catalogue = strange
		if said := errorIn(err); len(leftover(said)) > 0 {
			t.Errorf("%s: %q stays in %q (%v)", name, leftover(said), said, err)
		}
		catalogue = german
		if said := errorIn(err); said == "" || said == english {
			t.Errorf("%s: in German %q, in English %q", name, said, english)
		} else {
			sentences[said] = true
		}
	}
	t.Logf("%d errors, %d different sentences", len(all), len(sentences))
	if len(all) < 300 || len(sentences) < 90 {
		t.Errorf("only %d errors and %d sentences were tried", len(all), len(sentences))
	}
}

func TestErrorsThatAreSaidKeepTheirCauses(t *testing.T) {
	gone := filepath.Join(t.TempDir(), "no", "1.x")
	for name, err := range map[string]error{
		"a job":      mendplan.SaveFile(gone, mendplan.Job{}),
		"a sentence": phrase.Errorf("leaf %s cannot be drawn: %s", "1", &fs.PathError{Op: "open", Path: gone, Err: fs.ErrNotExist}),
		"wrapped":    fmt.Errorf("around: %w", phrase.Errorf("%s", fs.ErrNotExist)),
	} {
		if !errors.Is(err, fs.ErrNotExist) {
			t.Errorf("%s: %v does not tell that the file is not there", name, err)
		}
	}
}
