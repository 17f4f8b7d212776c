package ui

import (
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// recipeForm is the form of one recipe.
type recipeForm struct {
	name, method, source *dialogEntry
	numbers              []*dialogEntry
}

// recipeNumbers are the numbers of a recipe, in the order asked for.
func recipeNumbers(r *mendplan.Recipe) []struct {
	words string
	at    *float64
} {
	return []struct {
		words string
		at    *float64
	}{{t("Starch, g"), &r.StarchG}, {t("Water, mL"), &r.WaterML}, {t("Water, parts"), &r.Parts},
		{t("Cellulose ether, %"), &r.Ether}, {t("Mixed: paste"), &r.PasteParts}, {t("Mixed: gel"), &r.GelParts},
		{t("Cooking, minutes"), &r.CookMin}}
}

// recipeDialog asks for a recipe of the user's own, beginning with the one
// that is chosen. A published one stays as it is: the change becomes a recipe
// of its own.
func (b *pasteBook) recipeDialog() {
	r := b.recipeOf(b.recipe.chosen())
	published := slices.ContainsFunc(course.PublishedRecipes(), func(o mendplan.Recipe) bool { return o.ID == r.ID })
	own := slices.ContainsFunc(b.w.session.Job().Recipes, func(o mendplan.Recipe) bool { return o.ID == r.ID })
	form := recipeForm{name: b.w.newEntry(), method: b.w.newEntry(), source: b.w.newEntry()}
	form.name.SetText(t(r.Name))
	form.method.SetText(t(r.Method))
	form.source.SetText(r.Source)
	if published && !own {
		form.name.SetText(t("%s, my way", t(r.Name)))
		form.source.SetText(t("after: %s", r.Source))
	}
	grid := container.NewGridWithColumns(2)
	for _, n := range recipeNumbers(&r) {
		e := b.w.newEntry()
		e.SetText(showPositive(*n.at, ""))
		form.numbers = append(form.numbers, e)
		grid.Add(labelled(n.words, e))
	}
	fields := []fyne.CanvasObject{labelled(t("Name"), form.name), grid, labelled(t("Method"), form.method), labelled(t("Source"), form.source),
		small(t("By mass (grams of starch, millilitres of water) or by volume (parts of water to one of powder). A mixture has so many parts of paste to so many of gel."))}
	b.w.askWide(t("A recipe of your own"), t("Keep it"), fields, form.name, func() string {
		words, out := form.read(r)
		if words != "" {
			return words
		}
		j := b.w.session.Job()
		if !own || out.ID == "" {
			out.ID = freshRecipe(j)
		}
		b.w.session.Do("write recipe", j.WithRecipe(out))
		b.recipe.pick(out.ID)
		return ""
	})
}

// read returns the recipe of the form, or words of complaint.
func (f recipeForm) read(r mendplan.Recipe) (string, mendplan.Recipe) {
	r.Name, r.Method, r.Source = strings.TrimSpace(f.name.Text), strings.TrimSpace(f.method.Text), strings.TrimSpace(f.source.Text)
	if r.Name == "" {
		return t("Give it a name."), r
	}
	for i, n := range recipeNumbers(&r) {
		v, err := parsePositive(f.numbers[i].Text)
		if err != nil {
			return n.words + ": " + sentence(errorIn(err)), r
		}
		*n.at = v
	}
	paste := r.StarchG > 0 && r.WaterML > 0 || r.Parts > 0
	switch {
	case !paste && r.Ether == 0:
		return t("Write starch and water, or parts by volume, or the strength of a gel."), r
	case r.Ether > 20:
		return t("A gel stronger than one part in five cannot be stirred."), r
	case r.PasteParts+r.GelParts > 0 && (!paste || r.Ether == 0):
		return t("A mixture needs both a paste and a gel."), r
	}
	return "", r
}

// freshRecipe is the next name not yet given to a recipe of the job.
func freshRecipe(j mendplan.Job) string {
	for n := 1; ; n++ {
		id := "own" + strconv.Itoa(n)
		if !slices.ContainsFunc(j.Recipes, func(r mendplan.Recipe) bool { return r.ID == id }) {
			return id
		}
	}
}
