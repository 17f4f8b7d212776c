package course

import (
	"leafmend/mendplan"
	"leafmend/mendplan/collate"
)

// WorkOrder returns the leaves in the order they are best mended: gathering
// by gathering, the innermost sheet first, so that outer sheets can be fitted
// round the thicker inside (D. Etherington, Guild of Book Workers Newsletter
// 115, 1997). Leaves in no gathering follow in the job's order.
func WorkOrder(job mendplan.Job) []string {
	var out []string
	seen := map[string]bool{}
	add := func(id string) {
		if _, ok := job.Leaf(id); ok && !seen[id] {
			seen[id] = true
			out = append(out, id)
		}
	}
	for _, r := range collate.Order(job, collate.CentreOutward) {
		add(r.Leaf)
	}
	for _, l := range job.Leaves {
		add(l.ID)
	}
	return out
}
