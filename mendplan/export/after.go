package export

import "leafmend/mendplan"

// Trim is a stretch of edge to be trimmed when dry.
type Trim struct {
	Leaf    string   `json:"leaf"`
	Edge    string   `json:"edge"`
	Side    string   `json:"side"`    // the tissue is on
	Up      string   `json:"up"`      // faces you while cutting
	FromMM  float64  `json:"from_mm"` // along the edge as Up lies before you, from the left or from the head
	ToMM    float64  `json:"to_mm"`
	HangMM  float64  `json:"hangs_over_mm"`
	Pieces  []string `json:"pieces"`
	Bridged bool     `json:"nicks_bridged"`
}

// Loss is what a loss lacks.
type Loss struct {
	Leaf    string  `json:"leaf"`
	Damage  int     `json:"damage"`
	AreaMM2 float64 `json:"area_mm2"`
	MassG   float64 `json:"mass_g"` // 0 when the leaf's weight is not known
}

// Swell is the thickness that mends add to a gathering.
type Swell struct {
	Gathering string     `json:"gathering,omitempty"` // "" is the bifolia as one
	FoldMM    float64    `json:"fold_mm"`
	CornerMM  float64    `json:"corner_mm"`
	WorstMM   float64    `json:"worst_mm"`
	WorstAtMM [2]float64 `json:"worst_at_mm"` // from the fold, from the head
	Estimated bool       `json:"thickness_estimated"`
}

// addAfter adds what follows on the leaves once the pieces are on.
func (out *Plan) addAfter(job mendplan.Job, plan mendplan.Plan) {
	for _, t := range mendplan.TrimList(job, plan.Pieces) {
		out.Trims = append(out.Trims, Trim{t.Leaf, string(t.Edge), string(t.Side), string(t.Up), t.From, t.To, t.HangMM, t.Pieces, t.Bridged})
	}
	for _, l := range mendplan.LossMasses(job) {
		out.Losses = append(out.Losses, Loss(l))
	}
	for _, s := range mendplan.Swells(job, plan.Pieces) {
		out.Swells = append(out.Swells, Swell{s.Gathering, s.Fold, s.Corner, s.Worst, [2]float64{s.WorstAt.X, s.WorstAt.Y}, s.Estimated})
	}
}
