package ui

import "leafmend/mendplan"

// sentence begins with a capital and ends with a full stop.
func sentence(words string) string {
	if words == "" {
		return ""
	}
	r := []rune(words)
	if r[0] >= 'a' && r[0] <= 'z' {
		r[0] -= 'a' - 'A'
	}
	switch r[len(r)-1] {
	case '.', '!', '?', '…':
	default:
		r = append(r, '.')
	}
	return string(r)
}

// sideWord names a side in the trade's words for the kind of leaf.
func sideWord(l mendplan.Leaf, side mendplan.SideName) string {
	switch {
	case l.Kind == mendplan.SingleLeaf && side == mendplan.Back:
		return t("Back (verso)")
	case l.Kind == mendplan.SingleLeaf:
		return t("Front (recto)")
	case side == mendplan.Back:
		return t("Back (inner)")
	}
	return t("Front (outer)")
}

// sideShort names a side in one word.
func sideShort(side mendplan.SideName) string {
	switch side {
	case mendplan.Front:
		return t("front")
	case mendplan.Back:
		return t("back")
	}
	return t("either side")
}

// leafTitle names a leaf by what the user gave it.
func leafTitle(l mendplan.Leaf) string {
	mark := l.Mark
	if mark == "" {
		mark = l.ID
	}
	if l.Name == "" {
		return t("Leaf %s", mark)
	}
	return mark + " · " + l.Name
}

// weightWord says how much a problem matters.
func weightWord(w mendplan.Weight) string {
	switch w {
	case mendplan.Wrong:
		return t("to put right")
	case mendplan.Doubt:
		return t("to look at")
	}
	return t("good to know")
}

// unitChosen is the choice between the units that stands for those of a job.
func unitChosen(u mendplan.Units) string {
	if u == mendplan.Inches {
		return string(u)
	}
	return string(mendplan.Millimetres)
}

// unitsOf is what lengths of the job are shown in, in the language in use.
func unitsOf(j mendplan.Job) mendplan.Units {
	if j.Units == mendplan.Inches {
		return mendplan.Inches
	}
	if catalogue.Comma() {
		return mendplan.MillimetresComma
	}
	return mendplan.Millimetres
}
