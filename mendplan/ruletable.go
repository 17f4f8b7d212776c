package mendplan

// Keys of the rules.
const (
	SideMargin      RuleKey = "side_margin_mm"
	StripWidth      RuleKey = "strip_width_mm"
	WidestStrip     RuleKey = "widest_strip_mm"
	EndMargin       RuleKey = "end_margin_mm"
	EdgeOverhang    RuleKey = "edge_overhang_mm"
	LongestStrip    RuleKey = "longest_strip_mm"
	PieceOverlap    RuleKey = "piece_overlap_mm"
	TurnAngle       RuleKey = "turn_angle_deg"
	MostLayers      RuleKey = "most_layers"
	HoleStyle       RuleKey = "hole_style"
	RustHoleStyle   RuleKey = "rusted_hole_style"
	FillOverlap     RuleKey = "fill_overlap_mm"
	FillEdgeOverlap RuleKey = "fill_edge_overlap_mm"
	FillOverhang    RuleKey = "fill_overhang_mm"
	FillOverlay     RuleKey = "fill_overlay"
	OverlayMargin   RuleKey = "overlay_margin_mm"
	GuardWidth      RuleKey = "guard_width_mm"
	GuardLength     RuleKey = "guard_length_minus_leaf_mm"
	GuardSpan       RuleKey = "guard_span"
	GuardSide       RuleKey = "guard_side"
	SecondMargin    RuleKey = "second_side_extra_mm"
	EdgePiece       RuleKey = "edge_piece_mm"
	EdgePieceOn     RuleKey = "edge_piece"
	TabLength       RuleKey = "handling_tab_mm"
	BridgeLength    RuleKey = "bridge_length_mm"
	BridgeWidth     RuleKey = "bridge_width_mm"
	BridgeSpacing   RuleKey = "bridge_spacing_mm"
	NickGap         RuleKey = "nick_gap_mm"
	NickDepth       RuleKey = "nick_depth_mm"
	ShapeTolerance  RuleKey = "shape_tolerance_mm"
	ShapeRadius     RuleKey = "shape_radius_mm"
	EdgeReach       RuleKey = "edge_reach_mm"
	TearStyle       RuleKey = "tear_style"
	SplitStyle      RuleKey = "split_style"
	AtFold          RuleKey = "at_fold"
	LossStyle       RuleKey = "loss_style"
	DefaultSide     RuleKey = "default_side"
	GrainRule       RuleKey = "tear_grain"
	GrainTolerance  RuleKey = "grain_tolerance_deg"
	WetAcross       RuleKey = "wet_growth_across_percent"
	WetAlong        RuleKey = "wet_growth_along_percent"
	TrimUp          RuleKey = "trim_up"
	Fringe          RuleKey = "fringe_mm"
	CutGap          RuleKey = "cut_gap_mm"
	KeepWidth       RuleKey = "keep_width_mm"
	KeepLength      RuleKey = "keep_length_mm"
	CutWorth        RuleKey = "cut_worth_mm2"
	SettingWorth    RuleKey = "ruler_setting_worth_mm2"
	LargestWorth    RuleKey = "largest_remnant_percent"
	SpareShare      RuleKey = "spare_percent"
	HeavyShare      RuleKey = "heavy_tissue_percent"
	PasteStrength   RuleKey = "paste_strength_percent"
	BulkDensity     RuleKey = "powder_bulk_g_per_ml"
	WetCoat         RuleKey = "wet_coat_g_per_m2"
	Spreading       RuleKey = "spreading_factor"
	CookingLoss     RuleKey = "cooking_loss_percent"
	SievingLoss     RuleKey = "sieving_loss_percent"
	Thinning        RuleKey = "thinning_water_parts"
	SmallestBatch   RuleKey = "smallest_batch_g"
	PasteWarn       RuleKey = "paste_warn_days"
	PasteExpire     RuleKey = "paste_expire_days"
	UnderWeight     RuleKey = "under_weight_h"
	ScaleTolerance  RuleKey = "scale_tolerance_percent"
	AcceptPPI       RuleKey = "accept_ppi"
	BlottersPerLeaf RuleKey = "blotters_per_leaf"
	InterleavesEach RuleKey = "interleaves_per_leaf"
	PressAfterDays  RuleKey = "press_after_last_mend_days"
	MostDampHours   RuleKey = "longest_damp_h"
	SetupMinutes    RuleKey = "setup_per_leaf_min"
	NickMinutes     RuleKey = "small_mend_min"
	TearMinutes     RuleKey = "tear_mend_min"
	FillMinutes     RuleKey = "fill_min"
	GuardMinutes    RuleKey = "guard_min"
	WorkHours       RuleKey = "work_hours_per_day"
)

