package pdf

import "leafmend/mendplan/phrase"

// Printer says how long the two check bars of an earlier print came out on
// paper, in millimetres. The zero value is a printer that is true.
type Printer struct{ BarAcross, BarUpright float64 }

// Bars that came out further from 100 mm than this were printed fitted to the
// page, and no correction is right for the next print (common practice, no
// source).
const (
	leastBar = 90.0
	mostBar  = 110.0
)

// Check returns an error when a bar cannot have measured that.
func (p Printer) Check() error {
	for _, bar := range []struct {
		which phrase.Phrase
		mm    float64
	}{{phrase.Of("across"), p.BarAcross}, {phrase.Of("upright"), p.BarUpright}} {
		if bar.mm != 0 && !(bar.mm >= leastBar && bar.mm <= mostBar) {
			return phrase.Errorf("the bar %s cannot have measured %g mm: it is 100 mm on a true printer; between %g and %g mm can be corrected, beyond that print at 100 %% and not fitted to the page, then measure again", bar.which, bar.mm, leastBar, mostBar)
		}
	}
	return nil
}

// factors are what sizes must be multiplied by for this printer.
func (p Printer) factors() (across, upright float64) {
	across, upright = 1, 1
	if p.BarAcross > 0 {
		across = barLength / p.BarAcross
	}
	if p.BarUpright > 0 {
		upright = barLength / p.BarUpright
	}
	return across, upright
}

// corrected reports whether the printer is known to be off.
func (p Printer) corrected() bool {
	x, y := p.factors()
	return x != 1 || y != 1
}

// printerWords say on the page that it is made for one printer.
func (b *book) printerWords() string {
	x, y := b.opt.Printer.factors()
	return b.say("Corrected for a printer whose bars measured %.1f mm across and %.1f mm upright: on it these bars measure 100 mm.", barLength/x, barLength/y)
}
