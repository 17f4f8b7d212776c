package mendplan

import (
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Pairing says how a heap of scans is sorted into leaves.
type Pairing string

// Ways of pairing.
const (
	ByName    Pairing = "name"   // 03r and 03v, front and back, outer and inner
	ByOrder   Pairing = "order"  // front, back, front, back, in the order of names
	AllFronts Pairing = "fronts" // each scan is the front of a leaf of its own
)

// Pair is the scans of one leaf, by the names given; Back may be "".
type Pair struct{ Front, Back string }

// sides are the endings that tell a side, by pairs.
var sides = regexp.MustCompile(`(?i)^(.*?)([ ._-]*)(recto|verso|front|back|outer|inner|outside|inside|[rv]|[fb]|[oi])$`)

// PairScans sorts scans into leaves, in natural order of their names (2
// before 10). By name, scans whose names differ only in the word or letter
// for the side go together; what finds no partner is the front of its own.
func PairScans(names []string, how Pairing) []Pair {
	sorted := slices.Clone(names)
	slices.SortStableFunc(sorted, naturalOrder)
	var out []Pair
	switch how {
	case ByOrder:
		for i := 0; i < len(sorted); i += 2 {
			p := Pair{Front: sorted[i]}
			if i+1 < len(sorted) {
				p.Back = sorted[i+1]
			}
			out = append(out, p)
		}
	case ByName:
		return pairByName(sorted)
	default:
		for _, n := range sorted {
			out = append(out, Pair{Front: n})
		}
	}
	return out
}

func pairByName(sorted []string) []Pair {
	var out []Pair
	open := map[string]int{} // stem and kind of letter → index of the pair still without that side
	for _, n := range sorted {
		stem, family, back := sideOfName(n)
		key := stem + "\x00" + family
		if i, ok := open[key]; ok && family != "" {
			if back && out[i].Back == "" && out[i].Front != "" {
				out[i].Back = n
				delete(open, key)
				continue
			}
			if !back && out[i].Front == "" {
				out[i].Front = n
				delete(open, key)
				continue
			}
		}
		p := Pair{Front: n}
		if back {
			p = Pair{Back: n}
		}
		out = append(out, p)
		open[key] = len(out) - 1
	}
	for i := range out {
		if out[i].Front == "" { // a back without its front: lay it as a front
			out[i] = Pair{Front: out[i].Back}
		}
	}
	return out
}

// sideOfName splits a name into what the two sides share and the side. A
// single letter counts only after a digit or a separator, so that "leaf" is
// not the front of "lea".
func sideOfName(name string) (stem, family string, back bool) {
	base := filepath.ToSlash(name)
	base = strings.TrimSuffix(base, path.Ext(base))
	m := sides.FindStringSubmatch(base)
	if m == nil {
		return base, "", false
	}
	word := strings.ToLower(m[3])
	if len(word) == 1 && m[2] == "" && !endsInDigit(m[1]) {
		return base, "", false
	}
	families := [][2]string{{"recto", "verso"}, {"front", "back"}, {"outer", "inner"}, {"outside", "inside"}, {"r", "v"}, {"f", "b"}, {"o", "i"}}
	for _, f := range families {
		if word == f[0] || word == f[1] {
			return m[1], f[0], word == f[1]
		}
	}
	return base, "", false
}

func endsInDigit(s string) bool {
	return s != "" && s[len(s)-1] >= '0' && s[len(s)-1] <= '9'
}

var digits = regexp.MustCompile(`\d+|\D+`)

// naturalOrder compares names so that numbers in them count as numbers.
func naturalOrder(a, b string) int {
	as, bs := digits.FindAllString(strings.ToLower(a), -1), digits.FindAllString(strings.ToLower(b), -1)
	for i := range min(len(as), len(bs)) {
		x, errX := strconv.ParseUint(as[i], 10, 64)
		y, errY := strconv.ParseUint(bs[i], 10, 64)
		if errX == nil && errY == nil && x != y {
			if x < y {
				return -1
			}
			return 1
		}
		if c := strings.Compare(as[i], bs[i]); c != 0 && (errX != nil || errY != nil) {
			return c
		}
	}
	if c := len(as) - len(bs); c != 0 {
		return c
	}
	return strings.Compare(a, b)
}
