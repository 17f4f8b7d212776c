package mendplan

import "leafmend/mendplan/geom"

func (w leafWork) joined(groups [][]Piece, sites map[SideName]*siteOf) [][]Piece { return groups }
func (w leafWork) checks(pieces []Piece, sites map[SideName]*siteOf) []Problem   { return nil }

var _ geom.Pt
