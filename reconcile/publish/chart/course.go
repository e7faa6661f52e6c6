package chart

import (
	"fmt"
	"math"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// leg is a stretch before its outcome has an index.
type leg struct {
	from    measure.Length
	result  result
	minutes []int
}

// walker finds the courses of ferrules on one hosel and tip.
type walker struct {
	head    fitcalc.Head // with a hosel OD of which only the deviations count
	tip     *fitcalc.Tip
	ferrule *fitcalc.Ferrule
	shop    *fitcalc.Shop
	// hosels decides the joint under way on a hosel of any OD.
	hosels *fitcalc.Hosels
	// brief asks for short results, and for bench times to a tenth of a minute: what a page without room has.
	brief bool
}

// anyOD is the OD of a hosel whose OD is left open. It is large enough for any recess; only its deviations count.
var anyOD = measure.Millimetres(1900)

// open returns a head whose hosel has the tolerance of one that was measured and an OD that is left open. What has no bearing
// on the verdict is left out, so that few heads differ.
func open(h fitcalc.Head, tolerance measure.Length) fitcalc.Head {
	od := measure.PlusMinus(anyOD, tolerance).WithOrigin(measure.Measured)
	if h.Adapter.Given() {
		h.Adapter.TopOD, h.HoselOD = od, measure.Dim{}
	} else {
		h.HoselOD = od
	}
	h.HoselLength, h.NeckTop, h.Category = measure.Dim{}, measure.Dim{}, fitcalc.AnyCategory
	return h
}

// walk returns the course of a ferrule: the windows of the library, parted further where the reasons change.
func (w *walker) walk() ([]leg, error) {
	var fit fitcalc.Fit
	fitcalc.EvaluateInto(&fit, &w.head, w.tip, w.ferrule, w.shop) // at anyOD
	if r, none := hopeless(&fit); none {
		return []leg{{result: r}}, nil
	}
	w.hosels = fitcalc.NewHosels(&w.head, w.tip, w.ferrule, w.shop)
	windows := w.hosels.Windows()
	var legs []leg
	for i, window := range windows {
		from := window.HoselOD.Lower().At()
		last := measure.Millimetres(2000)
		if i+1 < len(windows) {
			last = windows[i+1].HoselOD.Lower().At().Sub(one)
		}
		legs = w.part(legs, from, last)
	}
	for i := range legs {
		if !legs[i].result.verdict.Fits() {
			continue
		}
		if i+1 == len(legs) {
			return nil, fmt.Errorf("a ferrule fits hosels without end, from %v on", legs[i].from)
		}
		legs[i].minutes = w.minutes(legs[i].from, legs[i+1].from.Sub(one))
	}
	return legs, nil
}

// result is what becomes of the ferrule at a hosel OD.
func (w *walker) result(od measure.Length) result {
	r := measuredResultOf(w.hosels.At(od))
	if w.brief {
		r.shorten()
	}
	return r
}

var one = measure.Picometres(1)

// part appends the stretches from one OD to the last of a window. What the reasons depend on changes only once as the hosel
// grows, so that equal reasons at both ends are equal throughout, and the first change is found by bisection.
func (w *walker) part(legs []leg, from, last measure.Length) []leg {
	for {
		here := w.result(from)
		legs = append(legs, leg{from: from, result: here})
		if w.result(last) == here {
			return legs
		}
		same, other := from, last
		for one.Less(other.Sub(same)) {
			middle := same.Add(other.Sub(same).Half())
			if w.result(middle) == here {
				same = middle
			} else {
				other = middle
			}
		}
		from = other
	}
}

// steps is into how many equal steps a stretch is parted to find where its bench time bends.
const steps = 64

// straight is by how many minutes the bench time may lie off a line where it counts as one, and where the page is brief.
const straight, straightEnough = 0.02, 0.1

// minutes returns the bench time over a stretch as a line through points: the step, and the time in hundredths of a minute, again
// and again. The time grows smoothly with what comes off, and bends most where a verdict is about to change: a part is as good as a line
// where it is one in its middle and ever nearer to its ends.
func (w *walker) minutes(from, last measure.Length) []int {
	known := [steps + 1]float64{}
	time := func(step int) float64 {
		if known[step] == 0 {
			known[step] = w.hosels.MinutesAt(from.Add(last.Sub(from).MulRatio(int64(step), steps)))
		}
		return known[step]
	}
	allowed := straight
	if w.brief {
		allowed = straightEnough
	}
	return bends(time, allowed, 0, steps, append(make([]int, 0, 8), 0, hundredths(time(0))))
}

// bends appends the points after the first that a line from one step to another needs to lie off by no more than is allowed.
func bends(time func(step int) float64, allowed float64, from, to int, points []int) []int {
	first, slope := time(from), (time(to)-time(from))/float64(to-from)
	worst, at := allowed, 0
	look := func(step int) {
		if off := math.Abs(first + slope*float64(step-from) - time(step)); off > worst {
			worst, at = off, step
		}
	}
	for reach := (to - from) / 2; reach > 0; reach /= 2 {
		look(from + reach)
		look(to - reach)
	}
	if at == 0 {
		return append(points, to, hundredths(time(to)))
	}
	return bends(time, allowed, at, to, bends(time, allowed, from, at, points))
}

func hundredths(minutes float64) int { return int(math.Round(minutes * 100)) }
