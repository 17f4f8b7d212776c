package course

// caco3Equivalent is the mass of calcium carbonate that neutralises one mole
// of acid, g: half of 100.087 g/mol.
const caco3Equivalent = 100.087 / 2

// ReserveTarget is the alkaline reserve to aim at, per cent of calcium
// carbonate by mass: the lower end of 2 to 3 % in a text on alkalising, and
// what the standard for permanent paper asks for (ISO 9706, from memory).
const ReserveTarget = 2.0

// ReserveMeq returns an alkaline reserve of so many per cent of calcium
// carbonate by mass as milliequivalents to the kilogram of paper.
func ReserveMeq(percent float64) float64 { return percent / 100 * 1e6 / caco3Equivalent }
