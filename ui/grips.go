package ui

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/ui/leafview"
)

// marginGrip is the identifier of the grip that sets a mend's margin; those of
// breaks are "break" and their place in Mend.Breaks, those of joints "joint"
// and their share of the path.
const marginGrip = "margin"

// marginRule is the rule that a mend's edge on the leaf stands for, and how
// many times the distance from the damage it counts: whole widths are twice.
func marginRule(style mendplan.Style) (key mendplan.RuleKey, times float64, ok bool) {
	switch style {
	case mendplan.Shaped, mendplan.EdgeStrip:
		return mendplan.SideMargin, 1, true
	case mendplan.Strips:
		return mendplan.StripWidth, 2, true
	case mendplan.Bridges:
		return mendplan.BridgeLength, 2, true
	case mendplan.Guard:
		return mendplan.GuardWidth, 2, true
	case mendplan.Infill:
		return mendplan.FillOverlap, 1, true
	case mendplan.Overlay:
		return mendplan.OverlayMargin, 1, true
	}
	return "", 0, false
}

// gripsOf returns the grips of the one damage in hand: one for its margin,
// one for each place where a strip ends and the next begins.
func (w *Window) gripsOf(leaf mendplan.Leaf) []leafview.Grip {
	d, ok := w.session.Damage()
	frame, _, fault := mendplan.FrameOf(leaf, w.session.Side())
	if !ok || fault != nil || d.NoMend || len(w.session.Selected()) != 1 || d.Side != w.session.Side() || len(d.Points) < 2 {
		return nil
	}
	j := w.session.Job()
	style := styleInForce(j, d)
	key, times, ok := marginRule(style)
	if !ok {
		return nil
	}
	line := lineOf(frame, d)
	mid := line.At(line.Length() * 0.5)
	out := outward(line, d.Kind.Closed(), mid)
	r := inForceOf(j, d)
	at := mid.Add(out.Mul(r.Number(key) / times))
	grips := []leafview.Grip{{ID: marginGrip, Kind: leafview.MarginGrip, At: frame.ToScan(at), Along: frame.ToScan(at).Sub(frame.ToScan(mid))}}
	path, joints := j.StripPath(d.Number)
	if style != mendplan.Strips || path == nil {
		return grips
	}
	bar := func(id string, kind leafview.GripKind, share float64) {
		s := share * path.Length()
		p := frame.ToScan(path.At(s))
		q := frame.ToScan(path.At(math.Min(path.Length(), s+0.5)))
		grips = append(grips, leafview.Grip{ID: id, Kind: kind, At: p, Along: q.Sub(p)})
	}
	breaks := breaksOf(d)
	for i, share := range breaks {
		bar("break "+strconv.Itoa(i), leafview.BreakGrip, share)
	}
	for _, share := range joints {
		if !slices.ContainsFunc(breaks, func(b float64) bool { return math.Abs(b-share)*path.Length() < 4 }) {
			bar(fmt.Sprintf("joint %.6f", share), leafview.JointGrip, share)
		}
	}
	return grips
}

func inForceOf(j mendplan.Job, d mendplan.Damage) mendplan.InForce {
	r := mendplan.InForce{Job: j.Rules}
	if len(d.Mends) > 0 {
		r.Mend = d.Mends[0].Rules
	}
	return r
}

// lineOf is the main path of a damage in the leaf frame; a ring runs back to
// its first point.
func lineOf(f mendplan.Frame, d mendplan.Damage) geom.Path {
	line := f.PathToLeaf(d.Points)
	if d.Kind.Closed() {
		line = append(line, line[0])
	}
	return line
}

// outward is the direction across a line at a place on it; of a ring, out of
// it.
func outward(line geom.Path, closed bool, at geom.Pt) geom.Pt {
	_, s := line.Nearest(at)
	l := line.Length()
	along := line.At(math.Min(l, s+0.2)).Sub(line.At(math.Max(0, s-0.2))).Unit()
	out := geom.Pt{X: along.Y, Y: -along.X}
	if closed && geom.Ring(line[:len(line)-1]).Contains(at.Add(out.Mul(0.3))) {
		return out.Mul(-1)
	}
	return out
}

func breaksOf(d mendplan.Damage) []float64 {
	if len(d.Mends) == 0 {
		return nil
	}
	return d.Mends[0].Breaks
}

