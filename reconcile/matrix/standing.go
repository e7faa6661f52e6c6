package matrix

import "example.com/seatline/fitcalc"

// Standing is what a result means for one head.
type Standing uint8

const (
	// Served is a head that at least one ferrule fits, whichever of its pieces comes to the bench.
	Served Standing = iota
	// Selective is a head of which at least one ferrule fits some pieces, and none fits all: they have to be measured first.
	Selective
	// Undecided is a head that no ferrule is known to fit, and at least one may.
	Undecided
	// Unserved is a head that no ferrule fits.
	Unserved
	// TakesNone is a head that takes no ferrule.
	TakesNone
)

// String returns the standing as an adjective: served, selective, undecided, unserved or bare.
func (s Standing) String() string {
	switch s {
	case Served:
		return "served"
	case Selective:
		return "selective"
	case Undecided:
		return "undecided"
	case Unserved:
		return "unserved"
	case TakesNone:
		return "bare"
	}
	return ""
}

// Standing returns what the result means for a head: where [Result.Best] finds no pair, why.
func (r *Result) Standing(head int) Standing {
	switch d := &r.decided[r.ofHeads.of[head]]; {
	case d.tally.serves() > 0:
		return Served
	case d.tally[fitcalc.Measure] > 0:
		return Selective
	case r.heads[head].Top == fitcalc.TopRounded || d.tally[fitcalc.Bare] > 0:
		return TakesNone
	case d.tally[fitcalc.Ask] > 0:
		return Undecided
	}
	return Unserved
}
