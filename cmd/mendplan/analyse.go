package main

import (
	"context"
	"errors"
	"image"

	"leafmend/mendplan/scan"
)

// analysisSide is the longer side, in pixels, of the level a scan is looked
// at for outline and losses; finer levels cost time and tell little more.
const analysisSide = 2400

// findings is what the analysis of a scan proposes.
type findings struct {
	outline   scan.Outline
	proposals []scan.Proposal
	fault     string // why there is no outline; "" when there is one
}

// analyse opens a scan and proposes its outline and losses.
func analyse(ctx context.Context, path string, page int) (findings, error) {
	pic, err := scan.Open(ctx, path, scan.OpenOptions{Page: page})
	if err != nil {
		return findings{}, err
	}
	defer pic.Close()
	img, per := analysisLevel(pic)
	o, err := scan.FindOutline(img, per, scan.OutlineOptions{})
	if errors.Is(err, scan.ErrNoLeaf) {
		return findings{fault: err.Error()}, nil
	}
	if err != nil {
		return findings{}, err
	}
	opt := scan.LossOptions{}
	if r, trusted := pic.Info().Best(); trusted {
		opt.PxPerMM = r.DPIX / 25.4
	}
	return findings{outline: o, proposals: scan.ProposeLosses(img, per, o, opt)}, nil
}

// analysisLevel returns the coarsest level that is still as fine as the
// analysis wants, and how many scan pixels one of its pixels covers.
func analysisLevel(pic *scan.Picture) (*image.RGBA, float64) {
	level := 0
	for level+1 < pic.NumLevels() && max(pic.Level(level+1).Width, pic.Level(level+1).Height) >= analysisSide {
		level++
	}
	size := pic.Level(level)
	return pic.Region(image.Rect(0, 0, size.Width, size.Height), level), float64(size.Per)
}
