package course

import (
	"time"

	"leafmend/mendplan/phrase"
)

const (
	dayForm  = "2006-01-02"
	hourForm = "15:04"
	noon     = "12:00" // taken for a step that tells no hour
)

// ParseDay reads a day written YYYY-MM-DD.
func ParseDay(s string) (time.Time, error) {
	t, err := time.Parse(dayForm, s)
	if err != nil {
		return time.Time{}, phrase.Errorf("“%s” is not a day: write it as 2026-11-25", s)
	}
	return t, nil
}

// Day writes a day.
func Day(t time.Time) string { return t.Format(dayForm) }

// at returns the moment of a day and an hour; without an hour it is noon.
func at(day, hour string) (time.Time, bool) {
	if hour == "" {
		hour = noon
	}
	t, err := time.Parse(dayForm+" "+hourForm, day+" "+hour)
	return t, err == nil
}

// daysBetween returns how many days lie from one day to another.
func daysBetween(from, to string) (int, bool) {
	a, err1 := ParseDay(from)
	b, err2 := ParseDay(to)
	return int(b.Sub(a).Hours() / 24), err1 == nil && err2 == nil
}
