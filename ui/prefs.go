package ui

import (
	"fyne.io/fyne/v2"

	"leafmend/ui/leafview"
)

// settings are kept by the system between runs. Key and default of each stand
// side by side here and nowhere else.
type settings struct{ p fyne.Preferences }

func (s settings) Appearance() Appearance {
	return Appearance(s.p.StringWithFallback("appearance", ""))
}
func (s settings) SetAppearance(a Appearance) { s.p.SetString("appearance", string(a)) }

func (s settings) TextSize() TextSize     { return TextSize(s.p.StringWithFallback("text_size", "")) }
func (s settings) SetTextSize(v TextSize) { s.p.SetString("text_size", string(v)) }

func (s settings) HighContrast() bool     { return s.p.BoolWithFallback("high_contrast", false) }
func (s settings) SetHighContrast(v bool) { s.p.SetBool("high_contrast", v) }

// Language is the one chosen; "" is that of the system.
func (s settings) Language() string     { return s.p.StringWithFallback("language", "") }
func (s settings) SetLanguage(v string) { s.p.SetString("language", v) }

func (s settings) LineWidth() float64     { return s.p.FloatWithFallback("line_width", 1.8) }
func (s settings) SetLineWidth(v float64) { s.p.SetFloat("line_width", v) }

func (s settings) LineOpacity() float64       { return s.p.FloatWithFallback("line_opacity", 1) }
func (s settings) SetLineOpacity(v float64)   { s.p.SetFloat("line_opacity", v) }
func (s settings) TissueOpacity() float64     { return s.p.FloatWithFallback("tissue_opacity", 0.8) }
func (s settings) SetTissueOpacity(v float64) { s.p.SetFloat("tissue_opacity", v) }
func (s settings) HandleSize() float64        { return s.p.FloatWithFallback("handle_size", 8) }
func (s settings) SetHandleSize(v float64)    { s.p.SetFloat("handle_size", v) }

// SnapRadius is how near new points hold on, in units.
func (s settings) SnapRadius() float64     { return s.p.FloatWithFallback("snap_radius", 10) }
func (s settings) SetSnapRadius(v float64) { s.p.SetFloat("snap_radius", v) }

// FollowStrength is how hard traces cling to the tear, 0 to 1.
func (s settings) FollowStrength() float64     { return s.p.FloatWithFallback("follow_strength", 0.6) }
func (s settings) SetFollowStrength(v float64) { s.p.SetFloat("follow_strength", v) }

func (s settings) WheelScrolls() bool     { return s.p.BoolWithFallback("wheel_scrolls", false) }
func (s settings) SetWheelScrolls(v bool) { s.p.SetBool("wheel_scrolls", v) }

func (s settings) WheelReverse() bool     { return s.p.BoolWithFallback("wheel_reverse", false) }
func (s settings) SetWheelReverse(v bool) { s.p.SetBool("wheel_reverse", v) }

func (s settings) Snap() bool     { return s.p.BoolWithFallback("snap", true) }
func (s settings) SetSnap(v bool) { s.p.SetBool("snap", v) }

func (s settings) Follow() bool     { return s.p.BoolWithFallback("follow", true) }
func (s settings) SetFollow(v bool) { s.p.SetBool("follow", v) }

func (s settings) TouchNavigates() bool     { return s.p.BoolWithFallback("navigate_only", false) }
func (s settings) SetTouchNavigates(v bool) { s.p.SetBool("navigate_only", v) }

// ScreenPPI is the density of the user's screen, for showing a leaf in its
// true size; 0 until it was measured.
func (s settings) ScreenPPI() float64     { return s.p.FloatWithFallback("screen_ppi", 0) }
func (s settings) SetScreenPPI(v float64) { s.p.SetFloat("screen_ppi", v) }

// LeavesWidth and DetailsWidth are the shares of the window that the panels
// beside the surface take.
func (s settings) LeavesWidth() float64      { return s.p.FloatWithFallback("leaves_width", 0) }
func (s settings) SetLeavesWidth(v float64)  { s.p.SetFloat("leaves_width", v) }
func (s settings) DetailsWidth() float64     { return s.p.FloatWithFallback("details_width", 0) }
func (s settings) SetDetailsWidth(v float64) { s.p.SetFloat("details_width", v) }

// Folder is where the last file was opened or saved.
func (s settings) Folder() string     { return s.p.String("folder") }
func (s settings) SetFolder(v string) { s.p.SetString("folder", v) }

// Units and paper are what new jobs begin with.
func (s settings) Units() string     { return s.p.String("units") }
func (s settings) SetUnits(v string) { s.p.SetString("units", v) }
func (s settings) Paper() string     { return s.p.String("paper") }
func (s settings) SetPaper(v string) { s.p.SetString("paper", v) }

// GuideAt is the step at which the guided first mend was left.
func (s settings) GuideAt() int     { return s.p.Int("guide_at") }
func (s settings) SetGuideAt(v int) { s.p.SetInt("guide_at", v) }

const mostRecent = 8

// Recent lists the jobs opened or saved last, the latest first.
func (s settings) Recent() []string { return s.p.StringList("recent") }

// NoteRecent puts path first among the recent jobs.
func (s settings) NoteRecent(path string) {
	list := []string{path}
	for _, p := range s.Recent() {
		if p != path && len(list) < mostRecent {
			list = append(list, p)
		}
	}
	s.p.SetStringList("recent", list)
}

// ForgetRecent takes path out of the recent jobs.
func (s settings) ForgetRecent(path string) {
	var list []string
	for _, p := range s.Recent() {
		if p != path {
			list = append(list, p)
		}
	}
	s.p.SetStringList("recent", list)
}

// lines gives a surface the lines of the settings.
func (s settings) lines(l *leafview.Look) {
	l.LineWidth, l.Opacity, l.PieceOpacity, l.HandleSize = s.LineWidth(), s.LineOpacity(), s.TissueOpacity(), s.HandleSize()
}

// theme returns the look the settings ask for.
func (s settings) theme() look {
	return look{appearance: s.Appearance(), text: s.TextSize(), highContrast: s.HighContrast()}
}
