package vet

import (
	"cmp"
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/matrix"
)

// Gain is a head of the house for which a new ferrule is better than those in stock.
type Gain struct {
	// Head is an index into the house's heads. Now is the best pair with a ferrule in stock, and HasNow whether there is one; With is
	// the pair with the new ferrule.
	Head   int
	Now    matrix.Pair
	HasNow bool
	With   matrix.Pair
	// Minutes is how much bench time each joint saves, and Turn how much less has to be turned off, nominally and on the
	// diameter; both nothing where nothing fitted before.
	Minutes float64
	Turn    measure.Length
	// Yearly is how many of the head are made in a year, 1 where nothing says it.
	Yearly float64
}

// Use is what one new ferrule is good for.
type Use struct {
	// Ferrule is an index into the new ferrules.
	Ferrule int
	// Fits are how many heads of the house it fits, Best for how many it is the best of the new ones with a gain, New of
	// these that nothing in stock fits, and Minutes what it saves, in a year where yearly numbers are known.
	Fits, Best, New int
	Minutes         float64
}

// FerruleGains is what new ferrules gain.
type FerruleGains struct {
	// Heads is how many heads the house has that take a ferrule at all as far as is known, Before how many of them have one in stock
	// and After how many with the new ones.
	Heads, Before, After int
	// Gains are the heads that gain, those that could not be built first, then by what they save.
	Gains []Gain
	// Uses has an entry for each new ferrule, in the order of its sheet.
	Uses []Use
	// Minutes is what all save, in a year where Weighted is set, and otherwise when each head is built once.
	Minutes  float64
	Weighted bool
}

// New returns how many heads can be built that could not.
func (g FerruleGains) New() int {
	count := 0
	for _, gain := range g.Gains {
		if !gain.HasNow {
			count++
		}
	}
	return count
}

// Faster returns how many heads take less bench time than before.
func (g FerruleGains) Faster() int { return len(g.Gains) - g.New() }

// leastSaving is the bench time in minutes below which nothing is saved: a tenth of a second, the noise of single precision and less than
// anybody can time.
const leastSaving = 0.1 / 60

// serving is the best pair of a head that suits all of its pieces.
func serving(r *matrix.Result, head int) (matrix.Pair, bool) {
	best, fits := r.Best(head)
	return best, fits && best.Verdict.Serves()
}

func gains(house, fits *matrix.Result, yearly []float64) FerruleGains {
	g := FerruleGains{Uses: make([]Use, len(fits.Catalogue.Ferrules)), Weighted: yearly != nil}
	for i := range g.Uses {
		g.Uses[i].Ferrule, g.Uses[i].Fits = i, fits.FerruleServes(i)
	}
	for head := range house.Catalogue.Heads {
		if house.Catalogue.Heads[head].Head.Top == fitcalc.TopRounded {
			continue
		}
		g.Heads++
		gain := Gain{Head: head, Yearly: 1}
		if yearly != nil {
			gain.Yearly = yearly[head]
		}
		var fitsNew bool
		gain.Now, gain.HasNow = serving(house, head)
		gain.With, fitsNew = serving(fits, head)
		if gain.HasNow {
			g.Before++
		}
		if gain.HasNow || fitsNew {
			g.After++
		}
		if fitsNew && gain.measure() {
			g.add(gain)
		}
	}
	slices.SortStableFunc(g.Gains, compareGains)
	return g
}

// measure works out what is gained, and reports whether it is anything.
func (g *Gain) measure() bool {
	if !g.HasNow {
		return true
	}
	g.Minutes = float64(g.Now.Minutes) - float64(g.With.Minutes)
	g.Turn = g.Now.TurnDown.Sub(g.With.TurnDown)
	return g.Minutes > leastSaving
}

func (g *FerruleGains) add(gain Gain) {
	use := &g.Uses[gain.With.Ferrule]
	use.Best++
	if !gain.HasNow {
		use.New++
	}
	use.Minutes += gain.Minutes * gain.Yearly
	g.Minutes += gain.Minutes * gain.Yearly
	g.Gains = append(g.Gains, gain)
}

func compareGains(a, b Gain) int {
	if a.HasNow != b.HasNow {
		if a.HasNow {
			return 1
		}
		return -1
	}
	return cmp.Or(cmp.Compare(b.Minutes*b.Yearly, a.Minutes*a.Yearly), cmp.Compare(a.Head, b.Head))
}
