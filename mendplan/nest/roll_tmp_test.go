package nest

import (
	"context"
	"encoding/json"
	"fmt"
	"testing"
)

func TestTuneRoll(t *testing.T) {
	if *jobEffort == 0 {
		t.Skip("a trial")
	}
	if *tuneJSON != "" {
		json.Unmarshal([]byte(*tuneJSON), &tune)
	}
	var jobs []tissueJob
	loadJSON(t, "jobs.json.gz", &jobs)
	for _, k := range []int{1} {
		for _, wh := range [][2]float64{{640, 970}, {970, 640}} {
			b, s, o := jobs[k].input()
			for i := range b {
				if wh[0] > 640 {
					b[i].W, b[i].H = b[i].H, b[i].W
				}
			}
			s = []Stock{{ID: "r", Group: "T1", W: wh[0], H: 0, Copies: 1, Roll: true, Margin: Margin{10, 10, 10, 0}}}
			o.KeepArea, o.KeepW, o.KeepH = 0, 0, 0
			o.Effort, o.Seed, o.Workers = *jobEffort, uint64(*tuneSeed), *tuneLanes
			l := Solve(context.Background(), b, s, o)
			fmt.Println(wh, l.Sheets[0].H, wh[0]*(wh[1]-l.Sheets[0].H-o.Gap), l.Work)
		}
	}
}
