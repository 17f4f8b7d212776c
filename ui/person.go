package ui

import "strings"

// Person is the name last given for who did something, proposed for the next
// entry. It stays with the program, not with the job.
func (s settings) Person() string { return s.p.String("person") }

// SetPerson remembers a name.
func (s settings) SetPerson(v string) { s.p.SetString("person", v) }

// nameField is a field for who did something. It begins with the name that
// was given last.
func (w *Window) nameField() *textField {
	f := newTextField(func(s string) { w.settings.SetPerson(strings.TrimSpace(s)) })
	f.SetPlaceHolder(t("your name"))
	f.set(w.settings.Person())
	return f
}

// fillName proposes the name given last in a field that is still empty.
func (w *Window) fillName(f *textField) {
	if f.Text == "" && !f.focused {
		f.set(w.settings.Person())
	}
}

// namedIn returns the name in a field and remembers it; without one the status
// line asks for it.
func (w *Window) namedIn(f *textField) (string, bool) {
	name := strings.TrimSpace(f.Text)
	if name == "" {
		w.status.say(t("Say who did it: a report needs dated steps with names."))
		return "", false
	}
	w.settings.SetPerson(name)
	return name, true
}
