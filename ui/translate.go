package ui

import (
	"leafmend/assets"
	"leafmend/mendplan/phrase"
)

// catalogue holds the words of the language in use, from English; nil is
// English. It is set once, before the window is built.
var catalogue phrase.Tongue

// language is the code of the language in use.
var language = "en"

// useLanguage takes the catalogue of a language; an unknown one is English.
func useLanguage(code string) {
	catalogue, language = nil, "en"
	if code == "" || code == "en" {
		return
	}
	if words, err := assets.Words(code); err == nil {
		catalogue, language = words, code
	}
}

// t returns the English words in the language in use, with the values put in
// as by fmt.Sprintf. Words without a translation stay English.
func t(english string, values ...any) string { return catalogue.Say(english, values...) }

// figures writes numbers as fmt.Sprintf does, with the decimal sign of the
// language in use.
func figures(format string, values ...any) string { return catalogue.Figures(format, values...) }

// say is what the engine wrote, in the language in use.
func say(p phrase.Phrase) string { return p.In(catalogue) }
