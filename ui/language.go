package ui

import (
	"os"
	"runtime"
	"slices"
	"strings"

	"fyne.io/fyne/v2/lang"

	"leafmend/assets"
)

// SystemLocale returns the language the system is set to, such as
// "de_DE.UTF-8": where several variables name one, the order is that of the
// C library; where none does, systems that keep it elsewhere are asked.
func SystemLocale() string {
	l := localeOf(os.Getenv)
	if l == "" && (runtime.GOOS == "windows" || runtime.GOOS == "darwin") {
		return string(lang.SystemLocale())
	}
	return l
}

// localeOf reads the variables that name a language; "" when none does.
// LANGUAGE lists several in the order wished for, and counts only where the
// others do not ask for plain English with "C".
func localeOf(getenv func(string) string) string {
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		l := getenv(name)
		if l == "" {
			continue
		}
		if languageCode(l) == "" {
			return l
		}
		for _, wished := range strings.Split(getenv("LANGUAGE"), ":") {
			if spoken(languageCode(wished)) {
				return wished
			}
		}
		return l
	}
	return ""
}

// languageCode is the language of a locale in two or three small letters; ""
// for the plain locales C and POSIX.
func languageCode(locale string) string {
	code, _, _ := strings.Cut(strings.ToLower(locale), ".")
	code, _, _ = strings.Cut(code, "@")
	code, _, _ = strings.Cut(strings.ReplaceAll(code, "-", "_"), "_")
	if len(code) < 2 || len(code) > 3 {
		return ""
	}
	return code
}

// spoken reports whether there is a catalogue of a language.
func spoken(code string) bool {
	return slices.ContainsFunc(assets.Languages(), func(l assets.Language) bool { return l.Code == code })
}

// language is the code of the language in use: the one of the settings, else
// that of the system if it is spoken here, else English.
func (w *Window) language() string {
	if code := w.settings.Language(); spoken(code) {
		return code
	}
	if code := languageCode(w.opt.Locale); spoken(code) {
		return code
	}
	return "en"
}
