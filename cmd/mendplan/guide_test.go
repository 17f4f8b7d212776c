package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"leafmend/assets"
)

func TestGuideIsPrintedInEveryLanguageOnBothPapers(t *testing.T) {
	for _, l := range assets.Languages() {
		for paper, box := range map[string]string{"a4": "595.28 841.89", "letter": "612.00 792.00"} {
			path := filepath.Join(t.TempDir(), "guide.pdf")
			var out, errs bytes.Buffer
			if code := run(context.Background(), []string{"guide", "-o", path, "-lang", l.Code, "-paper", paper}, &out, &errs); code != exitDone {
				t.Fatalf("%s on %s ends with %d: %s", l.Code, paper, code, errs.String())
			}
			data, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			for _, want := range []string{"%PDF-", box, "/Outlines", "/PrintScaling /None", "/Subtype /Link"} {
				if !bytes.Contains(data, []byte(want)) {
					t.Errorf("the guide in %s on %s lacks %q", l.Code, paper, want)
				}
			}
		}
	}
}

func TestGuideTellsWrongUse(t *testing.T) {
	path := filepath.Join(t.TempDir(), "guide.pdf")
	for name, c := range map[string]struct {
		args []string
		says string
	}{
		"no file named":      {nil, "-o"},
		"a job is given":     {[]string{"-o", path, "job.leafmend"}, "needs no job"},
		"an unknown paper":   {[]string{"-o", path, "-paper", "folio"}, "a4 or letter"},
		"an unknown tongue":  {[]string{"-o", path, "-lang", "xx"}, "xx"},
		"a flag there isn't": {[]string{"-o", path, "-colour"}, "colour"},
	} {
		var out, errs bytes.Buffer
		if code := run(context.Background(), append([]string{"guide"}, c.args...), &out, &errs); code != exitUsage || !strings.Contains(errs.String(), c.says) {
			t.Errorf("%s: exit code %d, %q", name, code, errs.String())
		}
	}
}

func TestKeysAreWrittenAsOnTheKeyboardOfTheLanguage(t *testing.T) {
	german := map[string]string{"Ctrl": "Strg", "Shift": "Umschalt", "Delete": "Löschen"}
	for key, want := range map[string]string{"S": "S", "+": "+", "Ctrl+S": "Strg+S", "Ctrl+Shift+Delete": "Strg+Umschalt+Löschen", "Ctrl++": "Strg++", `\`: `\`} {
		got := strings.ReplaceAll(keyWords(key, german), "Cmd", "Strg")
		if got != want {
			t.Errorf("%s is written %s, want %s", key, got, want)
		}
	}
}
