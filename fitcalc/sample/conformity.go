package sample

import "math"

// Result is a measured Value with its standard uncertainty U, in one unit, taken as normal.
type Result struct{ Value, U float64 }

func (r Result) check() error {
	return firstError(checkFinite("measured value", r.Value), checkPositive("standard uncertainty", r.U))
}

// ConformityProbability returns the probability that what was measured lies within the limits: Φ((upper − y)/u) −
// Φ((lower − y)/u). Source: JCGM 106:2012, 7.3 and 7.4, with no prior knowledge worth the name.
func (r Result) ConformityProbability(l Limits) (float64, error) {
	if err := firstError(r.check(), l.check()); err != nil {
		return 0, err
	}
	a, b := (l.Lower-r.Value)/r.U, (l.Upper-r.Value)/r.U
	if a > 0 { // both tails on one side: subtract the small numbers
		return upperTail(a) - upperTail(b), nil
	}
	return upperTail(-b) - upperTail(-a), nil
}

// NonconformityProbability returns the probability that what was measured lies outside the limits, with relative
// precision where it is small.
func (r Result) NonconformityProbability(l Limits) (float64, error) {
	if err := firstError(r.check(), l.check()); err != nil {
		return 0, err
	}
	return l.outside(r.Value, r.U), nil
}

// GuardBand returns how far inside a limit a result must lie for conformity to be proved with the given probability:
// z(probability)·u, for one limit at a time. ISO 14253-1:2017 takes 95 % unless agreed otherwise, that is 1.645 u
// (printed as 1.65 u).
func GuardBand(u, probability float64) (float64, error) {
	if err := firstError(checkPositive("standard uncertainty", u), checkProbability("probability", probability)); err != nil {
		return 0, err
	}
	return zOf(probability) * u, nil
}

// Decision is what a result proves about one piece.
type Decision uint8

const (
	// NotProved is a result so near a limit that it proves neither.
	NotProved Decision = iota
	// Conforms is a result inside both limits by the guard band.
	Conforms
	// DoesNotConform is a result outside a limit by the guard band.
	DoesNotConform
)

// String returns the decision in words.
func (d Decision) String() string {
	switch d {
	case Conforms:
		return "conforms"
	case DoesNotConform:
		return "does not conform"
	}
	return "not proved"
}

// Decide applies the decision rule of ISO 14253-1:2017: the uncertainty counts against whoever gives the proof, so
// the receiver may reject only what lies outside a limit by the guard band, and the supplier may claim only what lies
// inside by as much.
func (r Result) Decide(l Limits, probability float64) (Decision, error) {
	g, err := GuardBand(r.U, probability)
	if err := firstError(r.check(), l.check(), err); err != nil {
		return NotProved, err
	}
	switch {
	case r.Value >= l.Lower+g && r.Value <= l.Upper-g:
		return Conforms, nil
	case r.Value < l.Lower-g || r.Value > l.Upper+g:
		return DoesNotConform, nil
	}
	return NotProved, nil
}

// Acceptance returns the limits moved inward by the guard band, between which a result proves conformity. It reports
// [ErrOrder] when the uncertainty leaves nothing between them.
func (l Limits) Acceptance(u, probability float64) (Limits, error) {
	g, err := GuardBand(u, probability)
	if err := firstError(l.check(), err); err != nil {
		return Limits{}, err
	}
	guarded := Limits{l.Lower + g, l.Upper - g}
	if guarded.Lower > guarded.Upper {
		return Limits{}, bad("guarded lower limit", guarded.Lower, ErrOrder)
	}
	return guarded, nil
}

// unbounded is a limit that does not exist.
var unbounded = math.Inf(1)

// AtLeast returns the limits of what need only be as large as lower.
func AtLeast(lower float64) Limits { return Limits{lower, unbounded} }

// AtMost returns the limits of what need only be as small as upper.
func AtMost(upper float64) Limits { return Limits{-unbounded, upper} }
