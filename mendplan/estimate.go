package mendplan

// Estimate says how much tissue and paste a plan takes.
type Estimate struct {
	Tissues []TissueEstimate // in the order of Plan.Layouts
	Paste   PasteEstimate
}

// TissueEstimate is what one tissue needs.
type TissueEstimate struct {
	Tissue    string  // ID
	Pieces    int     // how many
	Sheets    int     // fresh sheets opened
	Remnants  int     // remnants used up or cut into
	RollMM    float64 // length taken off rolls
	PiecesMM2 float64 // area of the outlines
	BlanksMM2 float64 // area of the blanks
	OpenedMM2 float64 // area of the stock opened
	KeptMM2   float64 // of it kept as remnants
	MassG     float64 // of the pieces, dry
	Yield     float64 // PiecesMM2 / (OpenedMM2 − KeptMM2); 0 when nothing is opened
	Cost      float64 // of the stock opened
	Currency  string
	SpareMM2  float64 // advised to have besides
}

// PasteEstimate leads from pasted area to what to weigh and cook.
type PasteEstimate struct {
	AreaMM2    float64 // pasted
	OnTissueG  float64 // wet paste that stays on the pieces
	SpreadG    float64 // spread out for them
	CookedG    float64 // as cooked, before thinning
	SlurryG    float64 // starch and water put on the heat for just that much
	BatchG     float64 // the batch to cook: SlurryG, but no less than the smallest
	StarchG    float64 // dry starch for BatchG
	WaterG     float64 // water for BatchG
	StarchML   float64 // the same starch, loosely filled
	StarchTbsp float64 // in US tablespoons of 14.787 mL
	WaterML    float64
	ThinG      float64 // water to thin what is used
	Times      float64 // how many such jobs one batch would serve
}
