package mendplan_test

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"leafmend/mendplan"
)

func TestEveryRuleIsComplete(t *testing.T) {
	seen := map[mendplan.RuleKey]bool{}
	for _, r := range mendplan.RuleTable() {
		if seen[r.Key] {
			t.Errorf("%s stands twice in the table", r.Key)
		}
		seen[r.Key] = true
		if r.Words == "" || r.Group == "" || strings.TrimSpace(r.Basis) == "" {
			t.Errorf("%s lacks words, group or basis", r.Key)
		}
		if len(r.Choices) > 0 {
			if !slices.Contains(r.Choices, r.Default.Word) {
				t.Errorf("%s: the default %q is not a choice", r.Key, r.Default.Word)
			}
			continue
		}
		if !(r.Min <= r.Default.Number && r.Default.Number <= r.Max) {
			t.Errorf("%s: the default %v lies outside %v–%v", r.Key, r.Default.Number, r.Min, r.Max)
		}
		if strings.HasSuffix(string(r.Key), "_mm") != (r.Unit == "mm") {
			t.Errorf("%s: the key does not end in its unit %q", r.Key, r.Unit)
		}
	}
}

func TestTheMendsRuleGoesBeforeTheJobs(t *testing.T) {
	var job, mend mendplan.Rules
	f := mendplan.InForce{}
	if got := f.Number(mendplan.SideMargin); got != 5 {
		t.Errorf("default margin %v, want 5", got)
	}
	job = job.With(mendplan.SideMargin, mendplan.Num(6))
	mend = mend.With(mendplan.SideMargin, mendplan.Num(4))
	if got := (mendplan.InForce{Job: job}).Number(mendplan.SideMargin); got != 6 {
		t.Errorf("the job's margin is %v, want 6", got)
	}
	if got := (mendplan.InForce{Job: job, Mend: mend}).Number(mendplan.SideMargin); got != 4 {
		t.Errorf("the mend's margin is %v, want 4", got)
	}
	if got := (mendplan.InForce{Job: job, Mend: mend.Without(mendplan.SideMargin)}).Number(mendplan.SideMargin); got != 6 {
		t.Errorf("without its own rule the mend has %v, want the job's 6", got)
	}
	if len(mend) != 1 {
		t.Error("Without changed the rules it was called on")
	}
}

func TestValuesOutsideTheRangeAreKeptInsideIt(t *testing.T) {
	for _, c := range []struct{ give, want float64 }{{-3, 2}, {99, 10}, {math.NaN(), 5}, {math.Inf(1), 10}} {
		r := mendplan.Rules{mendplan.SideMargin: mendplan.Num(c.give)}
		if got := (mendplan.InForce{Job: r}).Number(mendplan.SideMargin); got != c.want {
			t.Errorf("margin %v counts as %v, want %v", c.give, got, c.want)
		}
	}
	r := mendplan.Rules{mendplan.TearStyle: mendplan.Choice("embroidery")}
	if got := (mendplan.InForce{Job: r}).Word(mendplan.TearStyle); got != "shaped" {
		t.Errorf("an unknown style counts as %q", got)
	}
}

func TestRulesAreWrittenAsNumbersAndWords(t *testing.T) {
	r := mendplan.Rules{mendplan.SideMargin: mendplan.Num(6.5), mendplan.TearStyle: mendplan.Choice("strips")}
	b, err := json.Marshal(r)
	if err != nil || string(b) != `{"side_margin_mm":6.5,"tear_style":"strips"}` {
		t.Errorf("written as %s, %v", b, err)
	}
	var back mendplan.Rules
	if err := json.Unmarshal(b, &back); err != nil || back[mendplan.SideMargin].Number != 6.5 || back[mendplan.TearStyle].Word != "strips" {
		t.Errorf("read back as %v, %v", back, err)
	}
	if err := json.Unmarshal([]byte(`{"side_margin_mm":[1]}`), &back); err == nil {
		t.Error("a list was taken for a rule")
	}
}
