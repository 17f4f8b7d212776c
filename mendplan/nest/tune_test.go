package nest

import (
	"compress/gzip"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"
)

var (
	tuneOn    = flag.Int("tune", 0, "rounds")
	tuneStep  = flag.Int("step", 1, "")
	tuneOff   = flag.Int("off", 0, "")
	tuneList  = flag.Bool("list", false, "")
	tuneLanes = flag.Int("lanes", 1, "")
	tuneSeed  = flag.Int("seed", 1, "")
	tuneOnly  = flag.String("only", "", "")
	tuneTurn  = flag.Bool("turn", false, "")
	tuneJSON  = flag.String("set", "", "")
)

type bpp struct {
	Name   string
	W, H   int
	Items  [][2]int
	OF, RF int
}
type bpps struct {
	Instances []bpp
	Published struct{ OG, RG, OF, RF []int }
}

func loadBins(t testing.TB) bpps {
	f, err := os.Open("testdata/bin500.json.gz")
	if err != nil {
		t.Fatal(err)
	}
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	var b bpps
	if err := json.NewDecoder(z).Decode(&b); err != nil {
		t.Fatal(err)
	}
	return b
}

func TestTune(t *testing.T) {
	if *tuneOn == 0 {
		t.Skip("a trial of the tuning numbers, run by hand with -tune")
	}
	if *tuneJSON != "" {
		if err := json.Unmarshal([]byte(*tuneJSON), &tune); err != nil {
			t.Fatal(err)
		}
	}
	b := loadBins(t)
	only := map[int]bool{}
	for _, f := range strings.Fields(*tuneOnly) {
		k, _ := strconv.Atoi(f)
		only[k] = true
	}
	var lbSum, total, bound, ref, rounds int
	var work int64
	classes := map[int]int{}
	var hard []int
	start := time.Now()
	for i := *tuneOff; i < len(b.Instances); i += *tuneStep {
		if len(only) > 0 && !only[i] {
			continue
		}
		in := b.Instances[i]
		var blanks []Blank
		turn := Fixed
		if *tuneTurn {
			turn = Free
		}
		for j, it := range in.Items {
			blanks = append(blanks, Blank{ID: fmt.Sprint(j), W: float64(it[0]), H: float64(it[1]), Count: 1, Turn: turn})
		}
		p := read(blanks, []Stock{{ID: "s", W: float64(in.W), H: float64(in.H), Copies: -1}}, Options{})
		g := p.groups[0]
		best := first(g)
		lb := in.OF
		if turn == Free {
			lb = in.RF
		}
		lbSum += g.sheetBound(g.kinds[0].w, g.kinds[0].h)
		n, r, w := tuneRun(g, best, lb, *tuneOn)
		if n > lb {
			hard = append(hard, i)
		}
		total += n
		classes[i/50+1] += n
		bound += lb
		ref += 1
		rounds += r
		work += w
	}
	fmt.Println("bounds", lbSum)
	el := time.Since(start)
	if *tuneList {
		fmt.Println(hard)
	}
	fmt.Printf("total %d best known %d over %d; %v, %.0f rounds/s, work/s %.3g, mean %.3f s\n", total, bound, total-bound, classes, float64(rounds)/el.Seconds(), float64(work)/el.Seconds(), el.Seconds()/float64(ref))
}

func tuneRun(g *group, best *state, lb, limit int) (int, int, int64) {
	m := &improver{g: g, best: best, use: best.use(), bound: g.kinds[0].cost * float64(lb)}
	m.improve(context.Background(), limit, Options{Seed: uint64(*tuneSeed), Workers: *tuneLanes}, func(*improver) {})
	n := int64(0)
	for _, l := range m.lanes {
		n += l.work
	}
	return len(m.best.trees), 0, n
}
