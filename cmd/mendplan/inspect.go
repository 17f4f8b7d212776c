package main

import (
	"context"
	"fmt"
	"strings"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/scan"
)

// report is what inspect tells of one scan, as JSON.
type report struct {
	File             string     `json:"file"`
	Format           string     `json:"format"`
	Width            int        `json:"width"`
	Height           int        `json:"height"`
	Orientation      int        `json:"orientation"`
	Pages            int        `json:"pages"`
	Colour           string     `json:"colour"`
	DPIX             *float64   `json:"dpi_x"` // null when no source is to be trusted
	DPIY             *float64   `json:"dpi_y"`
	ResolutionSource *string    `json:"resolution_source"`
	Resolutions      []source   `json:"resolutions"`
	Outline          []geom.Pt  `json:"outline"` // null when none was found
	TrueEdge         []geom.Pt  `json:"true_edge"`
	RotationDeg      float64    `json:"rotation_deg"`
	Backing          string     `json:"backing"`
	Confidence       float64    `json:"outline_confidence"`
	Losses           []proposal `json:"losses"`
	Tears            []proposal `json:"tears"`
	Problems         []string   `json:"problems"`
}

type source struct {
	DPIX    float64 `json:"dpi_x"`
	DPIY    float64 `json:"dpi_y"`
	Source  string  `json:"source"`
	Unit    string  `json:"unit"`
	Trusted bool    `json:"trusted"`
	Why     string  `json:"why"`
	Doubt   float64 `json:"doubt_percent"`
}

type proposal struct {
	Kind       string    `json:"kind"`
	Polygon    []geom.Pt `json:"polygon,omitempty"`
	Points     []geom.Pt `json:"points,omitempty"`
	Confidence float64   `json:"confidence"`
	Why        string    `json:"why"`
}

func inspect(ctx context.Context, c call) (bool, error) {
	asJSON := c.flags.Bool("json", false, "print JSON")
	page := c.flags.Int("page", 1, "which picture of a file with several, from 1")
	scans, err := c.parse()
	if err != nil {
		return false, err
	}
	if len(scans) == 0 {
		return false, usagef("name at least one scan")
	}
	reports := []report{}
	problems := false
	for _, path := range scans {
		r, err := inspectOne(ctx, path, *page-1)
		if err != nil {
			return false, err
		}
		problems = problems || len(r.Problems) > 0
		reports = append(reports, r)
		if !*asJSON {
			writeReport(c, r)
		}
	}
	if *asJSON {
		return problems, printJSON(c.out, reports)
	}
	return problems, nil
}

func inspectOne(ctx context.Context, path string, page int) (report, error) {
	info, err := scan.InspectPage(path, page)
	if err != nil {
		return report{}, err
	}
	r := report{File: path, Format: info.Format, Width: info.Width, Height: info.Height, Orientation: info.Orientation, Pages: info.Pages,
		Colour: info.Colour, Resolutions: []source{}, Losses: []proposal{}, Tears: []proposal{}, Problems: append([]string{}, info.Problems...)}
	for _, s := range info.Resolutions {
		r.Resolutions = append(r.Resolutions, source{s.DPIX, s.DPIY, s.Source, s.Unit, s.Trusted, s.Why.String(), s.DoubtPercent})
	}
	if best, trusted := info.Best(); trusted {
		r.DPIX, r.DPIY, r.ResolutionSource = &best.DPIX, &best.DPIY, &best.Source
	} else if best.Source != "" {
		r.Problems = append(r.Problems, fmt.Sprintf("the resolution %.4g × %.4g ppi (%s) is not to be trusted: %s", best.DPIX, best.DPIY, best.Source, best.Why))
	} else {
		r.Problems = append(r.Problems, "the file tells no resolution: calibrate by a ruler, two points or the leaf's size")
	}
	found, err := analyse(ctx, path, page)
	if err != nil {
		return report{}, err
	}
	if found.fault != "" {
		r.Problems = append(r.Problems, found.fault)
		return r, nil
	}
	o := found.outline
	r.Outline, r.TrueEdge, r.RotationDeg, r.Backing, r.Confidence = o.Polygon, o.TrueEdge[:], o.RotationDeg, o.Backing, o.Confidence
	for _, p := range found.proposals {
		out := proposal{p.Kind, p.Polygon, p.Path, p.Confidence, p.Why.String()}
		if len(p.Path) > 0 {
			r.Tears = append(r.Tears, out)
		} else {
			r.Losses = append(r.Losses, out)
		}
	}
	return r, nil
}

func writeReport(c call, r report) {
	fmt.Fprintf(c.out, "%s: %s, %d × %d pixels, %s\n", r.File, r.Format, r.Width, r.Height, r.Colour)
	for _, s := range r.Resolutions {
		trust := fmt.Sprintf("trusted, ±%.2g %%", s.Doubt)
		if !s.Trusted {
			trust = "not trusted: " + s.Why
		}
		fmt.Fprintf(c.out, "  %s: %.5g × %.5g ppi, %s\n", s.Source, s.DPIX, s.DPIY, trust)
	}
	if r.Outline != nil {
		fmt.Fprintf(c.out, "  outline on %s backing, confidence %.2f; turned by %.2f°; %d losses and %d tears proposed\n", r.Backing, r.Confidence, r.RotationDeg, len(r.Losses), len(r.Tears))
	}
	if len(r.Problems) > 0 {
		fmt.Fprintf(c.out, "  %s\n", strings.Join(r.Problems, "\n  "))
	}
}
