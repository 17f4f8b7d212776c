package pdf

import (
	"time"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// tiers are the hours of the five tiers, in words.
var tiers = []string{"under 1 h", "1 to 3 h", "3 to 5 h", "5 to 10 h", "over 10 h"}

// Phrases lists the words of the print that are not written out where they are
// used, for whoever makes a catalogue of another language: names of days and
// months, roles of pieces, weights of problems, tiers, ways, and what a scale rests on.
func Phrases() []string {
	out := append([]string{}, tiers...)
	for d := time.Sunday; d <= time.Saturday; d++ {
		out = append(out, d.String(), d.String()[:3])
	}
	for m := time.January; m <= time.December; m++ {
		out = append(out, m.String(), m.String()[:3])
	}
	for _, r := range []mendplan.Role{mendplan.RoleMend, mendplan.RoleFill, mendplan.RoleCover, mendplan.RoleEdge, mendplan.RoleSecond, mendplan.RoleBridge, mendplan.RoleGuard} {
		out = append(out, string(r))
	}
	for _, w := range []mendplan.Weight{mendplan.Wrong, mendplan.Doubt, mendplan.Advice} {
		out = append(out, string(w))
	}
	for _, o := range []mendplan.Origin{mendplan.FromFile, mendplan.FromTwoPoints, mendplan.FromRuler, mendplan.FromLeafSize, mendplan.FromCorners} {
		out = append(out, string(o))
	}
	return append(out, course.ChoiceAll, course.ChoiceNoFills, course.ChoiceSevere, course.ChoiceWithTissue, "weights", "common practice, no source")
}
