package nest

import (
	"math"
	"math/bits"
)

// dice is a small fast generator of seeded numbers (splitmix64, Steele, Lea
// and Flood 2014). The zero value works.
type dice uint64

func (d *dice) next() uint64 {
	*d += 0x9e3779b97f4a7c15
	z := uint64(*d)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// n is a number from 0 to n−1.
func (d *dice) n(n int) int {
	hi, _ := bits.Mul64(d.next(), uint64(n))
	return int(hi)
}

// unit is a number from 0 up to 1.
func (d *dice) unit() float64 { return float64(d.next()>>11) / (1 << 53) }

// wait is exponential with mean 1.
func (d *dice) wait() float64 { return -math.Log(1 - d.unit()) }

// chance is true with probability p.
func (d *dice) chance(p float64) bool { return d.unit() < p }
