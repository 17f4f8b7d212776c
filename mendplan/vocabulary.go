package mendplan

// Kinds of damage that are noted with their place but not mended with
// tissue. The words follow the Smithsonian Museum Conservation Institute,
// "Sources of Deterioration and Damage to Paper Materials", J. Murphy's list
// "Paper degradation terminology" (Conservation DistList, 2007) and the AIC
// Book and Paper Group's glossary; definitions are our own.
const (
	Cut           DamageKind = "cut"            // separation with clean hard edges
	Crease        DamageKind = "crease"         // line where fibres were bent and crushed
	Fold          DamageKind = "damaging fold"  // bend with broken fibres, dog-ear
	Abrasion      DamageKind = "abrasion"       // surface worn by rubbing
	Skinning      DamageKind = "skinning"       // top layer pulled off (from memory)
	Delamination  DamageKind = "delamination"   // layers of the sheet parting
	Embrittlement DamageKind = "embrittlement"  // breaks when bent
	Cockling      DamageKind = "cockling"       // waves from uneven wetting
	Foxing        DamageKind = "foxing"         // scattered brown-red spots
	Stain         DamageKind = "stain"          // local colour
	Tideline      DamageKind = "tideline"       // brown rim at the limit of wetting (from memory)
	Offset        DamageKind = "offset"         // image shadow from the facing leaf
	Insects       DamageKind = "insect grazing" // channels or bored holes
	Rodents       DamageKind = "rodent loss"    // toothed loss at an edge
	Flyspeck      DamageKind = "flyspeck"       // small dark glossy dots
	Accretion     DamageKind = "accretion"      // foreign matter on the surface
	Mould         DamageKind = "mould"          // growth or spongy area: see the cautions
	Trimmed       DamageKind = "trimmed"        // edge reduced by cutting
	OldRepair     DamageKind = "old repair"     // earlier mend, tape or its residue (from memory)
	Rust          DamageKind = "rust"           // corrosion of a staple or pin (from memory)
)

// MendedKinds lists the kinds that get mends, in the order of menus.
func MendedKinds() []DamageKind {
	return []DamageKind{Tear, Split, Loss, Hole, RustHole, Nicks, WeakArea}
}

// NotedKinds lists the kinds that are noted only, in the order of menus.
func NotedKinds() []DamageKind {
	return []DamageKind{Crease, Fold, Stain, Tideline, Foxing, Rust, OldRepair, Mould,
		Abrasion, Skinning, Delamination, Embrittlement, Cockling, Offset, Insects,
		Rodents, Flyspeck, Accretion, Cut, Trimmed}
}
