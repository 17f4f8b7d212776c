package course

import (
	"math"
	"slices"

	"leafmend/mendplan"
)

// PublishedRecipes returns the recipes built in. Practices contradict each
// other — a survey collected more than fifty recipes (M. Matsumaru, Journal
// of the Institute of Conservation 44(1), 2021) — so they are a beginning for
// the user's own list.
func PublishedRecipes() []mendplan.Recipe {
	return []mendplan.Recipe{
		{ID: "loc", Name: "wheat starch, hot plate", StarchG: 57, WaterML: 400, CookMin: 15, Method: "soak 30 minutes or overnight, cook at least 15 minutes, stirring", Source: "Library of Congress recipe, 2015, in AIC Wiki, BPG Adhesive Recipes and Tips"},
		{ID: "morse", Name: "wheat starch, hot-filled jars", StarchG: 65, WaterML: 500, CookMin: 20, Method: "soak 20 minutes, cook 20 minutes, fill hot, sieve small lots", Source: "E. Morse, Abbey Newsletter 19(5), 1995"},
		{ID: "museum", Name: "wheat starch, long cooking", StarchG: 27, WaterML: 200, CookMin: 35, Method: "on the heat 35 minutes in all, keep under water, sieve three times", Source: "a national museum's recipe as noted in The Book Hut, 2012"},
		{ID: "volume4", Name: "one to four by volume", Parts: 4, CookMin: 20, Method: "rest an hour, cook 15 to 25 minutes, sieve twice, thin to cream", Source: "Metropolitan Museum of Art, Paper Conservation, Wheat Starch Recipe"},
		{ID: "volume7", Name: "one to seven by volume", Parts: 7, CookMin: 20, Method: "thin paste of a teaching laboratory", Source: "BYU bookbinding course, Wheat Paste, 2007"},
		{ID: "small", Name: "small lot", Parts: 5, CookMin: 10, Method: "one tablespoon to five of water", Source: "A. BonaDea, Wheat Paste Recipes, 2013"},
		{ID: "ether", Name: "methyl cellulose", Ether: 2.5, Source: "J. C. Thompson, Book Arts list, 1997; supplier notes, 2020"},
		{ID: "remoisten", Name: "for remoistenable tissue", StarchG: 57, WaterML: 400, Ether: 2.5, PasteParts: 1, GelParts: 2, Method: "one part paste to two of a 2.5 % gel, brushed through a screen", Source: "S. S. Wagner, Remoistenable Tissue Part II, Book and Paper Group Annual 15, 1996"},
	}
}

// Recipes returns the recipes of the job, with the published ones it does not
// hold under the same ID.
func Recipes(job mendplan.Job) []mendplan.Recipe {
	out := slices.Clone(job.Recipes)
	for _, r := range PublishedRecipes() {
		if !slices.ContainsFunc(out, func(o mendplan.Recipe) bool { return o.ID == r.ID }) {
			out = append(out, r)
		}
	}
	return out
}

// Amounts is what to weigh for a batch, in grams.
type Amounts struct {
	StarchG, WaterG   float64 // of the starch paste
	EtherG, GelWaterG float64 // of the gel of cellulose ether
}

// Total returns the mass of the batch before cooking.
func (a Amounts) Total() float64 { return a.StarchG + a.WaterG + a.EtherG + a.GelWaterG }

// StarchShare returns the starch of a recipe's paste by mass, 0 to 1; bulk is
// the density of the loose powder in g/mL, for recipes by volume.
func StarchShare(r mendplan.Recipe, bulk float64) float64 {
	switch {
	case r.StarchG > 0 && r.WaterML > 0:
		return mendplan.ShareByMass(r.StarchG, r.WaterML)
	case r.Parts > 0:
		return mendplan.ShareByVolume(r.Parts, bulk)
	}
	return 0
}

