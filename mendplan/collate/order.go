package collate

import "leafmend/mendplan"

// Way says how a publication is put together again.
type Way string

// The two ways of piling sheets.
const (
	OutsideIn     Way = "outside in"     // the outermost sheet first, inner side up, the others laid into it
	CentreOutward Way = "centre outward" // the innermost sheet first, outer side up, the others laid over it
)

// Row is one line of the order check: a sheet as it is laid on the pile.
type Row struct {
	Gathering string // its name
	Cover     bool
	Leaf      string            // ID; "" when there is no scan of it
	Mark      string            // of the leaf
	Up        mendplan.SideName // the side that faces up
	Left      string            // page that shows on the left; "" on a single leaf, "missing" when it is gone
	Right     string            // page that shows on the right
	// Below is the mark of the sheet it is laid on, and Above of the one laid
	// on it next: "blank" or "not scanned" for a sheet without a mark, "" for
	// none. A sheet that is gone is passed over.
	Below, Above string
	Missing      bool // nothing to lay: the whole sheet is gone
	Blank        bool // without print
}

// name is what a row is called where others lie on it: its mark, or "blank"
// or "not scanned" for a sheet without one.
func (r Row) name() string {
	switch {
	case r.Mark != "":
		return r.Mark
	case r.Blank:
		return "blank"
	}
	return "not scanned"
}

// Order lists the sheets in the order they are laid down, gathering by
// gathering. Gatherings are piled by themselves; for the sewing they then lie
// in the order of the publication.
func Order(job mendplan.Job, way Way) []Row {
	var out []Row
	for i := range job.Gatherings {
		out = append(out, orderOf(job, i, way)...)
	}
	return out
}

func orderOf(job mendplan.Job, gathering int, way Way) []Row {
	g := job.Gatherings[gathering]
	places := Places(job, gathering)
	var rows []Row
	for k := range g.Sheets {
		i := k
		if way == CentreOutward {
			i = len(g.Sheets) - 1 - k
		}
		rows = append(rows, rowOf(job, g, i, places, way))
	}
	last := ""
	for i := range rows {
		rows[i].Below = last
		if !rows[i].Missing {
			last = rows[i].name()
		}
	}
	last = ""
	for i := len(rows) - 1; i >= 0; i-- {
		rows[i].Above = last
		if !rows[i].Missing {
			last = rows[i].name()
		}
	}
	return rows
}

func rowOf(job mendplan.Job, g mendplan.Gathering, sheet int, places []Place, way Way) Row {
	s := g.Sheets[sheet]
	leaf, _ := job.Leaf(s.Leaf)
	r := Row{Gathering: nameOf(job, g), Cover: g.Cover, Leaf: s.Leaf, Mark: leaf.Mark, Missing: s.Missing == mendplan.AllMissing, Blank: s.Blank}
	r.Up = mendplan.Back
	if way == CentreOutward {
		r.Up = mendplan.Front
	}
	if s.Half != mendplan.WholeSheet {
		r.Up = singleUp(s.Half, way)
	}
	r.Left, r.Right = shows(g, places, sheet, r.Up)
	return r
}

// singleUp tells which side of a single leaf faces up. Outside in, a leaf of
// the first half lies with its verso up, on the left; one of the second half
// with its recto up, on the right. Centre outward it is the other way round.
func singleUp(half mendplan.Half, way Way) mendplan.SideName {
	if (half == mendplan.FirstHalf) == (way == OutsideIn) {
		return mendplan.Back
	}
	return mendplan.Front
}
