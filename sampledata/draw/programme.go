package draw

import "image/color"

// Size of the invented programme: pages of 132 × 186 mm.
const (
	openWidth  = 264.0
	openHeight = 186.0
)

var (
	cream  = color.RGBA{233, 222, 196, 255}
	sage   = color.RGBA{184, 192, 170, 255}
	madder = color.RGBA{152, 52, 40, 255}
	navy   = color.RGBA{38, 52, 84, 255}
)

// Programme returns the sample job: a cover and four bifolia, sixteen pages,
// saddle-sewn. The imposition is that of a gathering: the outer side of
// bifolium i carries pages 18−2i and 2i−1, the inner side 2i and 17−2i.
func Programme(ppi float64) []Spec {
	specs := []Spec{cover(), first(), second(), third(), fourth()}
	for i := range specs {
		s := &specs[i]
		s.WidthMM, s.HeightMM, s.PPI = openWidth, openHeight, ppi
		s.Seed = uint64(31 + 17*i)
		s.Holes = sewing(i)
	}
	return specs
}

// sewing returns the three stations of the sewing; a wire driven through the
// outer two at some later time has rusted, most on the outside.
func sewing(i int) []Hole {
	rust := 2.5 - 0.32*float64(i)
	x := openWidth / 2
	return []Hole{
		{Pt{x + 0.1, 48}, rust}, {Pt{x - 0.1, 54.5}, rust * 0.85},
		{Pt{x, openHeight / 2}, 0},
		{Pt{x - 0.1, 132}, rust * 0.9}, {Pt{x + 0.1, 138.5}, rust},
	}
}

func cover() Spec {
	return Spec{
		Name: "C", Paper: sage, Spot: navy, Foxing: 0.15,
		Front: Face{Pages: [2]Page{coverBack, coverFront}, PageNames: [2]string{"back cover", "front cover"}, Turn: 0.35, MarginMM: 9, Backing: BlackCard, ScaleBar: true},
		Back:  Face{Pages: [2]Page{coverInsideFront, coverInsideBack}, PageNames: [2]string{"inside front cover", "inside back cover"}, Turn: -0.5, MarginMM: 9, Backing: BlackCard, ShiftMM: Pt{0.6, -0.8}},
		Splits: []Tear{
			{Path: []Pt{{132, 0}, {132.1, 22}, {131.9, 41}}, OpenMM: 0.9, Wander: 0.02, CoreMM: 0.7},
			{Path: []Pt{{132, 186}, {131.9, 165}, {132.1, 148}}, OpenMM: 1.1, Wander: 0.02, CoreMM: 0.7},
		},
		Tears: []Tear{
			{Path: []Pt{{214, 0}, {212.5, 14}, {209, 27}, {203, 36}}, OpenMM: 1.0, Wander: 0.06, CoreMM: 1.2},
			{Path: []Pt{{0, 96}, {12, 94}, {21, 98.5}, {30, 97}}, OpenMM: 0.7, Wander: 0.1, CoreMM: 1.0},
		},
		Losses: []Loss{
			{From: 264 + 163, To: 264 + 186 + 27, Via: []Pt{{257, 165.5}, {250, 172}, {243.5, 174.5}, {239, 181}}, Wander: 0.12},
			{From: 528 + 186 - 84, To: 528 + 186 - 66, Via: []Pt{{76.5, 180}, {72, 177.5}, {67.5, 181}}, Wander: 0.12},
		},
		Stains: []Stain{{Pt{38, 150}, Pt{30, 25}}},
	}
}

func first() Spec {
	return Spec{
		Name: "1", Paper: cream, Spot: madder, Foxing: 0.9,
		Front: Face{Pages: [2]Page{finale, titlePage}, PageNames: [2]string{"16", "1"}, Turn: -0.4, MarginMM: 9, Backing: BlackCard},
		Back:  Face{Pages: [2]Page{func(p *Sheet) { columns(p, 2, "The Society", officers) }, advertsFifteen}, PageNames: [2]string{"2", "15"}, Turn: 0.3, MarginMM: 9, Backing: BlackCard, ShiftMM: Pt{-0.8, 0.5}},
		Splits: []Tear{
			{Path: []Pt{{132, 186}, {132.1, 170}, {131.9, 151}, {132, 142}}, OpenMM: 1.2, Wander: 0.02, CoreMM: 0.6},
		},
		Tears: []Tear{
			{Path: []Pt{{264, 78}, {252, 80}, {241, 86}, {228, 87.5}, {216, 94}}, Forks: [][]Pt{{{241, 86}, {236, 95}, {227, 104}, {224, 112}}}, OpenMM: 1.5, Wander: 0.09, CoreMM: 1.3},
			{Path: []Pt{{58, 0}, {57.6, 10}, {58.3, 21}}, OpenMM: 0.5, Wander: 0.04, CoreMM: 0.6},
		},
		Losses: []Loss{
			{From: 240, To: 264 + 27, Via: []Pt{{243.5, 6}, {247, 10}, {246, 16}, {251, 21}, {257.5, 22.5}}, Wander: 0.13},
			{From: 528 + 186 + 60, To: 528 + 186 + 84, Via: []Pt{{5, 121.5}, {8.5, 116}, {7, 110}, {4, 105}}, Wander: 0.13},
		},
		Stains: []Stain{{Pt{30, 156}, Pt{22, 18}}},
	}
}

