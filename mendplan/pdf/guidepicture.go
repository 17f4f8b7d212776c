package pdf

import (
	"fmt"

	"codeberg.org/go-pdf/fpdf"
)

// Pictures of the guide are printed at this many pixels to the inch, or
// smaller where the page ends.
const guidePPI = 150.0

// tallestPicture is how much of a page a picture may fill, millimetres.
const tallestPicture = 120.0

// picture sets a picture with its caption below, both on one page.
func (g *guideBook) picture(name, caption string) error {
	g.font("I", 8.5)
	lines := g.lines(caption, g.w-2*guideMargin)
	foot := float64(len(lines))*4.2 + 4
	if name == BarsPicture {
		g.room(barLength + 12 + foot)
		g.line(black, 0.2)
		g.bars(guideMargin+12, g.y+10, guideMargin+6, g.y+barLength+6)
		g.y += barLength + 10
		g.caption(lines)
		return nil
	}
	data := g.guide.Picture(name)
	if data == nil {
		return fmt.Errorf("the user guide: there is no picture %q", name)
	}
	if !g.register(name, data) {
		return fmt.Errorf("the user guide: picture %q: %w", name, g.f.Error())
	}
	info := g.f.GetImageInfo(name)
	scale := 25.4 / guidePPI / (25.4 / 72) // the library counts a pixel as a point
	r := fitted(info.Width(), info.Height(), 0, 0, min(g.w-2*guideMargin, info.Width()*scale), min(tallestPicture, info.Height()*scale))
	g.room(r.h + foot)
	g.f.ImageOptions(name, guideMargin, g.y, r.w, r.h, false, fpdf.ImageOptions{ImageType: "JPEG"}, 0, "")
	g.line(pale, 0.2)
	g.f.Rect(guideMargin, g.y, r.w, r.h, "D")
	g.y += r.h + 1
	g.caption(lines)
	return nil
}

func (g *guideBook) caption(lines []string) {
	g.font("I", 8.5)
	g.colour(grey)
	for _, l := range lines {
		g.text(guideMargin, g.y+3.4, l)
		g.y += 4.2
	}
	g.colour(black)
	g.y += 3
}
