package mendplan

// outermost reports whether leaf i is the outermost bifolium of its
// gathering. A run of bifolia in the job is one gathering, from the outermost
// inwards, as they lie when the publication is opened bifolium by bifolium.
func outermost(job Job, i int) bool {
	if job.Leaves[i].Kind == SingleLeaf {
		return false
	}
	for i--; i >= 0; i-- {
		if job.Leaves[i].Kind != SingleLeaf {
			return false
		}
	}
	return true
}
