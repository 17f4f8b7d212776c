package scan_test

import (
	"encoding/binary"
	"math"
	"os/exec"
	"strings"
	"testing"

	"leafmend/mendplan/scan"
)

// jfif is a JFIF segment's body with a density.
func jfif(unit byte, x, y uint16) []byte {
	return append([]byte("JFIF\x00\x01\x02"), unit, byte(x>>8), byte(x), byte(y>>8), byte(y), 0, 0)
}

// physical is a pHYs chunk's body.
func physical(x, y uint32, unit byte) []byte {
	return append(binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, x), y), unit)
}

// resources is a block of image resources with the resolution, number 0x03ED,
// behind another of odd length.
func resources(dpi uint16) []byte {
	p := []byte("Photoshop 3.0\x008BIM\x04\x04\x00\x00\x00\x00\x00\x03abc\x008BIM\x03\xed\x00\x00\x00\x00\x00\x10")
	for range 2 {
		p = append(p, byte(dpi>>8), byte(dpi), 0, 0, 0, 1, 0, 1)
	}
	return p
}

func exif(tags ...tag) []byte { return append([]byte("Exif\x00\x00"), tiffBytes(tags, nil)...) }

// resolutionTags are tags 282, 283 and, unless it is 0, 296.
func resolutionTags(x, y [2]uint32, unit uint32) []tag {
	tags := []tag{{282, 5, x[:]}, {283, 5, y[:]}}
	if unit > 0 {
		tags = append(tags, tag{296, 3, []uint32{unit}})
	}
	return tags
}

// greyTIFF is a small TIFF with more tags.
func greyTIFF(more ...tag) []byte {
	return tiffBytes(append(greyTags(600, 900), more...), make([]byte, 600*900))
}

