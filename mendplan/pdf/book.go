package pdf

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"leafmend/mendplan"
)

// Margins that common printers can reach into, millimetres.
const (
	marginX      = 12.0
	marginTop    = 12.0
	marginBottom = 14.0
	headHeight   = 11.0
	ptPerMM      = 72 / 25.4
)

// ink is a colour of the print, chosen to stay apart on a grey printer too.
type ink struct{ r, g, b int }

var (
	black  = ink{20, 20, 20}
	grey   = ink{110, 110, 110}
	pale   = ink{205, 205, 205}
	wash   = ink{240, 240, 238}
	madder = ink{150, 32, 38} // damages
	indigo = ink{28, 66, 122} // pieces
	moss   = ink{46, 94, 52}  // remnants
)

// book is the printed set while it is being made.
type book struct {
	f      *fpdf.Fpdf
	face   face
	job    mendplan.Job
	plan   mendplan.Plan
	opt    Options
	units  mendplan.Units
	w, h   float64 // of the page, mm
	part   string  // heading of the part in hand
	marked string  // the part last listed in the outline
	// templateHint is said above the templates in hand.
	templateHint string
	shown        map[string]shown          // pictures asked for so far, by leaf and side
	pieces       map[string]mendplan.Piece // by label
	images       int                       // put into the file so far
}

func newBook(job mendplan.Job, plan mendplan.Plan, opt Options) (*book, error) {
	size := "A4"
	if job.Paper == mendplan.Letter {
		size = "Letter"
	}
	f := fpdf.New("P", "mm", size, "")
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.SetCatalogSort(true)
	stamp := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC) // no clock: same job, same bytes
	f.SetCreationDate(stamp)
	f.SetModificationDate(stamp)
	program := strings.TrimSpace("Leafmend " + opt.Version)
	f.SetCreator(program, true)
	f.SetProducer(program, true)
	f.AddUTF8FontFromBytes("text", "", goregular.TTF)
	f.AddUTF8FontFromBytes("text", "B", gobold.TTF)
	fc, err := newFace()
	if err != nil {
		return nil, err
	}
	b := &book{f: f, face: fc, job: job, plan: plan, opt: opt, units: job.Units, shown: map[string]shown{}, pieces: map[string]mendplan.Piece{}}
	if b.units == "" {
		b.units = mendplan.Millimetres
	}
	if b.units == mendplan.Millimetres && opt.Tongue.Comma() {
		b.units = mendplan.MillimetresComma
	}
	for _, p := range plan.Pieces {
		b.pieces[p.Label] = p
	}
	b.w, b.h = f.GetPageSize()
	f.SetTitle(b.title(), true)
	return b, nil
}

// title is the publication's, or words for none.
func (b *book) title() string {
	if b.job.Title == "" {
		return b.say("Job without a title")
	}
	return b.job.Title
}

// finish puts "page n of m" on every page and writes the file out.
func (b *book) finish(w io.Writer) error {
	if b.f.PageCount() == 0 {
		return ErrNothing
	}
	var buf bytes.Buffer
	if err := b.f.Output(&buf); err != nil {
		return fmt.Errorf("making the PDF: %w", err)
	}
	data, err := withoutScaling(buf.Bytes())
	if err != nil {
		return err
	}
	if _, err := w.Write(data); err != nil {
		return fmt.Errorf("writing the PDF: %w", err)
	}
	return nil
}

// page begins a page with head and foot. The foot of a page at true size
// says so.
func (b *book) page(trueSize bool) {
	f := b.f
	f.AddPage()
	if b.part != b.marked {
		f.Bookmark(b.face.printable(b.part), 0, 0) // viewers list the parts beside the pages
		b.marked = b.part
	}
	b.colour(black)
	b.font("B", 10.5)
	b.textFit(marginX, marginTop+4, b.w-2*marginX-70, b.title())
	b.font("", 9)
	b.textRight(b.w-marginX, marginTop+4, b.part)
	b.line(pale, 0.25)
	f.Line(marginX, marginTop+6.5, b.w-marginX, marginTop+6.5)
	b.colour(grey)
	b.font("", 7.5)
	foot := "Leafmend"
	if b.opt.Version != "" {
		foot += " " + b.opt.Version
	}
	if b.job.Number != "" {
		foot += " · " + b.say("job %s", b.job.Number)
	}
	b.text(marginX, b.h-8, foot)
	if trueSize {
		b.colour(black)
		b.textCentre(b.w/2, b.h-8, b.say("True size: print at 100 %, never “fit to page”, then measure the bars"))
		b.colour(grey)
	}
	b.textRight(b.w-marginX, b.h-8, b.say("page %d", f.PageNo()))
	b.colour(black)
}

// top and bottom bound what a page has room for.
func (b *book) top() float64    { return marginTop + headHeight }
func (b *book) bottom() float64 { return b.h - marginBottom }

func (b *book) colour(c ink) { b.f.SetTextColor(c.r, c.g, c.b) }

// line sets colour and width of lines, solid.
func (b *book) line(c ink, width float64) {
	b.f.SetDrawColor(c.r, c.g, c.b)
	b.f.SetLineWidth(width)
	b.f.SetDashPattern(nil, 0)
}

func (b *book) fill(c ink) { b.f.SetFillColor(c.r, c.g, c.b) }
