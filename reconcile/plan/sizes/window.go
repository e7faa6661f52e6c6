package sizes

import (
	"slices"

	"example.com/seatline/fitcalc/measure"
)

// window sums what a run of heads costs when all take one size b: Σ w (fixed − rate d) + b Σ w rate over those that are not flush with
// it. Where the flush limits are in the order of the heads, the flush ones are the last of the run, and the sum is a difference of
// two prefix sums. Otherwise the heads of the run are kept in a tree by flush limit (P. M. Fenwick 1994, "A new data structure for
// cumulative frequency tables", Software: Practice and Experience 24, 327-336); since divide and conquer moves the ends of the run by
// n log n in all, that costs one more log n.
type window struct {
	size []float64 // in mm above the smallest, by size

	constant, slope []float64 // by head; prefix sums where ordered
	ordered         bool
	flushFrom       []int // by size: where ordered, the first head that is flush with it
	rank            []int // by head: the place of its flush limit
	tooSmall        []int // by size: how many flush limits are below it

	from, to int
	tree     [][2]float64
}

func (w *window) init(p *program) {
	n := len(p.heads)
	w.size = make([]float64, len(p.sizes))
	var zero measure.Length
	if n > 0 {
		zero = p.sizes[1]
	}
	for j, b := range p.sizes {
		w.size[j] = b.Sub(zero).Millimetres()
	}
	limits := make([]measure.Length, n)
	w.constant, w.slope = make([]float64, n), make([]float64, n)
	for i, h := range p.heads {
		limits[i] = h.flush()
		w.slope[i] = h.Yearly * h.Rate
		w.constant[i] = h.Yearly*h.Fixed - w.slope[i]*h.OD.Sub(zero).Millimetres()
	}
	sorted := slices.SortedFunc(slices.Values(limits), measure.Length.Compare)
	w.tooSmall = make([]int, len(p.sizes))
	for j, b := range p.sizes {
		w.tooSmall[j], _ = slices.BinarySearchFunc(sorted, b, measure.Length.Compare)
	}
	if w.ordered = slices.IsSortedFunc(limits, measure.Length.Compare); w.ordered {
		w.flushFrom = w.tooSmall
		w.constant, w.slope = prefix(w.constant), prefix(w.slope)
		return
	}
	w.rank = make([]int, n)
	for i, l := range limits {
		w.rank[i], _ = slices.BinarySearchFunc(sorted, l, measure.Length.Compare)
	}
	w.tree = make([][2]float64, n+1)
}

func prefix(x []float64) []float64 {
	sums := make([]float64, len(x)+1)
	for i, v := range x {
		sums[i+1] = sums[i] + v
	}
	return sums
}

// cost is what the heads from one to before the other cost with size j.
func (w *window) cost(from, to, j int) float64 {
	if w.ordered {
		to = min(to, w.flushFrom[j])
		if from >= to {
			return 0
		}
		return w.constant[to] - w.constant[from] + w.size[j]*(w.slope[to]-w.slope[from])
	}
	w.move(from, to)
	sum := [2]float64{}
	for k := w.tooSmall[j]; k > 0; k &= k - 1 {
		sum[0] += w.tree[k][0]
		sum[1] += w.tree[k][1]
	}
	return sum[0] + w.size[j]*sum[1]
}

func (w *window) move(from, to int) {
	for w.from > from {
		w.from--
		w.put(w.from, 1)
	}
	for w.to < to {
		w.put(w.to, 1)
		w.to++
	}
	for w.from < from {
		w.put(w.from, -1)
		w.from++
	}
	for w.to > to {
		w.to--
		w.put(w.to, -1)
	}
}

func (w *window) put(head int, sign float64) {
	for k := w.rank[head] + 1; k < len(w.tree); k += k & -k {
		w.tree[k][0] += sign * w.constant[head]
		w.tree[k][1] += sign * w.slope[head]
	}
}
