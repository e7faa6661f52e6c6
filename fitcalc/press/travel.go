package press

import (
	"math"
	"slices"

	"example.com/seatline/fitcalc/measure"
)

// TravelPoint is the force at one position while the ferrule is pushed up the tip.
type TravelPoint struct {
	// Base is the position of the ferrule's base above the tip end; negative while the ferrule is not fully on.
	Base measure.Length
	// PushOnN is the axial force in N, as in [Grip].
	PushOnN float64
}

// Travel is the force as the ferrule is pushed up the tip.
type Travel struct {
	// Points run from the ferrule just touching the tip end to where it is to sit.
	Points []TravelPoint
	// Peak is the largest force on the way; it may lie between two points.
	Peak TravelPoint
}

// mostSteps bounds the work of one call.
const mostSteps = 100_000

// PushOn returns the push-on force from the moment the ferrule's upper end meets the tip end until its base is at a
// position above it, at the given number of equal steps and wherever an edge of the ferrule passes a corner of the
// tip. Between those corners the force is smooth, and its peak is refined between the points beside the largest one.
//
// It reports an [*InputError] when steps is not from 1 to 100 000, or the position lies below the tip's end by more
// than the ferrule's length, and the errors of [Assembly.At].
func (a Assembly) PushOn(to measure.Length, steps int) (Travel, error) {
	if steps < 1 || steps > mostSteps {
		return Travel{}, &InputError{Field: "steps", Value: number(float64(steps)), Want: "1 to 100000"}
	}
	start := a.ferrule.Length.Neg()
	if !start.Less(to) {
		return Travel{}, lengthError("to", to, "a base position at which the ferrule is at least partly on the tip")
	}
	var t Travel
	best := 0
	for i, base := range a.stops(start, to, steps) {
		g, err := a.At(base)
		if err != nil {
			return Travel{}, err
		}
		t.Points = append(t.Points, TravelPoint{Base: base, PushOnN: g.PushOnN})
		if g.PushOnN > t.Points[best].PushOnN {
			best = i
		}
	}
	t.Peak = t.Points[best]
	for _, i := range []int{best - 1, best} {
		if i < 0 || i+1 >= len(t.Points) {
			continue
		}
		peak, err := a.peakBetween(t.Points[i].Base, t.Points[i+1].Base)
		if err != nil {
			return Travel{}, err
		}
		if peak.PushOnN > t.Peak.PushOnN {
			t.Peak = peak
		}
	}
	return t, nil
}

// stops returns the base positions to compute at, in order.
func (a Assembly) stops(start, to measure.Length, steps int) []measure.Length {
	stops := make([]measure.Length, 0, steps+1)
	for i := range steps + 1 {
		stops = append(stops, start.Add(to.Sub(start).MulRatio(int64(i), int64(steps))))
	}
	corners := []measure.Length{{}}
	for _, p := range slices.Concat(a.tip.Outside.points, a.tip.Inside.points) {
		corners = append(corners, p.At)
	}
	edges := []measure.Length{{}, a.ferrule.Length}
	for _, p := range slices.Concat(a.ferrule.Bore.points, a.ferrule.Outside.points) {
		edges = append(edges, p.At)
	}
	for _, corner := range corners {
		for _, edge := range edges {
			if base := corner.Sub(edge); start.Less(base) && base.Less(to) {
				stops = append(stops, base)
			}
		}
	}
	slices.SortFunc(stops, measure.Length.Compare)
	return slices.Compact(stops)
}

// peakBetween narrows a maximum by golden section, to about a millionth of the stretch.
func (a Assembly) peakBetween(low, high measure.Length) (TravelPoint, error) {
	const rounds = 30
	ratio := (math.Sqrt(5) - 1) / 2
	force := func(share float64) (TravelPoint, error) {
		base := low.Add(nearestLength(share * high.Sub(low).Millimetres()))
		g, err := a.At(base)
		return TravelPoint{Base: base, PushOnN: g.PushOnN}, err
	}
	from, to := 0.0, 1.0
	var best TravelPoint
	for range rounds {
		left, err := force(to - ratio*(to-from))
		if err != nil {
			return TravelPoint{}, err
		}
		right, err := force(from + ratio*(to-from))
		if err != nil {
			return TravelPoint{}, err
		}
		if left.PushOnN >= right.PushOnN {
			best, to = left, from+ratio*(to-from)
		} else {
			best, from = right, to-ratio*(to-from)
		}
	}
	return best, nil
}
