package main

import (
	"encoding/csv"
	"errors"
	"io"
	"math"
	"os"
	"strconv"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/nest"
	"leafmend/mendplan/phrase"
)

// Limits of a table, far beyond any cut list, so that a wrong file is refused
// and not worked on for hours.
const (
	mostRows   = 100_000
	mostCount  = 100_000
	mostMM     = 100_000 // of a roll
	mostTables = 32 << 20
)

// row is one line of a table with the names of its columns.
type row struct {
	path string
	line int
	cols map[string]int
	cell []string
}

func (r row) fault(english string, values ...any) error {
	return &mendplan.FileError{Path: r.path, Place: phrase.Of("line %d", r.line), Words: phrase.Of(english, values...), Remedy: phrase.Of("put it right in the table and try again")}
}

func (r row) text(name string) string {
	i, ok := r.cols[name]
	if !ok || i >= len(r.cell) {
		return ""
	}
	return strings.TrimSpace(r.cell[i])
}

// number reads a number in a column, def when it is empty.
func (r row) number(name string, def, lo, hi float64) (float64, error) {
	s := r.text(name)
	if s == "" {
		return def, nil
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsNaN(v) || v < lo || v > hi {
		return 0, r.fault("%s is %q, which is not a number from %g to %g", name, s, lo, hi)
	}
	return v, nil
}

// readTable reads a table with a head line; every name in need must be there.
func readTable(path string, need []string, each func(row) error) error {
	f, err := os.Open(path)
	if err != nil {
		words := phrase.Of("the table could not be opened")
		if errors.Is(err, os.ErrNotExist) {
			words = phrase.Of("there is no such table")
		}
		return &mendplan.FileError{Path: path, Words: words, Remedy: phrase.Of("check its name and permissions"), Err: err}
	}
	defer f.Close()
	rd := csv.NewReader(io.LimitReader(f, mostTables))
	rd.FieldsPerRecord = -1
	rd.TrimLeadingSpace = true
	head, err := rd.Read()
	if err != nil {
		return &mendplan.FileError{Path: path, Words: phrase.Of("the table is empty or not CSV"), Remedy: phrase.Of("its first line must be %s", strings.Join(need, ",")), Err: err}
	}
	cols := map[string]int{}
	for i, h := range head {
		cols[strings.ToLower(strings.TrimSpace(strings.TrimPrefix(h, "\ufeff")))] = i
	}
	for _, n := range need {
		if _, ok := cols[n]; !ok {
			return &mendplan.FileError{Path: path, Place: phrase.Of("line %d", 1), Words: phrase.Of("there is no column %q", n), Remedy: phrase.Of("its first line must be %s", strings.Join(need, ","))}
		}
	}
	for n := 0; ; n++ {
		cell, err := rd.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		r := row{path: path, cols: cols, cell: cell}
		if len(cell) > 0 {
			r.line, _ = rd.FieldPos(0)
		}
		if err != nil {
			var pe *csv.ParseError
			if errors.As(err, &pe) {
				r.line = pe.Line
			}
			return r.fault("the line is not CSV")
		}
		if n >= mostRows {
			return r.fault("the table has more than %d lines", mostRows)
		}
		if err := each(r); err != nil {
			return err
		}
	}
}

// readPieces reads pieces as blanks: H along the grain.
func readPieces(path string) ([]nest.Blank, error) {
	var out []nest.Blank
	seen := map[string]int{}
	err := readTable(path, []string{"label", "tissue", "length_mm", "width_mm", "count", "grain"}, func(r row) error {
		length, err := r.number("length_mm", 0, 0.01, mostMM)
		if err != nil {
			return err
		}
		width, err := r.number("width_mm", 0, 0.01, mostMM)
		if err != nil {
			return err
		}
		n, err := r.number("count", 1, 0, mostCount)
		if err != nil {
			return err
		}
		if length == 0 || width == 0 {
			return r.fault("length_mm and width_mm must be given")
		}
		b := nest.Blank{ID: r.text("label"), Group: r.text("tissue"), W: width, H: length, Count: int(n)}
		switch g := strings.ToLower(r.text("grain")); g {
		case "along", "":
		case "across":
			b.W, b.H = length, width
		case "free":
			b.Turn = nest.Free
		default:
			return r.fault("grain is %q; it may be along, across or free", g)
		}
		if b.ID == "" {
			return r.fault("the piece has no label")
		}
		if before, ok := seen[b.ID]; ok {
			return r.fault("label %q stands on line %d already", b.ID, before)
		}
		seen[b.ID] = r.line
		out = append(out, b)
		return nil
	})
	return out, err
}

// readStock reads stock items; each gets the identifier S and its place in
// the table, counted from 1, unless the table has a column "id".
func readStock(path string) (tableStock, error) {
	var out tableStock
	seen := map[string]bool{}
	err := readTable(path, []string{"tissue", "kind", "length_mm", "width_mm", "count", "grain_along", "margin_mm", "price"}, func(r row) error {
		item, err := stockRow(r)
		if err != nil {
			return err
		}
		if item.ID == "" {
			item.ID = "S" + strconv.Itoa(len(out.items)+1)
		}
		if seen[item.ID] {
			return r.fault("stock item %q stands in the table twice", item.ID)
		}
		seen[item.ID] = true
		out.job.Stock = append(out.job.Stock, item)
		w, h := item.WidthMM, item.LengthMM
		if item.GrainAlong == "width" {
			w, h = h, w
		}
		out.items = append(out.items, nest.Stock{ID: item.ID, Group: item.Tissue, W: w, H: h, Copies: item.Count,
			Margin: nest.All(item.MarginMM), Roll: item.Kind == mendplan.Roll, Remnant: item.Kind == mendplan.Remnant, Price: item.Price})
		return nil
	})
	return out, err
}

func stockRow(r row) (mendplan.Stock, error) {
	item := mendplan.Stock{ID: r.text("id"), Tissue: r.text("tissue"), Kind: mendplan.StockKind(strings.ToLower(r.text("kind"))), GrainAlong: strings.ToLower(r.text("grain_along"))}
	var count float64
	for _, f := range []struct {
		name   string
		to     *float64
		def    float64
		lo, hi float64
	}{{"length_mm", &item.LengthMM, 0, 0, mostMM}, {"width_mm", &item.WidthMM, 0, 1, mostMM}, {"count", &count, 1, 0, mostCount},
		{"margin_mm", &item.MarginMM, 0, 0, 500}, {"price", &item.Price, 0, 0, 1e9}} {
		v, err := r.number(f.name, f.def, f.lo, f.hi)
		if err != nil {
			return item, err
		}
		*f.to = v
	}
	item.Count = int(count)
	switch item.Kind {
	case mendplan.SheetStock, mendplan.Roll, mendplan.Remnant:
	default:
		return item, r.fault("kind is %q; it may be sheet, remnant or roll", item.Kind)
	}
	switch item.GrainAlong {
	case "":
		item.GrainAlong = "length"
	case "length":
	case "width":
		if item.Kind == mendplan.Roll {
			return item, r.fault("a roll's grain must run along its length; enter what is cut off it as sheets")
		}
	default:
		return item, r.fault("grain_along is %q; it may be length or width", item.GrainAlong)
	}
	if item.WidthMM == 0 || item.LengthMM == 0 && item.Kind != mendplan.Roll {
		return item, r.fault("length_mm and width_mm must be given")
	}
	return item, nil
}
