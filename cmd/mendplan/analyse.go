package main

import (
	"context"
	"errors"

	"leafmend/mendplan/scan"
)

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
	img, per := pic.AtLeast(scan.AnalysisSide)
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
