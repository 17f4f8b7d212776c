package main

import (
	"context"

	"leafmend/mendplan"
	"leafmend/mendplan/export"
	"leafmend/mendplan/nest"
)

// cutlist lays out a job's pieces, or pieces and stock given as tables.
func cutlist(ctx context.Context, c call) (bool, error) {
	asJSON := c.flags.Bool("json", false, "print JSON")
	effort := c.flags.Int("effort", nest.DefaultEffort, "budget of work for each tissue; about a thousandth of a second each")
	piecesCSV := c.flags.String("pieces", "", "table of pieces: label,tissue,length_mm,width_mm,count,grain")
	stockCSV := c.flags.String("stock", "", "table of stock: tissue,kind,length_mm,width_mm,count,grain_along,margin_mm,price")
	gap := c.flags.Float64("gap", 0, "least distance between pieces, mm")
	keep := c.flags.Float64("keep", 80, "least side of a remnant worth keeping, mm")
	keepArea := c.flags.Float64("keep-area", 20000, "least area of a remnant worth keeping, mm²")
	rest, err := c.parse()
	if err != nil {
		return false, err
	}
	switch {
	case *piecesCSV == "" && *stockCSV == "" && len(rest) == 1:
		return cutlistOfJob(ctx, c, rest[0], *effort, *asJSON)
	case *piecesCSV == "" || *stockCSV == "" || len(rest) > 0:
		return false, usagef("give a job, or both -pieces and -stock")
	case !(*gap >= 0 && *gap < 1000):
		return false, usagef("-gap must be between 0 and 1000 mm")
	}
	pieces, err := readPieces(*piecesCSV)
	if err != nil {
		return false, err
	}
	stock, err := readStock(*stockCSV)
	if err != nil {
		return false, err
	}
	opt := nest.Options{Gap: *gap, KeepW: *keep, KeepH: *keep, KeepArea: *keepArea, Effort: *effort}
	out := export.LayoutOf(stock.job, nest.Solve(ctx, pieces, stock.items, opt))
	if *asJSON {
		return len(out.Unplaced) > 0, printJSON(c.out, layoutOnly(out))
	}
	writeSheets(c.out, stock.job, out)
	return len(out.Unplaced) > 0, nil
}

func cutlistOfJob(ctx context.Context, c call, path string, effort int, asJSON bool) (bool, error) {
	job, problems, err := openJob(path)
	if err != nil {
		return false, err
	}
	p := computeWith(ctx, job, effort)
	out := export.PlanOf(job, p)
	listProblems(c.err, job, append(problems, p.Problems...))
	if asJSON {
		return len(p.Problems) > 0, printJSON(c.out, layoutOnly(out))
	}
	writeSheets(c.out, job, out)
	return len(p.Problems) > 0, nil
}

// sheetsOnly is a plan without pieces and estimate.
type sheetsOnly struct {
	Sheets   []export.Sheet    `json:"sheets"`
	Remnants []export.Remnant  `json:"remnants"`
	Unplaced []export.Unplaced `json:"unplaced"`
}

func layoutOnly(p export.Plan) sheetsOnly { return sheetsOnly{p.Sheets, p.Remnants, p.Unplaced} }

// tableStock is stock read from a table: as the layout wants it, and as a job
// that names it, so that sheets are told in their own axes.
type tableStock struct {
	items []nest.Stock
	job   mendplan.Job
}
