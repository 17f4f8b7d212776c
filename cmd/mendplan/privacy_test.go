package main

import (
	"bytes"
	"encoding/binary"
	"image/jpeg"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// secrets are what a camera or a picture program writes into a scan beside
// its pixels, and what the folders it lies in are called.
var secrets = []string{"SERIAL-8841723", "PLACE-52N13E", "CREATOR-Agatha", "COMMENT-do-not-show", "PERSONS-OWN-FOLDER"}

// tellingJPEG is a leaf on a dark backing whose metadata tell the secrets: in
// EXIF and its place on the globe, in XMP, in IPTC and in a comment.
func tellingJPEG(t *testing.T, path string) {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, leafOnDark(), nil); err != nil {
		t.Fatal(err)
	}
	segment := func(marker byte, body string) []byte {
		return append(binary.BigEndian.AppendUint16([]byte{0xff, marker}, uint16(2+len(body))), body...)
	}
	jfif := segment(0xe0, "JFIF\x00\x01\x01\x01\x01\x2c\x01\x2c\x00\x00") // 300 dots to the inch
	exif := segment(0xe1, "Exif\x00\x00"+exifWith(secrets[0], secrets[1]))
	xmp := segment(0xe1, "http://ns.adobe.com/xap/1.0/\x00<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">"+secrets[2]+"</x:xmpmeta>")
	iptc := segment(0xed, "Photoshop 3.0\x008BIM\x04\x04\x00\x00\x00\x00\x00\x13\x1c\x02\x50\x00\x0e"+secrets[2]+"\x00")
	note := segment(0xfe, secrets[3])
	data := bytes.Join([][]byte{b.Bytes()[:2], jfif, exif, xmp, iptc, note, b.Bytes()[2:]}, nil)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
}

// exifWith is a TIFF directory, as EXIF 2.32 asks for, with an artist and a
// description.
func exifWith(description, artist string) string {
	le := binary.LittleEndian
	out := []byte("II*\x00\x08\x00\x00\x00")
	out = le.AppendUint16(out, 2)
	at := uint32(8 + 2 + 2*12 + 4)
	for _, e := range []struct {
		tag  uint16
		text string
	}{{0x010e, description}, {0x013b, artist}} {
		out = le.AppendUint16(out, e.tag)
		out = le.AppendUint16(out, 2) // ASCII
		out = le.AppendUint32(out, uint32(len(e.text)+1))
		out = le.AppendUint32(out, at)
		at += uint32(len(e.text) + 1)
	}
	out = le.AppendUint32(out, 0)
	return string(out) + description + "\x00" + artist + "\x00"
}

// TestNothingOfTheScansMetadataGetsOut makes a job of a scan that tells more
// than its pixels, and looks for that in the job file and in all that is
// printed and exported.
func TestNothingOfTheScansMetadataGetsOut(t *testing.T) {
	dir := filepath.Join(t.TempDir(), secrets[4])
	if err := os.Mkdir(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	scan := filepath.Join(dir, "1f.jpg")
	tellingJPEG(t, scan)
	data, err := os.ReadFile(scan)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range secrets[:4] {
		if !bytes.Contains(data, []byte(s)) {
			t.Fatalf("the scan does not hold %q, so nothing can be learnt from it", s)
		}
	}
	file := filepath.Join(dir, "job.leafmend")
	if r := mendplanRun("new", "-o", file, "-edges", scan); r.code > exitProblems {
		t.Fatalf("new gave %+v", r)
	}
	withATear(t, file)
	out := filepath.Join(dir, "out")
	if err := os.Mkdir(out, 0o755); err != nil {
		t.Fatal(err)
	}
	if r := mendplanRun("print", "-day", "2026-03-02", "-effort", "20", "-only", "proposal,report,cutlist,templates,estimate,leaves,trimming,order,calendar", "-o", filepath.Join(out, "set.pdf"), file); r.code > exitProblems {
		t.Fatalf("print gave %+v", r)
	}
	for _, form := range []string{"json", "csv", "svg", "annotations", "tei", "record"} {
		if r := mendplanRun("export", "-as", form, "-o", filepath.Join(out, "x-"+form+".json"), file); r.code > exitProblems {
			t.Fatalf("export as %s gave %+v", form, r)
		}
	}
	looked := 0
	err = filepath.WalkDir(out, func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			looked++
			keepsSecrets(t, path)
		}
		return err
	})
	if err != nil || looked < 7 {
		t.Errorf("looked into %d files: %v", looked, err)
	}
	keepsSecrets(t, file)
}

// withATear adds a tear to the first leaf of a job file.
func withATear(t *testing.T, file string) {
	t.Helper()
	job, _, err := mendplan.LoadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	job, _ = job.AddDamage(job.Leaves[0].ID, mendplan.Damage{Kind: mendplan.Tear, Side: mendplan.Front, Points: []geom.Pt{{X: 560, Y: 200}, {X: 500, Y: 210}, {X: 470, Y: 190}}})
	if err := mendplan.SaveFile(file, job); err != nil {
		t.Fatal(err)
	}
}

// keepsSecrets looks into a file as it is and, if it is a PDF and there is a
// reader, into what can be read and seen in it.
func keepsSecrets(t *testing.T, path string) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if strings.HasSuffix(path, ".pdf") {
		if bytes.Contains(data, []byte("Exif\x00")) || !bytes.Contains(data, []byte("DCTDecode")) {
			t.Errorf("%s holds no picture, or one with its EXIF", filepath.Base(path))
		}
		for _, reader := range [][]string{{"pdftotext", path, "-"}, {"pdfinfo", path}} {
			if _, err := exec.LookPath(reader[0]); err != nil {
				continue
			}
			words, err := exec.Command(reader[0], reader[1:]...).Output()
			if err != nil {
				t.Error(err)
			}
			data = append(data, words...)
		}
	}
	for _, s := range secrets {
		if bytes.Contains(data, []byte(s)) {
			t.Errorf("%s tells %q", filepath.Base(path), s)
		}
	}
}
