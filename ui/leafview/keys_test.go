package leafview

import (
	"image/color"
	"regexp"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"leafmend/mendplan/geom"
)

// colours counts the pixels of a colour in a frame.
func (r *rig) colours(c color.RGBA) int {
	n, pix := 0, r.frame().Pix
	for i := 0; i+3 < len(pix); i += 4 {
		if pix[i] == c.R && pix[i+1] == c.G && pix[i+2] == c.B {
			n++
		}
	}
	return n
}

func TestHidingWhileAKeyIsHeld(t *testing.T) {
	r := drawer(t, 1)
	tear := r.s.look.colour(Tear)
	shown := r.colours(tear)
	r.s.KeyDown(&fyne.KeyEvent{Name: HideKey})
	if n := r.colours(tear); n != 0 {
		t.Errorf("%d pixels of tears show while hidden", n)
	}
	r.s.KeyUp(&fyne.KeyEvent{Name: HideKey})
	if n := r.colours(tear); n != shown || n == 0 {
		t.Errorf("%d pixels of tears after, %d before", n, shown)
	}
	r.s.KeyDown(&fyne.KeyEvent{Name: HideKey})
	r.s.FocusLost() // the key went up in another window
	if n := r.colours(tear); n != shown {
		t.Error("still hidden after the focus was lost")
	}
	r.with(fyne.KeyModifierControl, func() { r.s.KeyDown(&fyne.KeyEvent{Name: HideKey}) })
	if r.s.keys.hide {
		t.Error("Ctrl+H, which is another command's, hides")
	}
}

func TestTheLoupeShowsTheScanCloserAtThePointer(t *testing.T) {
	r := newRig(t, 600, 400, 2)
	p := newPrinted(1000, 800)
	p.img.SetRGBA(300, 200, color.RGBA{255, 0, 255, 255})
	r.s.SetPicture(p)
	r.plain()
	mark := color.RGBA{255, 0, 255, 255}
	r.move(300.5, 200.5)
	plain := r.colours(mark)
	r.s.KeyDown(&fyne.KeyEvent{Name: LoupeKey})
	// A fine cross leaves some of the pixel uncovered, four times as large.
	if n := r.colours(mark); n <= 4*plain {
		t.Errorf("%d pixels in the loupe, %d without", n, plain)
	}
	r.s.KeyUp(&fyne.KeyEvent{Name: LoupeKey})
	if n := r.colours(mark); n != plain {
		t.Errorf("%d pixels afterwards, %d before", n, plain)
	}
}

func TestKeysTheSurfaceHasNoUseForAreHandedOn(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	var runes []rune
	var keys []fyne.KeyName
	var shortcuts []string
	r.s.OnRune = func(c rune) { runes = append(runes, c) }
	r.s.OnKey = func(k fyne.KeyName, _ fyne.KeyModifier) { keys = append(keys, k) }
	r.s.OnShortcut = func(sc fyne.Shortcut) { shortcuts = append(shortcuts, sc.ShortcutName()) }
	for _, c := range "thqH +t" {
		r.s.TypedRune(c)
	}
	r.key(fyne.KeyF2)
	r.key(fyne.KeyReturn) // nothing in hand
	r.s.TypedShortcut(&fyne.ShortcutUndo{})
	before := r.s.view
	r.s.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyRight, Modifier: fyne.KeyModifierControl})
	if string(runes) != "tt" {
		t.Errorf("runes %q, want tt", string(runes))
	}
	if !slices.Equal(keys, []fyne.KeyName{fyne.KeyF2, fyne.KeyReturn}) {
		t.Errorf("keys %v", keys)
	}
	if len(shortcuts) != 1 || r.s.view.Offset.X >= before.Offset.X {
		t.Errorf("shortcuts %v, view moved from %v to %v", shortcuts, before, r.s.view)
	}
}

