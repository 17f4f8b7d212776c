package mendplan

// Gathering is bifolia nested in one another, as a job records it: the
// outermost sheet first. Signatures, page numbers and folios follow from the
// places; see package collate.
type Gathering struct {
	ID        string         `json:"id"`
	Signature string         `json:"signature,omitempty"`   // as printed, such as "B"; "" when unsigned
	Cover     bool           `json:"cover,omitempty"`       // wraps all the others
	FirstPage int            `json:"first_page,omitempty"`  // number of its first page; 0 follows the gathering before
	Sheets    []SheetPlace   `json:"sheets"`                // outermost first
	Pages     map[int]string `json:"page_labels,omitempty"` // what stands on a page instead of its number, by place in the gathering from 1
	Note      string         `json:"note,omitempty"`
}

// SheetPlace is the place of one sheet in a gathering. The zero value is a
// whole bifolium that has not been scanned yet.
type SheetPlace struct {
	Leaf string `json:"leaf,omitempty"` // ID of the leaf in the job; "" when there is no scan of it
	// Half says that the sheet is a singleton in the first or the second
	// half of the gathering; "" is a bifolium.
	Half Half `json:"half,omitempty"`
	// Missing says which half of a bifolium is gone, or that all is.
	Missing Missing `json:"missing,omitempty"`
	Inset   bool    `json:"inset,omitempty"` // laid in, not printed with the rest
	Blank   bool    `json:"blank,omitempty"` // without print: it completes the gathering and is kept
	Note    string  `json:"note,omitempty"`
}

// Half names the half of a gathering that a singleton stands in.
type Half string

// Halves of a gathering; the zero value is both, a bifolium.
const (
	WholeSheet Half = ""
	FirstHalf  Half = "first"
	SecondHalf Half = "second"
)

// Missing says what of a sheet is gone.
type Missing string

// What can be missing; the zero value is nothing.
const (
	NothingMissing Missing = ""
	FirstMissing   Missing = "first leaf"
	SecondMissing  Missing = "second leaf"
	AllMissing     Missing = "all"
)

// WithGatherings returns the job with these gatherings.
func (j Job) WithGatherings(g []Gathering) Job {
	j.Gatherings = g
	return j
}

// placeOf returns gathering and place of a leaf in the job's gatherings.
func (j Job) placeOf(leafID string) (g Gathering, place int, ok bool) {
	for _, g := range j.Gatherings {
		for i, s := range g.Sheets {
			if s.Leaf == leafID {
				return g, i, true
			}
		}
	}
	return Gathering{}, 0, false
}