// TestEachSourceOfResolutionIsReadAndJudged: units and values as TIFF 6.0
// (tags 282, 283, 296), ITU-T T.871 (JFIF), CIPA DC-008 (Exif) and W3C PNG
// (pHYs) define them; 11811 per metre is 300 ppi, 23622 is 600 (F150).
func TestEachSourceOfResolutionIsReadAndJudged(t *testing.T) {
	jpg, pn := jpegBytes(t, drawn(600, 900), 80), pngBytes(t, drawn(600, 900))
	type want struct {
		source  string
		x, y    float64
		trusted bool
		why     string // part of Why
		doubt   float64
	}
	none := want{}
	cases := map[string]struct {
		bytes []byte
		want  want
	}{
		"JFIF per inch":                   {withSegment(jpg, 0xe0, jfif(1, 300, 300)), want{"JFIF", 300, 300, true, "", 2.17}},
		"JFIF per centimetre":             {withSegment(jpg, 0xe0, jfif(2, 118, 118)), want{"JFIF", 299.72, 299.72, true, "", 2.42}},
		"JFIF without a unit":             {withSegment(jpg, 0xe0, jfif(0, 300, 300)), none},
		"JFIF 1 × 1 without a unit":       {withSegment(jpg, 0xe0, jfif(0, 1, 1)), none},
		"JFIF 72":                         {withSegment(jpg, 0xe0, jfif(1, 72, 72)), want{"JFIF", 72, 72, false, "know nothing", 100}},
		"JFIF 96":                         {withSegment(jpg, 0xe0, jfif(1, 96, 96)), want{"JFIF", 96, 96, false, "know nothing", 100}},
		"JFIF 28 per centimetre is 72":    {withSegment(jpg, 0xe0, jfif(2, 28, 28)), want{"JFIF", 71.12, 71.12, false, "know nothing", 100}},
		"JFIF 0":                          {withSegment(jpg, 0xe0, jfif(1, 0, 0)), want{"JFIF", 0, 0, false, "no resolution", 100}},
		"JFIF 1 per inch":                 {withSegment(jpg, 0xe0, jfif(1, 1, 1)), want{"JFIF", 1, 1, false, "square", 100}},
		"JFIF 30000":                      {withSegment(jpg, 0xe0, jfif(1, 30000, 30000)), want{"JFIF", 30000, 30000, false, "outside what scans have", 100}},
		"JFIF of two directions":          {withSegment(jpg, 0xe0, jfif(1, 300, 303)), want{"JFIF", 300, 303, true, "differ by 1.0 %", 2.17}},
		"JFIF 2400 on a small picture":    {withSegment(jpg, 0xe0, jfif(1, 2400, 2400)), want{"JFIF", 2400, 2400, false, "only 9.5 mm", 100}},
		"image resources of a JPEG":       {withSegment(jpg, 0xed, resources(300)), want{"image resources", 300, 300, true, "", 2}},
		"a JPEG that says nothing":        {jpg, none},
		"PNG 300":                         {withChunk(pn, "pHYs", physical(11811, 11811, 1)), want{"PNG pHYs", 300, 300, true, "", 2}},
		"PNG 400":                         {withChunk(pn, "pHYs", physical(15748, 15748, 1)), want{"PNG pHYs", 400, 400, true, "", 2}},
		"PNG 600":                         {withChunk(pn, "pHYs", physical(23622, 23622, 1)), want{"PNG pHYs", 600, 600, true, "", 2}},
		"PNG 1200":                        {withChunk(pn, "pHYs", physical(47244, 47244, 1)), want{"PNG pHYs", 1200, 1200, false, "only 19.0 mm", 100}},
		"PNG 72":                          {withChunk(pn, "pHYs", physical(2835, 2835, 1)), want{"PNG pHYs", 72.01, 72.01, false, "know nothing", 100}},
		"PNG 96":                          {withChunk(pn, "pHYs", physical(3780, 3780, 1)), want{"PNG pHYs", 96.01, 96.01, false, "know nothing", 100}},
		"PNG of square pixels only":       {withChunk(pn, "pHYs", physical(1, 1, 0)), none},
		"PNG 1 per metre":                 {withChunk(pn, "pHYs", physical(1, 1, 1)), want{"PNG pHYs", 0.03, 0.03, false, "square", 100}},
		"PNG sCAL":                        {withChunk(pn, "sCAL", []byte("\x010.0000846667\x000.0000846667")), want{"PNG sCAL", 300, 300, true, "", 2}},
		"PNG sCAL in radians":             {withChunk(pn, "sCAL", []byte("\x020.1\x000.1")), none},
		"PNG with Exif":                   {withChunk(pn, "eXIf", tiffBytes(resolutionTags([2]uint32{600, 1}, [2]uint32{600, 1}, 2), nil)), want{"Exif", 600, 600, true, "", 2}},
		"PNG with Exif behind the pixels": {behindPixels(pn, "eXIf", tiffBytes(resolutionTags([2]uint32{600, 1}, [2]uint32{600, 1}, 2), nil)), want{"Exif", 600, 600, true, "", 2}},
		"TIFF per inch":                   {greyTIFF(resolutionTags([2]uint32{300, 1}, [2]uint32{300, 1}, 2)...), want{"TIFF tags", 300, 300, true, "", 2}},
		"TIFF with the unit left out":     {greyTIFF(resolutionTags([2]uint32{3000, 10}, [2]uint32{3000, 10}, 0)...), want{"TIFF tags", 300, 300, true, "", 2}},
		"TIFF per centimetre":             {greyTIFF(resolutionTags([2]uint32{11811, 100}, [2]uint32{11811, 100}, 3)...), want{"TIFF tags", 300, 300, true, "", 2}},
		"TIFF without a unit":             {greyTIFF(resolutionTags([2]uint32{300, 1}, [2]uint32{300, 1}, 1)...), none},
		"TIFF 2.54":                       {greyTIFF(resolutionTags([2]uint32{254, 100}, [2]uint32{254, 100}, 2)...), want{"TIFF tags", 2.54, 2.54, false, "slip", 100}},
		"TIFF 2.54 per centimetre":        {greyTIFF(resolutionTags([2]uint32{254, 100}, [2]uint32{254, 100}, 3)...), want{"TIFF tags", 6.45, 6.45, false, "slip", 100}},
		"TIFF 0/0":                        {greyTIFF(resolutionTags([2]uint32{0, 0}, [2]uint32{0, 0}, 2)...), want{"TIFF tags", 0, 0, false, "no resolution", 100}},
		"TIFF 51 on a large sheet":        {tiffBytes(append(greyTags(600, 4000), resolutionTags([2]uint32{51, 1}, [2]uint32{51, 1}, 2)...), make([]byte, 2400000)), want{"TIFF tags", 51, 51, false, "1992 mm", 100}},
		"TIFF with one direction":         {greyTIFF(tag{282, 5, []uint32{300, 1}}), want{"TIFF tags", 300, 300, false, "one direction only", 100}},
		"Exif 72":                         {withSegment(jpg, 0xe1, exif(resolutionTags([2]uint32{72, 1}, [2]uint32{72, 1}, 2)...)), want{"Exif", 72, 72, false, "know nothing", 100}},
		"Exif 400 across and 72 down":     {withSegment(jpg, 0xe1, exif(resolutionTags([2]uint32{400, 1}, [2]uint32{72, 1}, 2)...)), want{"Exif", 400, 72, false, "know nothing", 100}},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			i, err := scan.Inspect(write(t, "a", c.bytes))
			if err != nil {
				t.Fatal(err)
			}
			if c.want == none {
				if len(i.Resolutions) != 0 || !strings.Contains(strings.Join(i.Problems, ";"), "does not say its resolution") {
					t.Errorf("got %+v, problems %q, want no resolution and a word about it", i.Resolutions, i.Problems)
				}
				return
			}
			if len(i.Resolutions) != 1 {
				t.Fatalf("got %+v", i.Resolutions)
			}
			r := i.Resolutions[0]
			if r.Source != c.want.source || math.Abs(r.DPIX-c.want.x) > 0.005 || math.Abs(r.DPIY-c.want.y) > 0.005 ||
				r.Trusted != c.want.trusted || math.Abs(r.DoubtPercent-c.want.doubt) > 0.01 {
				t.Errorf("got %+v, want %+v", r, c.want)
			}
			if !strings.Contains(r.Why.String(), c.want.why) || c.want.why == "" && !r.Why.IsZero() {
				t.Errorf("why: got %q, want %q in it", r.Why, c.want.why)
			}
		})
	}
}

