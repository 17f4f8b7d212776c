package mendplan_test

import (
	"testing"

	"leafmend/mendplan"
)

// TestJointsAreWhereStripsOverlap holds the joints against the planned strips
// themselves: at each, two neighbours hold the place, and fixing all of them
// by hand changes no strip.
func TestJointsAreWhereStripsOverlap(t *testing.T) {
	some := 0
	for i := range 120 {
		r := seeded(i)
		tear := randomTear(r)
		tear.Forks = nil
		d := styled(tear, mendplan.Strips, randomRules(r))
		j := bench(d)
		number := j.Leaves[0].Damages[0].Number
		pieces, problems := mendplan.Pieces(j)
		if len(ofKind(problems, mendplan.DoesNotFit)) > 0 {
			continue
		}
		n := 0
		for _, p := range pieces {
			if p.Role == mendplan.RoleMend {
				n++
			}
		}
		line, joints := j.StripPath(number)
		if len(joints) != n-1 {
			t.Errorf("case %d: %d joints of %d strips", i, len(joints), n)
		}
		for _, share := range joints {
			some++
			if share <= 0 || share >= 1 {
				t.Errorf("case %d: joint at %.4f", i, share)
			}
			at, holding := line.At(share*line.Length()), 0
			for _, p := range pieces {
				if p.Role == mendplan.RoleMend && p.Outline.Contains(at) {
					holding++
				}
			}
			if holding < 2 {
				t.Errorf("case %d: only %d strips hold the joint at %.3f", i, holding, share)
			}
		}
		for _, p := range line {
			if p.X < -1 || p.Y < -1 || p.X > leafW+1 || p.Y > leafH+1 {
				t.Errorf("case %d: the path runs off the leaf to %v", i, p)
			}
		}
	}
	if some < 60 {
		t.Errorf("only %d joints came up", some)
	}
	if line, _ := bench(styled(randomTear(seeded(1)), mendplan.Shaped, nil)).StripPath(1); line != nil {
		t.Errorf("a shaped piece has strips along %v", line)
	}
	if line, _ := bench().StripPath(77); line != nil {
		t.Errorf("a damage there is none of has strips along %v", line)
	}
}
