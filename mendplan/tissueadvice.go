package mendplan

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"leafmend/mendplan/phrase"
)

// TissueAdvice is a tissue of the job weighed up for one use.
type TissueAdvice struct {
	Tissue  Tissue
	Suits   bool    // made for this use, or for any
	Heavy   bool    // too heavy for the leaf (F35)
	DeltaE  float64 // CIEDE2000 to the leaf's paper; NaN unknown
	Reasons []phrase.Phrase
}

// AdviseTissues orders the job's tissues for a use on a leaf, best first.
//
// Tissue for tears must be weaker and lighter than the leaf, so that it fails
// first (F35); of those light enough, one that is nearest in colour comes
// first, else the order of the job stands. On a coated leaf the usual tissue
// is too light (F36), so there the heaviest that is still lighter comes
// first. Tissue for infills comes in order of its grammage's distance to the
// leaf's, then of colour. An unknown grammage or colour decides nothing.
func AdviseTissues(job Job, leaf Leaf, use TissueUse, paper *Lab) []TissueAdvice {
	p := paperFor(job, leaf)
	r := InForce{Job: job.Rules}
	out := make([]TissueAdvice, 0, len(job.Tissues))
	for _, t := range job.Tissues {
		out = append(out, weigh(t, p, use, paper, r))
	}
	slices.SortStableFunc(out, func(a, b TissueAdvice) int {
		return cmp.Or(
			no(a.Suits, b.Suits), no(b.Heavy, a.Heavy),
			cmp.Compare(weightOff(a.Tissue, p, use), weightOff(b.Tissue, p, use)),
			cmp.Compare(colourStep(a), colourStep(b)),
		)
	})
	return out
}

// no orders true before false.
func no(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}

// weightOff tells how far from the best weight a tissue is; 0 where weight
// does not matter beyond being light enough.
func weightOff(t Tissue, p paperOf, use TissueUse) float64 {
	switch {
	case p.grammage == 0 || t.Grammage == 0:
		return 0
	case use == ForInfills:
		return math.Round(math.Abs(t.Grammage - p.grammage))
	case p.coated:
		return -t.Grammage
	}
	return 0
}

// colourStep is the colour difference in steps an eye can see.
func colourStep(a TissueAdvice) float64 {
	if math.IsNaN(a.DeltaE) {
		return 0
	}
	return math.Round(a.DeltaE)
}

// weigh says what speaks for and against one tissue.
func weigh(t Tissue, p paperOf, use TissueUse, paper *Lab, r InForce) TissueAdvice {
	a := TissueAdvice{Tissue: t, Suits: t.Use == "" || t.Use == use, DeltaE: math.NaN()}
	because := func(p phrase.Phrase) { a.Reasons = append(a.Reasons, p) }
	if !a.Suits {
		because(phrase.Of("meant for %s", phrase.Of(string(t.Use))))
	}
	if p.grammage > 0 && t.Grammage > 0 {
		limit := p.grammage * r.Number(HeavyShare) / 100
		if use == ForInfills {
			limit = p.grammage * 1.1 // near the leaf's weight; a tenth over is common practice, no source
		}
		a.Heavy = t.Grammage >= limit
		word := phrase.Of("lighter than the leaf")
		if a.Heavy {
			word = phrase.Of("heavy for the leaf")
		} else if use == ForInfills {
			word = phrase.Of("near or below the leaf's weight")
		}
		because(phrase.Of("%s: %.4g against %.4g g/m² (Fain, West Dean College)", word, t.Grammage, p.grammage))
	}
	if p.coated && use == ForTears {
		because(phrase.Of("the leaf is coated: a heavier tissue than usual holds better (Brown, Mending and Repair of Books)"))
	}
	if paper != nil && t.Colour != "" {
		if c, err := LabOfHex(t.Colour); err == nil {
			a.DeltaE = DeltaE(*paper, c)
			because(phrase.Of("colour differs by %.1f (CIEDE2000) from the paper beside the damage", a.DeltaE))
		}
	}
	return a
}

// paperFor gathers what is known of a leaf's paper, from the leaf or the job.
func paperFor(job Job, leaf Leaf) paperOf {
	p := paperOf{grammage: leaf.Grammage, grain: leaf.Grain, coated: job.LeafPaper.Coated}
	if p.grammage == 0 {
		p.grammage = job.LeafPaper.Grammage
	}
	if p.grain == GrainUnknown {
		p.grain = job.LeafPaper.Grain
	}
	return p
}

// tissueFor picks the tissue of a mend: the one it names, else the best
// advice. ok is false when the job has none, or not the one named.
func tissueFor(job Job, leaf Leaf, m Mend, use TissueUse, paper *Lab) (TissueAdvice, bool) {
	if m.Tissue != "" {
		t, ok := job.Tissue(m.Tissue)
		a := weigh(t, paperFor(job, leaf), use, paper, InForce{Job: job.Rules})
		a.Reasons = append([]phrase.Phrase{phrase.Of("chosen by hand")}, a.Reasons...)
		return a, ok
	}
	list := AdviseTissues(job, leaf, use, paper)
	if len(list) == 0 {
		return TissueAdvice{}, false
	}
	return list[0], true
}

// words joins the reasons for a tissue.
func (a TissueAdvice) words() phrase.Phrase {
	name := a.Tissue.Name
	if name == "" {
		name = a.Tissue.ID
	}
	if len(a.Reasons) == 0 {
		return phrase.Of("%s", name)
	}
	values := []any{name}
	for _, r := range a.Reasons {
		values = append(values, r)
	}
	return phrase.Of("%s: %s"+strings.Repeat("; %s", len(a.Reasons)-1), values...)
}
