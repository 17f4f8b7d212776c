package pdf_test

import (
	"bytes"
	"fmt"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/pdf"
	"leafmend/mendplan/phrase"
)

var twoCommands = []pdf.GuideCommand{{ID: "save", Menu: "File", Words: "Save", Keys: []string{"Ctrl+S"}}, {ID: "odd", Menu: "Mend", Words: "Odd…", Keys: []string{`\`, "["}}}

func TestGuideChaptersAreSplitAndFilled(t *testing.T) {
	got, err := pdf.GuideChapters("# One {#one}\n\nPress [[Save]] ({key:save}); {rule:side_margin_mm}, {rule:turn_angle_deg}.\n\n# Two {#two}\n\n{keys:all}\n",
		phrase.Tongue{"Save": "Sichern", "mm": "mm"}, twoCommands)
	if err != nil || len(got) != 2 {
		t.Fatalf("%d chapters: %v", len(got), err)
	}
	if got[0].ID != "one" || got[0].Title != "One" || strings.TrimSpace(got[0].Markdown) != "Press **Sichern** (Ctrl+S); 5\u00a0mm, 30°." {
		t.Errorf("the first is %+v", got[0])
	}
	if want := "## Mend\n\n- **Odd**: \\, ["; !strings.Contains(got[1].Markdown, want) {
		t.Errorf("the second is %q, without %q", got[1].Markdown, want)
	}
	for name, text := range map[string]string{
		"a key of no command":      "# One {#one}\n\n{key:nothing}\n",
		"a rule there is not":      "# One {#one}\n\n{rule:nothing}\n",
		"a name the window lacks":  "# One {#one}\n\n[[Nothing]]\n",
		"a mark of no kind":        "# One {#one}\n\n{colour:red}\n",
		"text before all chapters": "Hello\n\n# One {#one}\n",
	} {
		if _, err := pdf.GuideChapters(text, phrase.Tongue{"Save": "Sichern"}, twoCommands); err == nil {
			t.Errorf("%s is no error", name)
		}
	}
}

// longGuide has chapters of every kind of block, over many pages.
func longGuide(paper mendplan.Paper) pdf.Guide {
	g := pdf.Guide{Paper: paper, Version: "9.9", Picture: func(name string) []byte {
		if name != "shade" {
			return nil
		}
		p, _ := shade(90)(mendplan.Leaf{}, mendplan.Front)
		return p.JPEG
	}}
	for i := range 12 {
		var b strings.Builder
		for j := range 7 {
			fmt.Fprintf(&b, "## Section %d of chapter %d\n\n%s\n\n1. First **act**, *slowly*.\n2. Second act.\n\n- A point\n\n", j, i, strings.Repeat("words that fill lines and lines ", 9+i+j))
		}
		b.WriteString("![A caption below](shade)\n\n![Bars to measure](bars)\n")
		g.Chapters = append(g.Chapters, pdf.GuideChapter{ID: fmt.Sprintf("c%c", 'a'+i), Title: fmt.Sprintf("Chapter %d", i), Markdown: b.String()})
	}
	return g
}

func TestGuideIsTheSameBytesEachTime(t *testing.T) {
	var a, b bytes.Buffer
	if err := pdf.WriteGuide(&a, longGuide(mendplan.Letter)); err != nil {
		t.Fatal(err)
	}
	if err := pdf.WriteGuide(&b, longGuide(mendplan.Letter)); err != nil || !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Errorf("the second guide differs: %v", err)
	}
}

func TestGuideReadBackByAnOutsideReader(t *testing.T) {
	for _, paper := range []mendplan.Paper{mendplan.A4, mendplan.Letter} {
		var b bytes.Buffer
		if err := pdf.WriteGuide(&b, longGuide(paper)); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(reader(t, "pdftotext"), "-layout", save(t, b.Bytes()), "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		pages := strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
		contents := pages[1]
		for i := range 12 {
			m := regexp.MustCompile(fmt.Sprintf(`%d +Chapter %d +(\d+)`, i+1, i)).FindStringSubmatch(contents)
			if m == nil {
				t.Fatalf("chapter %d is not in the contents:\n%s", i, contents)
			}
			page := 0
			fmt.Sscan(m[1], &page)
			if page < 3 || page > len(pages) || !regexp.MustCompile(fmt.Sprintf(`(?m)^ *%d +Chapter %d$`, i+1, i)).MatchString(pages[page-1]) {
				t.Errorf("chapter %d is not on page %d, where the contents say it is", i, page)
			}
		}
		for n, page := range pages[2:] {
			lines := strings.Split(strings.TrimSpace(page), "\n")
			foot := strings.TrimSpace(lines[len(lines)-1])
			if want := fmt.Sprintf("page %d", n+3); !strings.HasSuffix(foot, want) || !strings.Contains(foot, "9.9") {
				t.Errorf("the foot of page %d is %q", n+3, foot)
			}
			last := ""
			for _, l := range lines[:len(lines)-1] {
				if strings.TrimSpace(l) != "" {
					last = strings.TrimSpace(l)
				}
			}
			if strings.HasPrefix(last, "Section") || regexp.MustCompile(`^\d+ +Chapter`).MatchString(last) {
				t.Errorf("page %d ends with the heading %q", n+3, last)
			}
		}
	}
}

func TestGuideBlocksAreRead(t *testing.T) {
	blocks, err := pdf.GuideBlocks("## Head\n\nPress **Save** (\\) or ([), *soon*\nplease.\n\n3. A\n4. B\n\n- C\n\n![Caption *here*](name)\n")
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, b := range blocks {
		got = append(got, fmt.Sprint(b.Kind, b.Mark, b.Picture, b.Plain()))
	}
	want := []string{"1Head", `0Press Save (\) or ([), soon please.`, "23.A", "24.B", "2•C", "3nameCaption here"}
	for i := range want {
		want[i] = strings.TrimSpace(want[i])
	}
	if len(got) != len(want) {
		t.Fatalf("%d blocks: %q", len(got), got)
	}
	for i := range want {
		if strings.ReplaceAll(got[i], " ", "") != strings.ReplaceAll(want[i], " ", "") {
			t.Errorf("block %d is %q, want %q", i, got[i], want[i])
		}
	}
	if b := blocks[1].Runs; len(b) < 5 || b[1] != (pdf.GuideRun{Style: "B", Words: "Save"}) {
		t.Errorf("the runs are %+v", b)
	}
}

func TestGuideRefusesWhatItCannotPrint(t *testing.T) {
	for name, text := range map[string]string{
		"a picture there is not": "![None](nothing)\n",
		"a table of code":        "    code\n",
		"a quotation":            "> words\n",
		"a link":                 "[words](there)\n",
		"an item of two parts":   "- one\n\n  two\n",
	} {
		g := longGuide(mendplan.A4)
		g.Chapters = append(g.Chapters, pdf.GuideChapter{ID: "odd", Title: "Odd", Markdown: text})
		if err := pdf.WriteGuide(&bytes.Buffer{}, g); err == nil {
			t.Errorf("%s is no error", name)
		}
	}
}
