package main

import (
	"image"
	"image/color"
	"slices"
)

// fewColours brings a picture to a palette, so that the PNG and the TIFF of
// the sample stay small: the colours are found by cutting the box of all
// colours in two at the median of its longest side, again and again.
func fewColours(img *pixels) *image.Paletted {
	const colours = 128
	counts := make([]int, 1<<18) // 6 bits of each channel
	for i := 0; i < len(img.Pix); i += 4 {
		counts[cell(img.Pix[i:])]++
	}
	boxes := []box{{}}
	for c, n := range counts {
		if n > 0 {
			boxes[0].cells = append(boxes[0].cells, c)
			boxes[0].weight += n
		}
	}
	for len(boxes) < colours {
		at := worst(boxes, counts)
		if len(boxes[at].cells) < 2 {
			break
		}
		a, b := boxes[at].halves(counts)
		boxes[at] = a
		boxes = append(boxes, b)
	}
	out := image.NewPaletted(img.Rect, nil)
	index := make([]uint8, 1<<18)
	for i, b := range boxes {
		for _, c := range b.cells {
			index[c] = uint8(i)
		}
	}
	out.Palette = means(img, index, len(boxes))
	for i := range out.Pix {
		out.Pix[i] = index[cell(img.Pix[4*i:])]
	}
	return out
}

func cell(p []uint8) int { return int(p[0]>>2)<<12 | int(p[1]>>2)<<6 | int(p[2]>>2) }

type box struct {
	cells  []int
	weight int
}

func channel(cell, axis int) int { return cell >> (12 - 6*axis) & 63 }

// side returns the longest side of the box and its axis.
func (b box) side() (length, axis int) {
	for a := range 3 {
		lo, hi := 63, 0
		for _, c := range b.cells {
			lo, hi = min(lo, channel(c, a)), max(hi, channel(c, a))
		}
		if hi-lo > length {
			length, axis = hi-lo, a
		}
	}
	return length, axis
}

// worst is the box that is widest, with some regard to how much it holds.
func worst(boxes []box, counts []int) int {
	best, at := -1.0, 0
	for i, b := range boxes {
		l, _ := b.side()
		if s := float64(l*l) * float64(b.weight+2000); len(b.cells) > 1 && s > best {
			best, at = s, i
		}
	}
	return at
}

func (b box) halves(counts []int) (box, box) {
	_, axis := b.side()
	slices.SortStableFunc(b.cells, func(c, d int) int { return channel(c, axis) - channel(d, axis) })
	sum, cut := 0, 1
	for i, c := range b.cells[:len(b.cells)-1] {
		sum += counts[c]
		cut = i + 1
		if 2*sum >= b.weight {
			break
		}
	}
	left := box{cells: b.cells[:cut:cut]}
	for _, c := range left.cells {
		left.weight += counts[c]
	}
	return left, box{cells: b.cells[cut:], weight: b.weight - left.weight}
}

// means is the average colour of each box.
func means(img *pixels, index []uint8, n int) color.Palette {
	sums := make([][4]int, n)
	for i := 0; i < len(img.Pix); i += 4 {
		s := &sums[index[cell(img.Pix[i:])]]
		for k := range 3 {
			s[k] += int(img.Pix[i+k])
		}
		s[3]++
	}
	out := make(color.Palette, n)
	for i, s := range sums {
		m := max(1, s[3])
		out[i] = color.RGBA{uint8((s[0] + m/2) / m), uint8((s[1] + m/2) / m), uint8((s[2] + m/2) / m), 255}
	}
	return out
}
