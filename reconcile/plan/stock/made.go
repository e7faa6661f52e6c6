package stock

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/sizes"
)

// Wanted says which base ODs may be had made. All lengths but Length are on the diameter.
type Wanted struct {
	// Yearly is how many of each head are made in a year; nil counts each once. Heads of which none is made are left out.
	Yearly []float64
	// Count is how many new sizes are wanted for each tip size, Most up to how many the costs are worked out for, at least Count.
	Count, Most int
	// Grid is what each new size is a whole multiple of; nothing: any size.
	Grid measure.Length
	// Existing are base ODs that are on offer already, for any tip.
	Existing []measure.Length
	// Length is that of the ferrules; nothing is half an inch.
	Length measure.Length
}

// Made is which base ODs to have made.
type Made struct {
	Tips []TipSizes
	// Together is the best use of so many new sizes over all tips, for each number of sizes.
	Together []Together
	Left     []LeftHead
}

// TipSizes is the answer for the heads that take a tip. A ferrule's bore suits one tip, so that each tip needs sizes of its own.
type TipSizes struct {
	// Tip is the tip's name: .370 parallel.
	Tip string
	// Heads are indexes into the catalogue, in the order of the curve's hosels.
	Heads  []int
	Yearly float64
	Curve  *sizes.Curve
	// Chosen is the point of the wanted count. Where so few serve not everyone, Enough is false and Chosen the fewest that do.
	Chosen sizes.Point
	Enough bool
	Sizes  []MadeSize
	// Now is the minutes of turning in a year with the best ferrules in the catalogue, and Without how many of the heads none of them
	// fits; they are in neither Now nor Then, which is the same of the chosen sizes.
	Now, Then float64
	Without   int
}

// MadeSize is a size and what to order: a base OD with the bore and length that suit the heads that take it.
type MadeSize struct {
	OD measure.Length
	// New is false for a size that exists.
	New    bool
	Taken  []Taken
	Yearly float64
	// Minutes is the time of turning in a year.
	Minutes float64
	// Bore is every bore that suits all the heads, empty where there is none, and BestBore the one to order. BaseODTolerance and BoreTolerance
	// are ±.
	Bore                           measure.Interval
	BestBore                       measure.Length
	BaseODTolerance, BoreTolerance measure.Length
	// Length is every length that suits all the heads, empty where there is none; ForLength is the one it was all worked out for.
	Length    measure.Interval
	ForLength measure.Length
	// Stepped are the heads with a counterbore, which want a step that fills it.
	Stepped []int
}

// Taken is a head that takes a size, and how the specified ferrule comes out on it.
type Taken struct {
	Head   int
	Yearly float64
	// Oversize and TurnDown are on the diameter.
	Oversize, TurnDown fitcalc.Amount
	// Flush is set where nothing needs to come off.
	Flush bool
	// Minutes is the time of turning one joint.
	Minutes float64
	// Against are the reasons against the joint that are the ferrule's: those of the seat are left out, since the style is not settled.
	Against []fitcalc.Reason
}

// Together is the best use of a number of new sizes over all tips.
type Together struct {
	Count    int
	Feasible bool
	// ByTip is how many go to each tip, in the order of Tips.
	ByTip []int
	// Minutes is the time of turning in a year, Saves how much less that is than with one size fewer, nothing where one fewer is not enough.
	Minutes, Saves float64
}

// LeftHead is a head that is in no sum, and why.
type LeftHead struct {
	Head int
	Why  string
}

// SizesToMake returns the base ODs to have made for each tip size: exactly the best by [sizes.Find], with the limits of [fitcalc.Specify] for each
// head on its first tip, as [Hosels] has them.
//
// Each size is specified for all the heads that take it: the bores and lengths are those that suit all of them, the bore the usual one of most
// joints; then the specified ferrule is evaluated on every one of the heads, and what stands against it is listed.
//
// The error is a [*SettingError].
func SizesToMake(r *matrix.Result, w Wanted) (*Made, error) {
	if err := w.validate(len(r.Catalogue.Heads)); err != nil {
		return nil, err
	}
	specs := newSpecifier(r, w.Length)
	if err := specs.all(); err != nil {
		return nil, err
	}
	m := &maker{result: r, wanted: &w, specs: specs, made: &Made{}}
	for _, g := range m.groups() {
		if err := m.tip(g); err != nil {
			return nil, err
		}
	}
	slices.SortFunc(m.made.Left, func(a, b LeftHead) int { return a.Head - b.Head })
	m.together()
	return m.made, nil
}

