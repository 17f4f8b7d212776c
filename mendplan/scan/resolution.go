package scan

import (
	"fmt"
	"math"

	"leafmend/mendplan/phrase"
)

// Resolution is one statement of a file about its pixels per inch, and what
// it is worth.
type Resolution struct {
	DPIX, DPIY   float64       // pixels per inch, across and down the picture as shown
	Source       string        // "TIFF tags", "Exif", "JFIF", "PNG pHYs", "PNG sCAL", "image resources", "BMP header"
	Unit         string        // as written in the file: "inch", "centimetre", "metre"
	Trusted      bool          // it may be taken for a scale without asking
	Why          phrase.Phrase // why not trusted, or what to know; one sentence, may be ""
	DoubtPercent float64       // doubt of a length measured with it, in per cent of the length
}

// SizeMM returns what a picture of w × h pixels measures at this resolution,
// in millimetres; zeros when there is none.
func (r Resolution) SizeMM(w, h int) (width, height float64) {
	if !(r.DPIX > 0 && r.DPIY > 0) {
		return 0, 0
	}
	return float64(w) * mmPerInch / r.DPIX, float64(h) * mmPerInch / r.DPIY
}

// What a scanner's claim is worth: US federal imaging guidelines and ISO
// 19264-1 allow about 2 % between claimed and real sampling rate at the usual
// level (F110; figures from memory, not seen in text).
const claimPercent = 2.0

// Limits of belief, common practice, no source: flat originals on scanners
// and copy stands are sampled between 50 and 9600 pixels an inch, and the
// picture's longer side shows between 20 mm and 1.5 m.
const (
	leastDPI, mostDPI = 50, 9600
	leastMM, mostMM   = 20, 1500
)

const (
	mmPerInch     = 25.4
	unevenPercent = 0.5 // F114: scales of the two directions differ by more: say so
)

// inchOf leads from pixels per unit to pixels per inch.
var inchOf = map[string]float64{"inch": 1, "centimetre": mmPerInch / 10, "metre": mmPerInch / 1000}

// claim is a resolution as found, in the file's own axes and units.
type claim struct {
	x, y    float64 // pixels per unit
	unit    string  // "inch", "centimetre", "metre"; "" when the file gives none
	source  string
	step    float64       // least step of the number as stored, in its own unit; 0 when exact
	subject bool          // scale of the subject itself rather than of a print of it
	note    phrase.Phrase // reason of mistrust known where it was read
}

// judge turns a claim into a Resolution for a picture of w × h stored pixels.
// turned tells that rows and columns are exchanged when it is shown. ok is
// false when the claim says nothing about size.
func (c claim) judge(w, h int, turned bool) (r Resolution, ok bool) {
	perInch := inchOf[c.unit]
	if perInch == 0 {
		return Resolution{}, false
	}
	r = Resolution{DPIX: tidy(c.x * perInch), DPIY: tidy(c.y * perInch), Source: c.source, Unit: c.unit}
	r.DoubtPercent = claimPercent
	if least := math.Min(c.x, c.y); c.step > 0 && least > 0 {
		r.DoubtPercent = math.Round(100*(claimPercent+100*c.step/2/least)) / 100
	}
	r.Why = c.mistrust(r, w, h)
	r.Trusted = r.Why.IsZero()
	if !r.Trusted {
		r.DoubtPercent = 100
	} else if diff := differPercent(r.DPIX, r.DPIY); diff > unevenPercent {
		r.Why = phrase.Of("the two directions differ by %.1f %%; check with a ruler both ways", diff)
	}
	if turned {
		r.DPIX, r.DPIY = r.DPIY, r.DPIX
	}
	return r, true
}

