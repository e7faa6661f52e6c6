package say

import (
	"fmt"
	"strings"

	"example.com/seatline/fitcalc"
)

// traits are the cases that a reason is, by which its sentence is chosen.
type traits uint16

const (
	zero traits = 1 << iota
	negative
	without
	some
	blocks
	measures
	prepares
	measured
	closeBy
	top
	all
	adapter
)

// traitNames are the cases as keys name them, those first that decide between two keys.
var traitNames = [...]struct {
	trait       traits
	name, means string
}{
	{zero, "zero", "the first number of the reason is nothing"},
	{negative, "negative", "the first number is negative: undersize, play, no clearance"},
	{without, "without", "a length that need not be there is not: a length of grip, a counterbore, a wall that is left"},
	{some, "some", "the usual collar seats, and some do not"},
	{blocks, "no", "the joint does not fit for it"},
	{measures, "measure", "some pieces suit, and have to be measured for it"},
	{prepares, "prep", "it asks for work"},
	{measured, "measured", "what would have to be measured was"},
	{closeBy, "close", "hardly any are beyond the limit, and calipers cannot tell which"},
	{top, "top", "the top has no countersink"},
	{all, "all", "it is so of all joints"},
	{adapter, "adapter", "the ferrule sits on an adapter"},
}

// Traits returns the names of the cases that the keys of sentences are made of, those first that decide between two keys.
func Traits() []string {
	var names []string
	for _, t := range traitNames {
		names = append(names, t.name)
	}
	return names
}

// parseTraits reads the cases at the end of a key: .prep.some.
func parseTraits(key string) (traits, error) {
	var found traits
	for _, name := range strings.FieldsFunc(key, func(c rune) bool { return c == '.' }) {
		known := false
		for _, t := range traitNames {
			if t.name == name {
				found, known = found|t.trait, true
			}
		}
		if !known {
			return 0, fmt.Errorf("%q is no case; there are %s", name, strings.Join(Traits(), " "))
		}
	}
	return found, nil
}

// allOf is the share of joints from which on it is said of all: their part that is left rounds to none in a hundred.
const allOf = 0.995

func traitsOf(r *fitcalc.Reason, numbers []fitcalc.Number) traits {
	t := levelTraits[r.Level]
	if r.Measured {
		t |= measured
	}
	switch r.Field {
	case fitcalc.FieldTop:
		t |= top
	case fitcalc.FieldAdapterOD:
		t |= adapter
	}
	if len(numbers) > 0 {
		switch first := numbers[0].Length; {
		case first.Sign() < 0:
			t |= negative
		case first.IsZero() && r.Code == fitcalc.SeatCollarHigh:
			t |= some
		case first.IsZero():
			t |= zero
		}
	}
	if share, known := find(numbers, "share"); known {
		if share.Ratio >= allOf {
			t |= all
		}
		if risk, known := find(numbers, "risk"); known && t&measures != 0 && share.Ratio <= risk.Ratio {
			t |= closeBy
		}
	}
	lengths := 0
	for _, n := range numbers {
		if n.Kind.IsLength() {
			lengths++
		}
	}
	for n := range r.Code.Numbers() {
		if n.Kind.IsLength() {
			lengths--
		}
	}
	if lengths < 0 || r.Code == fitcalc.SeatCollarHigh && noWall(numbers) {
		t |= without
	}
	return t
}

// noWall reports that no wall is left beside the countersink that a collar takes.
func noWall(numbers []fitcalc.Number) bool {
	wall, known := find(numbers, "wall")
	return known && wall.Length.Sign() <= 0
}

var levelTraits = [...]traits{
	fitcalc.Prepares: prepares, fitcalc.Measures: measures, fitcalc.Blocks: blocks, fitcalc.TakesNone: blocks,
}

func find(numbers []fitcalc.Number, name string) (*fitcalc.Number, bool) {
	for i := range numbers {
		if numbers[i].Name == name {
			return &numbers[i], true
		}
	}
	return nil, false
}
