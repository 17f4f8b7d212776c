package mendplan

import (
	"context"
	"io/fs"
	"testing"

	"leafmend/mendplan/nest/check"
	"leafmend/sampledata"
)

// Every layout of the sample can be cut from edge to edge, keeps grain, gap
// and margin, and loses nothing, by the checker that shares nothing with the
// solver. (The name is internal because blanks and stock are not exported.)
func TestTheSamplesLayoutsHold(t *testing.T) {
	data, err := fs.ReadFile(sampledata.Files(), sampledata.JobFile)
	if err != nil {
		t.Fatal(err)
	}
	job, _, err := Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	pieces, _ := Pieces(job)
	for _, effort := range []int{-1, 50, 300} {
		layouts, problems := Layouts(context.Background(), job, pieces, effort, nil)
		if len(layouts) < 2 || len(problems) > 0 {
			t.Errorf("effort %d: %d layouts, problems %v", effort, len(layouts), problems)
		}
		for _, l := range layouts {
			if err := check.Layout(blanksOf(job, pieces, l.Tissue), stockOf(job, l.Tissue), nestOptions(job, effort), l.Layout); err != nil {
				t.Errorf("effort %d, tissue %s: %v", effort, l.Tissue, err)
			}
		}
	}
}
