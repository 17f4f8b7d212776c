package sampledata_test

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"image"
	_ "image/jpeg"
	_ "image/png"
	"io/fs"
	"math"
	"os"
	"path"
	"strings"
	"testing"

	_ "golang.org/x/image/tiff"

	"leafmend/mendplan"
	"leafmend/sampledata"
	"leafmend/sampledata/draw"
)

func truths(t *testing.T) []draw.Truth {
	t.Helper()
	data, err := os.ReadFile("truth.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Scans []draw.Truth }
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Scans) != 10 {
		t.Fatalf("truth.json tells of %d scans, want 10", len(file.Scans))
	}
	return file.Scans
}

func read(t *testing.T, scan draw.Truth) []byte {
	t.Helper()
	data, err := fs.ReadFile(sampledata.Files(), path.Base(scan.File))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// displayed decodes a scan and turns it as its orientation says; only half a
// turn occurs in the sample.
func displayed(t *testing.T, scan draw.Truth) func(p draw.Pt) (r, g, b float64) {
	t.Helper()
	data := read(t, scan)
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatalf("%s: %v", scan.File, err)
	}
	if got := img.Bounds().Size(); got != (image.Point{scan.WidthPx, scan.HeightPx}) {
		t.Fatalf("%s is %v pixels, its truth says %d × %d", scan.File, got, scan.WidthPx, scan.HeightPx)
	}
	half := bytes.Contains(data[:64], []byte("Exif\x00\x00"))
	return func(p draw.Pt) (r, g, b float64) {
		x, y := int(p.X), int(p.Y)
		if half {
			x, y = scan.WidthPx-1-x, scan.HeightPx-1-y
		}
		cr, cg, cb, _ := img.At(x, y).RGBA()
		return float64(cr >> 8), float64(cg >> 8), float64(cb >> 8)
	}
}

func TestTheSampleStaysSmall(t *testing.T) {
	sum := int64(0)
	err := fs.WalkDir(sampledata.Files(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		sum += info.Size()
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if sum > 15e6 || sum < 1e6 {
		t.Errorf("the sample job has %.1f MB, want less than 15 and not nothing", float64(sum)/1e6)
	}
}

// Where resolution stands in a file: JFIF 1.02 and ITU-T T.871 clause 10; W3C
// PNG (Third Edition) pHYs, 300 ppi = 11811 per metre; TIFF 6.0 tags 282, 283
// and 296.
func TestEachScanStatesItsTrueResolution(t *testing.T) {
	for _, scan := range truths(t) {
		data := read(t, scan)
		ok := false
		switch path.Ext(scan.File) {
		case ".jpg":
			ok = string(data[6:11]) == "JFIF\x00" && data[13] == 1 &&
				binary.BigEndian.Uint16(data[14:]) == 300 && binary.BigEndian.Uint16(data[16:]) == 300
		case ".png":
			i := bytes.Index(data, []byte("pHYs"))
			ok = i > 0 && i < bytes.Index(data, []byte("IDAT")) && data[i+12] == 1 &&
				binary.BigEndian.Uint32(data[i+4:]) == 11811 && binary.BigEndian.Uint32(data[i+8:]) == 11811
		case ".tif":
			ok = tiffValue(data, 282) == 300 && tiffValue(data, 283) == 300 && tiffValue(data, 296) == 2
		}
		if !ok {
			t.Errorf("%s does not say 300 ppi where its format wants it", scan.File)
		}
	}
}

// tiffValue reads one value of the first directory of a little-endian TIFF.
func tiffValue(data []byte, tag uint16) float64 {
	le := binary.LittleEndian
	at := int(le.Uint32(data[4:]))
	for i := range int(le.Uint16(data[at:])) {
		e := data[at+2+12*i:]
		if le.Uint16(e) != tag {
			continue
		}
		if le.Uint16(e[2:]) == 5 {
			v := data[le.Uint32(e[8:]):]
			return float64(le.Uint32(v)) / float64(le.Uint32(v[4:]))
		}
		return float64(le.Uint16(e[8:]))
	}
	return math.NaN()
}

func TestPagesFollowTheImpositionOfAGathering(t *testing.T) {
	seen := map[string]bool{}
	for _, scan := range truths(t) {
		if scan.Leaf == "C" {
			continue
		}
		var l, r int
		for i, v := range []*int{&l, &r} {
			if err := json.Unmarshal([]byte(scan.Pages[i]), v); err != nil {
				t.Fatal(err)
			}
			seen[scan.Pages[i]] = true
		}
		// Pages of one side make 17 together; an even page lies on the left.
		if l+r != 17 || l%2 != 0 {
			t.Errorf("%s carries pages %d and %d", scan.File, l, r)
		}
	}
	if len(seen) != 16 {
		t.Errorf("%d pages, want 16", len(seen))
	}
}

func TestTheJobNamesScansThatAreThere(t *testing.T) {
	data, err := fs.ReadFile(sampledata.Files(), sampledata.JobFile)
	if err != nil {
		t.Fatal(err)
	}
	job, problems, err := mendplan.Decode(data)
	if err != nil || len(problems) > 0 {
		t.Fatalf("the job file: %v %v", err, problems)
	}
	empty := 0
	for _, leaf := range job.Leaves {
		if len(leaf.Damages) == 0 {
			empty++
		}
	}
	if len(job.Leaves) != 5 || empty != 1 {
		t.Errorf("%d leaves, %d of them to trace; want 5 and 1", len(job.Leaves), empty)
	}
	for _, p := range mendplan.CheckScans(job, "job") {
		t.Error(p.Words)
	}
	if plan := mendplan.Compute(job); len(plan.Pieces) < 20 || len(plan.Layouts) < 2 || plan.Estimate.Paste.StarchG <= 0 {
		t.Errorf("the sample plans %d pieces on %d tissues and %.1f g of starch", len(plan.Pieces), len(plan.Layouts), plan.Estimate.Paste.StarchG)
	}
}

func TestTheTruthIsThatOfTheGenerator(t *testing.T) {
	var now []draw.Truth
	for _, spec := range draw.Programme(300) {
		both := draw.Know(spec)
		now = append(now, both[0], both[1])
	}
	for i, scan := range truths(t) {
		want := now[i]
		want.File = scan.File
		a, _ := json.Marshal(scan)
		b, _ := json.Marshal(want)
		if !bytes.Equal(a, b) && !near(string(a), string(b)) {
			t.Errorf("the truth about %s is old: run go run ./sampledata/generate", scan.File)
		}
	}
}

// near compares two JSON texts number by number: processors that fuse
// multiplication and addition may round the last digit otherwise.
func near(a, b string) bool {
	cut := func(r rune) bool { return strings.ContainsRune("[]{},:", r) }
	x, y := strings.FieldsFunc(a, cut), strings.FieldsFunc(b, cut)
	if len(x) != len(y) {
		return false
	}
	for i := range x {
		var u, v float64
		if json.Unmarshal([]byte(x[i]), &u) != nil || json.Unmarshal([]byte(y[i]), &v) != nil {
			if x[i] != y[i] {
				return false
			}
		} else if math.Abs(u-v) > 0.0201 {
			return false
		}
	}
	return true
}