func (w *Wanted) validate(heads int) error {
	switch {
	case w.Count < 0:
		return &SettingError{"the number of sizes", ErrAmount}
	case w.Grid.Sign() < 0:
		return &SettingError{"the grid of sizes", ErrAmount}
	case w.Length.Sign() < 0:
		return &SettingError{"the length of the ferrules", ErrAmount}
	}
	for _, e := range w.Existing {
		if e.Sign() <= 0 {
			return &SettingError{"an existing size", ErrAmount}
		}
	}
	return checkYearly(w.Yearly, heads)
}

type maker struct {
	result *matrix.Result
	wanted *Wanted
	specs  *specifier
	made   *Made
}

// tipGroup is the heads of a tip.
type tipGroup struct {
	name   string
	heads  []int
	hosels []sizes.Hosel
}

// groups are the heads by tip, in the order of the tips' names, and leaves out those that nothing can be said of.
func (m *maker) groups() []*tipGroup {
	byName := map[string]*tipGroup{}
	var all []*tipGroup
	for h := range m.result.Catalogue.Heads {
		yearly := 1.0
		if m.wanted.Yearly != nil {
			yearly = m.wanted.Yearly[h]
		}
		spec := m.specs.of(h)
		switch {
		case spec.why != "":
			m.made.Left = append(m.made.Left, LeftHead{h, spec.why})
			continue
		case yearly == 0:
			m.made.Left = append(m.made.Left, LeftHead{h, "none is made in a year"})
			continue
		}
		name := matrix.TipName(&m.result.Tips[spec.key.tip].Tip)
		g := byName[name]
		if g == nil {
			g = &tipGroup{name: name}
			byName[name], all = g, append(all, g)
		}
		hosel := spec.hosel
		hosel.Yearly = yearly
		g.heads, g.hosels = append(g.heads, h), append(g.hosels, hosel)
	}
	slices.SortFunc(all, func(a, b *tipGroup) int { return strings.Compare(a.name, b.name) })
	return all
}

func (m *maker) tip(g *tipGroup) error {
	curve, chosen, err := m.find(g)
	if err != nil {
		return fmt.Errorf("stock: choosing sizes for %s tips: %w", g.name, err)
	}
	t := TipSizes{Tip: g.name, Curve: curve, Chosen: chosen, Enough: chosen.Feasible && chosen.Count <= m.wanted.Count}
	unserved := map[int]bool{}
	for _, i := range curve.Unserved {
		unserved[i] = true
		m.made.Left = append(m.made.Left, LeftHead{g.heads[i], "no size of the grid, nor one that exists, keeps both the risk of an undersize base and the turn limit"})
	}
	taken := curve.Assign(chosen)
	bySize := map[measure.Length][]int{}
	for i, h := range g.heads {
		t.Heads = append(t.Heads, h)
		if unserved[i] {
			continue
		}
		t.Yearly += g.hosels[i].Yearly
		if !chosen.Feasible {
			continue
		}
		bySize[taken[i]] = append(bySize[taken[i]], i)
		minutes := g.hosels[i].Yearly * costAt(&g.hosels[i], taken[i])
		if best, fits := m.result.Best(h); fits {
			t.Now += g.hosels[i].Yearly * turning(m.result, best)
			t.Then += minutes
		} else {
			t.Without++
		}
	}
	for od, members := range bySize {
		size, err := m.size(g, od, members)
		if err != nil {
			return err
		}
		size.New = slices.Contains(chosen.New, od)
		t.Sizes = append(t.Sizes, size)
	}
	slices.SortFunc(t.Sizes, func(a, b MadeSize) int { return a.OD.Compare(b.OD) })
	m.made.Tips = append(m.made.Tips, t)
	return nil
}

// find works out the curve, further than asked where so few sizes serve not everyone.
func (m *maker) find(g *tipGroup) (*sizes.Curve, sizes.Point, error) {
	most := max(m.wanted.Most, m.wanted.Count)
	for {
		curve, err := sizes.Find(g.hosels, sizes.Options{Most: most, Grid: m.wanted.Grid, Existing: m.wanted.Existing})
		if err != nil {
			return nil, sizes.Point{}, err
		}
		for _, p := range curve.Points[m.wanted.Count:] {
			if p.Feasible {
				curve.Points = curve.Points[:max(m.wanted.Most, p.Count)+1]
				return curve, p, nil
			}
		}
		if most >= len(g.hosels) { // every head could have its own; there is none left to serve
			return curve, sizes.Point{}, nil
		}
		most = min(2*most+1, len(g.hosels))
	}
}

// costAt is what a joint of a hosel costs with a base.
func costAt(h *sizes.Hosel, base measure.Length) float64 {
	if !measure.Max(h.Flush, h.OD).Less(base) {
		return 0
	}
	return h.Fixed + h.Rate*base.Sub(h.OD).Millimetres()
}

