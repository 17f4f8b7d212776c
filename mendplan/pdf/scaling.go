package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"strconv"
)

var (
	rootRef   = regexp.MustCompile(`/Root (\d+) 0 R`)
	sizeEntry = regexp.MustCompile(`/Size (\d+)`)
	infoRef   = regexp.MustCompile(`/Info (\d+) 0 R`)
)

// withoutScaling adds the viewer preference that print dialogs are to offer
// no scaling (ISO 32000-1, 12.2, PrintScaling None). The library that writes
// the file has no such setting, so it is added the way the standard gives for
// changing a finished file: a new copy of the catalogue, a cross-reference
// section for it alone, and a trailer that leads back to the first (7.5.6).
func withoutScaling(data []byte) ([]byte, error) {
	fault := errors.New("making the PDF: its catalogue was not found")
	trailer := data[max(bytes.LastIndex(data, []byte("trailer")), 0):]
	root, size := rootRef.FindSubmatch(trailer), sizeEntry.FindSubmatch(trailer)
	at := bytes.LastIndex(data, []byte("startxref"))
	if root == nil || size == nil || at < 0 {
		return nil, fault
	}
	previous, err := strconv.Atoi(string(bytes.Fields(data[at:])[1]))
	if err != nil {
		return nil, fault
	}
	head := []byte(fmt.Sprintf("\n%s 0 obj\n", root[1]))
	start := bytes.Index(data, head)
	if start < 0 {
		return nil, fault
	}
	body := data[start+len(head):]
	end := bytes.Index(body, []byte("endobj"))
	if end < 0 || !bytes.HasPrefix(body, []byte("<<")) {
		return nil, fault
	}
	out := bytes.NewBuffer(bytes.Clone(bytes.TrimRight(data, "\n")))
	out.WriteByte('\n')
	offset := out.Len()
	fmt.Fprintf(out, "%s 0 obj\n<<\n/ViewerPreferences <</PrintScaling /None>>%s", root[1], body[2:end])
	out.WriteString("endobj\n")
	xref := out.Len()
	fmt.Fprintf(out, "xref\n%s 1\n%010d 00000 n \ntrailer\n<</Size %s /Root %s 0 R /Prev %d", root[1], offset, size[1], root[1], previous)
	if info := infoRef.FindSubmatch(trailer); info != nil {
		fmt.Fprintf(out, " /Info %s 0 R", info[1])
	}
	fmt.Fprintf(out, ">>\nstartxref\n%d\n%%%%EOF\n", xref)
	return out.Bytes(), nil
}
