package mendplan

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strconv"
)

// UnknownField is a field of a job file that this version does not know. It
// is kept and written back at the same place, so that a job edited here loses
// nothing that a newer version had put into it.
type UnknownField struct {
	// Place leads to the object: names of fields, and for members of lists
	// the member's "id" or "number", or its index where it has neither.
	Place []string
	Name  string
	Value json.RawMessage
}

// findUnknown compares the file with what was understood of it. A field that
// the understood job would not write again, and that is not empty, is unknown.
func findUnknown(raw shape, j Job) ([]UnknownField, error) {
	understood, err := json.Marshal(struct {
		header
		Job
	}{header{WrittenBy: Version}, j})
	if err != nil {
		return nil, fmt.Errorf("comparing the file with what was read: %w", err)
	}
	known, fault := fileShape(understood)
	if fault != nil {
		return nil, fault
	}
	var out []UnknownField
	collectUnknown(raw, known, nil, &out)
	return out, nil
}

func collectUnknown(raw, known shape, place []string, out *[]UnknownField) {
	for _, f := range raw.fields {
		if sub, ok := known.like(f.name); ok {
			collectUnknown(f.is, sub, append(slices.Clone(place), f.name), out)
		} else if !emptyValue(f.is.raw) {
			*out = append(*out, UnknownField{Place: place, Name: f.name, Value: compact(f.is.raw)})
		}
	}
	for i := range min(len(raw.list), len(known.list)) {
		if len(raw.list[i].fields) > 0 {
			collectUnknown(raw.list[i], known.list[i], append(slices.Clone(place), memberName(known.list[i], i)), out)
		}
	}
}

// mistaken returns the first unknown list or record whose name is that of a
// known one but for a sign, and the known name. Such a file is damaged: what
// it holds there would be kept, but not be seen.
func mistaken(fields []UnknownField) (old, name string) {
	for _, f := range fields {
		t := reflect.TypeFor[Job]()
		for _, p := range f.Place {
			t = typeWithin(t, p)
		}
		if t == nil || t.Kind() != reflect.Struct || f.Value[0] != '[' && f.Value[0] != '{' {
			continue
		}
		if name := near(f.Name, fieldsOf(t), node{}); name != "" {
			return f.Name, name
		}
	}
	return "", ""
}

// typeWithin follows one step of a place; nil where it leads nowhere.
func typeWithin(t reflect.Type, name string) reflect.Type {
	if t != nil && t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch {
	case t == nil:
	case t.Kind() == reflect.Struct:
		if i, ok := fieldsOf(t)[name]; ok {
			t = t.Field(i).Type
			if t.Kind() == reflect.Pointer {
				t = t.Elem()
			}
			return t
		}
	case t.Kind() == reflect.Slice || t.Kind() == reflect.Map:
		return t.Elem()
	}
	return nil
}

// compact returns a copy without the spaces that only lay a file out.
func compact(raw []byte) json.RawMessage {
	var b bytes.Buffer
	if json.Compact(&b, raw) != nil {
		return slices.Clone(raw)
	}
	return b.Bytes()
}

// keeping is what is to be put back into one object and into those in it.
type keeping struct {
	fields []UnknownField
	within map[string]*keeping
}

// withUnknown puts the unknown fields back where their objects still are, in
// one pass over the file: ten thousand of them cost hardly more than one.
func withUnknown(body []byte, fields []UnknownField) ([]byte, error) {
	root := &keeping{}
	for _, f := range fields {
		k := root
		for _, name := range f.Place {
			if k.within == nil {
				k.within = map[string]*keeping{}
			}
			if k.within[name] == nil {
				k.within[name] = &keeping{}
			}
			k = k.within[name]
		}
		k.fields = append(k.fields, f)
	}
	var b bytes.Buffer
	s, fault := fileShape(body)
	if fault != nil {
		return nil, fault
	}
	if err := putBack(&b, s, root); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// putBack writes a value with what is to be kept in it. The order of the
// known fields is kept; the others follow them.
func putBack(b *bytes.Buffer, s shape, k *keeping) error {
	switch {
	case k == nil:
		b.Write(s.raw)
	case len(s.raw) > 0 && s.raw[0] == '{':
		return putBackObject(b, s, k)
	case s.list != nil:
		done := map[string]bool{}
		b.WriteByte('[')
		for i, m := range s.list {
			if i > 0 {
				b.WriteByte(',')
			}
			name := memberName(m, i)
			within := k.within[name]
			if done[name] {
				within = nil
			}
			done[name] = true
			if err := putBack(b, m, within); err != nil {
				return err
			}
		}
		b.WriteByte(']')
	default:
		b.Write(s.raw) // it has become something else: nothing to keep them in
	}
	return nil
}

func putBackObject(b *bytes.Buffer, s shape, k *keeping) error {
	n := 0
	name := func(name string) error {
		if n++; n > 1 {
			b.WriteByte(',')
		}
		key, err := json.Marshal(name)
		if err != nil {
			return fmt.Errorf("keeping field %q: %w", name, err)
		}
		b.Write(key)
		b.WriteByte(':')
		return nil
	}
	b.WriteByte('{')
	for _, f := range s.fields {
		if err := name(f.name); err != nil {
			return err
		}
		if err := putBack(b, f.is, k.within[f.name]); err != nil {
			return err
		}
	}
	for _, f := range k.fields {
		if s.has(f.Name) {
			continue // it is known by now, and has a value here
		}
		if err := name(f.Name); err != nil {
			return err
		}
		b.Write(f.Value)
	}
	b.WriteByte('}')
	return nil
}

// memberName names a member of a list: its id, its number, or its index.
func memberName(s shape, index int) string {
	var id string
	if f, ok := s.field("id"); ok && json.Unmarshal(f.raw, &id) == nil {
		return "id " + id
	}
	if f, ok := s.field("number"); ok && len(f.raw) > 0 && (f.raw[0] == '-' || f.raw[0] >= '0' && f.raw[0] <= '9') {
		return "number " + string(f.raw)
	}
	return strconv.Itoa(index)
}

// emptyValue reports whether a value says nothing: zero, "", false, null, or
// a list or group without anything else in it.
func emptyValue(raw []byte) bool {
	d := json.NewDecoder(bytes.NewReader(raw))
	d.UseNumber()
	var v any
	return d.Decode(&v) == nil && saysNothing(v)
}

func saysNothing(v any) bool {
	switch x := v.(type) {
	case nil:
		return true
	case string:
		return x == ""
	case bool:
		return !x
	case json.Number:
		f, err := x.Float64()
		return err == nil && f == 0
	case []any:
		return len(x) == 0
	case map[string]any:
		for _, e := range x {
			if !saysNothing(e) {
				return false
			}
		}
		return true
	}
	return false
}