// Weigh returns what to weigh for so many grams of a recipe.
func Weigh(r mendplan.Recipe, grams, bulk float64) Amounts {
	share := StarchShare(r, bulk)
	paste, gel := grams, 0.0
	switch {
	case r.PasteParts+r.GelParts > 0:
		paste = grams * r.PasteParts / (r.PasteParts + r.GelParts)
		gel = grams - paste
	case share == 0:
		paste, gel = 0, grams
	}
	return Amounts{StarchG: paste * share, WaterG: paste * (1 - share), EtherG: gel * r.Ether / 100, GelWaterG: gel * (1 - r.Ether/100)}
}

// Freshness says whether a batch is fit for use.
type Freshness string

// States of a batch.
const (
	Fresh     Freshness = "fresh"
	Old       Freshness = "old: look at it, smell it, before use"
	Expired   Freshness = "past its use-by day"
	Discarded Freshness = "thrown away"
	NotYet    Freshness = "not made yet on that day"
	Undated   Freshness = "without a date"
)

// UseBy returns the day up to which a batch made on a day should be used.
func UseBy(job mendplan.Job, made string) (string, error) {
	d, err := ParseDay(made)
	if err != nil {
		return "", err
	}
	days := mendplan.InForce{Job: job.Rules}.Number(mendplan.PasteExpire)
	return Day(d.AddDate(0, 0, int(days))), nil
}

// BatchState tells how a batch stands on a day.
func BatchState(job mendplan.Job, b mendplan.Batch, day string) Freshness {
	age, ok := daysBetween(b.Made, day)
	rules := mendplan.InForce{Job: job.Rules}
	left, hasUseBy := daysBetween(day, b.UseBy)
	switch {
	case b.Discarded != "" && day >= b.Discarded:
		return Discarded
	case !ok:
		return Undated
	case age < 0:
		return NotYet
	case hasUseBy && left < 0, !hasUseBy && float64(age) > rules.Number(mendplan.PasteExpire):
		return Expired
	case float64(age) > rules.Number(mendplan.PasteWarn):
		return Old
	}
	return Fresh
}

// WetCoat learns the wet paste on tissue, in g/m², from weighed samples: all
// paste over all area. Spread is the standard deviation among the samples.
// Samples that weigh less wet than dry, or have no area, are left out and
// counted in bad.
func WetCoat(samples []mendplan.Sample) (coat, spread float64, used, bad int) {
	var paste, area float64
	var each []float64
	for _, s := range samples {
		if !(s.AreaMM2 > 0) || !(s.WetG > s.DryG) || !(s.DryG >= 0) {
			bad++
			continue
		}
		paste, area = paste+s.WetG-s.DryG, area+s.AreaMM2
		each = append(each, (s.WetG-s.DryG)/s.AreaMM2*1e6)
	}
	if area == 0 {
		return 0, 0, 0, bad
	}
	coat = paste / area * 1e6
	for _, e := range each {
		spread += (e - coat) * (e - coat)
	}
	if len(each) > 1 {
		spread = math.Sqrt(spread / float64(len(each)-1))
	}
	return coat, spread, len(each), bad
}

// Cooking answers whether a batch is worth cooking today.
type Cooking struct {
	Ready  []string // IDs of leaves that could be mended: tested and not mended
	Pieces int      // on them
	Paste  mendplan.PasteEstimate
	Have   string // ID of a fresh batch that is there already; "" when none
	Worth  bool   // there are leaves ready and no fresh batch
}

// WorthCooking looks which leaves are ready for paste on a day.
func WorthCooking(job mendplan.Job, plan mendplan.Plan, day string) Cooking {
	var c Cooking
	area := 0.0
	for _, l := range job.Leaves {
		if Done(job, l.ID, mendplan.MendedStep) || !Done(job, l.ID, mendplan.Tested) {
			continue
		}
		n := 0
		for _, p := range plan.Pieces {
			if p.Leaf == l.ID {
				n++
				area += p.PasteMM2
			}
		}
		if n > 0 {
			c.Ready, c.Pieces = append(c.Ready, l.ID), c.Pieces+n
		}
	}
	c.Paste = mendplan.EstimatePaste(area, mendplan.InForce{Job: job.Rules})
	for _, b := range job.Batches {
		if BatchState(job, b, day) == Fresh {
			c.Have = b.ID
		}
	}
	c.Worth = len(c.Ready) > 0 && c.Have == ""
	return c
}
