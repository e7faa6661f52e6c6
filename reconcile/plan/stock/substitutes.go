package stock

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/seatline/reconcile/matrix"
)

// Change is a head that gets another ferrule.
type Change struct {
	Head     int
	From, To matrix.Pair
	// Minutes is how much more bench time each joint takes; negative where it takes less.
	Minutes float64
}

// Substitute is a ferrule that can stand in for another.
type Substitute struct {
	Ferrule int
	// Changes are the heads it can take over, Lost those it cannot.
	Changes []Change
	Lost    []int
	// Minutes is how much more bench time a year takes on the heads it takes over.
	Minutes float64
}

// Substitution is what can be done without a ferrule.
type Substitution struct {
	Ferrule int
	// Heads are those it fits.
	Heads []int
	// Best is for each head that another ferrule fits the one that asks least of the bench, and Alone are the heads that only
	// this one fits.
	Best  []Change
	Alone []int
	// Others are the ferrules that fit any of the heads: those that lose the fewest heads, in yearly numbers, first, and of these the one with the
	// least work.
	Others []Substitute
}

// Substitutes returns what else serves the heads of a ferrule, and how the work changes. Yearly is how many of each head are made in a year;
// nil counts each once. The error is a [*SettingError].
func Substitutes(r *matrix.Result, ferrule int, yearly []float64) (*Substitution, error) {
	if ferrule < 0 || ferrule >= len(r.Catalogue.Ferrules) {
		return nil, &SettingError{fmt.Sprintf("the ferrule %d", ferrule), ErrIndex}
	}
	if err := checkYearly(yearly, len(r.Catalogue.Heads)); err != nil {
		return nil, err
	}
	number := func(head int) float64 {
		if yearly == nil {
			return 1
		}
		return yearly[head]
	}
	s := &Substitution{Ferrule: ferrule}
	others := map[int]*Substitute{}
	for h := range r.Catalogue.Heads {
		from, fits := pairOf(r, h, ferrule)
		if !fits {
			continue
		}
		s.Heads = append(s.Heads, h)
		found := false
		for _, to := range r.HeadPairs(h) {
			if !to.Verdict.Serves() || int(to.Ferrule) == ferrule {
				continue
			}
			change := Change{Head: h, From: from, To: to, Minutes: float64(to.Minutes) - float64(from.Minutes)}
			if !found {
				s.Best, found = append(s.Best, change), true
			}
			o := others[int(to.Ferrule)]
			if o == nil {
				o = &Substitute{Ferrule: int(to.Ferrule)}
				others[o.Ferrule] = o
			}
			o.Changes = append(o.Changes, change)
			o.Minutes += number(h) * change.Minutes
		}
		if !found {
			s.Alone = append(s.Alone, h)
		}
	}
	s.rank(others, number)
	return s, nil
}

func (s *Substitution) rank(others map[int]*Substitute, number func(int) float64) {
	lost := map[int]float64{}
	for i, o := range others {
		taken := map[int]bool{}
		for _, c := range o.Changes {
			taken[c.Head] = true
		}
		for _, h := range s.Heads {
			if !taken[h] {
				o.Lost = append(o.Lost, h)
				lost[i] += number(h)
			}
		}
		s.Others = append(s.Others, *o)
	}
	slices.SortFunc(s.Others, func(a, b Substitute) int {
		return cmp.Or(cmp.Compare(lost[a.Ferrule], lost[b.Ferrule]), cmp.Compare(len(a.Lost), len(b.Lost)),
			cmp.Compare(a.Minutes, b.Minutes), cmp.Compare(a.Ferrule, b.Ferrule))
	})
}

// pairOf finds the pair of a head and a ferrule, and whether it fits.
func pairOf(r *matrix.Result, head, ferrule int) (matrix.Pair, bool) {
	for _, p := range r.HeadPairs(head) {
		if int(p.Ferrule) == ferrule {
			return p, p.Verdict.Serves()
		}
	}
	return matrix.Pair{}, false
}
