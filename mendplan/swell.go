package mendplan

import (
	"math"

	"leafmend/mendplan/geom"
)

// SwellCell is the step of a swell map in mm.
const SwellCell = 2.0

// largestSwell is the largest half of a sheet that a swell is worked out for,
// mm²: 4 × 4 m. Beyond it the scale is wrong, and a map would only take memory.
const largestSwell = 16e6

// thicknessPerGram is the thickness, mm, of a tissue for each g/m² where
// nobody has measured it: 0.02 mm at 1.6 g/m² (AFP/Japan Times, "Japan's washi
// paper torn by modern life", 2019).
const thicknessPerGram = 0.02 / 1.6

// Swell is the thickness that mends add to a gathering when its sheets are
// nested and closed again. Tissue that hangs over is gone by then, and the
// body of an infill only takes the place of what was lost: its overlap counts.
type Swell struct {
	Gathering string // ID; "" when the job has none and its bifolia are taken as one
	// MM holds the added thickness in mm, row by row from the head; columns
	// run from the fold to the fore-edge in steps of [SwellCell].
	MM         []float64
	Cols, Rows int
	Fold       float64 // worst within 5 mm of the fold, mm
	Corner     float64 // worst within 20 mm of both fore-edge and head or tail, mm
	CornerHead bool    // that corner is at the head
	Worst      float64 // anywhere, mm
	WorstAt    geom.Pt // where: x from the fold, y from the head, mm
	Estimated  bool    // some tissue's thickness was worked out from its grammage
}

// At returns the added thickness x mm from the fold and y mm from the head.
func (s Swell) At(x, y float64) float64 {
	c, r := int(x/SwellCell), int(y/SwellCell)
	if x < 0 || y < 0 || c >= s.Cols || r >= s.Rows {
		return 0
	}
	return s.MM[r*s.Cols+c]
}

// Swells returns the swell of each gathering; of a job without gatherings,
// that of its bifolia as one. Leaves without scale count nothing.
func Swells(job Job, pieces []Piece) []Swell {
	var out []Swell
	for _, g := range job.Gatherings {
		leaves := map[string]Half{}
		for _, s := range g.Sheets {
			if s.Leaf != "" {
				leaves[s.Leaf] = s.Half
			}
		}
		out = append(out, swellOf(job, g.ID, leaves, pieces))
	}
	if len(job.Gatherings) == 0 {
		leaves := map[string]Half{}
		for _, l := range job.Leaves {
			if l.Kind != SingleLeaf {
				leaves[l.ID] = WholeSheet
			}
		}
		if len(leaves) > 0 {
			out = append(out, swellOf(job, "", leaves, pieces))
		}
	}
	return out
}

func swellOf(job Job, id string, in map[string]Half, pieces []Piece) Swell {
	s := Swell{Gathering: id}
	sheets := map[string]Sheet{}
	width, height := 0.0, 0.0
	for _, leaf := range job.Leaves {
		half, ok := in[leaf.ID]
		sheet, known := anySheet(leaf)
		if !ok || !known {
			continue
		}
		w, h := sheet.Size()
		width, height = max(width, fromFold(sheet, half, 0), fromFold(sheet, half, w)), max(height, h)
		sheets[leaf.ID] = sheet
	}
	if !(width*height <= largestSwell) {
		return s // no leaf is as large: its scale is wrong
	}
	s.Cols, s.Rows = int(math.Ceil(width/SwellCell)), int(math.Ceil(height/SwellCell))
	s.MM = make([]float64, s.Cols*s.Rows)
	for _, p := range pieces {
		if sheet, ok := sheets[p.Leaf]; ok {
			s.add(job, p, sheet, in[p.Leaf])
		}
	}
	s.sumUp()
	return s
}

// fromFold is the distance of a place x of the leaf frame from the fold; of a
// single leaf from its gutter, left on the front in the second half of a
// gathering or nowhere said, right in the first half, whose front is a verso.
func fromFold(sheet Sheet, half Half, x float64) float64 {
	if sheet.Folded {
		return math.Abs(x - sheet.FoldX)
	}
	w, _ := sheet.Size()
	if half == FirstHalf {
		return w - x
	}
	return x
}

// add lays one piece on the map, cell by cell.
func (s *Swell) add(job Job, p Piece, sheet Sheet, half Half) {
	thick, measured := thickness(job, p.Tissue)
	s.Estimated = s.Estimated || !measured
	body := math.Inf(1) // how deep inside the outline tissue still counts
	if p.Role == RoleFill {
		body = (InForce{Job: job.Rules}).Number(FillOverlap)
	}
	b := p.Outline.Bounds()
	const step = SwellCell
	for y := (math.Floor(b.Min.Y/step) + 0.5) * step; y < b.Max.Y; y += step {
		for x := (math.Floor((b.Min.X-sheet.FoldX)/step)+0.5)*step + sheet.FoldX; x < b.Max.X; x += step {
			q := geom.Pt{X: x, Y: y}
			if !sheet.Contains(q) || !p.Outline.Contains(q) || geom.DistToEdge(q, p.Outline) > body {
				continue
			}
			c, r := int(fromFold(sheet, half, x)/step), int(y/step)
			if c < s.Cols && r < s.Rows {
				s.MM[r*s.Cols+c] += thick
			}
		}
	}
}

// thickness of a tissue in mm, and whether it was measured.
func thickness(job Job, id string) (mm float64, measured bool) {
	t, _ := job.Tissue(id)
	if t.ThicknessMM > 0 {
		return t.ThicknessMM, true
	}
	return t.Grammage * thicknessPerGram, false
}

// sumUp finds the figures worth telling.
func (s *Swell) sumUp() {
	for i, mm := range s.MM {
		x, y := (float64(i%s.Cols)+0.5)*SwellCell, (float64(i/s.Cols)+0.5)*SwellCell
		if mm > s.Worst {
			s.Worst, s.WorstAt = mm, geom.Pt{X: x, Y: y}
		}
		if x < 5 {
			s.Fold = max(s.Fold, mm)
		}
		fore, tail := float64(s.Cols)*SwellCell-x, float64(s.Rows)*SwellCell-y
		if fore < 20 && min(y, tail) < 20 && mm > s.Corner {
			s.Corner, s.CornerHead = mm, y < tail
		}
	}
}
