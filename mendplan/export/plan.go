package export

import (
	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/nest"
	"leafmend/mendplan/phrase"
)

// Plan is a plan as JSON.
type Plan struct {
	Pieces   []Piece    `json:"pieces"`
	Sheets   []Sheet    `json:"sheets"`
	Remnants []Remnant  `json:"remnants"`
	Unplaced []Unplaced `json:"unplaced"`
	Estimate Estimate   `json:"estimate"`
	Problems []Problem  `json:"problems"`
	// Order and Leaves are nil, and not written, for a layout alone.
	Order  []OrderLine `json:"order_list,omitempty"`
	Leaves []LeafCost  `json:"leaves,omitempty"`
	Trims  []Trim      `json:"trims,omitempty"`
	Losses []Loss      `json:"losses,omitempty"`
	Swells []Swell     `json:"swells,omitempty"`
}

// Piece is one piece of tissue.
type Piece struct {
	Label         string         `json:"label"`
	Leaf          string         `json:"leaf"`
	Damage        int            `json:"damage"`
	Side          string         `json:"side"`
	Tissue        string         `json:"tissue"`
	Style         string         `json:"style"`
	Role          string         `json:"role"`
	Order         int            `json:"order"`
	OutlineMM     [][][2]float64 `json:"outline_mm"` // rings; holes run the other way round
	AreaMM2       float64        `json:"area_mm2"`
	PasteMM2      float64        `json:"paste_mm2"`
	BlankWidthMM  float64        `json:"blank_width_mm"`
	BlankLengthMM float64        `json:"blank_length_mm"` // along the tissue's grain
	Grain         string         `json:"grain"`           // "along" or "free"
	GrainDeg      float64        `json:"grain_deg"`       // in the leaf frame, modulo 180
	Reasons       []string       `json:"reasons"`
}

// Problem is a fault or a piece of advice.
type Problem struct {
	Kind   string      `json:"kind"`
	Weight string      `json:"weight"`
	Leaf   string      `json:"leaf,omitempty"`
	Side   string      `json:"side,omitempty"`
	Damage int         `json:"damage,omitempty"`
	AtPx   *[2]float64 `json:"at_px,omitempty"`
	Words  string      `json:"words"`
	Hint   string      `json:"hint,omitempty"`
}

// PlanOf returns the plan in its JSON form.
func PlanOf(job mendplan.Job, plan mendplan.Plan) Plan {
	out := Plan{Pieces: []Piece{}, Sheets: []Sheet{}, Remnants: []Remnant{}, Unplaced: []Unplaced{}, Problems: ProblemsOf(plan.Problems)}
	for _, p := range plan.Pieces {
		out.Pieces = append(out.Pieces, pieceOf(p))
	}
	for _, t := range plan.Layouts {
		out.addLayout(job, t.Layout)
	}
	out.Estimate = estimateOf(plan.Estimate)
	out.addCosts(job, plan)
	out.addAfter(job, plan)
	return out
}

// LayoutOf returns a layout alone in its JSON form. Job gives the stock, so
// that sheets are told in their own axes.
func LayoutOf(job mendplan.Job, layouts ...nest.Layout) Plan {
	out := Plan{Pieces: []Piece{}, Sheets: []Sheet{}, Remnants: []Remnant{}, Unplaced: []Unplaced{}, Problems: []Problem{}}
	for _, l := range layouts {
		out.addLayout(job, l)
	}
	return out
}

func pieceOf(p mendplan.Piece) Piece {
	grain := "along"
	if p.GrainFree {
		grain = "free"
	}
	out := Piece{Label: p.Label, Leaf: p.Leaf, Damage: p.Damage, Side: string(p.Side), Tissue: p.Tissue, Style: string(p.Style),
		Role: string(p.Role), Order: p.Order, OutlineMM: [][][2]float64{}, AreaMM2: p.AreaMM2, PasteMM2: p.PasteMM2,
		BlankWidthMM: p.BlankWidthMM, BlankLengthMM: p.BlankLengthMM, Grain: grain, GrainDeg: p.GrainDeg, Reasons: said(p.Reasons)}
	for _, ring := range p.Outline {
		out.OutlineMM = append(out.OutlineMM, pairs(ring))
	}
	return out
}

func pairs(pts []geom.Pt) [][2]float64 {
	out := make([][2]float64, len(pts))
	for i, p := range pts {
		out[i] = [2]float64{p.X, p.Y}
	}
	return out
}

// ProblemsOf returns problems in their JSON form.
func ProblemsOf(problems []mendplan.Problem) []Problem {
	out := []Problem{}
	for _, p := range problems {
		q := Problem{Kind: string(p.Kind), Weight: string(p.Weight), Leaf: p.Leaf, Side: string(p.Side), Damage: p.Damage, Words: p.Words.String(), Hint: p.Hint.String()}
		if p.At != nil {
			q.AtPx = &[2]float64{p.At.X, p.At.Y}
		}
		out = append(out, q)
	}
	return out
}

// said says phrases in English, the language of the open forms; never nil.
func said(phrases []phrase.Phrase) []string {
	out := make([]string, len(phrases))
	for i, p := range phrases {
		out[i] = p.String()
	}
	return out
}
