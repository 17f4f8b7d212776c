package mendplan

import (
	"bytes"
	"encoding/json"
	"fmt"
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
func findUnknown(data []byte, j Job) ([]UnknownField, error) {
	understood, err := json.Marshal(struct {
		header
		Job
	}{Job: j})
	if err != nil {
		return nil, fmt.Errorf("comparing the file with what was read: %w", err)
	}
	raw, err := tree(data)
	if err != nil {
		return nil, err
	}
	known, err := tree(understood)
	if err != nil {
		return nil, err
	}
	var out []UnknownField
	collectUnknown(raw, known, nil, &out)
	return out, nil
}

func tree(data []byte) (any, error) {
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber()
	var v any
	if err := d.Decode(&v); err != nil {
		return nil, fmt.Errorf("reading the fields of the job: %w", err)
	}
	return v, nil
}

func collectUnknown(raw, known any, place []string, out *[]UnknownField) {
	switch r := raw.(type) {
	case map[string]any:
		k, _ := known.(map[string]any)
		for _, name := range sortedKeys(r) {
			if sub, ok := k[name]; ok {
				collectUnknown(r[name], sub, append(slices.Clone(place), name), out)
			} else if !emptyValue(r[name]) {
				b, _ := json.Marshal(r[name]) // came from JSON, so it can go back
				*out = append(*out, UnknownField{Place: place, Name: name, Value: b})
			}
		}
	case []any:
		k, _ := known.([]any)
		for i := range min(len(r), len(k)) {
			if _, ok := r[i].(map[string]any); ok {
				collectUnknown(r[i], k[i], append(slices.Clone(place), memberName(k[i], i)), out)
			}
		}
	}
}

// withUnknown puts the unknown fields back where their objects still are.
func withUnknown(body []byte, fields []UnknownField) ([]byte, error) {
	for _, f := range fields {
		var err error
		if body, err = insertField(body, f.Place, f); err != nil {
			return nil, err
		}
	}
	return body, nil
}

// insertField adds f to the object at place. It works on raw messages level by
// level, so that the order of the known fields is kept.
func insertField(body []byte, place []string, f UnknownField) ([]byte, error) {
	if len(place) == 0 {
		return appendField(body, f.Name, f.Value)
	}
	trimmed := bytes.TrimSpace(body)
	if len(trimmed) > 0 && trimmed[0] == '[' {
		var list []json.RawMessage
		if err := json.Unmarshal(body, &list); err != nil {
			return nil, fmt.Errorf("keeping field %q: %w", f.Name, err)
		}
		for i, m := range list {
			v, err := tree(m)
			if err != nil || memberName(v, i) != place[0] {
				continue
			}
			if list[i], err = insertField(m, place[1:], f); err != nil {
				return nil, err
			}
			return json.Marshal(list)
		}
		return body, nil // its object was deleted
	}
	return replaceField(body, place[0], func(old json.RawMessage) (json.RawMessage, error) {
		return insertField(old, place[1:], f)
	})
}

// memberName names a member of a list: its id, its number, or its index.
func memberName(v any, index int) string {
	if m, ok := v.(map[string]any); ok {
		if id, ok := m["id"].(string); ok {
			return "id " + id
		}
		if n, ok := m["number"].(json.Number); ok {
			return "number " + n.String()
		}
	}
	return strconv.Itoa(index)
}

func emptyValue(v any) bool {
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
			if !emptyValue(e) {
				return false
			}
		}
		return true
	}
	return false
}

func sortedKeys(m map[string]any) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

// appendField adds a field at the end of an object.
func appendField(obj []byte, name string, value json.RawMessage) ([]byte, error) {
	obj = bytes.TrimSpace(obj)
	if len(obj) < 2 || obj[0] != '{' {
		return obj, nil // the object has become something else: nothing to keep it in
	}
	key, err := json.Marshal(name)
	if err != nil {
		return nil, fmt.Errorf("keeping field %q: %w", name, err)
	}
	out := slices.Clone(obj[:len(obj)-1])
	if len(bytes.TrimSpace(obj[1:len(obj)-1])) > 0 {
		out = append(out, ',')
	}
	return append(append(append(append(out, key...), ':'), value...), '}'), nil
}

// replaceField rewrites one field of an object, leaving the others and their
// order alone. An object without that field gets it, made from an empty one.
func replaceField(obj []byte, name string, change func(json.RawMessage) (json.RawMessage, error)) ([]byte, error) {
	d := json.NewDecoder(bytes.NewReader(obj))
	if t, err := d.Token(); err != nil || t != json.Delim('{') {
		return obj, nil
	}
	for d.More() {
		t, err := d.Token()
		if err != nil {
			return nil, fmt.Errorf("keeping unknown fields: %w", err)
		}
		var value json.RawMessage
		if err := d.Decode(&value); err != nil {
			return nil, fmt.Errorf("keeping unknown fields: %w", err)
		}
		if t != name {
			continue
		}
		changed, err := change(value)
		if err != nil {
			return nil, err
		}
		end := int(d.InputOffset())
		start := end - len(value)
		return slices.Concat(obj[:start], changed, obj[end:]), nil
	}
	return obj, nil
}