// size specifies a size for the heads that take it.
func (m *maker) size(g *tipGroup, od measure.Length, members []int) (MadeSize, error) {
	size := MadeSize{OD: od}
	weights := map[measure.Length]float64{}
	for n, i := range members {
		h := g.heads[i]
		spec := &m.specs.of(h).spec
		if n == 0 {
			size.Bore, size.Length, size.ForLength = spec.Bore, spec.Length, spec.ForLength
			size.BaseODTolerance, size.BoreTolerance = spec.BaseODTolerance, spec.BoreTolerance
		}
		size.Bore, size.Length = size.Bore.Intersect(spec.Bore), size.Length.Intersect(spec.Length)
		weights[spec.BestBore] += g.hosels[i].Yearly
		size.Yearly += g.hosels[i].Yearly
		size.Minutes += g.hosels[i].Yearly * costAt(&g.hosels[i], od)
		if spec.Style == fitcalc.Stepped {
			size.Stepped = append(size.Stepped, h)
		}
	}
	size.BestBore = bestBore(weights, size.Bore)
	for _, i := range members {
		taken, err := m.check(g, &size, i)
		if err != nil {
			return size, err
		}
		size.Taken = append(size.Taken, taken)
	}
	return size, nil
}

// bestBore is the usual bore of most joints, of those that suit all heads where there are any.
func bestBore(weights map[measure.Length]float64, all measure.Interval) measure.Length {
	best, most, within := measure.Length{}, math.Inf(-1), false
	for bore, weight := range weights {
		in := all.Contains(bore)
		better := in && !within || in == within && (weight > most || weight == most && bore.Less(best))
		if better {
			best, most, within = bore, weight, in
		}
	}
	if !within && !all.Empty() {
		return middle(all)
	}
	return best
}

func middle(i measure.Interval) measure.Length {
	return i.Lower().At().Add(i.Upper().At().Sub(i.Lower().At()).Half())
}

// check evaluates the specified ferrule on a head.
func (m *maker) check(g *tipGroup, size *MadeSize, i int) (Taken, error) {
	h := g.heads[i]
	spec := m.specs.of(h)
	ferrule := fitcalc.Ferrule{
		BaseOD: measure.Nominal(size.OD), Bore: measure.Nominal(size.BestBore), Length: measure.Nominal(size.ForLength), Style: fitcalc.Plain,
	}
	fit, err := fitcalc.Evaluate(spec.key.head, m.result.Tips[spec.key.tip].Tip, ferrule, m.result.Shop)
	if err != nil {
		return Taken{}, fmt.Errorf("stock: trying a size on %s: %w", m.result.Catalogue.Heads[h].Part, err)
	}
	t := Taken{
		Head: h, Yearly: g.hosels[i].Yearly, Oversize: fit.Flush.Oversize, TurnDown: fit.Flush.TurnDown,
		Flush: costAt(&g.hosels[i], size.OD) == 0, Minutes: costAt(&g.hosels[i], size.OD),
	}
	for reason := range fit.Reasons() {
		if reason.Level == fitcalc.Blocks && !strings.HasPrefix(reason.Code.String(), "seat.") {
			t.Against = append(t.Against, reason)
		}
	}
	return t, nil
}

// mostTogether is up to how many sizes over all tips are listed.
const mostTogether = 100

// together shares so many sizes out over the tips: with F the least cost of the tips so far,
// F_t(n) = min over k of F_{t−1}(n − k) + cost_t(k).
func (m *maker) together() {
	type best struct {
		minutes float64
		byTip   []int
	}
	last := []best{{}}
	for at := range m.made.Tips {
		points := m.made.Tips[at].Curve.Points
		next := make([]best, min(mostTogether, len(last)+len(points)-2)+1)
		for n := range next {
			next[n].minutes = math.Inf(1)
			for k, p := range points {
				if !p.Feasible || n < k || n-k >= len(last) {
					continue
				}
				if minutes := last[n-k].minutes + p.Cost; minutes < next[n].minutes {
					next[n] = best{minutes, append(slices.Clone(last[n-k].byTip), k)}
				}
			}
		}
		last = next
	}
	for n, b := range last {
		t := Together{Count: n, Feasible: !math.IsInf(b.minutes, 1)}
		if t.Feasible {
			t.ByTip, t.Minutes = b.byTip, b.minutes
			if n > 0 && m.made.Together[n-1].Feasible {
				t.Saves = max(0, m.made.Together[n-1].Minutes-b.minutes)
			}
		}
		m.made.Together = append(m.made.Together, t)
	}
	for n := len(m.made.Together) - 1; n > 0 && m.made.Together[n].Feasible && m.made.Together[n].Saves == 0 && m.made.Together[n-1].Feasible; n-- {
		m.made.Together = m.made.Together[:n] // more change nothing
	}
}
