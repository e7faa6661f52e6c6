package page

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
	fit     fitcalc.Fit
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

// at evaluates the joint at a hosel OD.
func (w *walker) at(od measure.Length) *fitcalc.Fit {
	to := &w.head.HoselOD
	if w.head.Adapter.Given() {
		to = &w.head.Adapter.TopOD
	}
	*to = to.Shift(od.Sub(to.Nominal()))
	fitcalc.EvaluateInto(&w.fit, &w.head, w.tip, w.ferrule, w.shop)
	return &w.fit
}

// walk returns the course of a ferrule: the windows of the library, parted further where the reasons change.
func (w *walker) walk() ([]leg, error) {
	if r, none := hopeless(w.at(anyOD)); none {
		return []leg{{result: r}}, nil
	}
	windows, err := fitcalc.Windows(w.head, *w.tip, *w.ferrule, *w.shop)
	if err != nil {
		return nil, fmt.Errorf("windows of a ferrule: %w", err)
	}
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

var one = measure.Picometres(1)

// part appends the stretches from one OD to the last of a window. What the reasons depend on changes only once as the hosel
// grows, so that equal reasons at both ends are equal throughout, and the first change is found by bisection.
func (w *walker) part(legs []leg, from, last measure.Length) []leg {
	for {
		here := measuredResultOf(w.at(from))
		legs = append(legs, leg{from: from, result: here})
		if measuredResultOf(w.at(last)) == here {
			return legs
		}
		same, other := from, last
		for one.Less(other.Sub(same)) {
			middle := same.Add(other.Sub(same).Half())
			if measuredResultOf(w.at(middle)) == here {
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

// minutes returns the bench time over a stretch as a line through points: the step, and the time in hundredths of a minute, again
// and again. There are as many points as it takes for the line to be right at every step within a fiftieth of a minute.
func (w *walker) minutes(from, last measure.Length) []int {
	var all [steps + 1]float64
	for i := range all {
		all[i] = w.at(from.Add(last.Sub(from).MulRatio(int64(i), steps))).Work.Minutes
	}
	return bends(all[:], 0, steps, append(make([]int, 0, 8), 0, hundredths(all[0])))
}

// bends appends the points after the first that a line from one step to another needs.
func bends(all []float64, from, to int, points []int) []int {
	worst, at := 0.02, 0
	for i := from + 1; i < to; i++ {
		share := float64(i-from) / float64(to-from)
		if off := math.Abs(all[from] + (all[to]-all[from])*share - all[i]); off > worst {
			worst, at = off, i
		}
	}
	if at == 0 {
		return append(points, to, hundredths(all[to]))
	}
	return bends(all, at, to, bends(all, from, at, points))
}

func hundredths(minutes float64) int { return int(math.Round(minutes * 100)) }
