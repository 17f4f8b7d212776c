package draw

// Truth is what the generator knows about one scan: places are pixels of the
// displayed picture, that is, after the file's orientation. Pixel coordinates
// are continuous; the first pixel covers 0 to 1.
type Truth struct {
	File     string      `json:"file"`
	Leaf     string      `json:"leaf"`
	Side     string      `json:"side"` // front or back
	Pages    [2]string   `json:"pages"`
	Backing  Backing     `json:"backing"`
	WidthPx  int         `json:"width_px"`
	HeightPx int         `json:"height_px"`
	DPI      float64     `json:"dpi"`
	LeafMM   [2]float64  `json:"leaf_mm"`      // width and height of the true edge
	TrueEdge [4]Pt       `json:"true_edge_px"` // head-left, head-right, tail-right, tail-left as the side is read
	Fold     [2]Pt       `json:"fold_px"`      // head end, tail end
	Outline  []Pt        `json:"outline_px"`   // the leaf as it is, edge losses taken off; tears are not followed
	Losses   []TrueLoss  `json:"losses"`
	Tears    []TrueTear  `json:"tears"`
	Holes    []TrueHole  `json:"holes"`
	Stains   []TrueStain `json:"stains"`
	ScaleBar []Pt        `json:"scale_bar_px"` // the ruler's 0 and 100 mm marks; empty without ruler
}

// TrueLoss is missing paper; the ring is closed along the true edge.
type TrueLoss struct {
	Kind string  `json:"kind"` // corner, edge or hole
	Ring []Pt    `json:"ring_px"`
	Area float64 `json:"area_mm2"`
}

// TrueTear is the middle line of a tear or of a split along the fold.
type TrueTear struct {
	Kind   string  `json:"kind"` // tear or split
	Path   []Pt    `json:"path_px"`
	Forks  [][]Pt  `json:"forks_px"`
	Start  string  `json:"start"` // edge or blind
	End    string  `json:"end"`
	Length float64 `json:"length_mm"` // of path and forks
}

// TrueHole is a prick of needle or wire.
type TrueHole struct {
	Centre Pt      `json:"centre_px"`
	RustMM float64 `json:"rust_mm"`
}

// TrueStain is the reach of an old stain.
type TrueStain struct {
	Ring []Pt `json:"ring_px"`
}

// truth writes down one side. Paths are thinned to 0.06 mm, less than a pixel
// at 300 ppi.
func (l *leaf) truth(side *face) Truth {
	s, f := l.spec, side.frame
	seen := func(path []Pt) []Pt { return thin(f.leafAll(path), 0.06*f.scale) }
	t := Truth{
		Leaf: s.Name, Side: side.name, Pages: side.PageNames, Backing: side.Backing,
		WidthPx: side.w, HeightPx: side.h, DPI: s.PPI, LeafMM: [2]float64{s.WidthMM, s.HeightMM},
		TrueEdge: [4]Pt{f.side(Pt{0, 0}), f.side(Pt{s.WidthMM, 0}), f.side(Pt{s.WidthMM, s.HeightMM}), f.side(Pt{0, s.HeightMM})},
		Fold:     [2]Pt{f.leaf(Pt{s.WidthMM / 2, 0}), f.leaf(Pt{s.WidthMM / 2, s.HeightMM})},
		Outline:  seen(l.outline), Losses: []TrueLoss{}, Tears: []TrueTear{}, Holes: []TrueHole{}, Stains: []TrueStain{}, ScaleBar: []Pt{},
	}
	for _, loss := range l.losses {
		t.Losses = append(t.Losses, TrueLoss{loss.kind, seen(loss.ring), area(loss.ring)})
	}
	for _, tear := range l.tears {
		tt := TrueTear{Kind: tear.kind, Path: seen(tear.seen), Forks: [][]Pt{}, Start: tear.start, End: tear.end}
		tt.Length = lengths(tear.seen)[len(tear.seen)-1]
		for _, fork := range tear.forks {
			tt.Forks = append(tt.Forks, seen(fork.seen))
			tt.Length += lengths(fork.seen)[len(fork.seen)-1]
		}
		t.Tears = append(t.Tears, tt)
	}
	for _, h := range s.Holes {
		t.Holes = append(t.Holes, TrueHole{f.leaf(h.At), h.RustMM})
	}
	for _, st := range l.stains {
		t.Stains = append(t.Stains, TrueStain{seen(st)})
	}
	if side.ScaleBar {
		t.ScaleBar = []Pt{f.side(l.barAt()), f.side(l.barAt().add(Pt{100, 0}))}
	}
	return t
}

// area of a ring, whichever way it turns.
func area(ring []Pt) float64 {
	sum := 0.0
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		sum += p.X*q.Y - q.X*p.Y
	}
	return max(sum, -sum) / 2
}
