package mendplan

import "math"

const (
	TablespoonML = 14.787 // US tablespoon (NIST Handbook 44, appendix C: 14.786 765)
	mm2PerM2     = 1e6
)

// ShareByMass returns the starch in a paste by mass, 0 to 1, from grams of
// starch and of water; 0 when there is neither.
func ShareByMass(starchG, waterG float64) float64 {
	if starchG+waterG <= 0 {
		return 0
	}
	return starchG / (starchG + waterG)
}

// ShareByVolume returns the starch by mass of a recipe given as one part of
// powder to n parts of water by volume, for powder that weighs bulk g/mL as
// it lies in the spoon.
func ShareByVolume(n, bulk float64) float64 { return ShareByMass(bulk, n) }

// Thinned returns the starch by mass after a paste of the given share has
// taken up water, in parts of water to one part of paste, by mass.
func Thinned(share, waterParts float64) float64 { return share / (1 + waterParts) }

// EstimatePaste leads from the area to be pasted to what to cook. There is no
// published figure for wet paste on mending tissue, so the answer is as good
// as the rule [WetCoat]: weigh a few strips before and after pasting.
func EstimatePaste(areaMM2 float64, rules InForce) PasteEstimate {
	share := rules.Number(PasteStrength) / 100
	thin := rules.Number(Thinning)
	kept := (1 - rules.Number(CookingLoss)/100) * (1 - rules.Number(SievingLoss)/100)
	e := PasteEstimate{AreaMM2: areaMM2}
	e.OnTissueG = areaMM2 / mm2PerM2 * rules.Number(WetCoat)
	e.SpreadG = e.OnTissueG * rules.Number(Spreading)
	e.CookedG = e.SpreadG / (1 + thin)
	e.ThinG = e.SpreadG - e.CookedG
	e.SlurryG = e.CookedG / kept
	if areaMM2 <= 0 {
		return e
	}
	e.BatchG = math.Max(e.SlurryG, rules.Number(SmallestBatch))
	e.StarchG = e.BatchG * share
	e.WaterG = e.BatchG - e.StarchG
	e.WaterML = e.WaterG // at 1 g/mL
	e.StarchML = e.StarchG / rules.Number(BulkDensity)
	e.StarchTbsp = e.StarchML / TablespoonML
	e.Times = e.BatchG / e.SlurryG
	return e
}
