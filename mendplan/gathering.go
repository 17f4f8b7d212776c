package mendplan

// outermost reports whether leaf i is the outermost bifolium of its
// gathering. The job's gatherings say so; for a leaf that stands in none, a
// run of bifolia in the job counts as one gathering, from the outermost
// inwards, as they lie when the publication is opened bifolium by bifolium.
func outermost(job Job, i int) bool {
	if job.Leaves[i].Kind == SingleLeaf {
		return false
	}
	if _, place, ok := job.placeOf(job.Leaves[i].ID); ok {
		return place == 0
	}
	for i--; i >= 0; i-- {
		if job.Leaves[i].Kind != SingleLeaf {
			return false
		}
	}
	return true
}
