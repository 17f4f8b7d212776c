package nest

import (
	"context"
	"fmt"
	"testing"
)

func TestTuneDbg(t *testing.T) {
	if *jobEffort == 0 {
		t.Skip("a trial")
	}
	var jobs []tissueJob
	loadJSON(t, "jobs.json.gz", &jobs)
	b, s, o := jobs[1].input()
	if *tuneTurn {
		s = []Stock{{ID: "r", Group: "T1", W: 640, H: 0, Copies: 1, Roll: true, Margin: Margin{10, 10, 10, 0}}}
		o.KeepArea, o.KeepW, o.KeepH = 0, 0, 0
	}
	o.Workers = 1
	p := read(b, s, o)
	g := p.groups[0]
	m := &improver{g: g, bound: g.bound()}
	m.begin(first(g))
	fmt.Println("first", m.use*1e-6, m.bound*1e-6)
	m.improve(context.Background(), *jobEffort, o, func(m *improver) {
		l := m.lanes[0]
		fmt.Printf("use %.0f goal %.0f step %.3f waits %.0f price %.0f heat %.0f n %d left %.0f rounds %d ok %d\n", m.use*1e-6, l.goal*1e-6, m.step*1e-6, l.waits*1e-6, l.price*1e-6, l.heat*1e-6, len(l.trees), l.opened*1e-6, l.rounds, l.taken)
	})
}
