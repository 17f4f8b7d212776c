package pdf_test

import (
	"bytes"
	"os/exec"
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/pdf"
)

func TestTheFileTellsTheVersionThatMadeIt(t *testing.T) {
	info := reader(t, "pdfinfo")
	job, plan := twoLeaves(mendplan.A4)
	var b bytes.Buffer
	if err := pdf.Write(&b, job, plan, pdf.Options{Version: mendplan.Version}); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(info, save(t, b.Bytes())).CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	for _, field := range []string{"Creator:", "Producer:"} {
		_, rest, _ := strings.Cut(string(out), field)
		line, _, _ := strings.Cut(rest, "\n")
		if strings.TrimSpace(line) != "Leafmend "+mendplan.Version {
			t.Errorf("%s %q", field, line)
		}
	}
}
