package sizes

import (
	"math"
	"slices"

	"example.com/seatline/fitcalc/measure"
)

// program is the dynamic program. Heads are sorted by Least; size j, counted from 1, is sizes[j], and the heads that could take it first
// are those before below[j] and not before below[j−1].
type program struct {
	curve *Curve

	heads []*Hosel
	sizes []measure.Length
	below []int
	// capped[j] is how many heads, the first ones, have an existing size that is no larger than size j and not below Least; they never
	// take a size above that. keep is the sum of what they cost there, by head.
	capped []int
	keep   []float64
	// stuck counts by head those with no existing size that serves them.
	stuck []int
	// first[j] is the least i for which size j serves everyone above size i.
	first []int

	window window
}

// newProgram sets the hosels aside that nothing serves or that only an existing size does, and sorts the rest.
func newProgram(c *Curve, grid measure.Length) *program {
	p := &program{curve: c}
	for i := range c.hosels {
		h := &c.hosels[i]
		_, kept := p.existing(h)
		switch {
		case !h.Most.Less(roundUp(h.Least, grid)):
			p.heads = append(p.heads, h)
		case !kept:
			c.Unserved = append(c.Unserved, i)
		}
	}
	slices.SortStableFunc(p.heads, func(a, b *Hosel) int { return a.Least.Compare(b.Least) })
	p.sizes, p.below = []measure.Length{{}}, []int{0}
	for i, h := range p.heads {
		if b := roundUp(h.Least, grid); len(p.sizes) == 1 || p.sizes[len(p.sizes)-1] != b {
			p.sizes, p.below = append(p.sizes, b), append(p.below, i)
		}
		p.below[len(p.below)-1] = i + 1
	}
	p.cap()
	p.reach()
	p.window.init(p)
	return p
}

// existing is the next existing size for a head, and whether it serves it.
func (p *program) existing(h *Hosel) (measure.Length, bool) {
	all := p.curve.existing
	at, _ := slices.BinarySearchFunc(all, h.Least, measure.Length.Compare)
	if at == len(all) {
		return measure.Length{}, false
	}
	return all[at], !h.Most.Less(all[at])
}

func (p *program) cap() {
	p.keep, p.stuck, p.capped = make([]float64, len(p.heads)+1), make([]int, len(p.heads)+1), make([]int, len(p.sizes))
	j := len(p.sizes) - 1
	for i, h := range p.heads {
		next, serves := p.existing(h)
		p.keep[i+1], p.stuck[i+1] = p.keep[i], p.stuck[i]
		if serves {
			p.keep[i+1] += h.Yearly * h.cost(next)
		} else {
			p.stuck[i+1]++
		}
	}
	for i := len(p.heads) - 1; i >= 0; i-- { // the next existing size does not fall from head to head
		next, _ := p.existing(p.heads[i])
		for ; j >= 0 && next.Sign() > 0 && !p.sizes[j].Less(next); j-- {
			p.capped[j] = i + 1
		}
	}
}

// reach finds first. A head that no existing size serves is lost from the first size above its Most on.
func (p *program) reach() {
	lost := make([]int, len(p.sizes)+1) // by size, the last head lost there, counted from 1
	for i, h := range p.heads {
		if _, serves := p.existing(h); serves {
			continue
		}
		j, found := slices.BinarySearchFunc(p.sizes, h.Most, measure.Length.Compare)
		if found {
			j++
		}
		lost[j] = max(lost[j], i+1)
	}
	p.first = make([]int, len(p.sizes))
	last, i := 0, 0
	for j := range p.sizes {
		last = max(last, lost[j])
		for p.below[i] < last {
			i++
		}
		p.first[j] = i
	}
}

// cost is C(i, j), for i not below first[j]: what the heads above size i up to size j cost when they take size j or the existing size below
// it.
func (p *program) cost(i, j int) float64 {
	from, to := p.below[i], p.below[j]
	middle := min(max(from, p.capped[j]), to)
	return p.keep[middle] - p.keep[from] + p.window.cost(middle, to, j)
}

// tail is what the heads above size i cost with existing sizes alone.
func (p *program) tail(i int) float64 {
	from, all := p.below[i], len(p.heads)
	if p.stuck[all] > p.stuck[from] {
		return math.Inf(1)
	}
	return p.keep[all] - p.keep[from]
}

// layer is the best cost with a number of sizes of which size j is the largest, and the next smaller one.
type layer struct {
	cost []float64
	back []int32
}

func (p *program) solve(most int) {
	m := len(p.sizes) - 1
	none := layer{cost: slices.Repeat([]float64{math.Inf(1)}, m+1)}
	none.cost[0] = 0
	layers := []layer{none}
	for k := 0; k <= most; k++ {
		if k > 0 && k <= m {
			next := layer{cost: slices.Repeat([]float64{math.Inf(1)}, m+1), back: make([]int32, m+1)}
			p.fill(&layers[k-1], &next, k)
			layers = append(layers, next)
		}
		p.addPoint(k, layers)
	}
}

// fill finds a layer by divide and conquer.
func (p *program) fill(last, next *layer, k int) {
	most := len(p.sizes) - 1
	for most >= 0 && math.IsInf(last.cost[most], 1) {
		most--
	}
	if most < 0 {
		return
	}
	type span struct{ from, to, least, most int }
	work := []span{{k, len(p.sizes) - 1, k - 1, most}}
	for len(work) > 0 {
		s := work[len(work)-1]
		work = work[:len(work)-1]
		if s.from > s.to {
			continue
		}
		j := (s.from + s.to) / 2
		best, at := math.Inf(1), -1
		for i := min(s.most, j-1); i >= max(s.least, p.first[j]); i-- {
			if c := last.cost[i] + p.cost(i, j); c <= best {
				best, at = c, i
			}
		}
		if at < 0 { // size j leaves a gap to what the last layer can reach, and so does every larger one
			work = append(work, span{s.from, j - 1, s.least, s.most})
			continue
		}
		next.cost[j], next.back[j] = best, int32(at)
		work = append(work, span{s.from, j - 1, s.least, at}, span{j + 1, s.to, at, s.most})
	}
}

// addPoint adds the best choice of k sizes. Its cost is summed up anew, from who takes what.
func (p *program) addPoint(k int, layers []layer) {
	points := p.curve.Points
	point := Point{Count: k}
	if k >= len(layers) {
		point = points[k-1]
		point.Count, point.Saves = k, 0
		p.curve.Points = append(points, point)
		return
	}
	best, at := math.Inf(1), -1
	for j, c := range layers[k].cost {
		if t := c + p.tail(j); t < best {
			best, at = t, j
		}
	}
	if at >= 0 {
		point.Feasible = true
		for l := k; l > 0; l-- {
			point.New = append(point.New, p.sizes[at])
			at = int(layers[l].back[at])
		}
		slices.Reverse(point.New)
		point.Cost = p.curve.total(point)
		if k > 0 && points[k-1].Feasible {
			point.Saves = max(0, points[k-1].Cost-point.Cost)
		}
	}
	p.curve.Points = append(points, point)
}
