package mendplan

import (
	"slices"
)

// Leaf returns the leaf with the given ID.
func (j Job) Leaf(id string) (Leaf, bool) {
	i := slices.IndexFunc(j.Leaves, func(l Leaf) bool { return l.ID == id })
	if i < 0 {
		return Leaf{}, false
	}
	return j.Leaves[i], true
}

// WithLeaf returns the job with leaf in the place of the one with the same
// ID, or at the end if there is none.
func (j Job) WithLeaf(leaf Leaf) Job {
	j.Leaves = put(j.Leaves, leaf, func(l Leaf) bool { return l.ID == leaf.ID })
	return j
}

// WithoutLeaf returns the job without the leaf.
func (j Job) WithoutLeaf(id string) Job {
	j.Leaves = drop(j.Leaves, func(l Leaf) bool { return l.ID == id })
	return j
}

// MoveLeaf returns the job with the leaf moved to place to, counted from 0
// and kept inside the list.
func (j Job) MoveLeaf(id string, to int) Job {
	leaf, ok := j.Leaf(id)
	if !ok {
		return j
	}
	rest := drop(j.Leaves, func(l Leaf) bool { return l.ID == id })
	j.Leaves = slices.Insert(rest, min(max(to, 0), len(rest)), leaf)
	return j
}

// AddDamage gives d the next number and puts it on the leaf. It returns the
// job and the number; if there is no such leaf, the job as it was and 0.
func (j Job) AddDamage(leafID string, d Damage) (Job, int) {
	leaf, ok := j.Leaf(leafID)
	if !ok {
		return j, 0
	}
	j.LastNumber++
	d.Number = j.LastNumber
	leaf.Damages = append(slices.Clone(leaf.Damages), d)
	return j.WithLeaf(leaf), d.Number
}

// WithDamage returns the job with d in the place of the damage of the same
// number on that leaf. A job without it stays as it was.
func (j Job) WithDamage(leafID string, d Damage) Job {
	leaf, ok := j.Leaf(leafID)
	if !ok {
		return j
	}
	if _, ok := leaf.Damage(d.Number); !ok {
		return j
	}
	leaf.Damages = put(leaf.Damages, d, func(o Damage) bool { return o.Number == d.Number })
	return j.WithLeaf(leaf)
}

// WithoutDamage returns the job without that damage. Its number is not used
// again.
func (j Job) WithoutDamage(leafID string, number int) Job {
	leaf, ok := j.Leaf(leafID)
	if !ok {
		return j
	}
	leaf.Damages = drop(leaf.Damages, func(o Damage) bool { return o.Number == number })
	return j.WithLeaf(leaf)
}

// FindDamage returns the damage of that number and the leaf it is on.
func (j Job) FindDamage(number int) (Leaf, Damage, bool) {
	for _, leaf := range j.Leaves {
		if d, ok := leaf.Damage(number); ok {
			return leaf, d, true
		}
	}
	return Leaf{}, Damage{}, false
}

// Tissue returns the tissue with the given ID.
func (j Job) Tissue(id string) (Tissue, bool) {
	i := slices.IndexFunc(j.Tissues, func(t Tissue) bool { return t.ID == id })
	if i < 0 {
		return Tissue{}, false
	}
	return j.Tissues[i], true
}

// WithTissue returns the job with t in the place of the tissue of the same
// ID, or at the end.
func (j Job) WithTissue(t Tissue) Job {
	j.Tissues = put(j.Tissues, t, func(o Tissue) bool { return o.ID == t.ID })
	return j
}

// WithoutTissue returns the job without the tissue; stock of it stays and is
// named as a problem.
func (j Job) WithoutTissue(id string) Job {
	j.Tissues = drop(j.Tissues, func(o Tissue) bool { return o.ID == id })
	return j
}

// WithStock returns the job with s in the place of the stock item of the
// same ID, or at the end.
func (j Job) WithStock(s Stock) Job {
	j.Stock = put(j.Stock, s, func(o Stock) bool { return o.ID == s.ID })
	return j
}

// WithoutStock returns the job without the stock item.
func (j Job) WithoutStock(id string) Job {
	j.Stock = drop(j.Stock, func(o Stock) bool { return o.ID == id })
	return j
}

// WithRule returns the job with one more departure from the defaults.
func (j Job) WithRule(key RuleKey, v RuleValue) Job {
	j.Rules = j.Rules.With(key, v)
	return j
}

// WithoutRule returns the job with the rule back at its default.
func (j Job) WithoutRule(key RuleKey) Job {
	j.Rules = j.Rules.Without(key)
	return j
}

// Damage returns the damage of that number on the leaf.
func (l Leaf) Damage(number int) (Damage, bool) {
	i := slices.IndexFunc(l.Damages, func(d Damage) bool { return d.Number == number })
	if i < 0 {
		return Damage{}, false
	}
	return l.Damages[i], true
}

// SideOf returns the named side; "" counts as the front.
func (l Leaf) SideOf(name SideName) Side {
	if name == Back {
		return l.Back
	}
	return l.Front
}

// WithSide returns the leaf with the named side replaced.
func (l Leaf) WithSide(name SideName, s Side) Leaf {
	if old := l.SideOf(name).Scan; old.Present() && (old.Path != s.Scan.Path || old.Page != s.Scan.Page || old.Width != s.Scan.Width || old.Height != s.Scan.Height) {
		l.BackOver = nil // it spoke of the other picture
	}
	if name == Back {
		l.Back = s
	} else {
		l.Front = s
	}
	return l
}

// AddSteps records steps and gives each the next number.
func (j Job) AddSteps(steps ...Step) Job {
	out := slices.Clone(j.Steps)
	for _, s := range steps {
		j.LastStep++
		s.Number = j.LastStep
		out = append(out, s)
	}
	j.Steps = out
	return j
}

// WithStep returns the job with s in the place of the step of that number.
func (j Job) WithStep(s Step) Job {
	if slices.ContainsFunc(j.Steps, func(o Step) bool { return o.Number == s.Number }) {
		j.Steps = put(j.Steps, s, func(o Step) bool { return o.Number == s.Number })
	}
	return j
}

// WithoutStep returns the job without the step of that number.
func (j Job) WithoutStep(number int) Job {
	j.Steps = drop(j.Steps, func(o Step) bool { return o.Number == number })
	return j
}

// WithBatch returns the job with b in the place of the batch of the same ID,
// or at the end.
func (j Job) WithBatch(b Batch) Job {
	j.Batches = put(j.Batches, b, func(o Batch) bool { return o.ID == b.ID })
	return j
}

// WithRecipe returns the job with r in the place of the recipe of the same
// ID, or at the end.
func (j Job) WithRecipe(r Recipe) Job {
	j.Recipes = put(j.Recipes, r, func(o Recipe) bool { return o.ID == r.ID })
	return j
}

// put replaces the element that matches, or appends v; list is not written.
func put[T any](list []T, v T, same func(T) bool) []T {
	if i := slices.IndexFunc(list, same); i >= 0 {
		out := slices.Clone(list)
		out[i] = v
		return out
	}
	return append(slices.Clone(list), v)
}

// drop returns the list without what matches; list is not written.
func drop[T any](list []T, gone func(T) bool) []T {
	return slices.DeleteFunc(slices.Clone(list), gone)
}
