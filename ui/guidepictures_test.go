package ui

import (
	"bytes"
	"image"
	"image/color"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"github.com/disintegration/imaging"

	"leafmend/assets"
	"leafmend/mendplan/pdf"
)

// guideShots says how each picture of the guide is made from the sample job.
var guideShots = map[string]func(*testing.T, *Window) image.Image{
	"window": func(t *testing.T, w *Window) image.Image {
		w.showStage(stageTrace)
		w.session.Show(w.session.Job().Leaves[0].ID, "")
		w.Run("next-damage")
		w.Run("fit")
		return capture(w)
	},
	"cuts": func(t *testing.T, w *Window) image.Image {
		w.showStage(stageCuts)
		return capture(w)
	},
	"order": func(t *testing.T, w *Window) image.Image {
		w.showOrder(orderSheets)
		return capture(w)
	},
	"template": templatePage,
}

// capture draws the window by the toolkit's own painter, which falls over a
// rectangle without a colour.
func capture(w *Window) image.Image {
	size := w.win.Canvas().Size()
	for i := range 4 { // words that wrap take their height from the layout before
		w.win.Resize(size.Add(fyne.NewSize(float32(i%2), float32(i%2))))
	}
	w.win.Resize(size)
	walk(w.win.Content(), "", func(_ string, o fyne.CanvasObject) {
		if r, ok := o.(*canvas.Rectangle); ok && r.FillColor == nil {
			r.FillColor = color.Transparent
		}
	})
	return w.win.Canvas().Capture()
}

// templatePage is the first page of the templates, as an outside reader draws
// it.
func templatePage(t *testing.T, w *Window) image.Image {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Write(&b, w.session.Job(), w.session.Plan(), pdf.Options{Only: []pdf.Part{pdf.Templates}, Tongue: catalogue}); err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "t.pdf")
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("pdftoppm", "-png", "-r", "110", "-f", "1", "-singlefile", path, filepath.Join(dir, "t")).CombinedOutput(); err != nil {
		t.Fatalf("drawing the page: %v: %s", err, out)
	}
	img, err := imaging.Open(filepath.Join(dir, "t.png"))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

func guidePicturePath(name, code string) string {
	return filepath.Join("..", "assets", "help", "pictures", name+"."+code+".jpg")
}

// drawGuidePictures makes the pictures of the guide anew in one language.
func drawGuidePictures(t *testing.T, code string) {
	app := test.NewTempApp(t)
	app.Preferences().SetString("language", code)
	app.Preferences().SetString("appearance", string(Light))
	win := test.NewTempWindow(t, nil)
	w := build(app, win, Options{Recovery: filepath.Join(t.TempDir(), "recovery")}, worker{inPlace: true})
	win.Resize(fyne.NewSize(1120, 720))
	withSample(t, w)
	for name, shot := range guideShots {
		if err := os.MkdirAll(filepath.Dir(guidePicturePath(name, code)), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := imaging.Save(shot(t, w), guidePicturePath(name, code), imaging.JPEGQuality(82)); err != nil {
			t.Fatal(err)
		}
	}
}

// mostPictureBytes bounds what the pictures of the guide add to the program.
const mostPictureBytes = 1 << 20

func TestEveryPictureOfTheGuideIsThereAndUsed(t *testing.T) {
	t.Cleanup(func() { useLanguage("en") })
	used := map[string]bool{}
	for _, l := range assets.Languages() {
		if *update {
			drawGuidePictures(t, l.Code)
		}
		text := assets.Help("guide", l.Code)
		for _, m := range regexp.MustCompile(`\n!\[[^\]]+\]\(([a-z]+)\)\n`).FindAllStringSubmatch(text, -1) {
			if m[1] == pdf.BarsPicture {
				continue
			}
			name := guidePicturePath(m[1], l.Code)
			used[filepath.Base(name)] = true
			if img, err := imaging.Open(name); err != nil || img.Bounds().Dx() < 600 {
				t.Errorf("picture %s of the guide: %v", name, err)
			}
		}
	}
	files, err := filepath.Glob(guidePicturePath("*", "*"))
	if err != nil || len(files) == 0 {
		t.Fatal("there are no pictures: ", err)
	}
	sum := int64(0)
	for _, f := range files {
		st, err := os.Stat(f)
		if err != nil {
			t.Fatal(err)
		}
		sum += st.Size()
		if !used[filepath.Base(f)] {
			t.Errorf("%s is in no chapter", f)
		}
		if _, ok := guideShots[strings.Split(filepath.Base(f), ".")[0]]; !ok {
			t.Errorf("nothing draws %s", f)
		}
	}
	if sum > mostPictureBytes {
		t.Errorf("the pictures take %d bytes, more than %d", sum, mostPictureBytes)
	}
}
