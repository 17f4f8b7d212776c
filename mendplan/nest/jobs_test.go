package nest

import (
	"compress/gzip"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"testing"
	"time"
)

var jobEffort = flag.Int("jobs", 0, "")

type tissueJob struct {
	Name    string
	Gap     float64
	Margin  float64
	Bounds  map[string]float64
	Tissues []struct {
		ID    string
		Stock []struct {
			ID, Kind string
			W, H     float64
			Copies   int
		}
	}
	Pieces []struct {
		ID, Tissue, Grain string
		W, H              float64
		N                 int
	}
}

func (j *tissueJob) input() ([]Blank, []Stock, Options) {
	var b []Blank
	for _, p := range j.Pieces {
		k := Blank{ID: p.ID, W: p.W, H: p.H, Count: p.N, Group: p.Tissue}
		if p.Grain == "free" {
			k.Turn = Free
		}
		b = append(b, k)
	}
	var s []Stock
	for _, t := range j.Tissues {
		for _, k := range t.Stock {
			s = append(s, Stock{ID: t.ID + "/" + k.ID, Group: t.ID, W: k.W, H: k.H, Copies: k.Copies, Margin: All(j.Margin), Remnant: k.Kind == "offcut"})
		}
	}
	return b, s, Options{Gap: j.Gap, KeepW: 80, KeepH: 80, KeepArea: 20000}
}

func loadJSON(t testing.TB, name string, v any) {
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.NewDecoder(z).Decode(v); err != nil {
		t.Fatal(err)
	}
}

func TestTuneJobs(t *testing.T) {
	if *jobEffort == 0 {
		t.Skip("a trial")
	}
	if *tuneJSON != "" {
		if err := json.Unmarshal([]byte(*tuneJSON), &tune); err != nil {
			t.Fatal(err)
		}
	}
	var jobs []tissueJob
	loadJSON(t, "jobs.json.gz", &jobs)
	sum := 0.0
	for _, j := range jobs {
		b, s, o := j.input()
		o.Effort, o.Seed, o.Workers = *jobEffort, uint64(*tuneSeed), *tuneLanes
		t0 := time.Now()
		l := Solve(context.Background(), b, s, o)
		r := l.Use() / j.Bounds["use_lb_mm2"]
		sum += r
		fmt.Printf("%s %.4f (best %.4f) opened %.0f kept %.0f sheets %d cuts %d work %d %.2f s bound %.4f unplaced %d\n", j.Name, r, j.Bounds["best_use_over_lb"], l.Opened, l.Kept, len(l.Sheets), l.Cuts, l.Work, time.Since(t0).Seconds(), l.Bound/j.Bounds["use_lb_mm2"], len(l.Unplaced))
	}
	fmt.Printf("mean %.4f\n", sum/float64(len(jobs)))
}
