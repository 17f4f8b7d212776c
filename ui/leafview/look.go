package leafview

import "image/color"

// Look is how lines and surround appear. Start from [DefaultLook].
type Look struct {
	LineWidth    float64    // of a line's light core, units
	Opacity      float64    // of lines, 0…1
	PieceOpacity float64    // of tissue, 0…1
	HandleSize   float64    // edge of a handle, units; hit areas are larger
	Labels       bool       // numbers beside damages and pieces
	Pieces       bool       // tissue is drawn
	OtherSide    bool       // what belongs to the other side shows through
	Grid         bool       // grid in millimetres, when calibrated
	Rulers       bool       // along head and left of the view, when calibrated
	Overview     bool       // small whole picture when zoomed in
	HighContrast bool       // wider casings, no transparency
	Dark         bool       // surround of the picture
	Inches       bool       // rulers, grid and measurements in inches
	Comma        bool       // numbers with a decimal comma
	Doubt        bool       // lengths tell by how much they may be off
	Focus        color.RGBA // border while keys go to the surface; the zero value is a blue
	// Colours replaces the colour of single kinds.
	Colours map[Kind]color.RGBA
}

// DefaultLook returns the look of a fresh surface.
func DefaultLook() Look {
	return Look{LineWidth: 1.8, Opacity: 1, PieceOpacity: 0.8, HandleSize: 8,
		Labels: true, Pieces: true, OtherSide: true, Overview: true}
}

// Filter changes how the picture is seen, never the picture. The zero value
// shows it as it is.
type Filter struct {
	Brightness float64 // −1…1
	Contrast   float64 // −1…1
	Channel    Channel // one channel alone, as grey
	// Local strengthens small differences of shade against their
	// surroundings, 0…1: like a lamp from the side, it brings out faint
	// tears and creases.
	Local float64
}

// Channel is a colour channel seen alone.
type Channel string

// Channels; the zero value shows all in colour.
const (
	AllChannels Channel = ""
	Red         Channel = "red"
	Green       Channel = "green"
	Blue        Channel = "blue"
	Grey        Channel = "grey"
)

// Habits is how pointer and keys behave. Start from [DefaultHabits].
type Habits struct {
	WheelScrolls bool    // wheel scrolls and Ctrl+wheel zooms, instead of the other way round
	WheelReverse bool    // the other direction
	Snap         bool    // new points hold on to what is near
	SnapRadius   float64 // units
	Follow       bool    // trace along what Surface.Follow finds
	NavigateOnly bool    // presses and drags only move the view: for touch and show
}

// DefaultHabits returns the habits of a fresh surface.
func DefaultHabits() Habits { return Habits{Snap: true, SnapRadius: 10, Follow: true} }
