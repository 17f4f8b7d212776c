package export

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"

	"leafmend/mendplan"
)

// WriteCSV writes one line for each piece (RFC 4180), with the sheet it is cut from.
// Text that a spreadsheet would take for a formula gets a leading apostrophe.
func WriteCSV(w io.Writer, job mendplan.Job, plan mendplan.Plan) error {
	on := map[string]int{}
	for _, s := range PlanOf(job, plan).Sheets {
		for _, p := range s.Placements {
			on[p.Label] = s.Number
			if p.Share != nil {
				on[p.Share.Label] = s.Number
			}
		}
	}
	c := csv.NewWriter(w)
	rows := [][]string{{"label", "leaf", "damage", "side", "tissue", "style", "role", "order", "blank_length_mm", "blank_width_mm", "area_mm2", "grain", "sheet"}}
	for _, p := range plan.Pieces {
		leaf, _ := job.Leaf(p.Leaf)
		q := pieceOf(p)
		sheet := ""
		if n := on[p.Label]; n > 0 {
			sheet = strconv.Itoa(n)
		}
		rows = append(rows, []string{p.Label, leaf.Mark, strconv.Itoa(p.Damage), q.Side, p.Tissue, q.Style, q.Role, strconv.Itoa(p.Order),
			number(p.BlankLengthMM), number(p.BlankWidthMM), number(p.AreaMM2), q.Grain, sheet})
	}
	for _, row := range rows {
		for i := range row {
			row[i] = tame(row[i])
		}
	}
	if err := c.WriteAll(rows); err != nil {
		return fmt.Errorf("writing the table of pieces: %w", err)
	}
	return nil
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', 2, 64) }

// tame keeps a cell from being run as a formula and from holding control
// characters.
func tame(s string) string {
	s = strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return ' '
		}
		return r
	}, s)
	if first := strings.TrimLeft(s, " "); first != "" && strings.ContainsRune("=+-@", rune(first[0])) {
		if _, err := strconv.ParseFloat(s, 64); err != nil {
			return "'" + s
		}
	}
	return s
}
