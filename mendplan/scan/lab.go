package scan

import "math"

// CIELAB to sRGB. The white is the file's; without one it is D50, as in ICC
// profiles.

// labToSRGB returns the conversion of L* (0 to 100), a* and b* under the given
// white.
func labToSRGB(white [3]float64) func(d []byte, l, a, b float64) {
	toRGB := xyzToSRGB.after(adapt(white, d50))
	return func(d []byte, l, a, b float64) {
		fy := (l + 16) / 116
		rgb := toRGB.times([3]float64{
			white[0] * labInverse(fy+a/500),
			white[1] * labInverse(fy),
			white[2] * labInverse(fy-b/200),
		})
		for i, v := range rgb {
			d[i] = encodeSRGB(v)
		}
	}
}

// bradford leads from XYZ to the cone responses of the Bradford transform
// (ICC.1, annex E).
var bradford = matrix{{0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}}

// adapt returns the change of XYZ from one white to another.
func adapt(from, to [3]float64) matrix {
	f, t := bradford.times(from), bradford.times(to)
	scale := matrix{{t[0] / f[0]}, {0, t[1] / f[1]}, {0, 0, t[2] / f[2]}}
	return bradford.inverse().after(scale).after(bradford)
}

// whiteOf makes a white of chromaticities; ok is false when they are none.
func whiteOf(x, y float64) (w [3]float64, ok bool) {
	if !(x > 0.1 && y > 0.1 && x+y < 1) {
		return d50, false
	}
	return [3]float64{x / y, 1, (1 - x - y) / y}, true
}

// labInverse is the inverse of the cube-root function of CIELAB.
func labInverse(f float64) float64 {
	if f > 6.0/29 {
		return f * f * f
	}
	return 3 * (6.0 / 29) * (6.0 / 29) * (f - 4.0/29)
}

// d50 is the white of the profile connection space (ICC.1, section 7.2.16).
var d50 = [3]float64{0.9642, 1, 0.8249}

// matrix is 3 × 3, by rows.
type matrix [3][3]float64

// sRGBColumns leads from linear sRGB to XYZ under D50: the colorants of the
// sRGB profile (IEC 61966-2-1, adapted by the Bradford transform).
var sRGBColumns = matrix{
	{0.4360747, 0.3850649, 0.1430804},
	{0.2225045, 0.7168786, 0.0606169},
	{0.0139322, 0.0971045, 0.7141733},
}

var xyzToSRGB = sRGBColumns.inverse()

func (m matrix) times(v [3]float64) (r [3]float64) {
	for i := range r {
		r[i] = m[i][0]*v[0] + m[i][1]*v[1] + m[i][2]*v[2]
	}
	return r
}

// after returns m·n: n first, then m.
func (m matrix) after(n matrix) (r matrix) {
	for i := range 3 {
		for k := range 3 {
			r[i][k] = m[i][0]*n[0][k] + m[i][1]*n[1][k] + m[i][2]*n[2][k]
		}
	}
	return r
}

// inverse by cofactors; a singular matrix gives infinities, which callers
// check where the matrix comes from a file.
func (m matrix) inverse() (r matrix) {
	cofactor := func(i, k int) float64 {
		a, b, c, d := (i+1)%3, (i+2)%3, (k+1)%3, (k+2)%3
		return m[a][c]*m[b][d] - m[a][d]*m[b][c]
	}
	det := m[0][0]*cofactor(0, 0) + m[0][1]*cofactor(0, 1) + m[0][2]*cofactor(0, 2)
	for i := range 3 {
		for k := range 3 {
			r[k][i] = cofactor(i, k) / det
		}
	}
	return r
}

// encodeSRGB brings a linear value to 8 bits by the curve of IEC 61966-2-1.
func encodeSRGB(v float64) byte {
	return sRGBTable[int(max(0, min(1, v))*float64(len(sRGBTable)-1)+0.5)]
}

var sRGBTable = func() (t [4096]byte) {
	for i := range t {
		v := float64(i) / float64(len(t)-1)
		if v <= 0.0031308 {
			v *= 12.92
		} else {
			v = 1.055*math.Pow(v, 1/2.4) - 0.055
		}
		t[i] = byte(v*255 + 0.5)
	}
	return t
}()
