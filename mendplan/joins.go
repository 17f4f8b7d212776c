package mendplan

import (
	"slices"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// Join returns the job with the named damages of a leaf mended as one: what
// resolves pieces that crowd each other. The first mend of the lowest number
// takes the others in; their own sizes and places stay as recorded. Naming a
// single damage joins its own pieces. Numbers not on the leaf are left out.
func (j Job) Join(leafID string, numbers ...int) Job {
	leaf, ok := j.Leaf(leafID)
	if !ok {
		return j
	}
	numbers = slices.Clone(numbers)
	slices.Sort(numbers)
	numbers = slices.DeleteFunc(slices.Compact(numbers), func(n int) bool {
		_, on := leaf.Damage(n)
		return !on
	})
	if len(numbers) == 0 {
		return j
	}
	host, _ := leaf.Damage(numbers[0])
	host.Mends = slices.Clone(host.Mends)
	if len(host.Mends) == 0 {
		host.Mends = []Mend{{}}
	}
	all := append(slices.Clone(host.Mends[0].Joins), numbers...)
	slices.Sort(all)
	host.Mends[0].Joins = slices.Compact(all)
	return j.WithDamage(leafID, host)
}

// Unjoin returns the job with the damage's mends joined to nothing.
func (j Job) Unjoin(leafID string, number int) Job {
	leaf, _ := j.Leaf(leafID)
	d, ok := leaf.Damage(number)
	if !ok {
		return j
	}
	d.Mends = slices.Clone(d.Mends)
	for i := range d.Mends {
		d.Mends[i].Joins = nil
	}
	return j.WithDamage(leafID, d)
}

// joined unites pieces as the mends of the leaf say. The united outline holds
// all it was made of, so every margin stays; where it is longer than a piece
// may be it is cut again into pieces that overlap as the rules say.
func (w leafWork) joined(groups [][]Piece, sites map[SideName]*siteOf) [][]Piece {
	at := map[int]int{} // damage number to index
	for i, d := range w.leaf.Damages {
		at[d.Number] = i
	}
	for i, d := range w.leaf.Damages {
		for _, m := range d.Mends {
			if len(m.Joins) > 0 && len(groups[i]) > 0 {
				w.joinInto(groups, i, at, m)
			}
		}
	}
	return groups
}

// joinInto moves the pieces of the joined damages that go on the same side
// in the same tissue to damage host and unites what overlaps.
func (w leafWork) joinInto(groups [][]Piece, host int, at map[int]int, m Mend) {
	lead := slices.IndexFunc(groups[host], func(p Piece) bool { return joinable(p.Role) })
	if lead < 0 {
		return
	}
	like := groups[host][lead]
	numbers := append([]int{like.Damage}, m.Joins...)
	slices.Sort(numbers)
	var taken []Piece
	for _, n := range slices.Compact(numbers) {
		i, ok := at[n]
		if !ok {
			continue
		}
		var rest []Piece
		for _, p := range groups[i] {
			if p.Side == like.Side && p.Tissue == like.Tissue && joinable(p.Role) {
				taken = append(taken, p)
			} else {
				rest = append(rest, p)
			}
		}
		groups[i] = rest
	}
	r := InForce{Mend: m.Rules, Job: w.job.Rules}
	groups[host] = append(w.united(w.leaf.Damages[host], taken, r), groups[host]...)
}

// joinable reports whether a piece may become part of a larger one.
func joinable(r Role) bool { return r != RoleGuard && r != RoleBridge && r != RoleFill }

// united returns the pieces made of taken: those that overlap no other as
// they are, the others as one.
func (w leafWork) united(d Damage, taken []Piece, r InForce) []Piece {
	var out []Piece
	for _, cluster := range clusters(taken) {
		first := cluster[0]
		first.Damage = d.Number
		if len(cluster) == 1 {
			out = append(out, first)
			continue
		}
		areas := make([]geom.Area, len(cluster))
		var numbers []int
		for i, p := range cluster {
			areas[i] = p.Outline
			numbers = append(numbers, p.Damage)
		}
		slices.Sort(numbers)
		why := phrase.Of("%d pieces joined into one, of %s", len(cluster), damageWords(slices.Compact(numbers)))
		out = append(out, w.recut(geom.Union(areas...), first, why, r)...)
	}
	return out
}

// recut cuts a united area to pieces within the limit of length.
func (w leafWork) recut(a geom.Area, like Piece, why phrase.Phrase, r InForce) []Piece {
	s := &site{leaf: w.leaf, damage: Damage{Number: like.Damage}, paper: w.paper, rules: w.job.Rules}
	var out []Piece
	for _, part := range bands(a, r.Number(LongestStrip), r.Number(PieceOverlap)) {
		d := draft{outline: part, role: like.Role, style: Shaped, along: ownAngle(part)}
		wish := grainFor(d, w.paper, r)
		p := s.piece(d, wish, r.Number(Fringe))
		p.Side, p.Tissue = like.Side, like.Tissue
		p.Reasons = append(slices.Clone(like.Reasons), why)
		out = append(out, p)
	}
	return out
}

// clusters groups pieces whose outlines overlap, directly or through others,
// in the order of their first pieces.
func clusters(pieces []Piece) [][]Piece {
	group := make([]int, len(pieces))
	for i := range group {
		group[i] = i
	}
	for i, p := range pieces {
		for k := range i {
			if group[k] != group[i] && overlapping(p.Outline, pieces[k].Outline) {
				from, to := max(group[i], group[k]), min(group[i], group[k])
				for x := range i + 1 {
					if group[x] == from {
						group[x] = to
					}
				}
			}
		}
	}
	var out [][]Piece
	for g := range pieces {
		var c []Piece
		for i, p := range pieces {
			if group[i] == g {
				c = append(c, p)
			}
		}
		if len(c) > 0 {
			out = append(out, c)
		}
	}
	return out
}

// overlapping reports whether two areas share more than a line.
func overlapping(a, b geom.Area) bool { return geom.Intersect(a, b).Area() > geom.Grid }
