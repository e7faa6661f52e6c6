package facility

import "math"

// search improves a set of facilities by opening one, closing one, or one for another, always the move that saves most, until
// none saves (Whitaker's fast interchange, with the sparse bookkeeping of Resende and Werneck 2007).
type search struct {
	*model
	status []int8
	open   []bool
	count  int

	near, second []int32 // the cheapest and next cheapest open facility of each customer, −1 is leaving it unserved
	nearCost     []float64
	secondCost   []float64
	loss         []float64 // what closing each open facility costs its customers
	extra        []float64 // scratch: by how much a closing costs less when the candidate opens
}

func newSearch(mo *model, status []int8) *search {
	return &search{model: mo, status: status, open: make([]bool, mo.m),
		near: make([]int32, mo.n), second: make([]int32, mo.n), nearCost: make([]float64, mo.n), secondCost: make([]float64, mo.n),
		loss: make([]float64, mo.m), extra: make([]float64, mo.m)}
}

// start takes a set, with what is settled put right: settled facilities as they are settled, and no more open than may be.
func (s *search) start(open []bool) {
	s.count = 0
	for i := range s.open {
		s.open[i] = s.status[i] == opened || s.status[i] == free && open[i]
		if s.open[i] {
			s.count++
		}
	}
	s.refresh()
	for s.count > s.atMost {
		best, cheapest := -1, math.Inf(1)
		for i, is := range s.open {
			if saved := s.loss[i] - s.fixed[i]; is && s.status[i] == free && saved < cheapest {
				best, cheapest = i, saved
			}
		}
		if best < 0 {
			return
		}
		s.open[best] = false
		s.count--
		s.refresh()
	}
}

func (s *search) refresh() {
	for i := range s.loss {
		s.loss[i] = 0
	}
	for j := range s.n {
		s.near[j], s.second[j] = -1, -1
		s.nearCost[j], s.secondCost[j] = s.unserved[j], s.unserved[j]
		for a := s.from[j]; a < s.from[j+1]; a++ {
			if !s.open[s.fac[a]] {
				continue
			}
			if s.near[j] < 0 {
				s.near[j], s.nearCost[j] = s.fac[a], s.cost[a]
				continue
			}
			s.second[j], s.secondCost[j] = s.fac[a], s.cost[a]
			break
		}
		if s.near[j] >= 0 {
			s.loss[s.near[j]] += s.secondCost[j] - s.nearCost[j]
		}
	}
}

// move opens in and closes out; −1 is neither.
type move struct {
	in, out int
	saves   float64
}

// improve makes moves until none saves anything to speak of.
func (s *search) improve() {
	for {
		m := s.best()
		if m.saves <= 1e-9*(1+math.Abs(m.saves)) || m.saves <= 1e-12*s.ceiling {
			return
		}
		s.apply(m)
	}
}

func (s *search) apply(m move) {
	if m.in >= 0 {
		s.open[m.in] = true
		s.count++
	}
	if m.out >= 0 {
		s.open[m.out] = false
		s.count--
	}
	s.refresh()
}

// best is the move that saves most, also where that is less than nothing.
func (s *search) best() move {
	best := move{-1, -1, math.Inf(-1)}
	s.each(func(m move) {
		if m.saves > best.saves {
			best = m
		}
	})
	return best
}

// each goes through all moves.
func (s *search) each(consider func(move)) {
	var closable []int
	for r, is := range s.open {
		if is && s.status[r] == free {
			closable = append(closable, r)
			consider(move{-1, r, s.fixed[r] - s.loss[r]})
		}
	}
	for i := range s.m {
		if s.open[i] || s.status[i] != free {
			continue
		}
		gain, touched := s.opening(i)
		if s.count < s.atMost {
			consider(move{i, -1, gain})
		}
		for _, r := range closable {
			consider(move{i, r, gain + s.fixed[r] - s.loss[r] + s.extra[r]})
		}
		for _, r := range touched {
			s.extra[r] = 0
		}
	}
}

// opening is what facility i saves when it opens, and fills in extra for the facilities that then serve nobody they did.
func (s *search) opening(i int) (gain float64, touched []int32) {
	gain = -s.fixed[i]
	for a := s.at[i]; a < s.at[i+1]; a++ {
		j, c := s.cust[a], s.fcost[a]
		r := s.near[j]
		switch {
		case c < s.nearCost[j]:
			gain += s.nearCost[j] - c
			if r >= 0 { // closing r costs this customer nothing more
				s.extra[r] += s.secondCost[j] - s.nearCost[j]
				touched = append(touched, r)
			}
		case r >= 0 && c < s.secondCost[j]:
			s.extra[r] += s.secondCost[j] - c
			touched = append(touched, r)
		}
	}
	return gain, touched
}