// withGrip returns the damage in hand as it would be with a grip at a place,
// and that in words.
func (w *Window) withGrip(id string, at geom.Pt) (d mendplan.Damage, words string, ok bool) {
	leaf, _ := w.session.Leaf()
	d, ok = w.session.Damage()
	frame, _, fault := mendplan.FrameOf(leaf, w.session.Side())
	if !ok || fault != nil {
		return d, "", false
	}
	line, mm := lineOf(frame, d), frame.ToLeaf(at)
	if id == marginGrip {
		return w.withMargin(d, line, mm)
	}
	if path, _ := w.session.Job().StripPath(d.Number); path != nil {
		line = path
	}
	_, s := line.Nearest(mm)
	share := math.Round(s/line.Length()*1e4) / 1e4
	if share <= 0.005 || share >= 0.995 {
		return d, t("no break"), false
	}
	breaks := slices.Clone(breaksOf(d))
	if i, err := strconv.Atoi(strings.TrimPrefix(id, "break ")); err == nil && i < len(breaks) {
		breaks = slices.Delete(breaks, i, i+1)
	}
	breaks = append(breaks, share)
	slices.Sort(breaks)
	u := unitsOf(w.session.Job())
	words = u.Length(s) + " | " + u.Length(line.Length()-s)
	return d.WithMend(func(m *mendplan.Mend) { m.Breaks = breaks }), words, true
}

// withMargin returns the damage with the margin that a place stands for.
func (w *Window) withMargin(d mendplan.Damage, line geom.Path, at geom.Pt) (mendplan.Damage, string, bool) {
	key, times, ok := marginRule(styleInForce(w.session.Job(), d))
	rule, known := mendplan.RuleFor(key)
	if !ok || !known {
		return d, "", false
	}
	dist, _ := line.Nearest(at)
	if d.Kind.Closed() && geom.Ring(line[:len(line)-1]).Contains(at) {
		dist = 0
	}
	v := min(max(math.Round(dist*times*10)/10, rule.Min), rule.Max)
	words := t(rule.Words) + ": " + unitsOf(w.session.Job()).Length(v)
	return d.WithMend(func(m *mendplan.Mend) { m.Rules = m.Rules.With(key, mendplan.Num(v)) }), words, true
}

// showGrip answers the surface while a grip is dragged: with words, and with
// the pieces that would come of it.
func (w *Window) showGrip(id string, at geom.Pt) leafview.GripShown {
	shown := leafview.GripShown{At: at}
	d, words, ok := w.withGrip(id, at)
	shown.Words = words
	leaf, _ := w.session.Leaf()
	frame, _, fault := mendplan.FrameOf(leaf, w.session.Side())
	if !ok || fault != nil {
		return shown
	}
	if id != marginGrip {
		line := lineOf(frame, d)
		if path, _ := w.session.Job().StripPath(d.Number); path != nil {
			line = path
		}
		_, s := line.Nearest(frame.ToLeaf(at))
		shown.At = frame.ToScan(line.At(s))
	}
	j := w.session.Job()
	leaf.Damages = []mendplan.Damage{d}
	j.Leaves = []mendplan.Leaf{leaf}
	pieces, _ := mendplan.Pieces(j)
	for _, p := range pieces {
		for _, ring := range frame.AreaToScan(p.Outline) {
			shown.Rings = append(shown.Rings, ring)
		}
	}
	return shown
}

// moveGrip records what a grip was dragged to.
func (w *Window) moveGrip(e leafview.MoveGrip) bool {
	d, _, ok := w.withGrip(e.ID, e.At)
	leaf, on := w.session.Leaf()
	if !ok || !on {
		w.showScene()
		return false
	}
	label := "move break of strips"
	if e.ID == marginGrip {
		label = "change measure"
	}
	w.session.Do(label, w.session.Job().WithDamage(leaf.ID, d))
	return true
}

// dropGrip goes back to what the rules say, or to strips without that break.
func (w *Window) dropGrip(id string) bool {
	d, ok := w.session.Damage()
	key, _, known := marginRule(styleInForce(w.session.Job(), d))
	leaf, on := w.session.Leaf()
	if !ok || !known || !on {
		return false
	}
	breaks := slices.Clone(breaksOf(d))
	i, err := strconv.Atoi(strings.TrimPrefix(id, "break "))
	switch {
	case id == marginGrip:
		d = d.WithMend(func(m *mendplan.Mend) { m.Rules = m.Rules.Without(key) })
	case err == nil && i < len(breaks):
		d = d.WithMend(func(m *mendplan.Mend) { m.Breaks = slices.Delete(breaks, i, i+1) })
	default:
		return false
	}
	w.session.Do("drop own measure", w.session.Job().WithDamage(leaf.ID, d))
	return true
}
