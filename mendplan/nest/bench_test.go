package nest_test

import (
	"compress/gzip"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"os"
	"testing"

	"leafmend/mendplan/nest"
	"leafmend/mendplan/nest/check"
)

// The instances, their sources and licence are described in testdata/SOURCES.md.
var (
	full   = flag.Bool("full", false, "run all standard instances, not every 25th")
	effort = flag.Int("effort", 0, "effort for each standard instance; 0 means the default of the test")
)

// load reads a compressed JSON file of testdata.
func load(t testing.TB, name string, v any) {
	t.Helper()
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

// instance is one standard problem; its lengths are taken as millimetres.
type instance struct {
	Name   string
	W, H   float64
	Stock  [][3]float64 // width, height, copies
	Items  [][2]float64
	OF, RF int // best known numbers of bins without the rule of straight cuts
}

func (in *instance) blanks(turn nest.Turn) []nest.Blank {
	var b []nest.Blank
	for i, it := range in.Items {
		b = append(b, nest.Blank{ID: fmt.Sprint(i), W: it[0], H: it[1], Count: 1, Turn: turn})
	}
	return b
}

// solve lays an instance out, and has it checked.
func solve(t testing.TB, blanks []nest.Blank, stock []nest.Stock, opt nest.Options) nest.Layout {
	l := nest.Solve(context.Background(), blanks, stock, opt)
	if err := check.Layout(blanks, stock, opt, l); err != nil {
		t.Fatal(err)
	}
	if len(l.Unplaced) > 0 {
		t.Fatalf("%d blanks without a place", len(l.Unplaced))
	}
	return l
}

// bins500 totals the sheets of the standard instances, by class.
func bins500(t *testing.T, turn nest.Turn, effort int) (total, known int, classes [11]int) {
	var set struct{ Instances []instance }
	load(t, "bin500.json.gz", &set)
	for i := range set.Instances {
		if !*full && i%25 != 3 {
			continue
		}
		in := &set.Instances[i]
		stock := []nest.Stock{{ID: "bin", W: in.W, H: in.H, Copies: -1}}
		l := solve(t, in.blanks(turn), stock, nest.Options{Effort: effort, Seed: 1})
		if n := len(l.Sheets); true {
			total += n
			classes[i/50+1] += n
			if turn == nest.Free {
				known += in.RF
			} else {
				known += in.OF
			}
		}
	}
	return total, known, classes
}

func effortOr(n int) int {
	if *effort > 0 {
		return *effort
	}
	return n
}

// Berkey and Wang 1987, Martello and Vigo 1998. The best known numbers are
// without the rule of straight cuts, so no layout here should be better.
func TestStandardBinsNearTheBestKnown(t *testing.T) {
	for _, c := range []struct {
		say  string
		turn nest.Turn
		over float64 // share over the best known allowed
	}{
		{"as they are", nest.Fixed, 0.02},
		{"turned at will", nest.Free, 0.02},
	} {
		total, known, classes := bins500(t, c.turn, effortOr(40))
		t.Logf("%s: %d sheets, best known without straight cuts %d, by class %v", c.say, total, known, classes[1:])
		if float64(total) > float64(known)*(1+c.over) || total < known {
			t.Errorf("%s: %d sheets, best known %d", c.say, total, known)
		}
	}
}

// Hopper and Turton 2002; Pisinger and Sigurd 2005; Ortmann, Ntene and van
// Vuuren 2010: the share of the area opened that is used.
func TestSeveralStockSizesUseTheArea(t *testing.T) {
	for _, c := range []struct {
		file  string
		step  int
		least float64 // mean share used, %
	}{
		{"vs_hopper_m.json.gz", 5, 93},
		{"vs_pisinger.json.gz", 50, 82},
		{"vs_ortmann.json.gz", 40, 85},
	} {
		var set struct{ Instances []instance }
		load(t, c.file, &set)
		sum, n := 0.0, 0.0
		for i := range set.Instances {
			if i%c.step != 0 && !*full {
				continue
			}
			in := &set.Instances[i]
			var stock []nest.Stock
			for k, s := range in.Stock {
				copies := int(s[2])
				if c.file == "vs_pisinger.json.gz" {
					copies = -1 // that column is a cost
				}
				stock = append(stock, nest.Stock{ID: fmt.Sprint("s", k), W: s[0], H: s[1], Copies: copies})
			}
			l := solve(t, in.blanks(nest.Fixed), stock, nest.Options{Effort: effortOr(30), Seed: 1})
			sum += l.Placed / l.Opened
			n++
		}
		mean := 100 * sum / n
		t.Logf("%s: %.2f %% of the area opened is used, over %.0f instances", c.file, mean, n)
		if mean < c.least {
			t.Errorf("%s: %.2f %% used, want %.2f", c.file, mean, c.least)
		}
	}
}

// tissueJob is an invented job of mending; see testdata/SOURCES.md.
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

func (j *tissueJob) input() ([]nest.Blank, []nest.Stock, nest.Options) {
	var b []nest.Blank
	for _, p := range j.Pieces {
		k := nest.Blank{ID: p.ID, W: p.W, H: p.H, Count: p.N, Group: p.Tissue}
		if p.Grain == "free" {
			k.Turn = nest.Free
		}
		b = append(b, k)
	}
	var s []nest.Stock
	for _, t := range j.Tissues {
		for _, k := range t.Stock {
			s = append(s, nest.Stock{ID: t.ID + "/" + k.ID, Group: t.ID, W: k.W, H: k.H, Copies: k.Copies,
				Margin: nest.All(j.Margin), Remnant: k.Kind == "offcut"})
		}
	}
	return b, s, nest.Options{Gap: j.Gap, KeepW: 80, KeepH: 80, KeepArea: 20000, Seed: 1}
}

func TestTissueJobsUseLittleMoreThanTheirBound(t *testing.T) {
	var jobs []tissueJob
	load(t, "jobs.json.gz", &jobs)
	sum := 0.0
	for _, j := range jobs {
		b, s, o := j.input()
		o.Effort = effortOr(150)
		l := solve(t, b, s, o)
		r := l.Use() / j.Bounds["use_lb_mm2"]
		sum += r
		t.Logf("%s: use %.4f of the bound (%.4f known before), %d sheets, %d cuts, %d settings", j.Name, r, j.Bounds["best_use_over_lb"], len(l.Sheets), l.Cuts, l.Settings)
	}
	if mean := sum / float64(len(jobs)); mean > 1.11 || math.IsNaN(mean) {
		t.Errorf("use is %.4f of the bound on average, want 1.11 at the most", mean)
	} else {
		t.Logf("mean %.4f", mean)
	}
}

// BenchmarkGrowth shows the time of a first layout by number of pieces.
func BenchmarkGrowth(b *testing.B) {
	for _, n := range []int{20, 200, 2000} {
		b.Run(fmt.Sprintf("%dpieces", n), func(b *testing.B) {
			var blanks []nest.Blank
			for i := range n {
				blanks = append(blanks, nest.Blank{ID: fmt.Sprint(i), W: float64(8 + i*37%60), H: float64(20 + i*53%280), Count: 1})
			}
			stock := []nest.Stock{{ID: "sheet", W: 640, H: 970, Copies: -1, Margin: nest.All(10)}}
			for b.Loop() {
				nest.Solve(context.Background(), blanks, stock, nest.Options{Gap: 4, Effort: -1})
			}
		})
	}
}

// BenchmarkEffort measures one unit of effort on a common job.
func BenchmarkEffort(b *testing.B) {
	var jobs []tissueJob
	load(b, "jobs.json.gz", &jobs)
	blanks, stock, o := jobs[1].input()
	o.Effort = 100
	for b.Loop() {
		nest.Solve(context.Background(), blanks, stock, o)
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/100, "µs/unit")
}
