package draw

import "math"

// hash mixes two lattice coordinates and a seed into 32 even bits.
func hash(x, y int32, seed uint32) uint32 {
	h := uint32(x)*0x9E3779B1 ^ uint32(y)*0x85EBCA77 ^ seed*0xC2B2AE3D
	h ^= h >> 15
	h *= 0x2C1B3C6D
	h ^= h >> 12
	h *= 0x297A2D39
	return h ^ h>>15
}

// unit turns a hash into a number from −1 to 1.
func unit(h uint32) float64 { return float64(int32(h)) / (1 << 31) }

// smooth is value noise: one random height per whole-numbered point of the
// plane and a smooth surface between, from −1 to 1.
func smooth(x, y float64, seed uint32) float64 {
	fx, fy := math.Floor(x), math.Floor(y)
	i, j := int32(fx), int32(fy)
	u, v := x-fx, y-fy
	u, v = u*u*(3-2*u), v*v*(3-2*v)
	a, b := unit(hash(i, j, seed)), unit(hash(i+1, j, seed))
	c, d := unit(hash(i, j+1, seed)), unit(hash(i+1, j+1, seed))
	return (a+(b-a)*u)*(1-v) + (c+(d-c)*u)*v
}

// layered adds octaves of [smooth], each half as high and twice as fine; the
// result stays within −1 and 1.
func layered(x, y float64, octaves int, seed uint32) float64 {
	sum, height, total := 0.0, 1.0, 0.0
	for o := range octaves {
		sum += height * smooth(x, y, seed+uint32(o)*101)
		total += height
		x, y, height = x*2+17.3, y*2-9.1, height/2
	}
	return sum / total
}
