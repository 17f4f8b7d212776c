package journal_test

import (
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/phrase"
	"leafmend/mendplan/scan"
	"leafmend/ui/journal"
)

func TestTextsLoseWhatIsPersonal(t *testing.T) {
	home, err := os.UserHomeDir()
	if err != nil || home == "/" {
		home = "/home/nobody-known"
	}
	for _, c := range []struct {
		name, text string
		gone       []string
		stays      []string
	}{
		{"a path with blanks", "open /srv/Nachlass Weber/Blatt 3 recto.tif: permission denied", []string{"Nachlass", "Weber", "Blatt", "recto", "srv"}, []string{".tif", "permission denied"}},
		{"a path with umlauts", "open /data/Mühlhäuser/Gebührenheft/Seite.jpeg: no such file or directory", []string{"Mühl", "häuser", "Gebühren", "Seite"}, []string{".jpeg", "no such file"}},
		{"a colon and a blank in a name", "open /x/Weber: Briefe/a b.png: input/output error", []string{"Weber", "Briefe", "a b"}, []string{"error"}},
		{"a drive and backslashes", `open C:\Users\Käthe Weber\Desktop\Lied 3.tif: Access is denied.`, []string{"Käthe", "Weber", "Desktop", "Lied", `C:\`}, []string{".tif", "Access is denied"}},
		{"a share", `open \\atelier-nas\Weber\Scan.tif: The network path was not found.`, []string{"atelier", "nas", "Weber", "Scan"}, []string{".tif", "network path"}},
		{"a path in straight quotes", `cannot read "/mnt/Weber & Sohn/S. 1.bmp" at row 7`, []string{"Weber", "Sohn", "S. 1", "mnt"}, []string{".bmp", "at row 7"}},
		{"a path in German quotes", `„/mnt/Weber/Seite 1.bmp“ fehlt`, []string{"Weber", "Seite"}, []string{".bmp", "fehlt"}},
		{"an address of a file", "no viewer for file:///media/weber/K%C3%A4the%20Lieder.pdf today", []string{"weber", "K%C3", "Käthe", "Lieder"}, []string{".pdf", "no viewer", "today"}},
		{"any other address", "get https://weber.example/a?b=c failed", []string{"weber", "example"}, []string{"failed"}},
		{"the home folder", "stat " + home + "/x: no such file", []string{home}, []string{"no such file"}},
		{"a path from the home sign", "~/Weber/lied.webp: damaged", []string{"Weber", "lied"}, []string{".webp", "damaged"}},
		{"a path from here", "reading scans/Weber-3.tif", []string{"scans", "Weber"}, []string{"reading", ".tif"}},
		{"a name alone, with blanks", "Käthe Weber 3.tif: the file is damaged; copy it again", []string{"Käthe", "Weber"}, []string{".tif", "the file is damaged", "copy it again"}},
		{"a rename", "rename /a/Weber 1.leafmend /b/Weber 2.leafmend: file exists", []string{"Weber"}, []string{"file exists"}},
		{"two lines", "open /a/Weber:\nopen /b/Weber", []string{"Weber"}, []string{"open"}},
		{"what is not UTF-8", "open /a/\xff\xfeWeber.tif: no", []string{"Weber"}, []string{"no"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := journal.NewRedactor().Text(c.text)
			for _, g := range c.gone {
				if strings.Contains(strings.ToLower(got), strings.ToLower(g)) {
					t.Errorf("%q still says %q", got, g)
				}
			}
			for _, s := range c.stays {
				if !strings.Contains(got, s) {
					t.Errorf("%q lost %q", got, s)
				}
			}
		})
	}
}

func TestTextsWithoutAnythingPersonalStay(t *testing.T) {
	for _, text := range []string{"", "the disk is full", "row 7 of 12, 3.5 mm", "a strip is 3/8 in wide", "TIFF with 32 bits per sample is not read", "120 g/m² or 4 × 5"} {
		if got := journal.NewRedactor().Text(text); got != text {
			t.Errorf("%q became %q", text, got)
		}
	}
}

func TestOneFileKeepsItsNumberAndAnotherGetsAnother(t *testing.T) {
	r := journal.NewRedactor()
	a, b, again := r.Text("/x/one.tif"), r.Text("/x/two.tif"), r.Text("“/x/one.tif”")
	if a != "…/file1.tif" || b != "…/file2.tif" || again != "“…/file1.tif”" {
		t.Errorf("got %q, %q, %q", a, b, again)
	}
	if twice := r.Text(a); twice != a {
		t.Errorf("redacted twice, %q became %q", a, twice)
	}
}

func TestErrorsLoseWhatIsPersonalWhereverItStands(t *testing.T) {
	path := "/data/Käthe Weber/Lieder: Heft 2/Seite 3 (recto).tif"
	cause := &fs.PathError{Op: "open", Path: path, Err: fs.ErrPermission}
	for _, err := range []error{
		cause,
		&mendplan.FileError{Path: path, Place: phrase.Of("line %d", 3), Words: phrase.Of("the file is damaged"), Remedy: phrase.Of("open it again"), Detail: "near Seite 3 (recto)", Err: cause},
		&scan.Refusal{Path: path, What: phrase.Of("the file is empty"), Err: cause},
		fmt.Errorf("reading Seite 3 (recto).tif of KÄTHE WEBER: %w", cause),
		&os.LinkError{Op: "rename", Old: path, New: path + ".part", Err: fs.ErrExist},
		errors.Join(errors.New("first"), fmt.Errorf("Heft of Weber: %w", cause)),
		phrase.Errorf("“%s” cannot be drawn: %s", path, cause),
	} {
		r := journal.NewRedactor()
		for _, got := range []string{r.Error(err), r.Chain(err)} {
			for _, g := range []string{"käthe", "weber", "lieder", "heft", "seite", "recto"} {
				if strings.Contains(strings.ToLower(got), g) {
					t.Errorf("%T: %q still says %q", err, got, g)
				}
			}
		}
		if got := r.Chain(err); !strings.Contains(got, "permission denied") && !strings.Contains(got, "exist") && !strings.Contains(got, "empty") {
			t.Errorf("%q does not tell the cause", got)
		}
	}
}

func TestWhatWasNotedNeverComesThrough(t *testing.T) {
	letters := []rune("abcdefghijklmnopqrstuvwxyzäöüßéABCXYZ0123456789 _-.'(),&:;")
	for seed := range uint64(400) {
		rnd := rand.New(rand.NewPCG(seed, 8))
		name := func() string {
			var b strings.Builder
			b.WriteString("Q")
			for range 4 + rnd.IntN(12) {
				b.WriteRune(letters[rnd.IntN(len(letters))])
			}
			return strings.TrimSpace(b.String()) + "Z"
		}
		folder, file, title := name(), name()+".tif", name()
		path := "/" + folder + "/" + file
		r := journal.NewRedactor()
		r.NotePath(path)
		r.NoteName(title)
		forms := []string{"open %s: no", "“%s” is gone", "read %s at once", "%s", "x (%s) y", "cannot open \"%s\"."}
		for _, secret := range []string{path, folder, file, strings.TrimSuffix(file, ".tif"), title} {
			text := fmt.Sprintf(forms[rnd.IntN(len(forms))], secret)
			if got := r.Text(text); strings.Contains(got, secret) {
				t.Fatalf("seed %d: %q became %q", seed, text, got)
			}
		}
	}
}

func TestStacksKeepTheSourceAndLoseTheFolders(t *testing.T) {
	stack := "panic: open /home/weber/Heft.tif: permission denied\n\ngoroutine 7 [running]:\nleafmend/ui.(*Window).save(0xc000123, {0x1, 0x2})\n\t/home/weber/src/leafmend/ui/files.go:153 +0x1d\ncreated by leafmend/ui.worker.start in goroutine 1\n\t/home/weber/src/leafmend/ui/worker.go:24 +0x99\n"
	got := journal.NewRedactor().Stack(stack)
	for _, want := range []string{"\tui/files.go:153", "\tui/worker.go:24", "leafmend/ui.(*Window).save(", "goroutine 7 [running]:", "permission denied", "created by leafmend/ui.worker.start in goroutine 1"} {
		if !strings.Contains(got, want) {
			t.Errorf("lost %q in\n%s", want, got)
		}
	}
	for _, gone := range []string{"weber", "home", "Heft"} {
		if strings.Contains(got, gone) {
			t.Errorf("still says %q:\n%s", gone, got)
		}
	}
}

func FuzzText(f *testing.F) {
	f.Add("open /a/b c.tif: no", "/a/b c.tif")
	f.Add(`„C:\x“`, `C:\x`)
	f.Fuzz(func(t *testing.T, text, path string) {
		r := journal.NewRedactor()
		r.NotePath(path)
		r.NoteName(path)
		r.Stack(text)
		once := r.Text(text)
		if strings.Contains(once, "/home/") {
			t.Errorf("%q became %q", text, once)
		}
	})
}
