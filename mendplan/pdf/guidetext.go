package pdf

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/phrase"
)

// GuideChapter is a chapter of the user guide.
type GuideChapter struct {
	ID       string // the same in every language, such as "first-job"
	Title    string
	Markdown string // what stands below the title; headings in it are of level 2
}

// GuideCommand is a command of the window, in the guide's language.
type GuideCommand struct {
	ID, Menu, Words string
	Keys            []string // the one to be named first
}

var (
	chapterHead = regexp.MustCompile(`^# (.+) \{#([a-z-]+)\}$`)
	guideMark   = regexp.MustCompile(`\{([a-z]+):([^}\s]+)\}`)
	guideName   = regexp.MustCompile(`\[\[([^\]]+)\]\]`)
)

// GuideChapters splits the text of the guide at its headings of level 1, each
// followed by the chapter's id, "# First job {#first-job}", and fills its
// marks in: [[Print…]] with that name in the window's language, which must have
// it, in bold; {rule:KEY} with the default of a rule, {key:ID} with the key of a
// command, {keys:all} with a list of all commands. An error names a mark that
// nothing fills.
func GuideChapters(text string, tongue phrase.Tongue, commands []GuideCommand) ([]GuideChapter, error) {
	var faults []string
	text = guideMark.ReplaceAllStringFunc(text, func(mark string) string {
		m := guideMark.FindStringSubmatch(mark)
		filled := ""
		switch m[1] {
		case "key":
			if i := slices.IndexFunc(commands, func(c GuideCommand) bool { return c.ID == m[2] && len(c.Keys) > 0 }); i >= 0 {
				filled = commands[i].Keys[0]
			}
		case "keys":
			filled = commandList(commands)
		case "rule":
			filled = ruleDefault(m[2], tongue)
		}
		if filled == "" {
			faults = append(faults, mark)
		}
		return filled
	})
	text = guideName.ReplaceAllStringFunc(text, func(mark string) string {
		name := mark[2 : len(mark)-2]
		if _, ok := tongue[name]; tongue != nil && !ok {
			faults = append(faults, mark)
		}
		return "**" + tongue.Say(name) + "**"
	})
	if len(faults) > 0 {
		return nil, fmt.Errorf("the user guide: nothing fills %s", strings.Join(faults, ", "))
	}
	var out []GuideChapter
	for _, line := range strings.Split(text, "\n") {
		if m := chapterHead.FindStringSubmatch(line); m != nil {
			out = append(out, GuideChapter{ID: m[2], Title: m[1]})
			continue
		}
		if len(out) == 0 {
			if strings.TrimSpace(line) != "" {
				return nil, fmt.Errorf("the user guide: %q stands before the first chapter", line)
			}
			continue
		}
		out[len(out)-1].Markdown += line + "\n"
	}
	return out, nil
}

// commandList lists commands with their keys, menu by menu, as Markdown.
func commandList(commands []GuideCommand) string {
	var b strings.Builder
	menu := ""
	for _, c := range commands {
		if c.Menu != menu {
			menu = c.Menu
			fmt.Fprintf(&b, "\n## %s\n\n", menu)
		}
		fmt.Fprintf(&b, "- **%s**: %s\n", strings.TrimSuffix(c.Words, "…"), strings.Join(c.Keys, ", "))
	}
	return b.String()
}

// ruleDefault is the default of a rule with its unit; "" if there is no such
// rule.
func ruleDefault(key string, tongue phrase.Tongue) string {
	r, ok := mendplan.RuleFor(mendplan.RuleKey(key))
	switch {
	case !ok:
		return ""
	case len(r.Choices) > 0:
		return tongue.Say(r.Default.Word)
	case r.Unit == "" || r.Unit == "°":
		return tongue.Figures("%g%s", r.Default.Number, r.Unit)
	}
	return tongue.Figures("%g\u00a0%s", r.Default.Number, tongue.Say(r.Unit))
}
