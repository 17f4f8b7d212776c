package export_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"net/url"
	"strings"
	"testing"

	"github.com/piprate/json-gold/ld"

	"leafmend/mendplan"
	"leafmend/mendplan/export"
)

// annoTerms are the terms the export uses with their meanings, written down
// from the Web Annotation Vocabulary (W3C Recommendation of 23 February 2017)
// and compared term by term with the context the W3C publishes, which is
// longer.
var annoTerms = map[string]any{
	"oa": "http://www.w3.org/ns/oa#", "as": "http://www.w3.org/ns/activitystreams#",
	"rdf": "http://www.w3.org/1999/02/22-rdf-syntax-ns#", "dc": "http://purl.org/dc/elements/1.1/",
	"id": map[string]any{"@id": "@id", "@type": "@id"}, "type": map[string]any{"@id": "@type", "@type": "@id"},
	"Annotation": "oa:Annotation", "AnnotationPage": "as:OrderedCollectionPage", "TextualBody": "oa:TextualBody", "SvgSelector": "oa:SvgSelector",
	"describing": "oa:describing", "tagging": "oa:tagging", "commenting": "oa:commenting",
	"items":      map[string]any{"@id": "as:items", "@type": "@id", "@container": "@list"},
	"body":       map[string]any{"@id": "oa:hasBody", "@type": "@id"},
	"target":     map[string]any{"@id": "oa:hasTarget", "@type": "@id"},
	"source":     map[string]any{"@id": "oa:hasSource", "@type": "@id"},
	"selector":   map[string]any{"@id": "oa:hasSelector", "@type": "@id"},
	"motivation": map[string]any{"@id": "oa:motivatedBy", "@type": "@vocab"},
	"purpose":    map[string]any{"@id": "oa:hasPurpose", "@type": "@vocab"},
	"value":      "rdf:value", "format": "dc:format",
}

// onlyAnno hands out the context and nothing from any network.
type onlyAnno struct{}

func (onlyAnno) LoadDocument(u string) (*ld.RemoteDocument, error) {
	if u != "http://www.w3.org/ns/anno.jsonld" {
		return nil, fmt.Errorf("there is no context %s", u)
	}
	return &ld.RemoteDocument{DocumentURL: u, Document: map[string]any{"@context": annoTerms}}, nil
}

const annoBase = "https://archive.invalid/job/annotations/leaf-1-front.json"

// TestAnnotationsMeanWhatTheyShould reads the annotations with an independent
// JSON-LD processor and looks at the statements they make.
func TestAnnotationsMeanWhatTheyShould(t *testing.T) {
	job := hostile()
	var b bytes.Buffer
	if err := export.WriteAnnotations(&b, job, mendplan.Plan{}, job.Leaves[0], mendplan.Front); err != nil {
		t.Fatal(err)
	}
	var doc any
	if err := json.Unmarshal(b.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	opt := ld.NewJsonLdOptions(annoBase)
	opt.DocumentLoader, opt.SafeMode = onlyAnno{}, true // safe mode: a term without a meaning is an error
	set, err := ld.NewJsonLdProcessor().ToRDF(doc, opt)
	if err != nil {
		t.Fatalf("the processor refuses the annotations: %v", err)
	}
	said := map[string][]string{} // objects by predicate
	for _, q := range set.(*ld.RDFDataset).Graphs["@default"] {
		said[q.Predicate.GetValue()] = append(said[q.Predicate.GetValue()], q.Object.GetValue())
	}
	const oa, rdf = "http://www.w3.org/ns/oa#", "http://www.w3.org/1999/02/22-rdf-syntax-ns#"
	for _, c := range []struct {
		predicate, object string
		n                 int
	}{
		{rdf + "type", oa + "Annotation", 2}, {rdf + "type", oa + "SvgSelector", 2}, {rdf + "type", oa + "TextualBody", 3},
		{rdf + "type", "http://www.w3.org/ns/activitystreams#OrderedCollectionPage", 1},
		{oa + "motivatedBy", oa + "describing", 2}, {oa + "hasPurpose", oa + "tagging", 2}, {oa + "hasPurpose", oa + "commenting", 1},
		{rdf + "value", "tear", 1}, {rdf + "value", "loss", 1},
	} {
		n := 0
		for _, o := range said[c.predicate] {
			if o == c.object {
				n++
			}
		}
		if n != c.n {
			t.Errorf("%s %s is said %d times, want %d", c.predicate, c.object, n, c.n)
		}
	}
	for _, o := range said[oa+"hasSource"] {
		u, err := url.Parse(o)
		if err != nil || !u.IsAbs() || strings.ContainsAny(o, "\"<>\\ ") || !strings.HasSuffix(u.Path, job.Leaves[0].Front.Scan.Path) {
			t.Errorf("the source %q is no IRI of the scan: %v", o, err)
		}
	}
	if len(said[oa+"hasSource"]) != 2 || len(said[oa+"hasSelector"]) != 2 || len(said[oa+"hasTarget"]) != 2 || len(said[oa+"hasBody"]) != 3 {
		t.Errorf("%d sources, %d selectors, %d targets, %d bodies", len(said[oa+"hasSource"]), len(said[oa+"hasSelector"]), len(said[oa+"hasTarget"]), len(said[oa+"hasBody"]))
	}
}