// mistrust says in one sentence why a claim is not believed, or "".
func (c claim) mistrust(r Resolution, w, h int) phrase.Phrase {
	x, y := r.DPIX, r.DPIY
	half := c.step / 2 * inchOf[c.unit] // of what the number was rounded to
	finite := x > 0 && y > 0 && !math.IsInf(x, 0) && !math.IsInf(y, 0) && !math.IsNaN(x+y)
	switch {
	case !finite:
		return phrase.Of("%s × %s is no resolution", short(c.x), short(c.y))
	case !c.note.IsZero():
		return c.note
	case about(c.x, 1) && about(c.y, 1):
		return phrase.Of("1 × 1 only says that pixels are square")
	case isDefault(x, half) || isDefault(y, half):
		return phrase.Of("%s × %s ppi is what programs write when they know nothing; ask a ruler", short(x), short(y))
	case about(c.x, 2.54) || about(c.y, 2.54):
		return phrase.Of("2.54 is a slip between inches and centimetres, not a resolution")
	case x < leastDPI || y < leastDPI || x > mostDPI || y > mostDPI:
		return phrase.Of("%s × %s ppi is outside what scans have (%d to %d)", short(x), short(y), leastDPI, mostDPI)
	}
	mm := math.Max(float64(w)/x, float64(h)/y) * mmPerInch
	switch {
	case mm > mostMM:
		return phrase.Of("the picture would show %.0f mm, more than can lie on a scanner or copy stand", mm)
	case mm < leastMM && !c.subject:
		return phrase.Of("the picture would show only %.1f mm", mm)
	}
	return phrase.Phrase{}
}

// isDefault tells the values programs write when they know nothing: 72 is the
// Exif default (F116), 96 that of screens. Stored as whole numbers per
// centimetre or metre they come back off by up to half a step.
func isDefault(dpi, half float64) bool {
	return math.Abs(dpi-72) < half+0.1 || math.Abs(dpi-96) < half+0.1
}

func about(v, want float64) bool { return math.Abs(v-want) < 1e-6*want }

// tidy takes off the noise of a unit's conversion: 11811 per metre is 300 ppi
// and not 299.9994 (F118). Steps of 0.01 ppi are 0.003 % at 300 ppi.
func tidy(dpi float64) float64 {
	if dpi > 1e7 || math.IsNaN(dpi) {
		return dpi
	}
	return math.Round(dpi*100) / 100
}

func differPercent(a, b float64) float64 {
	if a <= 0 || b <= 0 {
		return math.Inf(1)
	}
	return 100 * math.Abs(a-b) / math.Max(a, b)
}

// short writes a number without needless digits.
func short(v float64) string {
	if v == math.Trunc(v) && math.Abs(v) < 1e9 {
		return fmt.Sprintf("%.0f", v)
	}
	return fmt.Sprintf("%.4g", v)
}

// settle fills in the resolutions of h from its claims, and compares them.
func (h *header) settle(claims []claim) {
	turned := h.Orientation >= 5
	for _, c := range claims {
		if h.Camera && c.note.IsZero() && !c.subject {
			c.note = phrase.Of("the file comes from a camera, whose resolution says nothing about size; ask a ruler")
		}
		r, ok := c.judge(h.rawW, h.rawH, turned)
		if !ok {
			h.problem("%s gives %s × %s without a unit: the shape of a pixel, not its size", c.source, short(c.x), short(c.y))
			continue
		}
		h.Resolutions = append(h.Resolutions, r)
	}
	h.compare()
	if len(h.Resolutions) == 0 {
		h.problem("the file does not say its resolution; calibrate on a ruler or a known size")
	}
	for _, r := range h.Resolutions {
		if !r.Why.IsZero() {
			h.problem("%s: %s", r.Source, r.Why)
		}
	}
}

// compare sets the trusted sources against one another: where two differ, the
// doubt of both is at least the difference.
func (h *header) compare() {
	rs := h.Resolutions
	for i := range rs {
		for k := i + 1; k < len(rs); k++ {
			if !rs[i].Trusted || !rs[k].Trusted {
				continue
			}
			diff := math.Max(differPercent(rs[i].DPIX, rs[k].DPIX), differPercent(rs[i].DPIY, rs[k].DPIY))
			if diff <= unevenPercent {
				continue
			}
			rs[i].DoubtPercent = math.Max(rs[i].DoubtPercent, diff)
			rs[k].DoubtPercent = math.Max(rs[k].DoubtPercent, diff)
			h.problem("%s says %s × %s ppi, %s says %s × %s; check with a ruler", rs[i].Source, short(rs[i].DPIX),
				short(rs[i].DPIY), rs[k].Source, short(rs[k].DPIX), short(rs[k].DPIY))
		}
	}
}
