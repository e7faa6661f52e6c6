package matrix

import (
	"cmp"

	"example.com/seatline/fitcalc"
)

// comparePairs orders what fits by bench time, what fits measured parts after it, then questions, then what does not fit by how far it is
// out.
func comparePairs(a, b Pair) int {
	if c := cmp.Compare(class(a.Verdict), class(b.Verdict)); c != 0 {
		return c
	}
	return compareWithin(a, b)
}

// worse reports what of comparePairs is quickly seen: that of two pairs that fit one takes more time than the other.
func worse(a, b *Pair) bool {
	return a.Minutes > b.Minutes && a.Verdict.Serves() && b.Verdict.Serves()
}

// compareWithin orders pairs of which none has the better verdict.
func compareWithin(a, b Pair) int {
	if c := cmp.Compare(a.Miss, b.Miss); c != 0 {
		return c
	}
	if a.Verdict != fitcalc.No { // what cannot be built takes no time
		if c := cmp.Compare(a.Minutes, b.Minutes); c != 0 {
			return c
		}
	}
	if c := a.TurnDown.Compare(b.TurnDown); c != 0 {
		return c
	}
	return cmp.Or(cmp.Compare(a.Ferrule, b.Ferrule), cmp.Compare(a.Head, b.Head), cmp.Compare(a.Tip, b.Tip))
}

// compareTips orders the tips of one pair: by verdict, then by what the bench has to do.
func compareTips(a, b Pair) int {
	return cmp.Or(cmp.Compare(a.Verdict, b.Verdict), compareWithin(a, b))
}

// class puts verdicts that serve before those for measured parts, these before questions, those before what does not fit, and heads
// that take none last.
func class(v fitcalc.Verdict) uint8 { return classOf[v] }

var classOf = [...]uint8{fitcalc.Measure: 1, fitcalc.Ask: 2, fitcalc.No: 3, fitcalc.Bare: 4}
