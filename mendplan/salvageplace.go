package mendplan

import (
	"reflect"

	"leafmend/mendplan/phrase"
)

// job reads the whole, and tells of the parts that every file has.
func (s *salvor) job(root node) {
	s.record(reflect.ValueOf(&s.out).Elem(), root, where{})
	seen := map[string]bool{}
	for _, k := range root.kids {
		name := k.name
		if !k.named {
			name = k.guess()
		}
		seen[name] = true
	}
	if root.open {
		s.lose(where{}, phrase.Of("the file has no end: what stood after the last line that could be read is missing"))
	}
	for _, part := range []struct {
		name  string
		words phrase.Phrase
	}{
		{"leaves", phrase.Of("the leaves are missing")},
		{"tissues", phrase.Of("the tissues are missing")},
		{"stock", phrase.Of("the stock is missing")},
		{"last_damage_number", phrase.Of("the last number given to a damage is missing: a number may come to be used twice")},
	} {
		if !seen[part.name] {
			s.lose(where{}, part.words)
		}
	}
}

// strays tells of unreadable lines that no record told of.
func (s *salvor) strays(r *liner) {
	told := 0
	for _, line := range r.bad {
		if s.noted[line] {
			continue
		}
		if told++; told > 20 {
			s.lose(where{}, phrase.Of("%d lines more could not be read", len(r.bad)-told+1))
			return
		}
		s.lose(where{line: line}, phrase.Of("a line could not be read as it was"))
	}
}

// finish looks at a record when all its fields are read.
func (s *salvor) finish(v reflect.Value, n node, w where, whole bool) bool {
	if whole {
		return true
	}
	if words, all := wholeTypes[v.Type()]; all {
		s.lose(w, words)
		v.SetZero()
		return false
	}
	switch r := v.Addr().Interface().(type) {
	case *Damage:
		s.unsureDamage(r, n, w)
	case *Leaf:
		if r.ID == "" {
			s.lose(w, phrase.Of("which leaf this was cannot be read; %d of its damages could", len(r.Damages)))
		}
	}
	if n.open && v.Type() != reflect.TypeFor[Job]() {
		s.lose(w, phrase.Of("the end is missing, with what was recorded there"))
	}
	return false
}

// unsureDamage keeps a damage from being cut for when its trace, its kind or
// its end is not sure.
func (s *salvor) unsureDamage(d *Damage, n node, w where) {
	sure := len(d.Points) > 0 && d.Kind != "" && d.Side != ""
	for _, k := range n.kids {
		if k.name == "points_px" || k.name == "forks_px" || k.name == "kind" || k.name == "side" {
			sure = sure && k.sound()
		}
	}
	if (!sure || n.open) && !d.NoMend {
		d.NoMend = true
		s.lose(w, phrase.Of("the damage is kept without a mend until you have looked at it"))
	}
}

// sound reports whether nothing of a value had to be guessed.
func (n node) sound() bool {
	if n.mended || n.open {
		return false
	}
	n = n.spread()
	for _, k := range n.kids {
		if !k.sound() {
			return false
		}
	}
	return true
}

// member names the place of a list's member.
func (w where) member(kind reflect.Type, n node, index int) where {
	switch kind {
	case reflect.TypeFor[Leaf]():
		w.place = phrase.Of("leaf %s", n.says("mark", n.says("id", ordinal(index))))
	case reflect.TypeFor[Damage]():
		w.place = within(w.place, phrase.Of("damage %s", n.says("number", phrase.Of("without a number"))))
	case reflect.TypeFor[Tissue]():
		w.place = phrase.Of("tissue %s", n.says("name", n.says("id", ordinal(index))))
	case reflect.TypeFor[Stock]():
		w.place = phrase.Of("stock item %s", n.says("id", ordinal(index)))
	case reflect.TypeFor[Step]():
		w.place = phrase.Of("step %s", n.says("number", ordinal(index)))
	case reflect.TypeFor[Gathering]():
		w.place = phrase.Of("gathering %s", n.says("signature", ordinal(index)))
	}
	return w
}

// field names the place of a part of a leaf.
func (w where) field(t reflect.Type, name string) where {
	if t == reflect.TypeFor[Leaf]() && (name == "front" || name == "back") {
		w.place = within(w.place, phrase.Of(name))
	}
	return w
}

func within(place, part phrase.Phrase) phrase.Phrase {
	if place.IsZero() {
		return part
	}
	return phrase.Of("%s, %s", place, part)
}

func ordinal(index int) phrase.Phrase { return phrase.Of("in place %d", index+1) }

// says returns the value of a field in words, or what stands in for it.
func (n node) says(name string, other phrase.Phrase) phrase.Phrase {
	for _, k := range n.kids {
		if !k.named || k.name != name || k.mended {
			continue
		}
		var word string
		var number int
		switch {
		case readInto(k.value, &word) && word != "":
			if r := []rune(word); len(r) > 40 {
				word = string(r[:40])
			}
			return phrase.Of("%s", word)
		case readInto(k.value, &number):
			return phrase.Of("%d", number)
		}
	}
	return other
}
