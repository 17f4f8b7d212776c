package course

import "leafmend/mendplan"

// Labour is hands-on time for one leaf.
type Labour struct {
	Leaf         string
	SetupMinutes float64
	MendMinutes  float64
	Pieces       int
}

// Minutes returns both together.
func (l Labour) Minutes() float64 { return l.SetupMinutes + l.MendMinutes }

// Hours estimates hands-on time leaf by leaf: getting a leaf ready, then each
// piece by its kind and size. Set-up dominates, so a second mend on the same
// leaf costs little. No published minutes for each mend exist: the rules'
// figures are guesses to be replaced by one's own. Leaves without pieces
// take no time.
func Hours(job mendplan.Job, plan mendplan.Plan) []Labour {
	rules := mendplan.InForce{Job: job.Rules}
	byLeaf := map[string]int{}
	var out []Labour
	for _, l := range job.Leaves {
		byLeaf[l.ID] = len(out)
		out = append(out, Labour{Leaf: l.ID, SetupMinutes: rules.Number(mendplan.SetupMinutes)})
	}
	for _, p := range plan.Pieces {
		i, ok := byLeaf[p.Leaf]
		if !ok {
			continue
		}
		out[i].Pieces++
		out[i].MendMinutes += minutesFor(p, rules)
	}
	kept := out[:0]
	for _, l := range out {
		if l.Pieces > 0 {
			kept = append(kept, l)
		}
	}
	return kept
}

// minutesFor estimates one piece: tears by length against 50 mm, fills by
// area against 5 cm², never less than a small mend.
func minutesFor(p mendplan.Piece, rules mendplan.InForce) float64 {
	least := rules.Number(mendplan.NickMinutes)
	switch p.Role {
	case mendplan.RoleGuard:
		return rules.Number(mendplan.GuardMinutes)
	case mendplan.RoleFill:
		return max(least, rules.Number(mendplan.FillMinutes)*p.AreaMM2/500)
	}
	return max(least, rules.Number(mendplan.TearMinutes)*max(p.BlankLengthMM, p.BlankWidthMM)/50)
}

// RoleHours is hands-on time by what the pieces are.
type RoleHours struct {
	Role    mendplan.Role // "" is getting leaves ready
	Count   int           // of pieces, or of leaves
	Minutes float64
}

// HoursByRole adds up the same minutes as [Hours], by the role of the pieces:
// getting leaves ready first, then role by role as they first come.
func HoursByRole(job mendplan.Job, plan mendplan.Plan) []RoleHours {
	rules := mendplan.InForce{Job: job.Rules}
	var out []RoleHours
	ready := RoleHours{}
	for _, l := range Hours(job, plan) {
		ready.Count++
		ready.Minutes += l.SetupMinutes
	}
	if ready.Count > 0 {
		out = append(out, ready)
	}
	at := map[mendplan.Role]int{}
	for _, p := range plan.Pieces {
		if _, ok := job.Leaf(p.Leaf); !ok {
			continue
		}
		i, ok := at[p.Role]
		if !ok {
			i = len(out)
			at[p.Role] = i
			out = append(out, RoleHours{Role: p.Role})
		}
		out[i].Count++
		out[i].Minutes += minutesFor(p, rules)
	}
	return out
}

// Tier sorts a job by its hours, as a university archive's laboratory does
// (Bentley Historical Library, Conservation Treatment Tiers, 2018): 1 under
// an hour, 2 up to three, 3 up to five, 4 up to ten, 5 above. The two inner
// limits are common practice, no source.
func Tier(hours float64) int {
	for i, limit := range []float64{1, 3, 5, 10} {
		if hours < limit {
			return i + 1
		}
	}
	return 5
}
