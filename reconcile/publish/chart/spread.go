package chart

import (
	"fmt"
	"math"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/stack"
)

// spread is how base OD − hosel OD varies about its middle on a hosel that was measured: what tells how many joints of ten a
// ferrule suits at any OD. Most ferrules of a catalogue share one.
type spread struct {
	// From is the least difference, and Step what lies between one entry of Below and the next.
	From int64 `json:"from"`
	Step int64 `json:"step"`
	// Below are the shares, of ten thousand, of joints with a smaller difference. Between two entries the share is taken to grow evenly,
	// which is right within a thousandth.
	Below []int `json:"below"`
}

// spreadSteps is into how many steps a spread is parted.
const spreadSteps = 64

// spread gives the spread of a base OD its index, -1 where that is not given.
func (b *builder) spread(base measure.Dim) int {
	if !base.Given() {
		return -1
	}
	hosel := measure.PlusMinus(measure.Length{}, b.tolerance)
	sum := stack.Of(base.Shift(base.Middle().Neg())).Minus(hosel)
	width := sum.Most().Sub(sum.Least()).Picometres()
	s := spread{From: sum.Least().Picometres(), Step: (width + spreadSteps - 1) / spreadSteps}
	for i := range int64(spreadSteps + 1) {
		share := sum.Below(measure.Picometres(s.From + i*s.Step))
		s.Below = append(s.Below, int(math.Round(share*10_000)))
	}
	return b.spreads.id(fmt.Sprint(s), s)
}
