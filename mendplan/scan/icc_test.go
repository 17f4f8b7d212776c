package scan_test

import (
	"encoding/binary"
	"math"
	"strings"
	"testing"

	"leafmend/mendplan/scan"
)

// iccProfile makes a profile of the kind "matrix and curves", or a grey one
// when there are no columns, as ICC.1 (version 2) describes it. curve is the
// body of a curv or para tag.
func iccProfile(name string, columns [][3]float64, curve []byte) []byte {
	fixed := func(v float64) []byte { return binary.BigEndian.AppendUint32(nil, uint32(int32(math.Round(v*65536)))) }
	xyz := func(v [3]float64) []byte {
		p := []byte("XYZ \x00\x00\x00\x00")
		for _, c := range v {
			p = append(p, fixed(c)...)
		}
		return p
	}
	desc := append([]byte("desc\x00\x00\x00\x00"), binary.BigEndian.AppendUint32(nil, uint32(len(name)+1))...)
	desc = append(append(desc, name...), make([]byte, 1+12+67)...)
	text := []byte("text\x00\x00\x00\x00none\x00\x00\x00\x00")
	type tag struct {
		name string
		data []byte
	}
	tags := []tag{{"desc", desc}, {"cprt", text}, {"wtpt", xyz([3]float64{0.9642, 1, 0.8249})}}
	space := "GRAY"
	if len(columns) == 0 {
		tags = append(tags, tag{"kTRC", curve})
	} else {
		space = "RGB "
		for i, c := range "rgb" {
			tags = append(tags, tag{string(c) + "XYZ", xyz(columns[i])}, tag{string(c) + "TRC", curve})
		}
	}
	head := make([]byte, 128)
	copy(head[8:], []byte{2, 0x40, 0, 0})
	copy(head[12:], "mntr"+space+"XYZ ")
	copy(head[36:], "acsp")
	copy(head[68:], append(append(fixed(0.9642), fixed(1)...), fixed(0.8249)...))
	table := binary.BigEndian.AppendUint32(nil, uint32(len(tags)))
	var body []byte
	at := 128 + 4 + 12*len(tags)
	for _, t := range tags {
		for len(t.data)%4 != 0 {
			t.data = append(t.data, 0)
		}
		table = append(table, t.name...)
		table = binary.BigEndian.AppendUint32(table, uint32(at+len(body)))
		table = binary.BigEndian.AppendUint32(table, uint32(len(t.data)))
		body = append(body, t.data...)
	}
	p := append(append(head, table...), body...)
	binary.BigEndian.PutUint32(p, uint32(len(p)))
	return p
}

// gammaCurve is a curv tag of one power.
func gammaCurve(g float64) []byte {
	return append([]byte("curv\x00\x00\x00\x00\x00\x00\x00\x01"), byte(int(g*256)>>8), byte(int(g*256)))
}

// srgbCurve is the curve of IEC 61966-2-1 in 1024 samples.
func srgbCurve() []byte {
	p := []byte("curv\x00\x00\x00\x00\x00\x00\x04\x00")
	for i := range 1024 {
		v := float64(i) / 1023
		if v <= 0.04045 {
			v /= 12.92
		} else {
			v = math.Pow((v+0.055)/1.055, 2.4)
		}
		p = binary.BigEndian.AppendUint16(p, uint16(math.Round(v*65535)))
	}
	return p
}

// Columns under D50: sRGB (IEC 61966-2-1), and the wider space of Adobe RGB
// (1998), both as their published profiles have them.
var (
	srgbColumns = [][3]float64{{0.4360747, 0.2225045, 0.0139322}, {0.3850649, 0.7168786, 0.0971045}, {0.1430804, 0.0606169, 0.7141733}}
	wideColumns = [][3]float64{{0.60974, 0.31111, 0.01947}, {0.20528, 0.62567, 0.06087}, {0.14919, 0.06322, 0.74457}}
)

var profiles = map[string][]byte{
	"SRGB.icc":  iccProfile("standard", srgbColumns, srgbCurve()),
	"WIDE.icc":  iccProfile("wide test space", wideColumns, gammaCurve(2.19921875)),
	"LIGHT.icc": iccProfile("light grey", nil, gammaCurve(1.8)),
}

func TestProfilesAreSaidInWords(t *testing.T) {
	cases := map[string]struct{ file, words, problem string }{
		"a matrix profile":        {"png-profile-wide.png", "wide test space: converted to sRGB", ""},
		"sRGB itself":             {"jpg-profile-sRGB.jpg", "standard: as sRGB", ""},
		"no profile":              {"tif-RGB-8.tif", "none: shown as sRGB", ""},
		"inks without a profile":  {"tif-CMYK.tif", "none: inks turned into sRGB by simple arithmetic", ""},
		"a profile in a TIFF":     {"tif-profile-wide.tif", "wide test space: converted to sRGB", ""},
		"a profile for grey":      {"tif-profile-grey.tif", "light grey: converted to sRGB", ""},
		"CIELAB needs no profile": {"tif-Lab.tif", "none needed: CIELAB turned into sRGB", ""},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			i, err := scan.Inspect("testdata/formats/" + c.file)
			if err != nil {
				t.Fatal(err)
			}
			if i.Profile != c.words {
				t.Errorf("got %q, want %q", i.Profile, c.words)
			}
		})
	}
}

func TestADamagedProfileIsPassedOverAndSaid(t *testing.T) {
	// The profile is cut in half inside a PNG of our own making.
	p := pngBytes(t, drawn(20, 20))
	p = withChunk(p, "iCCP", deflated(profiles["WIDE.icc"][:100]))
	i, err := scan.Inspect(write(t, "a.png", p))
	if err != nil {
		t.Fatal(err)
	}
	if i.Profile != "damaged: shown as sRGB" || !strings.Contains(strings.Join(i.Problems, "; "), "profile is damaged") {
		t.Errorf("got %q, problems %q", i.Profile, i.Problems)
	}
}
