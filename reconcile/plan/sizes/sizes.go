package sizes

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.com/seatline/fitcalc/measure"
)

// Hosel is a head as far as sizes matter. All lengths are on the diameter.
type Hosel struct {
	// OD is the nominal hosel OD.
	OD measure.Length
	// Least is the smallest base OD that keeps the risk of an undersize base, Most the largest that the turn limit allows. Where
	// Least is more than Most no size serves the head.
	Least, Most measure.Length
	// Flush is the largest base OD that needs no turning; where it is less than OD, or not given, it is OD.
	Flush measure.Length
	// Yearly is how many are made in a year.
	Yearly float64
	// Fixed is the cost of turning a joint at all, and Rate what each millimetre of b − OD costs on top.
	Fixed, Rate float64
}

// cost is that of one joint with base OD b.
func (h *Hosel) cost(b measure.Length) float64 {
	if !h.flush().Less(b) {
		return 0
	}
	return h.Fixed + h.Rate*b.Sub(h.OD).Millimetres()
}

func (h *Hosel) flush() measure.Length { return measure.Max(h.Flush, h.OD) }

// Options are what may be chosen.
type Options struct {
	// Most is the largest number of new sizes asked for, at least 0.
	Most int
	// Grid is what every new size is a whole multiple of, such as 0.1 mm or .005 in; none where it is nothing.
	Grid measure.Length
	// Existing sizes are on offer already; they count for nothing.
	Existing []measure.Length
}

// Point is the best choice of so many new sizes.
type Point struct {
	// Count is the number of new sizes asked for. New may be shorter where more would change nothing.
	Count int
	New   []measure.Length
	// Feasible is false where so few sizes cannot serve everyone who can be served at all; the rest is then empty.
	Feasible bool
	// Cost is that of turning in a year.
	Cost float64
	// Saves is how much less that is than with one size fewer; nothing where one fewer cannot serve everyone.
	Saves float64
}

// Curve is the best choice for each number of new sizes.
type Curve struct {
	// Points has an entry for 0, 1, … Most new sizes.
	Points []Point
	// Unserved are the hosels that neither a new size on the grid nor an existing one serves, by index. They are in no cost.
	Unserved []int

	hosels   []Hosel
	existing []measure.Length
}

// ErrInput is what a hosel or an option can be refused for; an [*InputError] wraps it.
var ErrInput = errors.New("must be a finite number and not negative")

// InputError says which input cannot be used.
type InputError struct {
	// What is the field, and Index the hosel or existing size it belongs to; −1 for an option.
	What  string
	Index int
	Err   error
}

func (e *InputError) Error() string {
	if e.Index < 0 {
		return fmt.Sprintf("sizes: %s %v", e.What, e.Err)
	}
	return fmt.Sprintf("sizes: %s of entry %d %v", e.What, e.Index, e.Err)
}

func (e *InputError) Unwrap() error { return e.Err }

// Find returns the best choice for each number of new sizes up to opts.Most, exactly. The error is an [*InputError].
func Find(hosels []Hosel, opts Options) (*Curve, error) {
	if err := validate(hosels, opts); err != nil {
		return nil, err
	}
	c := &Curve{hosels: hosels, existing: slices.Clone(opts.Existing)}
	slices.SortFunc(c.existing, measure.Length.Compare)
	p := newProgram(c, opts.Grid)
	p.solve(opts.Most)
	return c, nil
}

func validate(hosels []Hosel, opts Options) error {
	bad := func(x float64) bool { return !(x >= 0) || math.IsInf(x, 1) }
	for at := range hosels {
		h := &hosels[at]
		switch {
		case bad(h.Yearly):
			return &InputError{"the yearly number", at, ErrInput}
		case bad(h.Fixed):
			return &InputError{"the fixed cost", at, ErrInput}
		case bad(h.Rate):
			return &InputError{"the rate", at, ErrInput}
		case h.OD.Sign() <= 0 || h.OD.Overflowed() || h.Least.Sign() < 0 || h.Least.Overflowed() || h.Most.Overflowed():
			return &InputError{"an OD", at, ErrInput}
		}
	}
	for at, e := range opts.Existing {
		if e.Sign() <= 0 || e.Overflowed() {
			return &InputError{"the existing size", at, ErrInput}
		}
	}
	if opts.Most < 0 {
		return &InputError{"the number of sizes", -1, ErrInput}
	}
	if opts.Grid.Sign() < 0 {
		return &InputError{"the grid", -1, ErrInput}
	}
	return nil
}

// Assign returns the size that each hosel takes at a point of the curve: the smallest, of the new and the existing ones, that serves
// it. Those that none serves have a length of nothing.
func (c *Curve) Assign(p Point) []measure.Length {
	all := slices.Concat(p.New, c.existing)
	slices.SortFunc(all, measure.Length.Compare)
	taken := make([]measure.Length, len(c.hosels))
	for i := range c.hosels {
		h := &c.hosels[i]
		if at, _ := slices.BinarySearchFunc(all, h.Least, measure.Length.Compare); at < len(all) && !h.Most.Less(all[at]) {
			taken[i] = all[at]
		}
	}
	return taken
}

// Best returns the point of least cost where having a new size made costs making a year, and false where no point is feasible. Of equal ones it
// is that with fewer sizes.
func (c *Curve) Best(making float64) (Point, bool) {
	best, found := Point{}, false
	for _, p := range c.Points {
		cost := p.Cost + making*float64(len(p.New))
		if p.Feasible && (!found || cost < best.Cost+making*float64(len(best.New))) {
			best, found = p, true
		}
	}
	return best, found
}

// total is the cost of a choice, from the assignment itself.
func (c *Curve) total(p Point) float64 {
	sum := 0.0
	for i, b := range c.Assign(p) {
		if b.Sign() > 0 {
			sum += c.hosels[i].Yearly * c.hosels[i].cost(b)
		}
	}
	return sum
}

// roundUp returns the least multiple of the grid that is not below l.
func roundUp(l, grid measure.Length) measure.Length {
	if grid.Sign() <= 0 {
		return l
	}
	pm, g := l.Picometres(), grid.Picometres()
	up := (pm + g - 1) / g * g
	return measure.Picometres(up)
}
