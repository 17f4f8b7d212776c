package mendplan

// starterNote marks sizes and weights nobody measured here.
const starterNote = "from memory: check against your own sheet"

// StarterTissues returns the tissues a new job begins with: three weights of
// kozo and one near the weight of a leaf, for infills. The classes light,
// medium and heavy follow A. BonaDea, "Japanese Repair Tissue"; grammages and
// sizes are from memory and marked so. They are presets, meant to be replaced
// by what is in the drawer.
func StarterTissues() ([]Tissue, []Stock) {
	tissues := []Tissue{
		{ID: "T1", Name: "kozo tissue, light, 5 g/m²", Fibre: "kozo", Grammage: 5, Colour: "#f4eee0", Use: ForTears},
		{ID: "T2", Name: "kozo tissue, medium, 12 g/m²", Fibre: "kozo", Grammage: 12, Colour: "#efe6d2", Use: ForTears},
		{ID: "T3", Name: "kozo paper, heavy, 35 g/m²", Fibre: "kozo", Grammage: 35, Colour: "#eadfc6", Use: ForInfills},
	}
	stock := []Stock{
		{ID: "S1", Tissue: "T1", Kind: SheetStock, LengthMM: 970, WidthMM: 640, Count: 2, GrainAlong: "length", Note: starterNote},
		{ID: "S2", Tissue: "T2", Kind: SheetStock, LengthMM: 940, WidthMM: 630, Count: 2, GrainAlong: "length", MarginMM: 10, Note: starterNote},
		{ID: "S3", Tissue: "T3", Kind: SheetStock, LengthMM: 990, WidthMM: 610, Count: 2, GrainAlong: "length", MarginMM: 10, Note: starterNote},
	}
	return tissues, stock
}
