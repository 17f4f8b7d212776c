package export

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"io"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// Overhang shown round the leaf, mm, so that tissue past the edge is seen.
const svgRim = 20.0

// WriteSVG writes one side of a leaf as SVG 1.1, in millimetres at true size,
// as seen from that side: true edge, fold, damages, pieces with labels.
func WriteSVG(w io.Writer, job mendplan.Job, plan mendplan.Plan, leaf mendplan.Leaf, side mendplan.SideName) error {
	_, sheet, problem := mendplan.FrameOf(leaf, side)
	if problem != nil {
		return phrase.Errorf("leaf %s cannot be drawn: %s", leaf.Mark, problem.Words)
	}
	width, height := sheet.Size()
	seen := func(p geom.Pt) geom.Pt {
		if side == mendplan.Back {
			p.X = width - p.X
		}
		return p
	}
	b := bufio.NewWriter(w)
	fmt.Fprintf(b, "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"%smm\" height=\"%smm\" viewBox=\"%s %s %s %s\">\n",
		number(width+2*svgRim), number(height+2*svgRim), number(-svgRim), number(-svgRim), number(width+2*svgRim), number(height+2*svgRim))
	fmt.Fprintf(b, "<title>%s</title>\n", escape(fmt.Sprintf("%s, leaf %s, %s", job.Title, leaf.Mark, side)))
	fmt.Fprintf(b, "<path id=\"true-edge\" fill=\"none\" stroke=\"#222\" stroke-width=\"0.3\" d=\"%s\"/>\n", pathData(sheet.Ring(), true, seen))
	if sheet.Folded {
		fold := []geom.Pt{{X: sheet.FoldX}, {X: sheet.FoldX, Y: height}}
		fmt.Fprintf(b, "<path id=\"fold\" fill=\"none\" stroke=\"#888\" stroke-width=\"0.2\" stroke-dasharray=\"2 1\" d=\"%s\"/>\n", pathData(fold, false, seen))
	}
	writeSVGDamages(b, leaf, seen)
	for _, p := range plan.Pieces {
		if p.Leaf == leaf.ID && p.Side == side {
			writeSVGPiece(b, p, seen)
		}
	}
	fmt.Fprintln(b, "</svg>")
	if err := b.Flush(); err != nil {
		return fmt.Errorf("writing the drawing of leaf %s: %w", leaf.Mark, err)
	}
	return nil
}

func writeSVGDamages(w io.Writer, leaf mendplan.Leaf, seen func(geom.Pt) geom.Pt) {
	for _, d := range leaf.Damages {
		frame, _, problem := mendplan.FrameOf(leaf, d.Side)
		if problem != nil {
			continue
		}
		var data []string
		for _, path := range append([][]geom.Pt{d.Points}, d.Forks...) {
			if len(path) > 1 {
				data = append(data, pathData(frame.PathToLeaf(path), d.Kind.Closed(), seen))
			}
		}
		fmt.Fprintf(w, "<path id=\"damage-%d\" class=\"%s\" fill=\"none\" stroke=\"#961f26\" stroke-width=\"0.3\" d=\"%s\"/>\n",
			d.Number, escape(string(d.Kind)), strings.Join(data, " "))
	}
}

func writeSVGPiece(w io.Writer, p mendplan.Piece, seen func(geom.Pt) geom.Pt) {
	var data []string
	for _, ring := range p.Outline {
		data = append(data, pathData(ring, true, seen))
	}
	fmt.Fprintf(w, "<path class=\"piece\" fill=\"#1c427a\" fill-opacity=\"0.12\" fill-rule=\"evenodd\" stroke=\"#1c427a\" stroke-width=\"0.2\" d=\"%s\"><title>%s</title></path>\n",
		strings.Join(data, " "), escape(p.Label))
	c := seen(p.BlankCentre)
	fmt.Fprintf(w, "<text x=\"%s\" y=\"%s\" font-size=\"3\" text-anchor=\"middle\" font-family=\"sans-serif\">%s</text>\n", number(c.X), number(c.Y), escape(p.Label))
}

// pathData writes points as SVG path data, to a hundredth of a millimetre.
func pathData(pts []geom.Pt, closed bool, seen func(geom.Pt) geom.Pt) string {
	var b strings.Builder
	for i, p := range pts {
		q := seen(p)
		letter := "L"
		if i == 0 {
			letter = "M"
		}
		fmt.Fprintf(&b, "%s%s %s ", letter, number(q.X), number(q.Y))
	}
	if closed {
		b.WriteString("Z")
	}
	return strings.TrimSpace(b.String())
}

// escape makes text safe inside XML; characters XML forbids become the
// replacement character.
func escape(s string) string {
	var b strings.Builder
	if err := xml.EscapeText(&b, []byte(s)); err != nil {
		return ""
	}
	return b.String()
}