const noSource = "common practice, no source"

// Sources named by the defaults, in short; DEVELOPERS.md has the full list.
const (
	srcDartmouth = "Dartmouth College Library, A Simple Book Repair Manual (1996)"
	srcNAA       = "National Archives of Australia, preservation blog, ch. 11 (2012)"
	srcBonaDea   = "A. BonaDea, Repairing Paper Tears with Japanese Tissue"
	srcCockerell = "D. Cockerell, Bookbinding, and the Care of Books (1901)"
	srcBrown     = "M. W. Brown, Mending and Repair of Books, ALA (1921)"
	srcWashi     = "online course Japanese Book and Paper, on Library of Congress treatments"
	srcColbourne = "notes on a demonstration by J. Colbourne (2013)"
	srcGBW       = "Guild of Book Workers Newsletter 115 (1997)"
	srcRoberts   = "Roberts and Etherington, Bookbinding and the Conservation of Books (1982)"
)

var ruleTable = []Rule{
	num(SideMargin, "Tears", "Margin each side of a tear", "mm", 5, 2, 10, "from whole strips of 10 to 13 mm: "+srcNAA+"; "+srcDartmouth),
	num(StripWidth, "Tears", "Width of a straight strip", "mm", 10, 4, 20, "10 mm: "+srcNAA+"; ½ in: "+srcDartmouth),
	num(WidestStrip, "Tears", "Widest a strip may get where the tear wanders", "mm", 16, 6, 40, "⅝ in, the narrowest ready-made repair tape: "+srcBonaDea),
	num(EndMargin, "Tears", "Past the blind end of a tear", "mm", 5, 2, 10, "“slightly longer”: "+srcDartmouth+"; the number is "+noSource),
	num(EdgeOverhang, "Tears", "Past the leaf's edge, trimmed when dry", "mm", 10, 3, 15, "⅜ in: "+srcBonaDea),
	num(LongestStrip, "Tears", "Longest single strip", "mm", 75, 30, 150, "3 in: "+srcBonaDea),
	num(PieceOverlap, "Tears", "Overlap of neighbouring pieces", "mm", 3, 1, 6, noSource),
	num(TurnAngle, "Tears", "New strip when the tear turns by more than", "°", 30, 15, 60, "one direction at a time: "+srcDartmouth+"; the angle is "+noSource),
	choice(TearStyle, "Tears", "Style for tears", string(Shaped), "following the tear: New York Society Library (2014); straight strips: "+srcDartmouth, Shaped, Strips, Bridges),
	choice(EdgePieceOn, "Tears", "Second small piece where a tear meets the edge", "no", "weak spot at the edge: "+srcCockerell, "no", "yes"),
	num(EdgePiece, "Tears", "Size of that second piece", "mm", 10, 5, 20, noSource),
	num(SecondMargin, "Tears", "Second side wider by, each side", "mm", 2, 0, 5, "not ending on the same line: "+srcBonaDea+"; the number is "+noSource),
	num(TabLength, "Tears", "Bare tab to hold the strip, cut off when dry", "mm", 0, 0, 10, "a volunteer's preservation-lab blog (2013); the number is "+noSource),
	num(BridgeLength, "Bridges", "Length of a bridge, across the tear", "mm", 20, 8, 40, "bridges: Canterbury Cathedral, Solving Paper Problems; sizes are "+noSource),
	num(BridgeWidth, "Bridges", "Width of a bridge", "mm", 10, 4, 20, noSource),
	num(BridgeSpacing, "Bridges", "From one bridge to the next", "mm", 27, 12, 60, noSource),
	num(NickGap, "Edges", "Nicks closer than this share one strip", "mm", 10, 2, 30, "one strip for many nicks: "+srcNAA+"; numbers are "+noSource),
	num(NickDepth, "Edges", "Deepest nick that an edge strip takes", "mm", 5, 1, 15, noSource),
	num(EdgeReach, "Edges", "A trace ending this near the edge is at the edge", "mm", 2, 0, 6, noSource),
	choice(LossStyle, "Losses", "Style for losses", string(Infill), "filling with matching paper: "+srcCockerell, Infill, Overlay),
	choice(HoleStyle, "Losses", "Style for holes", string(Infill), "as for losses: "+srcCockerell, Infill, Overlay),
	choice(RustHoleStyle, "Losses", "Style for rusted holes of staples", string(Overlay), "light tissue that spans the eaten rim: "+noSource, Overlay, Infill),
	num(FillOverlap, "Losses", "Thinned overlap of an infill onto sound paper", "mm", 2, 1, 5, "2 mm: "+srcWashi+"; ⅛ in: "+srcCockerell),
	num(FillEdgeOverlap, "Losses", "The same where the seam meets the edge", "mm", 2, 1, 8, "larger at the edge: "+srcCockerell+"; 5 mm is "+noSource),
	num(FillOverhang, "Losses", "Infill past the true edge, trimmed when dry", "mm", 10, 3, 15, "as for tears: "+srcBonaDea),
	choice(FillOverlay, "Losses", "Light overlay over an infill", "none", noSource, "none", "same side", "other side", "both sides"),
	num(OverlayMargin, "Losses", "Margin of an overlay", "mm", 5, 2, 10, "as the side margin of tears"),
	choice(SplitStyle, "Folds", "Style for splits", string(Strips), noSource, Strips, Guard),
	choice(AtFold, "Folds", "Pieces for tears and weak areas beside the fold", "go across", noSource, "go across", EndsAtFold),
	num(GuardWidth, "Folds", "Width of a guard, both leaves together", "mm", 20, 10, 40, "½ in: "+srcBrown+"; ¾ in: a binders' forum (2025)"),
	num(GuardLength, "Folds", "Length of a guard against the leaf's height", "mm", -2, -4, 20, "slightly shorter: "+srcGBW+"; a little longer: "+srcCockerell),
	choice(GuardSpan, "Folds", "A guard runs over", "the whole fold", noSource, "the whole fold", "the split only"),
	choice(GuardSide, "Folds", "Side of guards", "by place", "outermost bifolium inside, others outside: "+srcCockerell+"; "+srcRoberts, "by place", "inside", "outside"),
	choice(DefaultSide, "Sides", "Side when nothing speaks for one", string(Back), "as a rule the back: "+srcCockerell, Front, Back),
	num(MostLayers, "Sides", "Most layers of tissue at one point", "", 3, 2, 4, srcColbourne),
	choice(GrainRule, "Grain", "Grain of pieces for tears", "along the strip", "strips along the grain: "+srcBrown+"; "+srcDartmouth, "along the strip", "as the leaf", "free"),
	num(GrainTolerance, "Grain", "Grain may differ by", "°", 10, 0, 45, noSource),
	num(WetAcross, "Grain", "A wet leaf grows across its grain by", "%", 2.5, 0, 6, "2 to 3 %: Book Arts mailing list, June 2000; 3.4 % measured: Ritsumeikan University Art Research Center (2007)"),
	num(WetAlong, "Grain", "A wet leaf grows along its grain by", "%", 0.25, 0, 2, "0.2 to 0.3 %: Book Arts mailing list, June 2000"),
	num(ShapeTolerance, "Shapes", "Outlines simplified within", "mm", 0.5, 0.1, 2, noSource),
	num(ShapeRadius, "Shapes", "Smallest radius a hand can tear", "mm", 3, 0, 8, noSource),
	num(Fringe, "Cutting", "Extra taken by each water-torn edge", "mm", 2, 0, 5, noSource),
	num(CutGap, "Cutting", "Gap between blanks", "mm", 0, 0, 10, noSource),
	num(KeepWidth, "Cutting", "Narrowest remnant worth keeping", "mm", 20, 5, 200, noSource),
	num(KeepLength, "Cutting", "Shortest remnant worth keeping", "mm", 60, 10, 400, noSource),
	num(CutWorth, "Cutting", "Tissue given up for one cut less", "mm²", 0, 0, 5000, noSource),
	num(SettingWorth, "Cutting", "Tissue given up for one ruler setting less", "mm²", 0, 0, 5000, noSource),
	num(LargestWorth, "Cutting", "Share of the largest remnant that counts as saved", "%", 50, 0, 100, noSource),
	num(SpareShare, "Cutting", "Spare tissue to have at hand", "%", 10, 0, 100, noSource),
	num(HeavyShare, "Tissue", "Tissue is heavy from this share of the leaf's weight", "%", 50, 20, 100, "weaker and lighter than the leaf: S. Fain, West Dean College; the share is "+noSource),
	num(PasteStrength, "Paste", "Starch in paste as cooked, by mass", "%", 12, 5, 20, "12.5 %: Library of Congress recipe (AIC Wiki, 2015); 11.5 %: E. Morse, Abbey Newsletter 19(5)"),
	num(BulkDensity, "Paste", "Powder, loosely filled", "g/mL", 0.55, 0.4, 0.7, "worked out from three published recipes by mass against 1 : 4 by volume"),
	num(WetCoat, "Paste", "Wet paste on the tissue", "g/m²", 100, 50, 200, "no published figure; from film thickness, "+noSource),
	num(Spreading, "Paste", "Paste spread out for each part used", "×", 2.5, 1, 5, noSource),
	num(CookingLoss, "Paste", "Lost in cooking", "%", 15, 0, 40, noSource),
	num(SievingLoss, "Paste", "Lost in sieve and brush", "%", 10, 0, 40, noSource),
	num(Thinning, "Paste", "Water to one part of paste, for use", "parts", 0.5, 0, 2, "thinned to a cream: Metropolitan Museum of Art recipe; the ratio is "+noSource),
	num(SmallestBatch, "Paste", "Smallest batch that cooks well", "g", 100, 80, 250, "82 g: BonaDea, Wheat Paste Recipes (2013); 200 g: The Book and Paper Gathering (2016)"),
	num(PasteWarn, "Paste", "Paste is old after", "days", 4, 1, 20, "3 to 4 days chilled: BonaDea, Wheat Paste Recipes"),
	num(PasteExpire, "Paste", "Paste is thrown away after", "days", 7, 1, 20, "up to a week: Metropolitan Museum of Art recipe"),
	choice(TrimUp, "Drying", "Facing you when overhangs are trimmed", "the tissue", noSource, "the tissue", "the leaf"),
	num(UnderWeight, "Drying", "Time under weight", "h", 12, 0.5, 24, "one night in the press: "+srcCockerell),
	num(BlottersPerLeaf, "Drying", "Blotters for each leaf", "", 2, 1, 8, noSource+"; stack of non-stick sheet, blotter, board, weight: "+srcBonaDea),
	num(InterleavesEach, "Drying", "Non-stick sheets for each leaf", "", 2, 0, 8, noSource),
	num(PressAfterDays, "Drying", "In the press after the last mend", "days", 7, 0, 60, noSource),
	num(MostDampHours, "Drying", "Longest time in a damp chamber", "h", 24, 1, 24, "never over 24 h: a preservation blog, Humidifying Documents (2014)"),
	num(SetupMinutes, "Time", "Getting a leaf ready", "min", 15, 0, 120, "15 to 30 min for the first tear with its preparation: a commercial restorer's page"),
	num(NickMinutes, "Time", "A small mend", "min", 4.5, 1, 60, noSource),
	num(TearMinutes, "Time", "A mend of 50 mm", "min", 7.5, 1, 60, noSource),
	num(FillMinutes, "Time", "An infill of 5 cm²", "min", 15, 1, 120, noSource),
	num(GuardMinutes, "Time", "A guard", "min", 11.5, 1, 120, noSource),
	num(WorkHours, "Time", "Hours at the bench in a day", "h", 6, 1, 12, noSource),
	num(ScaleTolerance, "Scale", "Scale doubted beyond", "%", 0.5, 0.1, 2, noSource),
	num(AcceptPPI, "Scale", "Coarsest scan accepted", "ppi", 300, 150, 1200, "documents at three stars, Federal Agencies Digital Guidelines Initiative (from memory)"),
}

func num(key RuleKey, group, words, unit string, def, lo, hi float64, basis string) Rule {
	return Rule{Key: key, Group: group, Words: words, Unit: unit, Default: Num(def), Min: lo, Max: hi, Basis: basis}
}

func choice[T ~string](key RuleKey, group, words, def, basis string, among ...T) Rule {
	r := Rule{Key: key, Group: group, Words: words, Default: Choice(def), Basis: basis}
	for _, c := range among {
		r.Choices = append(r.Choices, string(c))
	}
	return r
}
