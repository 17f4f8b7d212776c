package course

import (
	"slices"

	"leafmend/mendplan"
)

// Caution is what to mind at a step.
type Caution struct {
	Topic string
	Words string
	Basis string
}

// Defer stands under every list of cautions.
const Defer = "These are reminders, not instructions. Local codes, safety data sheets and licensed practice come first; when in doubt, ask a conservator."

var cautions = []struct {
	at []mendplan.StepKind
	Caution
}{
	{[]mendplan.StepKind{mendplan.Surveyed, mendplan.SurfaceCleaned, mendplan.Disbound}, Caution{"Mould",
		"Growth or spongy paper: isolate, do not brush. Nitrile gloves, apron, respirator of class N95 or P2 or better; nobody with allergies or weak immunity. Dry at 50 % relative humidity or below first; vacuum only through a HEPA filter. Mould starts within 48 to 72 hours of wetting.",
		"NEDCC Preservation Leaflet 3.8 and Preservation 101; respirator classes from memory"}},
	{[]mendplan.StepKind{mendplan.TrimmedStep, mendplan.Disbound}, Caution{"Blades",
		"Metal safety rule, cut away from the holding hand, change blades with a blade remover, used blades into a sharps box.",
		"common practice, no source"}},
	{[]mendplan.StepKind{mendplan.Washed, mendplan.Alkalised, mendplan.Tested}, Caution{"Water and media",
		"Test every ink and colour on the leaf, and the bare paper, each more than once and with longer contact; look at blotter and leaf. Washing cannot be undone and changes paper, size and media.",
		"M. A. Smith and others, JAIC 23(2), 1984; AIC Wiki, BPG Washing"}},
	{[]mendplan.StepKind{mendplan.Alkalised, mendplan.Bleached, mendplan.Tested}, Caution{"Solvents and chemicals",
		"Read the safety data sheet, gloves and eye protection, extraction or fresh air, nothing near a flame, waste to the proper collection.",
		"common practice, no source"}},
	{[]mendplan.StepKind{mendplan.Bleached}, Caution{"Bleaching",
		"Avoided today or left to specialists: most old baths weaken the paper for ever. The program only records that it was done, and by whom.",
		"Cockerell, Bookbinding, and the Care of Books (1901), on bleaching"}},
	{[]mendplan.StepKind{mendplan.MendedStep}, Caution{"Paste on print",
		"Swab a spot with water and blot it: if ink moves or fades, no wet paste there. Too much water makes paper stretch.",
		"Dartmouth College Library, A Simple Book Repair Manual; M. W. Brown, ALA (1921)"}},
	{[]mendplan.StepKind{mendplan.PressedIn}, Caution{"Pressing",
		"Long light pressure flattens better than short heavy pressure. Hand-printed, freshly printed or thickly coloured leaves get little or none. Never leave paper damp for more than 24 hours.",
		"Cockerell (1901), chapters IV and V; a preservation blog, Humidifying Documents (2014)"}},
}

// Cautions returns what to mind at an act.
func Cautions(kind mendplan.StepKind) []Caution {
	var out []Caution
	for _, c := range cautions {
		if slices.Contains(c.at, kind) {
			out = append(out, c.Caution)
		}
	}
	return out
}

// AllCautions returns every caution, for print.
func AllCautions() []Caution {
	out := make([]Caution, len(cautions))
	for i, c := range cautions {
		out[i] = c.Caution
	}
	return out
}

var stops = []string{
	"iron-gall ink", "friable or thick media", "coated or glossy paper", "tracing paper or onion-skin", "parchment", "photographs",
	"embossed seals", "plate-marked prints", "composite objects", "large tears with brittle paper", "active mould", "heavy soil", "high value",
	"not yet collated and surveyed, or the owner not told of defects",
}

// StopList returns what should make one lay the work aside and ask a
// conservator before it begins (US National Park Service, Conserve O Gram
// 13/2; Missouri State Archives; the last from Cockerell, 1901).
func StopList() []string { return slices.Clone(stops) }

// OpenStops returns what of the stop list the job has not answered "no" to.
func OpenStops(job mendplan.Job) []string {
	return slices.DeleteFunc(StopList(), func(s string) bool { return slices.Contains(job.StopList, s) })
}
