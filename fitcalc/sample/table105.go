package sample

import "sort"

// Letter is a sample size code letter. The letters of MIL-STD-105 (attributes) and of MIL-STD-414 (variables) stand
// for different sample sizes: F is 20 pieces here and 10 there.
type Letter byte

// String returns the letter.
func (l Letter) String() string { return string(rune(l)) }

// Level is a general inspection level of MIL-STD-105E, table I.
type Level uint8

const (
	// LevelI takes fewer pieces and tells good lots from bad less well.
	LevelI Level = iota + 1
	// LevelII is used unless something else is said.
	LevelII
	// LevelIII takes more.
	LevelIII
)

// lotSizes are the upper ends of the lot sizes of MIL-STD-105E, table I; larger lots follow.
var lotSizes = []int{8, 15, 25, 50, 90, 150, 280, 500, 1200, 3200, 10_000, 35_000, 150_000, 500_000}

// codeLetters are the columns of MIL-STD-105E, table I. Level II was read in a copy of the table; levels I and III
// are from memory.
var codeLetters = map[Level]string{
	LevelI:   "AABCCDEFGHJKLMN",
	LevelII:  "ABCDEFGHJKLMNPQ",
	LevelIII: "BCDEFGHJKLMNPQR",
}

// CodeLetter returns the code letter for a lot by MIL-STD-105E, table I. Lots have at least two pieces.
func CodeLetter(lot int, level Level) (Letter, error) {
	if err := checkCount("lot size", lot, 2); err != nil {
		return 0, err
	}
	letters, ok := codeLetters[level]
	if !ok {
		return 0, bad("inspection level", float64(level), ErrNoPlan)
	}
	return Letter(letters[sort.SearchInts(lotSizes, lot)]), nil
}

// sampleSizes are those of MIL-STD-105E, table II-A.
var sampleSizes = map[Letter]int{
	'A': 2, 'B': 3, 'C': 5, 'D': 8, 'E': 13, 'F': 20, 'G': 32, 'H': 50, 'J': 80, 'K': 125, 'L': 200, 'M': 315, 'N': 500, 'P': 800, 'Q': 1250, 'R': 2000,
}

// SampleSize returns the sample size of a code letter of MIL-STD-105E.
func SampleSize(l Letter) (int, error) {
	n, ok := sampleSizes[l]
	if !ok {
		return 0, bad("code letter "+l.String(), float64(l), ErrNoPlan)
	}
	return n, nil
}

// The arrows of the tables: use the first plan below, or above, with its own sample size.
const (
	dn = -1
	up = -2
)

var (
	aqls    = []float64{.65, 1.0, 1.5, 2.5, 4.0, 6.5, 10, 15}
	letters = "ABCDEFGHJKLM"
)

// normalPlans are acceptance numbers of MIL-STD-105E, table II-A (single sampling, normal inspection), a row per
// letter from A to M and a column per AQL from .65 to 15. MIL-STD-105E is in the public domain; read in a copy
// published by the National Institute of Building Sciences.
var normalPlans = [12][8]int{
	{dn, dn, dn, dn, dn, 0, up, dn},
	{dn, dn, dn, dn, 0, up, dn, 1},
	{dn, dn, dn, 0, up, dn, 1, 2},
	{dn, dn, 0, up, dn, 1, 2, 3},
	{dn, 0, up, dn, 1, 2, 3, 5},
	{0, up, dn, 1, 2, 3, 5, 7},
	{up, dn, 1, 2, 3, 5, 7, 10},
	{dn, 1, 2, 3, 5, 7, 10, 14},
	{1, 2, 3, 5, 7, 10, 14, 21},
	{2, 3, 5, 7, 10, 14, 21, up},
	{3, 5, 7, 10, 14, 21, up, up},
	{5, 7, 10, 14, 21, up, up, up},
}

// tightenedPlans are the rows of MIL-STD-105E, table II-B (tightened inspection), that could be read: H and J, for
// lots of 281 to 1200 pieces at level II. Where an arrow leads out of them there is no plan here.
var tightenedPlans = map[Letter][8]int{
	'H': {dn, dn, 1, 2, 3, 5, 8, 12},
	'J': {dn, 1, 2, 3, 5, 8, 12, 18},
}

func aqlColumn(aql float64) (int, error) {
	for i, a := range aqls {
		if a == aql {
			return i, nil
		}
	}
	return 0, bad("acceptable quality level in percent", aql, ErrNoPlan)
}

// NormalPlan returns the single sampling plan of MIL-STD-105E, table II-A, for a code letter from A to M and an
// acceptable quality level of .65, 1.0, 1.5, 2.5, 4.0, 6.5, 10 or 15 %, following the arrows: the plan's sample size
// may be that of another letter. Where the sample is as large as the lot, inspect every piece (and see
// [AttributePlan.ForLot]).
func NormalPlan(l Letter, aqlPercent float64) (AttributePlan, error) {
	column, err := aqlColumn(aqlPercent)
	if err != nil {
		return AttributePlan{}, err
	}
	row := -1
	for i := range letters {
		if Letter(letters[i]) == l {
			row = i
		}
	}
	if row < 0 {
		return AttributePlan{}, bad("code letter "+l.String(), float64(l), ErrNoPlan)
	}
	for row >= 0 && row < len(normalPlans) {
		switch ac := normalPlans[row][column]; ac {
		case dn:
			row++
		case up:
			row--
		default:
			return AttributePlan{N: sampleSizes[Letter(letters[row])], C: ac}, nil
		}
	}
	return AttributePlan{}, bad("code letter "+l.String(), float64(l), ErrNoPlan)
}

// TightenedPlan returns the single sampling plan of MIL-STD-105E, table II-B, for the code letters H and J. Others
// are [ErrNoPlan].
func TightenedPlan(l Letter, aqlPercent float64) (AttributePlan, error) {
	column, err := aqlColumn(aqlPercent)
	if err != nil {
		return AttributePlan{}, err
	}
	for {
		row, ok := tightenedPlans[l]
		if !ok {
			return AttributePlan{}, bad("code letter "+l.String(), float64(l), ErrNoPlan)
		}
		if ac := row[column]; ac != dn {
			return AttributePlan{N: sampleSizes[l], C: ac}, nil
		}
		if l == 'J' {
			return AttributePlan{}, bad("code letter "+l.String(), float64(l), ErrNoPlan)
		}
		l = 'J'
	}
}

// ForLot returns p, or where the sample is at least as large as the lot, the inspection of every piece.
func (p AttributePlan) ForLot(lot int) (plan AttributePlan, everyPiece bool) {
	if p.N >= lot {
		return AttributePlan{N: lot, C: p.C}, true
	}
	return p, false
}
