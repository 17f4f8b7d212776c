package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// quotedOrOurs is what stays the same in every language: what the table
// holds, and the names of columns and of their words.
var quotedOrOurs = regexp.MustCompile(`"[^"]*"|[a-z]+_[a-z]+|\S*\.csv|along|across|free|length|width|sheet|remnant|roll|label|tissue|kind|count|grain|margin|price|CSV|mendplan cutlist`)

func TestFaultsOfTablesAreToldInTheLanguageAskedFor(t *testing.T) {
	pieces := "label,tissue,length_mm,width_mm,count,grain\n"
	stock := "tissue,kind,length_mm,width_mm,count,grain_along,margin_mm,price\n"
	for _, c := range []struct{ name, pieces, stock string }{
		{"an empty table", "", stock},
		{"a column missing", "label,tissue\n", stock},
		{"a line that is not CSV", pieces + "\"A,T,3,3,1,along\n", stock},
		{"no number", pieces + "A,T,x,3,1,along\n", stock},
		{"no size", pieces + "A,T,,3,1,along\n", stock},
		{"no such grain", pieces + "A,T,3,3,1,askew\n", stock},
		{"no label", pieces + ",T,3,3,1,along\n", stock},
		{"a label twice", pieces + "A,T,3,3,1,along\nA,T,3,3,1,along\n", stock},
		{"no such kind", pieces, stock + "T,bale,600,600,1,length,0,9\n"},
		{"no such grain of the stock", pieces, stock + "T,sheet,600,600,1,askew,0,9\n"},
		{"a roll across", pieces, stock + "T,roll,600,600,1,width,0,9\n"},
		{"a sheet without size", pieces, stock + "T,sheet,0,600,1,length,0,9\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			p, s := filepath.Join(dir, "p.csv"), filepath.Join(dir, "s.csv")
			for file, text := range map[string]string{p: c.pieces, s: c.stock} {
				if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
					t.Fatal(err)
				}
			}
			english := mendplanRun("cutlist", "-pieces", p, "-stock", s)
			german := mendplanRun("-lang", "de", "cutlist", "-pieces", p, "-stock", s)
			if english.code != exitFile || german.code != exitFile {
				t.Fatalf("codes %d and %d: %s", english.code, german.code, english.errs)
			}
			said := quotedOrOurs.ReplaceAllString(german.errs, "")
			for _, w := range regexp.MustCompile(`[A-Za-z]{4,}`).FindAllString(quotedOrOurs.ReplaceAllString(english.errs, ""), -1) {
				if regexp.MustCompile(`\b` + w + `\b`).MatchString(said) {
					t.Errorf("%q stays English in\n%s", w, german.errs)
				}
			}
			if !strings.Contains(german.errs, "Tabelle") && !strings.Contains(german.errs, "Zeile") {
				t.Errorf("no German: %s", german.errs)
			}
		})
	}
	gone := filepath.Join(t.TempDir(), "none.leafmend")
	if r := mendplanRun("-lang", "de", "check", gone); r.code != exitFile || !strings.Contains(r.errs, "es gibt keine solche Datei") {
		t.Errorf("got %+v", r)
	}
	if r := mendplanRun("print", "-lang", "de", "-o", filepath.Join(t.TempDir(), "x.pdf"), gone); r.code != exitFile || !strings.Contains(r.errs, "es gibt keine solche Datei") {
		t.Errorf("got %+v", r)
	}
	if r := mendplanRun("-lang", "xx", "check", gone); r.code != exitUsage {
		t.Errorf("got %+v", r)
	}
}
