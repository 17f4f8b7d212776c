package ui

import (
	"image"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/scan"
)

// graduationStep is what the marks of a ruler may be apart.
type graduationStep struct {
	words string
	mm    float64
}

func graduationSteps() []graduationStep {
	return []graduationStep{{t("1 mm"), 1}, {t("½ mm"), 0.5}, {t("5 mm"), 5}, {t("1 cm"), 10},
		{t("1/16 in"), 25.4 / 16}, {t("1/8 in"), 25.4 / 8}, {t("1/10 in"), 2.54}, {t("1 in"), 25.4}}
}

// leastSure is how sure a graduation must be before it is proposed.
const leastSure = 0.5

// graduation looks for a ruler's marks between two points of the scan shown.
func (w *Window) graduation(a, b geom.Pt) (scan.Graduation, bool) {
	leaf, _ := w.session.Leaf()
	sc := leaf.SideOf(w.session.Side()).Scan
	pic, ok := w.pictures.get(w.session.scanPath(sc), sc.Page)
	if !ok {
		return scan.Graduation{}, false
	}
	const room = 24 // pixels beside the line
	level := 0
	for level+1 < pic.NumLevels() && a.Dist(b)/float64(pic.Level(level).Per) > 6000 {
		level++
	}
	per := float64(pic.Level(level).Per)
	r := image.Rect(int(min(a.X, b.X)/per)-room, int(min(a.Y, b.Y)/per)-room, int(max(a.X, b.X)/per)+room, int(max(a.Y, b.Y)/per)+room)
	img := pic.Region(r, level)
	corner := geom.Pt{X: float64(img.Rect.Min.X) * per, Y: float64(img.Rect.Min.Y) * per}
	g, ok := scan.FindGraduation(img, per, a.Sub(corner), b.Sub(corner))
	return g, ok && g.Confidence >= leastSure
}

// proposeGraduation offers what the distance is if the marks found are a step
// apart; the user says which step, and may still type another distance.
func (w *Window) proposeGraduation(a, b geom.Pt, fill func(mm float64)) fyne.CanvasObject {
	box := container.NewVBox()
	box.Hide()
	var g scan.Graduation
	found := false
	w.work.start(func() error { g, found = w.graduation(a, b); return nil }, func(error) {
		if !found {
			return
		}
		steps := graduationSteps()
		ids, words := []string{""}, []string{t("choose")}
		for _, s := range steps {
			ids, words = append(ids, s.words), append(words, s.words)
		}
		pick := newChoice(func(id string) {
			for _, s := range steps {
				if s.words == id {
					fill(math.Round(a.Dist(b)/g.Spacing*s.mm*100) / 100)
				}
			}
		})
		pick.set(ids, words, "")
		box.Add(small(t("Marks repeat every %.1f pixels here, %.1f of them between the points. If they are a ruler's, say how far apart:", g.Spacing, a.Dist(b)/g.Spacing)))
		box.Add(pick)
		box.Show()
	})
	return box
}