func TestEveryHintIsInTheCatalogue(t *testing.T) {
	known := map[string]bool{"tear": true, "loss": true, "split": true, "weak area": true, "nicks": true,
		"stain": true, "outline": true, "measure": true, "stretch": true, "line": true}
	for _, p := range Phrases() {
		if known[p] {
			t.Errorf("%q is listed twice", p)
		}
		known[p] = true
	}
	r := drawer(t, 1)
	r.s.Translate = func(p string) string {
		if !known[p] {
			t.Errorf("%q is not in the catalogue", p)
		}
		return "§" + p
	}
	verb := regexp.MustCompile(`%[!sd(]`)
	check := func() {
		h := r.s.Hint()
		if !strings.HasPrefix(h, "§") || verb.MatchString(h) {
			t.Errorf("%s: hint %q is not a translated sentence", r.s.Tool(), h)
		}
	}
	for _, id := range ToolIDs() {
		r.s.SetTool(id)
		for _, p := range path(150, 52, 250, 51, 400, 300, 420, 300) {
			r.move(p.X, p.Y)
			check()
			r.press(p.X, p.Y)
			check()
		}
		r.key(fyne.KeyReturn)
		check()
	}
}

func TestTheHelpNamesEveryKeyOnce(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range KeysHelp() {
		if k.Keys == "" || k.Does == "" || seen[k.Keys] {
			t.Errorf("line %v is empty or doubled", k)
		}
		seen[k.Keys] = true
	}
}

func TestZoomingToWhatIsChosen(t *testing.T) {
	r := drawer(t, 1)
	if r.s.ZoomToSelection() {
		t.Error("zoomed to nothing")
	}
	r.s.Select(1, 2)
	r.s.ZoomToSelection()
	w, h := r.s.size()
	if v := r.s.view.Visible(w, h); !v.Holds(geom.Pt{X: 50, Y: 50}) || !v.Holds(geom.Pt{X: 300, Y: 200}) {
		t.Errorf("%v does not show both", v)
	}
}

func TestTrueSizeNeedsACalibration(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	if r.s.TrueSize(96) {
		t.Error("true size without a calibration")
	}
	r.s.SetScene(Scene{Frame: UniformFrame(25.4/300, 25.4/300)})
	if scale, _ := r.s.View(); !r.s.TrueSize(96) || scale == r.s.view.Scale {
		t.Error("nothing happened")
	}
	// By hand: 300 scan pixels an inch on 96 screen pixels an inch.
	if got, want := r.s.view.Scale, 96.0/300; got < want-1e-9 || got > want+1e-9 {
		t.Errorf("scale %g, want %g", got, want)
	}
}

func TestKeysSayWhatKeysDoWhileTheyDraw(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetTool(TearTool)
	if got := r.s.Hint(); got != strings.Replace(hintPath, "%s", "tear", 1) {
		t.Errorf("before a key: %q", got)
	}
	r.key(fyne.KeyRight)
	if got := r.s.Hint(); got != hintKeys {
		t.Errorf("the cursor is led: %q", got)
	}
	r.key(fyne.KeySpace)
	r.key(fyne.KeyRight)
	if got := r.s.Hint(); got != hintKeysOn {
		t.Errorf("a point is set: %q", got)
	}
	r.key(fyne.KeyEscape)
	r.s.SetTool(SelectTool)
	if r.s.keys.cursorOn {
		t.Error("the drawing cursor stays where nothing is drawn")
	}
}

func TestZoomingByKeysKeepsTheDrawingCursorOnItsPlace(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetTool(TearTool)
	for range 5 {
		r.key(fyne.KeyRight)
	}
	before := r.s.hand.last.at
	r.s.TypedRune('+')
	r.s.TypedRune('+')
	if got := r.s.hand.last.at; got.Dist(before) > 1e-6 {
		t.Errorf("the cursor was at %v and is at %v", before, got)
	}
}

func TestAPointLedByKeysTellsItsPlace(t *testing.T) {
	r := drawer(t, 1)
	var told []geom.Pt
	r.s.OnPointer = func(at geom.Pt, inside bool) { told = append(told, at) }
	r.s.Select(r.s.scene.Shapes[0].Ref)
	r.s.TypedRune('.')
	want := r.s.pointPos(r.s.points[0])
	if len(told) != 1 || told[0] != want {
		t.Errorf("told %v, want %v", told, want)
	}
}
