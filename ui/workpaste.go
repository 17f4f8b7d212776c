package ui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// pasteBook answers whether a batch is worth cooking, what to weigh, and
// keeps the batches.
type pasteBook struct {
	w       *Window
	worth   *widget.Label
	recipe  *choiceField
	grams   *textField
	weigh   *widget.Label
	batches *wordTable
	area    *textField
	dry     *textField
	wet     *textField
	learnt  *widget.Label
	box     fyne.CanvasObject
}

func newPasteBook(w *Window) *pasteBook {
	b := &pasteBook{w: w, worth: heading(""), weigh: small(""), learnt: small("")}
	b.worth.Wrapping = fyne.TextWrapWord
	b.recipe = newChoice(func(string) { b.refresh() })
	b.grams = newTextField(nil)
	b.grams.live = func(string) { b.showWeigh() }
	b.grams.set("100")
	b.batches = newWordTable([]column{{t("batch"), 60}, {t("recipe"), 140}, {t("made"), 80}, {t("use by"), 80}, {t("grams"), 60}, {t("state"), 150}, {t("leaves"), 110}}, b.discard)
	b.area, b.dry, b.wet = newTextField(nil), newTextField(nil), newTextField(nil)
	made := newButton(t("Cooked today"), b.cooked)
	learn := newButton(t("Add weighed piece"), b.sample)
	own := newButton(t("Own recipe…"), b.recipeDialog)
	top := tight(b.worth, labelled(t("Recipe"), container.NewBorder(nil, nil, nil, own, b.recipe)), labelled(t("Grams"), b.grams), b.weigh, made)
	foot := tight(heading(t("What stays on the tissue, learnt from weighing")),
		container.NewGridWithColumns(3, labelled(t("mm²"), b.area), labelled(t("dry, g"), b.dry), labelled(t("wet, g"), b.wet)),
		container.NewHBox(learn, newButton(t("Use it as a rule"), b.useLearnt)), b.learnt)
	middle := container.NewBorder(container.NewVBox(heading(t("Batches")), small(t("Press a batch to note that it was thrown away."))), nil, nil, nil, b.batches)
	b.box = container.NewBorder(top, foot, nil, nil, middle)
	return b
}

func (b *pasteBook) refresh() {
	j := b.w.session.Job()
	today := time.Now().Format(time.DateOnly)
	c := course.WorthCooking(j, b.w.session.Plan(), today)
	switch {
	case len(c.Ready) == 0:
		b.worth.SetText(t("No leaf is ready for paste: test media first."))
	case c.Have != "":
		b.worth.SetText(t("%d leaves with %d pieces are ready; batch %s is fresh.", len(c.Ready), c.Pieces, c.Have))
	default:
		b.worth.SetText(t("%d leaves with %d pieces are ready, and no paste is fresh: cook %.0f g, it serves such work %.0f times.", len(c.Ready), c.Pieces, c.Paste.BatchG, c.Paste.Times))
	}
	var ids, words []string
	for _, r := range course.Recipes(j) {
		ids, words = append(ids, r.ID), append(words, t(r.Name))
	}
	chosen := b.recipe.chosen()
	if chosen == "" {
		chosen = ids[0]
	}
	b.recipe.set(ids, words, chosen)
	b.showWeigh()
	var rows [][]string
	for _, x := range j.Batches {
		rows = append(rows, []string{x.ID, b.recipeName(x.Recipe), x.Made, x.UseBy, fmt.Sprintf("%.0f", x.Grams), t(string(course.BatchState(j, x, today))), leafMarks(j, mendedWith(j, x.ID))})
	}
	b.batches.show(rows)
	b.showLearnt(j)
}

// mendedWith lists the leaves that were mended with a batch.
func mendedWith(j mendplan.Job, batch string) []string {
	var out []string
	for _, s := range j.Steps {
		if s.Batch == batch && !slices.Contains(out, s.Leaf) {
			out = append(out, s.Leaf)
		}
	}
	return out
}

func (b *pasteBook) content() fyne.CanvasObject { return b.box }

func (b *pasteBook) recipeOf(id string) mendplan.Recipe {
	for _, r := range course.Recipes(b.w.session.Job()) {
		if r.ID == id {
			return r
		}
	}
	return mendplan.Recipe{ID: id, Name: id}
}

