package scan

import "math"

// The eight neighbours, and what a step to them measures in fortieths.
var (
	stepX    = [8]int{1, 1, 0, -1, -1, -1, 0, 1}
	stepY    = [8]int{0, 1, 1, 1, 0, -1, -1, -1}
	stepLong = [8]uint32{5, 7, 5, 7, 5, 7, 5, 7}
)

// step is what direction d adds to a pixel's index.
func (f *Follower) step(d uint8) int { return stepY[d&7]*f.w + stepX[d&7] }

// flood spreads from the seed by least cost, with Dial's ring of buckets: all
// costs are small whole numbers, so no heap is needed. Ties go to the pixel
// reached first, so the answer is the same on every run.
func (f *Follower) flood() {
	n := f.w * f.h
	if len(f.back) != n {
		f.back = make([]uint8, n)
	}
	clear(f.back)
	dist := make([]uint32, n)
	for i := range dist {
		dist[i] = math.MaxUint32
	}
	const ring = 4096 // more than the dearest step, 7·(255+255)
	var bucket [ring][]int32
	dist[f.seed] = 0
	bucket[0] = append(bucket[0], int32(f.seed))
	left := 1
	for d := uint32(0); left > 0; d++ {
		b := bucket[d%ring]
		bucket[d%ring] = nil
		for k := 0; k < len(b); k++ {
			left--
			i := int(b[k])
			if dist[i] != d {
				continue
			}
			left += f.relax(i, d, dist, bucket[:])
		}
	}
}

// relax offers pixel i to its neighbours and returns how many took it.
func (f *Follower) relax(i int, d uint32, dist []uint32, bucket [][]int32) int {
	x, y := i%f.w, i/f.w
	took := 0
	for k := 0; k < 8; k++ {
		xx, yy := x+stepX[k], y+stepY[k]
		if xx < 0 || yy < 0 || xx >= f.w || yy >= f.h {
			continue
		}
		j := yy*f.w + xx
		e := d + stepLong[k]*(uint32(f.cost[i])+uint32(f.cost[j]))
		if e < dist[j] {
			dist[j] = e
			f.back[j] = uint8((k+4)%8) + 1
			s := e % uint32(len(bucket))
			bucket[s] = append(bucket[s], int32(j))
			took++
		}
	}
	return took
}
