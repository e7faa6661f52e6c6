package stock

import (
	"fmt"
	"math"
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/sizes"
)

// Common says how hosels may be brought to common sizes.
type Common struct {
	// Most is the largest number of common sizes asked for.
	Most int
	// Grid is what each is a whole multiple of; nothing: any size.
	Grid measure.Length
	// MostRemoved is the most that may come off a hosel, on the diameter.
	MostRemoved measure.Length
	// Minutes is the bench time for working on a hosel at all, and MinutesPerMM that for each millimetre off its diameter.
	Minutes, MinutesPerMM float64
	// Yearly is how many of each head are made in a year; nil counts each once. Heads of which none is made are left out.
	Yearly []float64
}

// Brought is a hosel at a common size.
type Brought struct {
	Head int
	// From and To are its OD before and after; they are the same where it has the common size already.
	From, To measure.Length
	// Minutes is the work on the hosels of a year.
	Minutes float64
}

// Standard is the best choice of so many common hosel ODs.
type Standard struct {
	Count int
	// Feasible is false where so few sizes leave a hosel out of reach of all of them.
	Feasible bool
	ODs      []measure.Length
	Heads    []Brought
	// Work is the minutes at the hosels in a year, TurningNow the minutes of turning that the best ferrules on offer ask for now on these
	// heads, and Saves the difference: what a year gains with a ferrule for each common size that ends flush.
	Work, TurningNow, Saves float64
}

// Standardise returns which hosel ODs could be brought to a few common sizes, for 1, 2, … Most of them, and what each saves; and the
// heads that were left out because they take no ferrule, have no hosel OD, or none of them is made.
//
// A hosel can only lose size, so a common size t serves a hosel of OD d where t ≤ d ≤ t + MostRemoved, and costs (Minutes + MinutesPerMM (d − t))
// for each head unless d = t. Mirrored, d → M − d, that is the question of package sizes, and solved exactly. TurningNow counts, for each head, the bench
// time of its best pair beyond that of fitting; a head that no ferrule fits now counts nothing, though it gains the most.
//
// Whether a hosel's wall allows it, and its maker, is not looked at: a hosel worked on is weaker, and that is for a qualified builder
// to judge.
//
// The error is a [*SettingError].
func Standardise(r *matrix.Result, c Common) ([]Standard, []int, error) {
	if err := c.validate(len(r.Catalogue.Heads)); err != nil {
		return nil, nil, err
	}
	m := newMirror(r, &c)
	curve, err := sizes.Find(m.hosels, sizes.Options{Most: c.Most, Grid: c.Grid})
	if err != nil {
		return nil, nil, fmt.Errorf("stock: bringing hosels to common sizes: %w", err)
	}
	m.drop(curve.Unserved) // on a coarse grid there may be no size below within reach
	standards := make([]Standard, 0, c.Most)
	for _, p := range curve.Points[1:] {
		standards = append(standards, m.standard(curve, p))
	}
	return standards, m.left, nil
}

func (c *Common) validate(heads int) error {
	for name, x := range map[string]float64{
		"the minutes at a hosel": c.Minutes, "the minutes for each millimetre": c.MinutesPerMM,
	} {
		if !isAmount(x) {
			return &SettingError{name, ErrAmount}
		}
	}
	switch {
	case c.Most < 1:
		return &SettingError{"the number of common sizes", ErrAmount}
	case c.Grid.Sign() < 0:
		return &SettingError{"the grid of common sizes", ErrAmount}
	case c.MostRemoved.Sign() < 0:
		return &SettingError{"the most that may come off a hosel", ErrAmount}
	}
	return checkYearly(c.Yearly, heads)
}

// mirror is the hosels with their ODs taken from a length larger than all of them, so that less OD is more size.
type mirror struct {
	result *matrix.Result
	common *Common
	from   measure.Length
	hosels []sizes.Hosel
	heads  []int
	out    map[int]bool // hosels that no common size serves
	left   []int
}

func newMirror(r *matrix.Result, c *Common) *mirror {
	m := &mirror{result: r, common: c, out: map[int]bool{}}
	largest := measure.Length{}
	for h := range r.Catalogue.Heads {
		largest = measure.Max(largest, hoselOD(&r.Catalogue.Heads[h].Head).Middle())
	}
	m.from = largest.Add(measure.Millimetres(1))
	if g := c.Grid.Picometres(); g > 0 { // a multiple of the grid, so that the grid is its own mirror image
		m.from = measure.Picometres((m.from.Picometres() + g - 1) / g * g)
	}
	for h := range r.Catalogue.Heads {
		head := &r.Catalogue.Heads[h].Head
		od := hoselOD(head)
		if !od.Given() || head.Top == fitcalc.TopRounded || head.Validate() != nil || c.Yearly != nil && c.Yearly[h] == 0 {
			m.left = append(m.left, h)
			continue
		}
		at := m.from.Sub(od.Middle())
		yearly := 1.0
		if c.Yearly != nil {
			yearly = c.Yearly[h]
		}
		m.hosels = append(m.hosels, sizes.Hosel{OD: at, Least: at, Most: at.Add(c.MostRemoved), Yearly: yearly, Fixed: c.Minutes, Rate: c.MinutesPerMM})
		m.heads = append(m.heads, h)
	}
	return m
}

func (m *mirror) drop(unserved []int) {
	for _, i := range unserved {
		m.out[i] = true
		m.left = append(m.left, m.heads[i])
	}
	slices.Sort(m.left)
}

func (m *mirror) standard(curve *sizes.Curve, p sizes.Point) Standard {
	s := Standard{Count: p.Count, Feasible: p.Feasible}
	if !p.Feasible {
		return s
	}
	for _, b := range slices.Backward(p.New) {
		s.ODs = append(s.ODs, m.from.Sub(b))
	}
	for i, b := range curve.Assign(p) {
		if m.out[i] {
			continue
		}
		h, hosel := m.heads[i], &m.hosels[i]
		brought := Brought{Head: h, From: m.from.Sub(hosel.OD), To: m.from.Sub(b)}
		if brought.To.Less(brought.From) {
			brought.Minutes = hosel.Yearly * (hosel.Fixed + hosel.Rate*brought.From.Sub(brought.To).Millimetres())
		}
		s.Heads = append(s.Heads, brought)
		s.Work += brought.Minutes
		if best, fits := m.result.Best(h); fits {
			s.TurningNow += hosel.Yearly * turning(m.result, best)
		}
	}
	s.Saves = s.TurningNow - s.Work
	return s
}

// turning is the bench time of a pair beyond fitting and preparing.
func turning(r *matrix.Result, p matrix.Pair) float64 {
	minutes := float64(p.Minutes) - r.Shop.MinutesToFit
	if p.Verdict == fitcalc.Prep {
		minutes -= r.Shop.MinutesToPrep
	}
	return math.Max(0, minutes)
}
