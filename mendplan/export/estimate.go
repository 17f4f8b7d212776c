package export

import (
	"strconv"

	"leafmend/mendplan"
	"leafmend/mendplan/nest"
)

// Estimate is the estimate as JSON.
type Estimate struct {
	Tissues []TissueEstimate `json:"tissues"`
	Paste   PasteEstimate    `json:"paste"`
}

// TissueEstimate is what one tissue needs.
type TissueEstimate struct {
	Tissue    string  `json:"tissue"`
	Pieces    int     `json:"pieces"`
	Sheets    int     `json:"sheets"`
	Remnants  int     `json:"remnants"`
	RollMM    float64 `json:"roll_mm"`
	PiecesMM2 float64 `json:"pieces_mm2"`
	BlanksMM2 float64 `json:"blanks_mm2"`
	OpenedMM2 float64 `json:"opened_mm2"`
	KeptMM2   float64 `json:"kept_mm2"`
	MassG     float64 `json:"mass_g"`
	Yield     float64 `json:"yield"` // 0 to 1
	Cost      float64 `json:"cost"`
	Currency  string  `json:"currency"`
	SpareMM2  float64 `json:"spare_mm2"`
}

// PasteEstimate leads from area to what to weigh.
type PasteEstimate struct {
	AreaMM2    float64 `json:"area_mm2"`
	OnTissueG  float64 `json:"on_tissue_g"`
	SpreadG    float64 `json:"spread_g"`
	CookedG    float64 `json:"cooked_g"`
	ThinG      float64 `json:"thinning_water_g"`
	SlurryG    float64 `json:"slurry_g"`
	BatchG     float64 `json:"batch_g"`
	StarchG    float64 `json:"starch_g"`
	WaterG     float64 `json:"water_g"`
	StarchML   float64 `json:"starch_ml"`
	StarchTbsp float64 `json:"starch_tablespoons"`
	Times      float64 `json:"batch_serves_such_jobs"`
}

func estimateOf(e mendplan.Estimate) Estimate {
	out := Estimate{Tissues: []TissueEstimate{}}
	for _, t := range e.Tissues {
		out.Tissues = append(out.Tissues, TissueEstimate(t))
	}
	p := e.Paste
	out.Paste = PasteEstimate{AreaMM2: p.AreaMM2, OnTissueG: p.OnTissueG, SpreadG: p.SpreadG, CookedG: p.CookedG, ThinG: p.ThinG,
		SlurryG: p.SlurryG, BatchG: p.BatchG, StarchG: p.StarchG, WaterG: p.WaterG, StarchML: p.StarchML, StarchTbsp: p.StarchTbsp, Times: p.Times}
	return out
}

// partWords says what a cut leaves on one side.
func partWords(s nest.Sheet, p nest.Part) string {
	switch {
	case p.Place >= 0 && p.Place < len(s.Places):
		return "piece " + s.Places[p.Place].Name()
	case p.Left >= 0 && p.Left < len(s.Remnants) && s.Remnants[p.Left].Keep:
		return "remnant"
	case p.Number > 0:
		return "part " + strconv.Itoa(p.Number)
	}
	return "waste"
}
