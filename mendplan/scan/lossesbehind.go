package scan

import (
	"math"

	"leafmend/mendplan/phrase"
)

// backHue is one colour of the backing with how its light changes over the
// picture.
type backHue struct {
	hue
	kx, ky float32 // L* per width and per height
	w, h   float32 // of the plane
}

func newBackHue(p *labPlane, h hue) backHue {
	kx, ky := tilt(p, h)
	return backHue{h, kx, ky, float32(p.w), float32(p.h)}
}

// at is the backing's colour as it would be seen at (x, y).
func (h *backHue) at(x, y float64) lab {
	m := h.mean
	m.l += h.kx*(float32(x)/h.w-0.5) + h.ky*(float32(y)/h.h-0.5)
	return m
}

// What the middle of a hole may differ from the backing about the leaf, in
// units that count as one: its light hardly beyond the backing's own
// unevenness, save for the shadow of the leaf, which is forgiven mostly; its
// chroma, which no shadow changes, by little more than noise.
const (
	behindLight  = 2.2
	behindChroma = 1.1
	behindShade  = 24  // L* a leaf may darken what is seen through it
	behindFlare  = 7   // L* the light spread about a bright leaf may lighten a dark backing
	mostUnlike   = 3.0 // of these units; beyond, it is not the backing
)

// unlike is how far a colour is from the backing at (x, y) in units of what a
// hole may differ by, and so far from none as from another.
func (h *backHue) unlike(c lab, x, y float64) float64 {
	m := h.at(x, y)
	sl, sc := max(behindLight, min(3.5, 0.8*h.sl)), max(behindChroma, min(1.8, 0.8*h.sc))
	drop := m.l - c.l
	keep := float32(1)
	dl := max(drop, -drop)
	if drop > 0 {
		s := min(drop, behindShade)
		share := float32(0.22)
		if m.l < 30 { // hardly any light is left to be taken
			share = 0.6
		}
		dl = share*s + drop - s
		keep = 1 - min(0.9, s/max(1, m.l))
	} else if m.l < 30 {
		// that light is the paper's, and so is its hue
		dl -= 0.65 * min(-drop, behindFlare)
		sc += 0.25 * min(-drop, behindFlare)
	}
	dc := math.Hypot(float64(c.a-m.a*keep), float64(c.b-m.b*keep))
	// so also is chroma measured against half a darkening: light comes through
	// the leaf and off its edges
	half := (1 + keep) / 2
	dc = min(dc, math.Hypot(float64(c.a-m.a*half), float64(c.b-m.b*half)), math.Hypot(float64(c.a-m.a), float64(c.b-m.b)))
	return math.Hypot(float64(dl/sl), dc/float64(sc))
}

// What may lie behind a leaf, in words.
var (
	theBacking = phrase.Of("the backing")
	aLining    = phrase.Of("a lining")
)

// behind is how far colour c at (x, y) is from the nearest thing known to lie
// behind the leaf, 1 being as far as a hole usually is, and what that is.
func (s *lossScene) behind(c lab, x, y float64) (float64, phrase.Phrase) {
	best, what := math.Inf(1), phrase.Phrase{}
	for i := range s.backing {
		if d := s.backing[i].unlike(c, x, y); d < best {
			best, what = d, theBacking
		}
	}
	for _, l := range s.lining {
		// in a hole a lining lies deeper and darker than at the edge
		if d := float64(veiled(c, l, 40)) / 3; d < best {
			best, what = d, aLining
		}
	}
	return best, what
}
