package mendplan

import (
	"encoding/json"
	"math"
	"reflect"
	"strconv"
	"strings"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// salvor makes a job of what could be read, and notes what could not.
type salvor struct {
	out    Job
	losses []LostPart
	noted  map[int]bool // lines told of
}

// where is the place that is being read.
type where struct {
	place phrase.Phrase
	line  int
}

func (w where) in(n node) where {
	if n.line > 0 {
		w.line = n.line
	}
	return w
}

func (s *salvor) lose(w where, words phrase.Phrase) {
	if s.noted == nil {
		s.noted = map[int]bool{}
	}
	s.noted[w.line] = true
	if len(s.losses) < mostLosses {
		s.losses = append(s.losses, LostPart{Line: w.line, Place: w.place, Words: words})
	}
}

func readInto(value string, to any) bool {
	return value != "" && json.Unmarshal([]byte(value), to) == nil
}

var (
	pointType       = reflect.TypeFor[geom.Pt]()
	unmarshalerType = reflect.TypeFor[json.Unmarshaler]()
	// wholeTypes are of use only when all of them is there.
	wholeTypes = map[reflect.Type]phrase.Phrase{
		reflect.TypeFor[Calibration](): phrase.Of("its scale is not whole and was left out: calibrate again"),
		reflect.TypeFor[PinnedPiece](): phrase.Of("a piece pinned to its sheet is not whole and was left out"),
		reflect.TypeFor[HeldSheet]():   phrase.Of("a sheet kept as it was laid out is not whole and was left out"),
	}
)

// fill puts what was read into v; whole is false when anything is missing.
func (s *salvor) fill(v reflect.Value, n node, w where) (whole bool) {
	w = w.in(n)
	n = n.spread()
	switch {
	case n.value == "null" && !n.mended:
		return true
	case v.Kind() == reflect.Pointer:
		if !n.group {
			return s.refuse(n, w)
		}
		p := reflect.New(v.Type().Elem())
		whole = s.fill(p.Elem(), n, w)
		v.Set(p)
		return whole
	case v.Type() == pointType:
		return s.point(v, n)
	case v.Addr().Type().Implements(unmarshalerType):
		return !n.mended && !n.open && readInto(n.value, v.Addr().Interface()) || s.refuse(n, w)
	case v.Kind() == reflect.Struct && n.group:
		return s.record(v, n, w)
	case v.Kind() == reflect.Slice && n.group:
		return s.list(v, n, w)
	case v.Kind() == reflect.Map && n.group:
		return s.table(v, n, w)
	}
	if n.group || n.mended && v.Kind() != reflect.String || !readInto(n.value, v.Addr().Interface()) {
		v.SetZero()
		return s.refuse(n, w)
	}
	if n.mended {
		s.lose(w, phrase.Of("“%s” is not quite readable", n.name))
	}
	return !n.mended
}

// refuse tells of a value that cannot be used.
func (s *salvor) refuse(n node, w where) bool {
	if n.named {
		s.lose(w, phrase.Of("“%s” could not be read", n.name))
	} else {
		s.lose(w, phrase.Of("a value could not be read"))
	}
	return false
}

// point reads one point; those that tell of it are its list.
func (s *salvor) point(v reflect.Value, n node) bool {
	if len(n.kids) != 2 || n.mended {
		return false
	}
	var at [2]float64
	for i, k := range n.kids {
		if k.mended || k.group || !readInto(k.value, &at[i]) || math.Abs(at[i]) > math.MaxFloat32 {
			return false
		}
	}
	v.Set(reflect.ValueOf(geom.Pt{X: at[0], Y: at[1]}))
	return true
}

// list reads the members that can be read. Where the place in the list tells
// what a member means, a list that is not whole is left out.
func (s *salvor) list(v reflect.Value, n node, w where) bool {
	whole := !n.open
	out := reflect.MakeSlice(v.Type(), 0, len(n.kids))
	kind := v.Type().Elem()
	lost := 0
	for i, k := range n.kids {
		m := reflect.New(kind).Elem()
		ok := s.fill(m, k, w.member(kind, k.spread(), i))
		if !ok {
			whole = false
		}
		if !ok && (kind.Kind() != reflect.Struct || kind == pointType || !useful(m)) {
			lost++
			continue
		}
		out = reflect.Append(out, m)
	}
	ordered := kind.Kind() == reflect.Float64 || kind.Kind() == reflect.Slice || kind == pointType && n.name != "points_px" && n.name != "outline_px" && n.named
	switch {
	case !whole && ordered:
		s.lose(w, phrase.Of("“%s” is not whole and was left out", n.name))
		out = out.Slice(0, 0)
	case !whole && kind == pointType:
		s.lose(w, phrase.Of("the trace is not whole: %d of its points could be read", out.Len()))
	case n.open:
		s.lose(w, phrase.Of("the end of “%s” is missing", n.name))
	}
	if v.Len() > 0 { // a list that stands twice, or in two parts
		out = reflect.AppendSlice(v, out)
	}
	v.Set(out)
	return whole
}

// useful reports whether anything of a record could be read.
func useful(v reflect.Value) bool {
	if _, all := wholeTypes[v.Type()]; all {
		return false
	}
	if d, ok := v.Interface().(Damage); ok {
		return d.Number > 0 || len(d.Points) > 0
	}
	return !v.IsZero()
}

// table reads a map, such as the rules.
func (s *salvor) table(v reflect.Value, n node, w where) bool {
	whole := !n.open
	out := reflect.MakeMap(v.Type())
	for _, k := range n.kids {
		key := reflect.New(v.Type().Key()).Elem()
		if !k.named || !keyInto(key, k.name) {
			whole = s.refuse(k, w.in(k))
			continue
		}
		m := reflect.New(v.Type().Elem()).Elem()
		if !s.fill(m, k, w) {
			whole = false
			continue
		}
		out.SetMapIndex(key, m)
	}
	v.Set(out)
	return whole
}

func keyInto(key reflect.Value, name string) bool {
	switch key.Kind() {
	case reflect.String:
		key.SetString(name)
		return true
	case reflect.Int:
		n, err := strconv.Atoi(name)
		key.SetInt(int64(n))
		return err == nil
	}
	return false
}

// record reads the fields of a record that have names of its own.
func (s *salvor) record(v reflect.Value, n node, w where) bool {
	whole := !n.open && !n.mended
	seen := map[string]bool{}
	fields := fieldsOf(v.Type())
	for _, k := range n.kids {
		name := k.name
		if !k.named {
			name = k.guess()
		}
		i, ok := fields[name]
		if !ok {
			if name = near(name, fields, n); name == "" {
				if _, head := headerNames[k.name]; !head || v.Type() != reflect.TypeFor[Job]() {
					whole = s.stranger(k, w) && whole
				}
				continue
			}
			i, whole = fields[name], false
			s.lose(w.in(k), phrase.Of("“%s” was taken for “%s”", k.name, name))
		}
		f := v.Field(i)
		k.name, k.named = name, true
		if seen[name] && f.Kind() != reflect.Slice {
			s.lose(w.in(k), phrase.Of("“%s” stands twice: the first was taken", name))
			whole = false
			continue
		}
		if seen[name] {
			s.lose(w.in(k), phrase.Of("“%s” stands twice: both were taken", name))
		}
		seen[name] = true
		if !s.fill(f, k, w.field(v.Type(), name)) {
			whole = false
		}
	}
	return s.finish(v, n, w, whole)
}

// stranger keeps a field that this version does not know when it is of one
// line, and tells of it when it is not.
func (s *salvor) stranger(k node, w where) bool {
	if k.named {
		s.lose(w.in(k), phrase.Of("“%s”, which this version does not know, was left out", k.name))
	} else {
		s.lose(w.in(k), phrase.Of("something whose name is lost was left out"))
	}
	return false
}

var headerNames = fieldsOf(reflect.TypeFor[header]())

// fieldsOf maps the names of a record's fields in the file to their places.
func fieldsOf(t reflect.Type) map[string]int {
	out := map[string]int{}
	for i := range t.NumField() {
		if name, _, _ := strings.Cut(t.Field(i).Tag.Get("json"), ","); name != "" && name != "-" {
			out[name] = i
		}
	}
	return out
}

// near returns the one field that a name differs from in one sign, if that
// field is not there otherwise.
func near(name string, fields map[string]int, n node) string {
	found := ""
	for f := range fields {
		if len(f) > 2 && oneSignApart(f, name) && !n.has(f) {
			if found != "" {
				return ""
			}
			found = f
		}
	}
	return found
}

func oneSignApart(a, b string) bool {
	ra, rb := []rune(a), []rune(b)
	i := 0
	for i < len(ra) && i < len(rb) && ra[i] == rb[i] {
		i++
	}
	for _, skip := range [][2]int{{1, 1}, {1, 0}, {0, 1}} {
		if i+skip[0] <= len(ra) && i+skip[1] <= len(rb) && string(ra[i+skip[0]:]) == string(rb[i+skip[1]:]) {
			return true
		}
	}
	return false
}
