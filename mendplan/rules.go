package mendplan

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strconv"

	"leafmend/mendplan/phrase"
)

// RuleKey names a rule in files; lengths end in their unit.
type RuleKey string

// RuleValue is the value of a rule: a number, or a word where the rule is a
// choice. In files it is written as one or the other.
type RuleValue struct {
	Number float64
	Word   string
}

// Rules holds departures from the defaults of [RuleTable]: of a job, or of
// one mend. The zero value departs from nothing. A Rules that has been put
// into a Job is never written to; [Rules.With] returns a new one.
type Rules map[RuleKey]RuleValue

// Rule describes one rule: what it says, in which unit, what holds when
// nobody says otherwise, how far one may go, and on what that rests.
type Rule struct {
	Key      RuleKey
	Group    string // heading it is shown under
	Words    string // what it sets, for the user
	Unit     string // "mm", "g/m²", "°", "%", "" …
	Default  RuleValue
	Min, Max float64  // allowed range of a number
	Choices  []string // allowed words of a choice; empty for a number
	Basis    string   // source of the default, or "common practice, no source"
}

// With returns the rules with one more departure.
func (r Rules) With(key RuleKey, v RuleValue) Rules {
	out := make(Rules, len(r)+1)
	for k, old := range r {
		out[k] = old
	}
	out[key] = v
	return out
}

// Without returns the rules with key back at the default.
func (r Rules) Without(key RuleKey) Rules {
	out := make(Rules, len(r))
	for k, old := range r {
		if k != key {
			out[k] = old
		}
	}
	return out
}

// InForce looks rules up in layers: first the mend's own, then the job's,
// then the default.
type InForce struct{ Mend, Job Rules }

// Number returns the value of a numeric rule, kept inside its range; an
// unknown key is a mistake of the program and gives 0.
func (f InForce) Number(key RuleKey) float64 {
	def, ok := RuleFor(key)
	if !ok {
		return 0
	}
	v := def.Default.Number
	if o, ok := f.Job[key]; ok {
		v = o.Number
	}
	if o, ok := f.Mend[key]; ok {
		v = o.Number
	}
	if math.IsNaN(v) {
		v = def.Default.Number
	}
	return min(max(v, def.Min), def.Max)
}

// Word returns the value of a rule that is a choice; a word that is not
// among the choices counts as the default.
func (f InForce) Word(key RuleKey) string {
	def, ok := RuleFor(key)
	if !ok {
		return ""
	}
	for _, layer := range []Rules{f.Mend, f.Job} {
		if o, ok := layer[key]; ok && slices.Contains(def.Choices, o.Word) {
			return o.Word
		}
	}
	return def.Default.Word
}

// RuleFor returns the description of a rule.
func RuleFor(key RuleKey) (Rule, bool) {
	i, ok := ruleIndex[key]
	if !ok {
		return Rule{}, false
	}
	return ruleTable[i], true
}

// RuleTable lists every rule, in the order they are shown.
func RuleTable() []Rule { return slices.Clone(ruleTable) }

var ruleIndex = func() map[RuleKey]int {
	m := make(map[RuleKey]int, len(ruleTable))
	for i, r := range ruleTable {
		m[r.Key] = i
	}
	return m
}()

// Num makes the value of a numeric rule.
func Num(v float64) RuleValue { return RuleValue{Number: v} }

// Choice makes the value of a rule that is a choice.
func Choice(w string) RuleValue { return RuleValue{Word: w} }

// String shows the value without its unit.
func (v RuleValue) String() string {
	if v.Word != "" {
		return v.Word
	}
	return strconv.FormatFloat(v.Number, 'g', -1, 64)
}

// MarshalJSON writes a number or a word.
func (v RuleValue) MarshalJSON() ([]byte, error) {
	if v.Word != "" {
		return json.Marshal(v.Word)
	}
	return json.Marshal(v.Number)
}

// UnmarshalJSON reads a number or a word.
func (v *RuleValue) UnmarshalJSON(b []byte) error {
	*v = RuleValue{}
	if len(b) > 0 && b[0] == '"' {
		return json.Unmarshal(b, &v.Word)
	}
	if err := json.Unmarshal(b, &v.Number); err != nil {
		return fmt.Errorf("reading a rule: want a number or a word, have %.20s", b)
	}
	return nil
}

// ruleProblems names rules outside their range and unknown choices.
func ruleProblems(r Rules, p Problem) []Problem {
	var out []Problem
	for _, def := range ruleTable {
		v, ok := r[def.Key]
		if !ok {
			continue
		}
		p.Kind, p.Weight = BadRule, Doubt
		switch {
		case len(def.Choices) > 0 && !slices.Contains(def.Choices, v.Word):
			p.Words = phrase.Of("“%s” is not a choice for “%s”", phrase.Of(v.Word), phrase.Of(def.Words))
			p.Hint = phrase.Of("The default, %s, is used.", phrase.Of(def.Default.Word))
		case len(def.Choices) == 0 && !(v.Number >= def.Min && v.Number <= def.Max):
			p.Words = phrase.Of("%s: %g %s is outside %g–%g", phrase.Of(def.Words), v.Number, def.Unit, def.Min, def.Max)
			p.Hint = phrase.Of("The nearest allowed value is used.")
		default:
			continue
		}
		out = append(out, p)
	}
	return out
}
