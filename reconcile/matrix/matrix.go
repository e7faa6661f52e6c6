// Package matrix decides every head of a catalogue against every ferrule, without looking at every pair: ferrules are
// sorted by bore and base OD, and only those within reach of a head are evaluated. Pairs out of reach are counted, so
// that pairs listed plus pairs out of range are always heads times ferrules.
package matrix

import (
	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
)

// Pair is one head on one tip with one ferrule, decided. It is kept small; [Result.Fit] gives the whole answer.
type Pair struct {
	// Head, Ferrule and Tip are indexes into the catalogue's Heads and Ferrules and the result's Tips.
	Head, Ferrule, Tip int32
	Verdict            fitcalc.Verdict
	// TurnDown is the nominal turn-down on the diameter.
	TurnDown measure.Length
	// Minutes is the mean bench time.
	Minutes float32
	// Miss is how far a pair that does not fit is from fitting, in mm on the diameter, zero for pairs that fit.
	Miss float32
}

// Tip is a tip on which heads were decided.
type Tip struct {
	// Name is the tip as people say it: .370 parallel.
	Name string
	Tip  fitcalc.Tip
}

// Result is the matrix of a catalogue.
type Result struct {
	Catalogue *catalog.Catalogue
	Shop      fitcalc.Shop
	Tips      []Tip
	// Pairs are the pairs in reach, by head, and for each head the best first.
	Pairs []Pair
	// OutOfRange is how many pairs of head and ferrule are plainly out of range.
	OutOfRange int
	// HeadTips says for each head on which tips it was decided, and HeadTipWhy from what they were taken.
	HeadTips   [][]int32
	HeadTipWhy []string
}
