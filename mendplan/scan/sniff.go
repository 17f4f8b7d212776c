package scan

import (
	"bytes"

	"leafmend/mendplan/phrase"
)

// sniffBytes of a file tell its kind.
const sniffBytes = 64

// kind is a file format known by the bytes it begins with.
type kind struct {
	name   string
	read   func(*header, blob) ([]claim, error) // nil: recognised, not read
	what   phrase.Phrase                        // for kinds not read, in words
	remedy phrase.Phrase
}

// signature is the start of a file; '?' matches any byte.
type signature struct {
	at    int
	start string
	kind  kind
}

// signatures in the order they are tried. The bytes are those of the formats'
// own specifications; extensions are never looked at.
var signatures = signatureTable()

func signatureTable() []signature {
	unpack := phrase.Of("unpack it first")
	page := phrase.Of("export the page as TIFF or PNG at its scanned resolution")
	raw := kind{what: phrase.Of("this is a raw camera picture"), remedy: developRaw}
	video := kind{what: phrase.Of("this is a film, not a picture"), remedy: phrase.Of("export one frame as PNG")}
	pnm := kind{what: phrase.Of("PNM pictures are not read")}
	jp2 := kind{what: phrase.Of("JPEG 2000 pictures are not read")}
	jxl := kind{what: phrase.Of("JPEG XL pictures are not read")}
	heic := kind{what: phrase.Of("HEIC pictures are not read")}
	web := kind{what: phrase.Of("this is a web page, not a picture; the download may have failed"), remedy: phrase.Of("download it again")}
	return []signature{
		{0, "\xff\xd8\xff", kind{name: "JPEG", read: readJPEGHeader}},
		{0, "\x89PNG\r\n\x1a\n", kind{name: "PNG", read: readPNGHeader}},
		{0, "IIRO", raw},
		{0, "IIU\x00", raw},
		{8, "CR\x02", raw},
		{0, "FUJIFILMCCD-RAW", raw},
		{0, "FOVb", raw},
		{0, "\x00MRM", raw},
		{0, "II*\x00", kind{name: "TIFF", read: readTIFFHeader}},
		{0, "MM\x00*", kind{name: "TIFF", read: readTIFFHeader}},
		{0, "II+\x00", kind{name: "BigTIFF", read: readTIFFHeader}},
		{0, "MM\x00+", kind{name: "BigTIFF", read: readTIFFHeader}},
		{0, "II\xbc", kind{what: phrase.Of("JPEG XR pictures are not read")}},
		{0, "RIFF????WEBP", kind{name: "WebP", read: readWebPHeader}},
		{0, "BM", kind{name: "BMP", read: readBMPHeader}},
		{0, "\x00\x00\x00\x0cjP  \r\n\x87\n", jp2},
		{0, "\xff\x4f\xff\x51", jp2},
		{0, "\xff\x0a", jxl},
		{0, "\x00\x00\x00\x0cJXL \r\n\x87\n", jxl},
		{4, "ftyphe", heic},
		{4, "ftypmif1", heic},
		{4, "ftypmsf1", heic},
		{4, "ftypavi", kind{what: phrase.Of("AVIF pictures are not read")}},
		{4, "ftypcrx", raw},
		{4, "ftyp", video},
		{0, "RIFF????AVI ", video},
		{0, "\x1a\x45\xdf\xa3", video},
		{0, "GIF8", kind{what: phrase.Of("GIF pictures are not read: they hold at most 256 colours and no resolution")}},
		{0, "8BPS", kind{what: phrase.Of("layered PSD files are not read")}},
		{0, "gimp xcf", kind{what: phrase.Of("layered XCF files are not read")}},
		{0, "%PDF", kind{what: phrase.Of("PDF files are not read as scans"), remedy: page}},
		{0, "%!PS", kind{what: phrase.Of("PostScript files are not read as scans"), remedy: page}},
		{0, "AT&TFORM", kind{what: phrase.Of("DjVu files are not read"), remedy: page}},
		{0, "SIMPLE  =", kind{what: phrase.Of("FITS pictures are not read")}},
		{0, "\x0a?\x01", kind{what: phrase.Of("PCX pictures are not read")}},
		{0, "v/1\x01", kind{what: phrase.Of("OpenEXR pictures are not read")}},
		{0, "#?RADIANCE", kind{what: phrase.Of("Radiance HDR pictures are not read")}},
		{0, "qoif", kind{what: phrase.Of("QOI pictures are not read")}},
		{0, "<svg", kind{what: phrase.Of("this is a vector drawing, not a scan"), remedy: page}},
		{0, "<?xml", kind{what: phrase.Of("this is an XML text, not a picture"), remedy: phrase.Of("choose a picture file")}},
		{0, "<!DOCTYPE", web},
		{0, "<html", web},
		{0, "PK\x03\x04", kind{what: phrase.Of("this is an archive (or an office document), not a picture"), remedy: unpack}},
		{0, "Rar!", kind{what: phrase.Of("this is an archive, not a picture"), remedy: unpack}},
		{0, "7z\xbc\xaf", kind{what: phrase.Of("this is an archive, not a picture"), remedy: unpack}},
		{0, "\x1f\x8b", kind{what: phrase.Of("this is a compressed file, not a picture"), remedy: unpack}},
		{0, "version https://git-lfs", kind{what: phrase.Of("this is a placeholder; the picture itself has not been fetched"), remedy: phrase.Of("fetch large files first")}},
		{0, "P1\n", pnm}, {0, "P2\n", pnm}, {0, "P3\n", pnm},
		{0, "P4\n", pnm}, {0, "P5\n", pnm}, {0, "P6\n", pnm},
	}
}

// sniff tells a file's kind from its first bytes.
func sniff(head []byte) kind {
	for _, s := range signatures {
		if matches(head, s.at, s.start) {
			return s.kind
		}
	}
	if len(bytes.Trim(head, "\x00")) == 0 {
		return kind{what: phrase.Of("the file begins with nothing but zeros: it was not written to its end, or the disk is damaged"), remedy: copyAgain}
	}
	return kind{what: phrase.Of("this is not a picture of a kind that is read")}
}

func matches(head []byte, at int, start string) bool {
	if len(head) < at+len(start) {
		return false
	}
	for i := range len(start) {
		if start[i] != '?' && lower(start[i]) != lower(head[at+i]) {
			return false
		}
	}
	return true
}

// lower folds the letters of ASCII, so that <HTML is seen for what it is.
func lower(c byte) byte {
	if 'A' <= c && c <= 'Z' {
		return c + 'a' - 'A'
	}
	return c
}

func (k kind) refusal() error {
	r := &Refusal{What: k.what, Remedy: k.remedy}
	if r.Remedy.IsZero() {
		r.Remedy = saveAgain
	}
	return r
}
