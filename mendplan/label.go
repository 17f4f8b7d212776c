package mendplan

import "strconv"

// labelOf names a piece for the bench: the leaf's mark, the letter of the
// side it is pasted on, the damage's number and a letter for each piece, such
// as "3f-7a". Numbers are never used twice in a job, so two leaves of one
// mark still have different labels.
func labelOf(leaf Leaf, side SideName, damage, index int) string {
	return markOf(leaf) + side.Letter() + "-" + strconv.Itoa(damage) + letters(index)
}

// letters counts a, b … z, aa, ab … from 0.
func letters(i int) string {
	s := string(rune('a' + i%26))
	if i < 26 {
		return s
	}
	return letters(i/26-1) + s
}
