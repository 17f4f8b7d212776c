// Generate writes the sample job: ten scans of an invented programme, what is
// true about them, and a job file with damages traced.
//
// Usage, from the module's root:
//
//	go run ./sampledata/generate [-o DIR]
//	go run ./sampledata/generate -big FILE.jpg
//
// Without -o it writes into sampledata. With -big it writes instead one leaf
// at 600 ppi, about 70 megapixels, for benchmarks; that picture is not kept
// in the repository. Everything written depends on nothing but the code: the
// same code and the same Go release give the same bytes.
package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"log"
	"os"
	"path/filepath"
	"regexp"

	"leafmend/sampledata/draw"
)

func main() {
	log.SetFlags(0)
	log.SetPrefix("generate: ")
	folder := flag.String("o", "sampledata", "folder to write into")
	big := flag.String("big", "", "write only one leaf of 70 megapixels to this JPEG file")
	flag.Parse()
	err := error(nil)
	if *big != "" {
		err = writeBig(*big)
	} else {
		err = writeAll(*folder)
	}
	if err != nil {
		log.Fatal(err)
	}
}

// format of each scan, by its file name without ending; the others are JPEG.
var formats = map[string]string{"4-back": ".png", "3-front": ".tif"}

// turned names the scan that is kept upside down in its file, with an Exif
// orientation that puts it right, as some scanners do.
const turned = "2-back"

// writeAll draws the job into folder/job and writes folder/truth.json.
func writeAll(folder string) error {
	if err := os.MkdirAll(filepath.Join(folder, "job"), 0o755); err != nil {
		return fmt.Errorf("making the folder for the scans: %w", err)
	}
	var truths []draw.Truth
	for _, spec := range draw.Programme(300) {
		front, back, truth := draw.Leaf(spec)
		for i, img := range []*pixels{front, back} {
			name := spec.Name + "-" + truth[i].Side
			ending := formats[name]
			if ending == "" {
				ending = ".jpg"
			}
			truth[i].File = "job/" + name + ending
			data, err := encode(img, name, spec.PPI)
			if err == nil {
				err = os.WriteFile(filepath.Join(folder, truth[i].File), data, 0o644)
			}
			if err != nil {
				return fmt.Errorf("writing scan %s: %w", name, err)
			}
			fmt.Printf("%-18s %5d × %d  %5.2f MB\n", truth[i].File, truth[i].WidthPx, truth[i].HeightPx, float64(len(data))/1e6)
			truths = append(truths, truth[i])
		}
	}
	if err := writeJob(folder, truths); err != nil {
		return err
	}
	return writeTruth(filepath.Join(folder, "truth.json"), truths)
}

func writeTruth(path string, truths []draw.Truth) error {
	data, err := json.MarshalIndent(struct {
		About string       `json:"about"`
		Scans []draw.Truth `json:"scans"`
	}{"written by sampledata/generate; pixels of the displayed picture, the first pixel covers 0 to 1", truths}, "", " ")
	if err != nil {
		return fmt.Errorf("writing down the truth: %w", err)
	}
	data = spreadPair.ReplaceAll(data, []byte("[$1, $2]"))
	return os.WriteFile(path, append(data, '\n'), 0o644)
}

// spreadPair finds a point that the JSON writer put on four lines.
var spreadPair = regexp.MustCompile(`\[\s+(-?[0-9.]+),\s+(-?[0-9.]+)\s+\]`)

// writeBig draws bifolium 2 half as large again, 396 × 279 mm, at 600 ppi:
// that is, drawn at 900 ppi and said to be 600.
func writeBig(path string) error {
	const ppi, enlarged = 600, 1.5
	spec := draw.Programme(ppi * enlarged)[2]
	spec.Front.MarginMM = 7
	img, _, truth := draw.Leaf(spec)
	data, err := jpegWith(img, ppi, 1, 84)
	if err == nil {
		err = os.WriteFile(path, data, 0o644)
	}
	if err != nil {
		return fmt.Errorf("writing the large leaf: %w", err)
	}
	px := truth[0].WidthPx * truth[0].HeightPx
	fmt.Printf("%s %d × %d, %.1f megapixels, %.1f MB\n", path, truth[0].WidthPx, truth[0].HeightPx, float64(px)/1e6, float64(len(data))/1e6)
	return nil
}