func (b *pasteBook) recipeName(id string) string { return t(b.recipeOf(id).Name) }

// showWeigh tells what to weigh for the grams asked for.
func (b *pasteBook) showWeigh() {
	r := b.recipeOf(b.recipe.chosen())
	g, err := parsePositive(b.grams.Text)
	if err != nil {
		b.weigh.SetText(sentence(errorIn(err)))
		return
	}
	bulk := mendplan.InForce{Job: b.w.session.Job().Rules}.Number(mendplan.BulkDensity)
	a := course.Weigh(r, g, bulk)
	var parts []string
	if a.StarchG > 0 {
		parts = append(parts, t("%.1f g starch (%.0f mL, %.1f tablespoons) and %.0f g water", a.StarchG, a.StarchG/bulk, a.StarchG/bulk/mendplan.TablespoonML, a.WaterG))
	}
	if a.EtherG > 0 {
		parts = append(parts, t("%.1f g cellulose ether and %.0f g water", a.EtherG, a.GelWaterG))
	}
	words := strings.Join(parts, "; ") + ". "
	if a.StarchG > 0 {
		thin := mendplan.InForce{Job: b.w.session.Job().Rules}.Number(mendplan.Thinning)
		words += t("Thin it with %.1f parts of water to one before use; take only what is needed, and never put used paste back.", thin) + " "
	}
	if r.Method != "" {
		words += sentence(t(r.Method)) + " "
	}
	b.weigh.SetText(words + r.Source + "\n" + t("Throw paste away that is hard, watery or sour."))
}

func (b *pasteBook) cooked() {
	g, err := parsePositive(b.grams.Text)
	if err != nil {
		b.w.status.say(sentence(errorIn(err)))
		return
	}
	j := b.w.session.Job()
	made := time.Now().Format(time.DateOnly)
	useBy, err := course.UseBy(j, made)
	if err != nil {
		b.w.status.say(sentence(errorIn(err)))
		return
	}
	id := freshBatch(j)
	b.w.session.Do("cook paste", j.WithBatch(mendplan.Batch{ID: id, Recipe: b.recipe.chosen(), Made: made, UseBy: useBy, Grams: g}))
	b.w.status.say(t("Batch %s is good until %s.", id, useBy))
}

// freshBatch is the next name not yet given to a batch.
func freshBatch(j mendplan.Job) string {
	for n := len(j.Batches) + 1; ; n++ {
		id := "P" + strconv.Itoa(n)
		if !slices.ContainsFunc(j.Batches, func(b mendplan.Batch) bool { return b.ID == id }) {
			return id
		}
	}
}

func (b *pasteBook) discard(row int) {
	j := b.w.session.Job()
	x := j.Batches[row]
	if x.Discarded != "" {
		return
	}
	x.Discarded = time.Now().Format(time.DateOnly)
	b.w.session.Do("throw paste away", j.WithBatch(x))
}

func (b *pasteBook) sample() {
	var v [3]float64
	for i, f := range []*textField{b.area, b.dry, b.wet} {
		x, err := parsePositive(f.Text)
		if err != nil {
			b.w.status.say(sentence(errorIn(err)))
			return
		}
		v[i] = x
	}
	j := b.w.session.Job()
	j.Samples = append(slices.Clone(j.Samples), mendplan.Sample{AreaMM2: v[0], DryG: v[1], WetG: v[2]})
	b.w.session.Do("add weighed piece", j)
}

func (b *pasteBook) showLearnt(j mendplan.Job) {
	coat, spread, used, bad := course.WetCoat(j.Samples)
	if used == 0 {
		b.learnt.SetText(t("Weigh a piece of known area dry and pasted; ten such pieces tell your own figure."))
		return
	}
	words := t("%.0f ± %.0f g/m² from %d pieces.", coat, spread, used)
	if bad > 0 {
		words += " " + t("%d were left out.", bad)
	}
	b.learnt.SetText(words)
}

func (b *pasteBook) useLearnt() {
	j := b.w.session.Job()
	if coat, _, used, _ := course.WetCoat(j.Samples); used > 0 {
		b.w.session.Do("learn wet paste", j.WithRule(mendplan.WetCoat, mendplan.Num(coat)))
	}
}
