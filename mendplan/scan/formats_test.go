package scan_test

import (
	"context"
	"errors"
	"flag"
	"image"
	"image/color"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"leafmend/mendplan/scan"
)

var update = flag.Bool("update", false, "rewrite the masters in testdata (needs ImageMagick and libtiff's tools)")

// formatCase is one kind of file, written by encoders that are not ours. The
// commands are run in turn, split at spaces; IN is the picture named by from,
// OUT the file to read, TMP a file in between, SRGB and the like a profile
// of icc_test.go. The pixels must be those of
// the picture named by want, within tolerance in every channel.
type formatCase struct {
	name      string
	from      string // rgb, grey, bw, alpha
	commands  []string
	want      string
	tolerance int
	words     string // format, colour, bits and compression as Inspect says them
	refusal   string // part of the refusal's words; "" when it is read
}

// sources are the pictures the files are made from: odd sizes, so that
// padding, subsampling and tiles show.
var sources = map[string]func(x, y int) color.NRGBA{
	"rgb":  func(x, y int) color.NRGBA { return color.NRGBA{byte(40 + 3*x), byte(30 + 4*y), byte(200 - x - y), 255} },
	"grey": func(x, y int) color.NRGBA { v := byte(20 + 2*x + 2*y); return color.NRGBA{v, v, v, 255} },
	"bw": func(x, y int) color.NRGBA {
		v := byte(255)
		if (x-30)*(x-30)+(y-20)*(y-20) < 260 || (x*7+y*3)%23 == 0 {
			v = 0
		}
		return color.NRGBA{v, v, v, 255}
	},
	"alpha": func(x, y int) color.NRGBA { return color.NRGBA{byte(3 * x), byte(4 * y), 90, byte(255 - 4*x)} },
	"greyalpha": func(x, y int) color.NRGBA {
		v := byte(20 + 2*x + 2*y)
		return color.NRGBA{v, v, v, byte(255 - 4*y)}
	},
}

const sourceW, sourceH = 61, 43

func source(name string) *image.NRGBA {
	m := image.NewNRGBA(image.Rect(0, 0, sourceW, sourceH))
	for y := range sourceH {
		for x := range sourceW {
			m.SetNRGBA(x, y, sources[name](x, y))
		}
	}
	return m
}

// onPaper is the colour of a pixel laid on white.
func onPaper(c color.NRGBA) [3]int {
	over := func(v byte) int { return (int(v)*int(c.A) + 255*(255-int(c.A)) + 127) / 255 }
	return [3]int{over(c.R), over(c.G), over(c.B)}
}

// encode runs a case's commands in dir; it tells whether the tools are there.
func (c formatCase) encode(t *testing.T, dir string) (path string, ok bool) {
	t.Helper()
	in, tmp, out := filepath.Join(dir, "in.png"), filepath.Join(dir, "tmp.tif"), filepath.Join(dir, c.file())
	if err := os.WriteFile(in, pngBytes(t, source(c.from)), 0o600); err != nil {
		t.Fatal(err)
	}
	for name, p := range profiles {
		if err := os.WriteFile(filepath.Join(dir, name), p, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for _, command := range c.commands {
		words := strings.Fields(command)
		for i, w := range words {
			switch strings.TrimLeft(w, "abcdefghijklmnopqrstuvwxyz0123456789:") {
			case "IN":
				words[i] = in
			case "TMP":
				words[i] = tmp
			case "OUT":
				words[i] = strings.TrimSuffix(w, "OUT") + out
			case "SRGB", "WIDE", "LIGHT":
				words[i] = filepath.Join(dir, w+".icc")
			}
		}
		if _, err := exec.LookPath(words[0]); err != nil {
			return "", false
		}
		if report, err := exec.Command(words[0], words[1:]...).CombinedOutput(); err != nil {
			t.Fatalf("%s: %v\n%s", command, err, report)
		}
	}
	return out, true
}

// file is the name of the case's master: its words with the last as extension.
func (c formatCase) file() string {
	ext := strings.ToLower(strings.Fields(c.name)[0])
	if ext == "bigtiff" {
		ext = "tiff"
	}
	return strings.ReplaceAll(strings.ReplaceAll(c.name, " ", "-"), "/", "-") + "." + ext
}

// TestFilesOfOtherEncodersAreReadOrRefusedInWords reads the masters kept in
// testdata, and, where the tools are installed, files fresh from them.
func TestFilesOfOtherEncodersAreReadOrRefusedInWords(t *testing.T) {
	for _, c := range formatCases {
		t.Run(c.name, func(t *testing.T) {
			master := filepath.Join("testdata", "formats", c.file())
			fresh, ok := c.encode(t, t.TempDir())
			if ok {
				c.check(t, fresh)
			}
			if *update {
				if !ok {
					t.Fatal("the tools that write this kind are not installed")
				}
				p, err := os.ReadFile(fresh)
				if err == nil {
					err = os.WriteFile(master, p, 0o644)
				}
				if err != nil {
					t.Fatal(err)
				}
			}
			c.check(t, master)
		})
	}
}

func (c formatCase) check(t *testing.T, path string) {
	t.Helper()
	p, err := scan.Open(context.Background(), path, scan.OpenOptions{})
	if c.refusal != "" {
		var r *scan.Refusal
		if !errors.As(err, &r) || !strings.Contains(err.Error(), c.refusal) || r.Remedy.IsZero() {
			t.Fatalf("got %v, want a refusal with the words %q and a remedy", err, c.refusal)
		}
		return
	}
	if err != nil {
		t.Fatal(err)
	}
	defer p.Close()
	if got := words(p.Info()); got != c.words {
		t.Errorf("described as %q, want %q", got, c.words)
	}
	comparePixels(t, p, source(c.want), c.tolerance)
}

func words(i scan.Info) string {
	return strings.Join([]string{i.Format, i.Colour, string(rune('0'+i.Depth/10)) + string(rune('0'+i.Depth%10)), i.Compression}, ", ")
}

// comparePixels holds a picture against m laid on paper.
func comparePixels(t *testing.T, p *scan.Picture, m *image.NRGBA, tolerance int) {
	t.Helper()
	if p.Bounds() != m.Rect {
		t.Fatalf("size: got %v, want %v", p.Bounds(), m.Rect)
	}
	got := p.Region(p.Bounds(), 0)
	worst, at := 0, image.Point{}
	for y := range m.Rect.Max.Y {
		for x := range m.Rect.Max.X {
			g, want := got.RGBAAt(x, y), onPaper(m.NRGBAAt(x, y))
			for i, v := range [3]byte{g.R, g.G, g.B} {
				if d := max(int(v)-want[i], want[i]-int(v)); d > worst {
					worst, at = d, image.Pt(x, y)
				}
			}
		}
	}
	if worst > tolerance {
		t.Errorf("a channel is off by %d at %v, more than %d: got %v, want %v", worst, at, tolerance, got.RGBAAt(at.X, at.Y), onPaper(m.NRGBAAt(at.X, at.Y)))
	}
}