func second() Spec {
	return Spec{
		Name: "2", Paper: cream, Spot: madder, Foxing: 0.6,
		Front: Face{Pages: [2]Page{notes(14, "The Artists", "in the order of their entering", artistsNote...), func(p *Sheet) { columns(p, 3, "Programme", partOne) }}, PageNames: [2]string{"14", "3"}, Turn: 0.6, MarginMM: 9, Backing: BlackCard},
		Back:  Face{Pages: [2]Page{notes(4, "The Tin Lighthouse", "Overture by O. Vellacorm", overtureNote...), func(p *Sheet) { columns(p, 13, "Programme", partTwo) }}, PageNames: [2]string{"4", "13"}, Turn: -0.2, MarginMM: 9, Backing: BlackCard},
		Tears: []Tear{
			{Path: []Pt{{176, 186}, {179, 171}, {188, 160}, {190, 146}, {201, 133}, {200, 118}, {208, 108}}, OpenMM: 1.6, Wander: 0.085, CoreMM: 1.5},
			{Path: []Pt{{90, 0}, {89.5, 5}, {90.4, 8}}, OpenMM: 0.7, Wander: 0.1, CoreMM: 0.5},
			{Path: []Pt{{97, 0}, {97.4, 4}, {96.8, 6}}, OpenMM: 0.6, Wander: 0.1, CoreMM: 0.5},
			{Path: []Pt{{104, 0}, {103.7, 6}, {105, 9.5}}, OpenMM: 0.8, Wander: 0.1, CoreMM: 0.5},
			{Path: []Pt{{112, 0}, {112.2, 4}, {111.6, 6.5}}, OpenMM: 0.6, Wander: 0.1, CoreMM: 0.5},
		},
		Losses: []Loss{
			{Via: []Pt{{59, 62}, {63.5, 60.5}, {67, 63.5}, {68, 68}, {65, 71.5}, {60.5, 71}, {57.5, 67}}, Wander: 0.11},
			{Via: []Pt{{71.5, 74}, {73.5, 73.5}, {74.6, 75.6}, {73, 77.4}, {71, 76.2}}, Wander: 0.1},
			{From: 264 + 120, To: 264 + 140, Via: []Pt{{259, 122.5}, {256, 128}, {258.5, 135}}, Wander: 0.13},
		},
	}
}

func third() Spec {
	return Spec{
		Name: "3", Paper: cream, Spot: madder, Foxing: 0.4,
		Front: Face{Pages: [2]Page{verses(12, "Seven Grey Geese", "a glee, as sung on the marsh", geeseSong...), verses(5, "The Ferry Has Gone", "song by T. Askerlowe", ferrySong...)}, PageNames: [2]string{"12", "5"}, Turn: -0.3, MarginMM: 9, Backing: GreyFelt},
		Back:  Face{Pages: [2]Page{notes(6, "Romance for Strings", "by Hester Quaile", romanceNote...), notes(11, "The Estuary", "Symphony by Hester Quaile", estuaryNote...)}, PageNames: [2]string{"6", "11"}, Turn: 0.45, MarginMM: 9, Backing: GreyFelt},
		Tears: []Tear{
			{Path: []Pt{{233, 186}, {238, 176}, {247, 168}, {253, 158}, {264, 153}}, OpenMM: 0.8, Wander: 0.08, CoreMM: 1.2, BothEnds: true},
			{Path: []Pt{{0, 62}, {16, 60.5}, {31, 63}, {44, 61.5}, {55, 64}}, OpenMM: 1.6, Wander: 0.07, CoreMM: 1.3},
		},
		Splits: []Tear{{Path: []Pt{{132, 0}, {131.9, 14}, {132.1, 26}}, OpenMM: 0.6, Wander: 0.02, CoreMM: 0.5}},
		Losses: []Loss{
			{From: 528 + 186 - 118, To: 528 + 186 - 88, Via: []Pt{{112, 179}, {106, 175.5}, {100, 176.5}, {94, 180.5}}, Wander: 0.12},
			{From: 190, To: 206, Via: []Pt{{193, 5}, {198.5, 7.5}, {203, 4}}, Wander: 0.12},
		},
		Creases: [][2]Pt{{{170, 186}, {264, 96}}},
	}
}

func fourth() Spec {
	return Spec{
		Name: "4", Paper: cream, Spot: madder, Foxing: 0.3,
		Front: Face{Pages: [2]Page{advertsTen, notes(7, "The Post Horn", "Concerto by O. Vellacorm", hornNote...)}, PageNames: [2]string{"10", "7"}, Turn: 0.25, MarginMM: 9, Backing: BlackCard},
		Back:  Face{Pages: [2]Page{spreadLeft, spreadRight}, PageNames: [2]string{"8", "9"}, Turn: -0.35, MarginMM: 9, Backing: BlackCard},
		Tears: []Tear{
			{Path: []Pt{{264, 118}, {250, 116}, {238, 119}, {224, 114}, {212, 116.5}, {200, 112}}, OpenMM: 1.4, Wander: 0.1, CoreMM: 1.3},
			{Path: []Pt{{46, 0}, {47, 13}, {44, 25}, {45.5, 34}}, OpenMM: 0.9, Wander: 0.05, CoreMM: 0.9},
		},
		Losses: []Loss{
			{From: 528 + 164, To: 528 + 186 + 24, Via: []Pt{{20.5, 179}, {16, 173.5}, {9, 171}, {6, 165}}, Wander: 0.12},
			{Via: []Pt{{160, 60}, {163, 58.8}, {166.2, 61.5}, {165.4, 65.5}, {161.5, 66.4}, {159, 63.4}}, Wander: 0.11},
		},
	}
}
