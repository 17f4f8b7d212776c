package mendplan

import "leafmend/mendplan/phrase"

// rustWhy tells what rust asks for before tissue goes on. Rust left in the
// paper goes on eating it, and water carries it about (common practice, no
// source); what to do about it is a conservator's decision.
func (s *site) rustWhy() []phrase.Phrase {
	if s.damage.Kind != RustHole {
		return nil
	}
	return []phrase.Phrase{phrase.Of("take the staple out first, bending its legs up, never pulling; brush loose rust off dry, keep water away from what is left, and ask a conservator where it is heavy (%s)", phrase.Of(noSource))}
}
