package export

import (
	"encoding/json"
	"fmt"
	"io"
	"net/url"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// annotationPage is a W3C Web Annotation page (Web Annotation Data Model,
// W3C Recommendation of 23 February 2017): one annotation for each damage.
type annotationPage struct {
	Context string       `json:"@context"`
	ID      string       `json:"id"`
	Type    string       `json:"type"`
	Items   []annotation `json:"items"`
}

type annotation struct {
	ID         string           `json:"id"`
	Type       string           `json:"type"`
	Motivation string           `json:"motivation"`
	Body       []annotationBody `json:"body"`
	Target     annotationTarget `json:"target"`
}

type annotationBody struct {
	Type    string `json:"type"`
	Value   string `json:"value"`
	Purpose string `json:"purpose"`
	Format  string `json:"format,omitempty"`
}

type annotationTarget struct {
	Source   string             `json:"source"`
	Selector annotationSelector `json:"selector"`
}

type annotationSelector struct {
	Type  string `json:"type"`
	Value string `json:"value"`
}

// WriteAnnotations writes the damages that show on one side as Web
// Annotations on its scan, each with an SVG selector in the scan's pixels.
func WriteAnnotations(w io.Writer, _ mendplan.Job, _ mendplan.Plan, leaf mendplan.Leaf, side mendplan.SideName) error {
	page := annotationPage{Context: "http://www.w3.org/ns/anno.jsonld", ID: "#" + leaf.ID + "-" + string(side), Type: "AnnotationPage", Items: []annotation{}}
	for _, d := range leaf.Damages {
		paths, ok := mendplan.TracesOn(leaf, d, side)
		if !ok {
			continue
		}
		page.Items = append(page.Items, annotation{
			ID: fmt.Sprintf("#damage-%d", d.Number), Type: "Annotation", Motivation: "describing",
			Body: bodies(d),
			Target: annotationTarget{Source: sourceOf(leaf.SideOf(side).Scan),
				Selector: annotationSelector{Type: "SvgSelector", Value: svgOf(paths, d.Kind.Closed())}},
		})
	}
	e := json.NewEncoder(w)
	e.SetIndent("", " ")
	if err := e.Encode(page); err != nil {
		return fmt.Errorf("writing the annotations of leaf %s: %w", leaf.Mark, err)
	}
	return nil
}

// sourceOf names a scan as an IRI reference, as targets must be: relative to
// where the annotations lie, with what an IRI cannot hold written in per cents.
func sourceOf(s mendplan.Scan) string { return (&url.URL{Path: s.Path}).String() }

func bodies(d mendplan.Damage) []annotationBody {
	out := []annotationBody{{Type: "TextualBody", Value: string(d.Kind), Purpose: "tagging"}}
	if d.Note != "" {
		out = append(out, annotationBody{Type: "TextualBody", Value: d.Note, Purpose: "commenting", Format: "text/plain"})
	}
	return out
}

func svgOf(paths [][]geom.Pt, closed bool) string {
	same := func(p geom.Pt) geom.Pt { return p }
	var data []string
	for _, path := range paths {
		if len(path) > 1 {
			data = append(data, pathData(path, closed, same))
		}
	}
	return `<svg xmlns="http://www.w3.org/2000/svg"><path d="` + strings.Join(data, " ") + `"/></svg>`
}
