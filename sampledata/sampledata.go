// Package sampledata holds the sample job that the program opens on request:
// the programme of a winter concert of the Quillhaven Musical Society, sixteen
// pages and a cover, saddle-sewn, which has been through a good deal.
// Everything in it is invented: the society, its town and people, the music,
// the shops. It was drawn by the package leafmend/sampledata/draw.
//
// # What is there
//
// Five bifolia of 264 × 186 mm, both sides scanned at 300 ppi, ten pictures
// in the folder job, named after leaf and side:
//
//	C-front.jpg  back cover | front cover; a ruler and grey steps beside it
//	C-back.jpg   inside front cover | inside back cover
//	1-front.jpg  pages 16 | 1
//	1-back.jpg   pages 2 | 15
//	2-front.jpg  pages 14 | 3
//	2-back.jpg   pages 4 | 13; kept upside down, put right by its Exif orientation
//	3-front.tif  pages 12 | 5; TIFF of 128 colours, on grey felt
//	3-back.jpg   pages 6 | 11; on grey felt
//	4-front.jpg  pages 10 | 7
//	4-back.png   pages 8 | 9; PNG of 128 colours
//
// All others lie on black card. Each file states its true resolution: JFIF
// density, PNG pHYs, TIFF XResolution and YResolution.
//
// The job file programme.leafmend beside them has the damages of four leaves
// traced. Leaf 4 is left to trace.
//
// # What is true about them
//
// The file truth.json in this folder says for each scan where the leaf, its
// true edge, losses, tears, splits, pricks and stains really are, in pixels
// of the displayed picture; [leafmend/sampledata/draw.Truth] explains its
// fields. It is for tests and is not built into the program.
//
// # Making it again
//
//	go run ./sampledata/generate
//
// writes all of it anew, the same bytes with the same Go release. With
// -big FILE.jpg it writes one leaf of 70 megapixels for benchmarks instead.
package sampledata

import (
	"embed"
	"io/fs"
)

//go:embed job
var job embed.FS

// JobFile is the name of the job file in [Files].
const JobFile = "programme.leafmend"

// Files returns the sample job's folder: the job file and the scans it names,
// all at its top level. Callers who want to save the job copy the folder out
// first; it cannot be written to.
func Files() fs.FS {
	sub, err := fs.Sub(job, "job")
	if err != nil {
		panic("sampledata: the embedded folder has no valid name: " + err.Error())
	}
	return sub
}