func TestSourcesThatDisagreeAreShownSideBySide(t *testing.T) {
	jpg := withSegment(jpegBytes(t, drawn(600, 900), 80), 0xe1, exif(resolutionTags([2]uint32{288, 1}, [2]uint32{288, 1}, 2)...))
	i, err := scan.Inspect(write(t, "a.jpg", withSegment(jpg, 0xe0, jfif(1, 300, 300))))
	if err != nil {
		t.Fatal(err)
	}
	if len(i.Resolutions) != 2 || i.Resolutions[0].DoubtPercent != 4 || i.Resolutions[1].DoubtPercent != 4 {
		t.Errorf("got %+v, want Exif and JFIF with 4 %% doubt each", i.Resolutions)
	}
	if !strings.Contains(strings.Join(i.Problems, ";"), "Exif says 288 × 288 ppi, JFIF says 300 × 300") {
		t.Errorf("problems: %q", i.Problems)
	}
	if r, ok := i.Best(); !ok || r.Source != "Exif" {
		t.Errorf("best: got %+v", r)
	}
}

func TestATrustedSourceIsPreferredToADefault(t *testing.T) {
	jpg := withSegment(jpegBytes(t, drawn(600, 900), 80), 0xe1, exif(resolutionTags([2]uint32{72, 1}, [2]uint32{72, 1}, 2)...))
	i, err := scan.Inspect(write(t, "a.jpg", withSegment(jpg, 0xe0, jfif(1, 300, 300))))
	if err != nil {
		t.Fatal(err)
	}
	if r, ok := i.Best(); !ok || r.Source != "JFIF" {
		t.Errorf("got %+v, want the JFIF density", r)
	}
	if r, ok := (scan.Info{}).Best(); ok || r.DPIX != 0 || r.Source != "" || !r.Why.IsZero() {
		t.Errorf("without any source: got %+v, %v", r, ok)
	}
}

// exifPointing adds an Exif directory proper behind the main one, as one file:
// its offset is known because everything before has a fixed length.
func exifPointing(main []tag, sub []tag) []byte {
	main = append(main, tag{34665, 4, []uint32{0}})
	at := uint32(len(tiffBytes(main, nil)))
	main[len(main)-1].values[0] = at
	p := tiffBytes(main, nil)
	q := tiffBytes(sub, nil)[8:]
	// Offsets in q count from its own start: only values that fit are used.
	return append([]byte("Exif\x00\x00"), append(p, q...)...)
}

