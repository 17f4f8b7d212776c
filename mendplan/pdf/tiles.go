package pdf

import (
	"fmt"
	"math"
)

const tileOverlap = 12.0

// templateTiles prints a piece larger than the page on several pages that
// overlap, with crosses at the same places of the piece on both.
func (b *book) templateTiles(c cell, areaW, areaH float64) {
	areaH -= cellLabel
	nx, stepX := tiles(c.w, areaW)
	ny, stepY := tiles(c.h, areaH)
	for iy := range ny {
		for ix := range nx {
			b.templatePage()
			ox, oy := float64(ix)*stepX, float64(iy)*stepY
			x, y := marginX, b.templateTop()
			b.f.ClipRect(x, y, min(areaW, c.w-ox)+0.2, min(areaH, c.h-oy)+0.2, false)
			b.drawCell(c, x-ox, y-oy)
			b.f.ClipEnd()
			for jy := range ny + 1 {
				for jx := range nx + 1 {
					mx, my := float64(jx)*stepX+tileOverlap/2, float64(jy)*stepY+tileOverlap/2
					b.registerMark(x+mx-ox, y+my-oy, x, y, areaW, areaH, fmt.Sprintf("%c%d", 'A'+jy%26, jx+1))
				}
			}
			b.cellWords(c, x, y+areaH+4, 120)
			b.font("", 7)
			b.textRight(marginX+areaW, y+areaH+4, b.say("tile %d of %d: lay the crosses over one another", iy*nx+ix+1, nx*ny))
		}
	}
}

// tiles splits a length into overlapping stretches that fit into room.
func tiles(length, room float64) (n int, step float64) {
	if length <= room {
		return 1, room
	}
	step = room - tileOverlap
	return int(math.Ceil((length - tileOverlap) / step)), step
}

// registerMark draws a cross with its name, if it lies in the tile.
func (b *book) registerMark(x, y, left, top, w, h float64, name string) {
	if x < left-0.01 || y < top-0.01 || x > left+w+0.01 || y > top+h+0.01 {
		return
	}
	b.line(grey, 0.12)
	b.f.Line(x-3, y, x+3, y)
	b.f.Line(x, y-3, x, y+3)
	b.f.Circle(x, y, 1.5, "D")
	b.colour(grey)
	b.font("", 6)
	b.text(x+2, y-1.5, name)
	b.colour(black)
}
