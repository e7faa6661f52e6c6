package fitcalc

import (
	"math"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/stack"
)

// normal is a − k b for two independent dimensions that are both spread normally, in picometres. That is the common case, and
// it needs none of what makes a [stack.Sum] long; everything else is left to that, and a test holds one against the other.
type normal struct{ mean, sigma float64 }

// normalGap reports false where a − k b is not normal, or is one exact size.
func normalGap(a, b *measure.Dim, k float64) (normal, bool) {
	if a.Shape() != measure.Normal || b.Shape() != measure.Normal {
		return normal{}, false
	}
	wa, wb := float64(a.Width().Picometres()), k*float64(b.Width().Picometres())
	n := normal{
		mean:  (twiceMiddle(a) - k*twiceMiddle(b)) / 2,
		sigma: math.Sqrt(wa*wa+wb*wb) / 6, // the limits are at three standard deviations
	}
	return n, n.sigma > 0
}

func twiceMiddle(d *measure.Dim) float64 {
	return float64(d.Lower().Picometres() + d.Upper().Picometres())
}

// above returns the probability of more than x picometres, below that of less.
func (n normal) above(x float64) float64 { return math.Erfc((x-n.mean)/(n.sigma*math.Sqrt2)) / 2 }
func (n normal) below(x float64) float64 { return math.Erfc((n.mean-x)/(n.sigma*math.Sqrt2)) / 2 }

// meanExcess returns the mean in mm of what lies above x, where above is the probability of that:
// σ (φ(t) − t above) with t = (x − mean)/σ. Far out the two cancel to about a t²-th part of either, and t is below 40 where
// there is anything left, so that seven digits are lost at the most.
func (n normal) meanExcess(x, above float64) float64 {
	t := (x - n.mean) / n.sigma
	density := math.Exp(-t*t/2) / math.Sqrt(2*math.Pi)
	return math.Max(0, n.sigma*(density-t*above)) / pmPerMM
}

const pmPerMM = 1e9

// oddsBelow returns the probability that a − b is less than x.
func oddsBelow(a, b *measure.Dim, x measure.Length) float64 {
	if n, isNormal := normalGap(a, b, 1); isNormal {
		return n.below(float64(x.Picometres()))
	}
	return stack.Of(*a).Minus(*b).Below(x)
}

// flushOdds fills in the probabilities of base − hosel, and the mean of what is turned off: only what stands out by more
// than the step is turned, and then all of it.
func (f *FlushFit) flushOdds(base, hosel *measure.Dim, step, limit measure.Length) {
	n, isNormal := normalGap(base, hosel, 1)
	if !isNormal {
		f.stackOdds(stack.Of(*base).Minus(*hosel), step, limit)
		return
	}
	x := float64(step.Picometres())
	f.Undersize, f.VisibleUndersize, f.VisibleOversize = n.below(0), n.below(-x), n.above(x)
	f.OverTurnLimit = n.above(float64(limit.Picometres()))
	f.MeanTurnDownMM = n.meanExcess(x, f.VisibleOversize) + step.Millimetres()*f.VisibleOversize
}

func (f *FlushFit) stackOdds(s stack.Sum, step, limit measure.Length) {
	f.Undersize, f.VisibleUndersize, f.VisibleOversize = s.Below(measure.Length{}), s.Below(step.Neg()), s.Above(step)
	f.OverTurnLimit = s.Above(limit)
	f.MeanTurnDownMM = s.MeanExcess(step) + step.Millimetres()*f.VisibleOversize
}

// gripOdds fills in the probabilities that the ferrule slips and splits: strain is beyond the limit e where the shaft is
// larger than (1 + e) times the bore.
func (g *GripFit) gripOdds(shaft, bore *measure.Dim, limit float64) {
	n, isNormal := normalGap(shaft, bore, 1)
	beyond, _ := normalGap(shaft, bore, 1+limit)
	if !isNormal {
		g.stackOdds(stack.Of(*shaft), bore, limit)
		return
	}
	g.Slip, g.Split = n.below(0), beyond.above(0)
}

func (g *GripFit) stackOdds(shaft stack.Sum, bore *measure.Dim, limit float64) {
	g.Slip = shaft.Minus(*bore).CDF(measure.Length{})
	g.Split = shaft.Minus(scaled(*bore, 1+limit)).Above(measure.Length{})
}
