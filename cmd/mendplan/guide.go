package main

import (
	"context"
	"io"
	"runtime"
	"strings"

	"leafmend/assets"
	"leafmend/mendplan"
	"leafmend/mendplan/pdf"
	"leafmend/mendplan/phrase"
)

// guide writes the user guide as a PDF.
func guide(_ context.Context, c call) (bool, error) {
	out := c.flags.String("o", "", "the PDF to write")
	lang := c.flags.String("lang", "en", "language of the guide: "+languageCodes())
	paper := c.flags.String("paper", "a4", "paper to print on: a4 or letter")
	rest, err := c.parse()
	if err != nil {
		return false, err
	}
	if len(rest) > 0 {
		return false, usagef("the guide needs no job, but %q was given", rest[0])
	}
	if *out == "" {
		return false, usagef("say with -o which PDF to write")
	}
	papers := map[string]mendplan.Paper{"a4": mendplan.A4, "letter": mendplan.Letter}
	size, ok := papers[strings.ToLower(*paper)]
	if !ok {
		return false, usagef("-paper may be a4 or letter, not %q", *paper)
	}
	tongue, err := tongueOf(*lang)
	if err != nil {
		return false, err
	}
	chapters, err := pdf.GuideChapters(assets.Help("guide", *lang), tongue, shortcuts(tongue))
	if err != nil {
		return false, err
	}
	g := pdf.Guide{Chapters: chapters, Paper: size, Tongue: tongue, Version: mendplan.Version,
		Picture: func(name string) []byte { return assets.GuidePicture(name, *lang) }}
	return false, mendplan.WriteFile(*out, func(w io.Writer) error { return pdf.WriteGuide(w, g) })
}

// shortcuts lists the commands of the window in a language.
func shortcuts(tongue phrase.Tongue) []pdf.GuideCommand {
	var all []pdf.GuideCommand
	for _, s := range assets.Shortcuts() {
		c := pdf.GuideCommand{ID: s.ID, Menu: tongue.Say(s.Menu), Words: tongue.Say(s.Words)}
		for _, key := range s.Keys {
			c.Keys = append(c.Keys, keyWords(key, tongue))
		}
		all = append(all, c)
	}
	return all
}

// keyWords writes "Ctrl+S" as on the keyboards of a language, and of this
// system.
func keyWords(key string, tongue phrase.Tongue) string {
	at := strings.LastIndex(strings.TrimSuffix(key, "+"), "+") // "+" may be the key itself
	name := tongue.Say(key[at+1:])
	if at < 0 {
		return name
	}
	parts := strings.Split(key[:at], "+")
	for i, p := range parts {
		if p == "Ctrl" && runtime.GOOS == "darwin" {
			p = "Cmd"
		}
		parts[i] = tongue.Say(p)
	}
	return strings.Join(append(parts, name), "+")
}