func TestAResolutionWrittenForAnotherSizeIsStale(t *testing.T) {
	main := resolutionTags([2]uint32{300, 1}, [2]uint32{300, 1}, 2)
	scaled := exifPointing(main, []tag{{40962, 4, []uint32{1200}}, {40963, 4, []uint32{1800}}})
	i, err := scan.Inspect(write(t, "a.jpg", withSegment(jpegBytes(t, drawn(600, 900), 80), 0xe1, scaled)))
	if err != nil {
		t.Fatal(err)
	}
	if r, ok := i.Best(); ok || !strings.Contains(r.Why.String(), "made larger or smaller") {
		t.Errorf("got %+v, want it called stale", r)
	}
	cropped := exifPointing(main, []tag{{40962, 4, []uint32{1200}}, {40963, 4, []uint32{900}}})
	i, err = scan.Inspect(write(t, "a.jpg", withSegment(jpegBytes(t, drawn(600, 900), 80), 0xe1, cropped)))
	if err != nil {
		t.Fatal(err)
	}
	if r, ok := i.Best(); !ok || r.DPIX != 300 || !strings.Contains(strings.Join(i.Problems, ";"), "1200 × 900") {
		t.Errorf("a crop keeps its resolution and is mentioned: got %+v, %q", r, i.Problems)
	}
}

func TestACamerasResolutionIsNotTrusted(t *testing.T) {
	main := resolutionTags([2]uint32{300, 1}, [2]uint32{300, 1}, 2)
	p := exifPointing(main, []tag{{33437, 3, []uint32{8}}}) // an f-number
	i, err := scan.Inspect(write(t, "a.jpg", withSegment(jpegBytes(t, drawn(600, 900), 80), 0xe1, p)))
	if err != nil {
		t.Fatal(err)
	}
	if r, ok := i.Best(); ok || !i.Camera || !strings.Contains(r.Why.String(), "comes from a camera") {
		t.Errorf("got %+v, camera %v", r, i.Camera)
	}
}

func TestOrientationTurnsSizeAndResolution(t *testing.T) {
	tags := append([]tag{{274, 3, []uint32{6}}}, resolutionTags([2]uint32{300, 1}, [2]uint32{600, 1}, 2)...)
	for name, p := range map[string][]byte{
		"JPEG": withSegment(jpegBytes(t, drawn(600, 900), 80), 0xe1, exif(tags...)),
		"PNG":  withChunk(pngBytes(t, drawn(600, 900)), "eXIf", tiffBytes(tags, nil)),
		"TIFF": greyTIFF(tags...),
	} {
		i, err := scan.Inspect(write(t, "a", p))
		if err != nil {
			t.Fatal(err)
		}
		r, _ := i.Best()
		if i.Width != 900 || i.Height != 600 || i.Orientation != 6 || r.DPIX != 600 || r.DPIY != 300 {
			t.Errorf("%s: got %d × %d, orientation %d, %v × %v ppi", name, i.Width, i.Height, i.Orientation, r.DPIX, r.DPIY)
		}
		q := open(t, write(t, "a", p))
		if q.Bounds().Dx() != 900 || q.Bounds().Dy() != 600 {
			t.Errorf("%s: opened as %v", name, q.Bounds())
		}
	}
}

// A4 is 2480 × 3508 pixels at 300 ppi (F150): 210 × 297 mm to half a pixel.
func TestSizeFollowsFromResolution(t *testing.T) {
	w, h := scan.Resolution{DPIX: 300, DPIY: 300}.SizeMM(2480, 3508)
	if math.Abs(w-210) > 0.043 || math.Abs(h-297) > 0.043 {
		t.Errorf("got %.3f × %.3f mm, want 210 × 297", w, h)
	}
	if w, h := (scan.Resolution{}).SizeMM(10, 10); w != 0 || h != 0 {
		t.Errorf("without a resolution: got %v × %v", w, h)
	}
}

// An independent writer of metadata and an independent encoder are read back.
func TestResolutionsOfOtherWritersAreRead(t *testing.T) {
	convert, err := exec.LookPath("convert")
	if err != nil {
		t.Skip("ImageMagick is not installed; the table above checks the same fields byte by byte")
	}
	for _, ext := range []string{"jpg", "png", "tif", "bmp"} {
		in := write(t, "in.png", pngBytes(t, drawn(600, 900)))
		out := strings.TrimSuffix(in, "in.png") + "out." + ext
		if report, err := exec.Command(convert, in, "-units", "PixelsPerInch", "-density", "400x600", out).CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, report)
		}
		i, err := scan.Inspect(out)
		if err != nil {
			t.Fatal(err)
		}
		if r, ok := i.Best(); !ok || math.Abs(r.DPIX-400) > 0.02 || math.Abs(r.DPIY-600) > 0.02 {
			t.Errorf("%s: got %+v", ext, i.Resolutions)
		}
	}
}
