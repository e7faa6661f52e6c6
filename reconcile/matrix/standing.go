package matrix

import "example.com/seatline/fitcalc"

// Standing is what a result means for one head.
type Standing uint8

const (
	// Served is a head that at least one ferrule fits.
	Served Standing = iota
	// Undecided is a head that no ferrule is known to fit, and at least one may.
	Undecided
	// Unserved is a head that no ferrule fits.
	Unserved
	// TakesNone is a head that takes no ferrule.
	TakesNone
)

// String returns the standing as an adjective: served, undecided, unserved or bare.
func (s Standing) String() string {
	switch s {
	case Served:
		return "served"
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
	asks, bare := false, r.Catalogue.Heads[head].Head.Top == fitcalc.TopRounded
	for _, p := range r.HeadPairs(head) {
		switch {
		case p.Verdict.Fits():
			return Served
		case p.Verdict == fitcalc.Bare:
			bare = true
		case p.Verdict == fitcalc.Ask:
			asks = true
		}
	}
	switch {
	case bare:
		return TakesNone
	case asks:
		return Undecided
	}
	return Unserved
}
