package ui

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
)

// checkBook leads through the check of the order: sheet by sheet what must
// face up, compared with what one sees, and the record of the checks.
type checkBook struct {
	w     *Window
	way   *choiceField
	table *wordTable
	card  *checkCard
	by    *textField
	count *widget.Label
	done  *widget.Label
	laid  []collate.Row
	seen  []sighting // for each row of laid, in this check
	at    int
	box   fyne.CanvasObject
}

// sighting is what was found at a sheet; the zero value is not looked at yet.
type sighting struct {
	looked bool
	collate.Sighting
}

func (s sighting) wrong() bool { return s.looked && s.Verdict != collate.InPlace }

func newCheckBook(w *Window) *checkBook {
	b := &checkBook{w: w, count: heading(""), done: small("")}
	b.table = newWordTable([]column{{"", 60}, {t("gathering"), 72}, {t("leaf"), 44}, {t("side up"), 96}, {t("left"), 56}, {t("right"), 60}, {t("laid on"), 56}, {t("then comes"), 76}}, b.goTo)
	b.way = newChoice(func(string) { b.refresh() })
	b.way.set([]string{string(collate.OutsideIn), string(collate.CentreOutward)}, []string{t("from the outermost sheet inwards"), t("from the centre outward")}, string(collate.OutsideIn))
	b.card = newCheckCard(b)
	b.by = w.nameField()
	good := newButton(t("In order"), func() { b.record(false) })
	bad := newButton(t("Not in order"), func() { b.record(true) })
	top := tight(b.way, small(t("Lay each sheet with the side named facing up. Type the page numbers you see, left and right, or press Enter if they are as shown. Two people check, each for himself.")))
	foot := tight(b.count, b.done, container.NewBorder(nil, nil, widget.NewLabel(t("By")), container.NewHBox(good, bad), b.by))
	split := container.NewHSplit(container.NewBorder(top, foot, nil, nil, b.table), b.card.box)
	split.Offset = 0.5
	b.box = split
	return b
}

func (b *checkBook) content() fyne.CanvasObject { return b.box }

// focus gives the keyboard to the field for what one sees.
func (b *checkBook) focus() { b.w.win.Canvas().Focus(b.card.entry) }

func (b *checkBook) refresh() {
	b.w.fillName(b.by)
	j := b.w.session.Job()
	laid := collate.Order(j, collate.Way(b.way.chosen()))
	if !slices.Equal(laid, b.laid) {
		b.laid, b.seen, b.at = laid, make([]sighting, len(laid)), 0
	}
	var rows [][]string
	for i, r := range b.laid {
		rows = append(rows, []string{b.mark(i), gatheringWord(r.Gathering), r.Mark, sideShort(r.Up), pageLabel(r.Left), pageLabel(r.Right), r.Below, r.Above})
	}
	b.table.show(rows)
	b.showChecks(j)
	b.card.show()
}

// mark tells in a word what was found at a row.
func (b *checkBook) mark(i int) string {
	s := b.seen[i]
	switch {
	case i == b.at && !s.looked:
		return "»"
	case !s.looked:
		return ""
	case s.Verdict == collate.InPlace:
		return t("in place")
	}
	return "× " + verdictWord(s.Verdict)
}

// showChecks lists the checks recorded, and how many people found it right.
func (b *checkBook) showChecks(j mendplan.Job) {
	b.count.SetText(t("%d of 2 independent checks found it in order.", min(goodChecks(j), 2)))
	words := t("Not checked yet.")
	if n := len(j.Orders); n > 0 {
		words = ""
		for _, o := range j.Orders[max(n-3, 0):] {
			mark := ""
			if o.Wrong {
				mark = "× "
			}
			words += fmt.Sprintf("%s%s %s %s: %s\n", mark, o.Date, o.Time, o.By, t(o.Result))
		}
	}
	b.done.SetText(strings.TrimSpace(words))
}

// goodChecks counts the people who found the order right since somebody last
// found it wrong.
func goodChecks(j mendplan.Job) int {
	people := map[string]bool{}
	for _, o := range j.Orders {
		if o.Wrong {
			clear(people)
			continue
		}
		people[strings.ToLower(strings.TrimSpace(o.By))] = true
	}
	return len(people)
}

// goTo takes a row in hand.
func (b *checkBook) goTo(row int) {
	if row < 0 || row >= len(b.laid) {
		return
	}
	b.at = row
	b.refresh()
	b.focus()
}

// look notes what was seen at the row in hand: the numbers typed, or as shown
// when nothing was. What is in place leads on to the next row.
func (b *checkBook) look(typed string) {
	if b.at >= len(b.laid) {
		return
	}
	s := sighting{true, collate.Sighting{Verdict: collate.InPlace, Row: b.at}}
	if numbers := strings.FieldsFunc(typed, func(r rune) bool { return r == ' ' || r == '|' || r == ',' || r == '/' }); len(numbers) > 0 {
		r := b.laid[b.at]
		left, right := numbers[0], ""
		switch {
		case len(numbers) > 1:
			right = numbers[1]
		case r.Left == "":
			left, right = "", numbers[0]
		}
		s.Sighting = collate.Judge(b.w.session.Job(), b.laid, b.at, left, right)
		if len(numbers) == 1 && s.Verdict != collate.InPlace && r.Left != "" && r.Right != "" {
			if other := collate.Judge(b.w.session.Job(), b.laid, b.at, "", numbers[0]); other.Verdict == collate.InPlace {
				s.Sighting = other
			}
		}
	}
	b.seen[b.at] = s
	if !s.wrong() && b.at+1 < len(b.laid) {
		b.at++
	}
	b.refresh()
	b.focus()
}

// found tells in words what this check found wrong; "" for nothing.
func (b *checkBook) found() string {
	var parts []string
	for i, s := range b.seen {
		if s.wrong() {
			parts = append(parts, t("leaf %s: %s", b.laid[i].Mark, t(string(s.Verdict))))
		}
	}
	return strings.Join(parts, "; ")
}

// record notes a check of the order. A name is needed, and another one than
// that of the check before: two checks by nobody, or by one, are no two
// checks.
func (b *checkBook) record(wrong bool) {
	by, ok := b.w.namedIn(b.by)
	if !ok {
		return
	}
	found := b.found()
	if found != "" && !wrong {
		b.w.status.say(t("This check found sheets out of place: put them right and look at them again, or record it as not in order."))
		return
	}
	j := b.w.session.Job()
	if n := len(j.Orders); n > 0 && !wrong && !j.Orders[n-1].Wrong && strings.EqualFold(j.Orders[n-1].By, by) {
		words := widget.NewLabel(t("%s has checked it already. A second check tells something new only when another person makes it.", by))
		words.Wrapping = fyne.TextWrapWord
		b.w.confirm(t("The same name twice"), t("Record all the same"), t("Not yet"), words, fyne.NewSize(460, 180), func(yes bool) {
			if yes {
				b.write(by, wrong, found)
			}
		})
		return
	}
	b.write(by, wrong, found)
}

func (b *checkBook) write(by string, wrong bool, found string) {
	now := time.Now()
	c := mendplan.OrderCheck{Date: now.Format(time.DateOnly), Time: now.Format("15:04"), By: by, Result: "in order", Wrong: wrong}
	switch {
	case wrong && found != "":
		c.Result = found
	case wrong:
		c.Result = "not in order"
	}
	j := b.w.session.Job()
	j.Orders = append(slices.Clone(j.Orders), c)
	b.laid = nil // the next check begins anew
	b.w.session.Do("record order check", j)
}
