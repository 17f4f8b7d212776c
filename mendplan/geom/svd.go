package geom

import "math"

// nullVector returns the vector of length one that rows shrink most, by
// one-sided Jacobi rotations: columns are turned against each other until all
// are at right angles; the shortest belongs to the vector. It reports false
// when a second column is as good as zero too, so that no one vector is meant.
func nullVector(rows [][9]float64) ([9]float64, bool) {
	var v [9][9]float64
	for i := range v {
		v[i][i] = 1
	}
	for range 60 {
		turned := false
		for p := 0; p < 8; p++ {
			for q := p + 1; q < 9; q++ {
				if rotateColumns(rows, &v, p, q) {
					turned = true
				}
			}
		}
		if !turned {
			break
		}
	}
	least, second, most := inf, inf, 0.0
	at := 0
	for j := range 9 {
		n := 0.0
		for i := range rows {
			n += rows[i][j] * rows[i][j]
		}
		n = math.Sqrt(n)
		most = max(most, n)
		switch {
		case n < least:
			least, second, at = n, least, j
		case n < second:
			second = n
		}
	}
	var out [9]float64
	for i := range out {
		out[i] = v[i][at]
	}
	return out, second > 1e-7*most
}

// rotateColumns turns columns p and q of rows, and of v with them, to right
// angles; it reports whether they were not so already.
func rotateColumns(rows [][9]float64, v *[9][9]float64, p, q int) bool {
	var pp, qq, pq float64
	for i := range rows {
		a, b := rows[i][p], rows[i][q]
		pp, qq, pq = pp+a*a, qq+b*b, pq+a*b
	}
	if math.Abs(pq) <= 1e-15*math.Sqrt(pp*qq) || pq == 0 {
		return false
	}
	z := (qq - pp) / (2 * pq)
	t := math.Copysign(1/(math.Abs(z)+math.Sqrt(1+z*z)), z)
	c := 1 / math.Sqrt(1+t*t)
	s := c * t
	for i := range rows {
		a, b := rows[i][p], rows[i][q]
		rows[i][p], rows[i][q] = c*a-s*b, s*a+c*b
	}
	for i := range v {
		a, b := v[i][p], v[i][q]
		v[i][p], v[i][q] = c*a-s*b, s*a+c*b
	}
	return true
}
