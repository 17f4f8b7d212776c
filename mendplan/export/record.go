package export

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"

	"leafmend/mendplan"
)

// recordHead names the columns of the record of steps.
var recordHead = []string{"number", "date", "time", "leaf", "mark", "side", "step", "by", "paste_batch",
	"test_medium", "test_place", "test_liquid", "test_s", "test_result",
	"bath_agent", "bath_concentration", "bath_water", "bath_ph_before", "bath_ph_after", "leaf_ph_before", "leaf_ph_after",
	"bath_min", "baths", "temperature_c", "drying", "alkaline_reserve_percent", "departure", "note"}

// WriteRecord writes one line for each step of the work (RFC 4180), in the
// order recorded. What was not recorded is left empty. Text that a spreadsheet
// would take for a formula gets a leading apostrophe.
func WriteRecord(w io.Writer, job mendplan.Job) error {
	rows := [][]string{recordHead}
	for _, s := range job.Steps {
		rows = append(rows, recordRow(job, s))
	}
	for _, row := range rows[1:] {
		for i := range row {
			row[i] = tame(row[i])
		}
	}
	if err := csv.NewWriter(w).WriteAll(rows); err != nil {
		return fmt.Errorf("writing the record of the work: %w", err)
	}
	return nil
}

func recordRow(job mendplan.Job, s mendplan.Step) []string {
	leaf, _ := job.Leaf(s.Leaf)
	test, bath := mendplan.SpotTest{}, mendplan.Bath{}
	if s.Test != nil {
		test = *s.Test
	}
	if s.Bath != nil {
		bath = *s.Bath
	}
	return []string{strconv.Itoa(s.Number), s.Date, s.Time, s.Leaf, leaf.Mark, string(s.Side), string(s.Kind), s.By, s.Batch,
		test.Medium, test.Place, test.Liquid, known(test.Seconds), string(test.Result),
		bath.Agent, bath.Concentration, bath.Water, known(bath.PHBefore), known(bath.PHAfter), known(bath.LeafPHBefore), known(bath.LeafPHAfter),
		known(bath.Minutes), known(float64(bath.Baths)), known(bath.Celsius), bath.Drying, known(bath.ReservePercent), s.Departure, s.Note}
}

// known writes a figure; one that was not recorded is left empty.
func known(v float64) string {
	if v == 0 {
		return ""
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}
