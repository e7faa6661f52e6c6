package fitcalc

import (
	"cmp"
	"slices"

	"example.com/seatline/fitcalc/measure"
)

// Change is the smallest shift of one dimension, the others staying as they are, that changes a verdict.
type Change struct {
	// Field is the dimension.
	Field Field
	// Shift is how far the dimension has to move, negative downward, exact to the picometre.
	Shift measure.Length
	// To is the verdict then.
	To Verdict
}

// Sensitivity returns how near a verdict is to another: for each given dimension and each direction the smallest shift that
// changes it, the smallest first. Diameters are moved by up to 2.5 mm and lengths by up to 12.5 mm either way, as far as there are
// parts of such sizes; a dimension that changes nothing within that has no entry.
//
// The search goes outward in steps of 1/500 of the range before it bisects, so a verdict that holds over less than a step
// (5 µm on a diameter) may be passed over. The error is an [*InputError] or a [*SettingError].
func Sensitivity(head Head, tip Tip, ferrule Ferrule, shop Shop) ([]Change, error) {
	p := probe{head: head, tip: tip, ferrule: ferrule, shop: shop}
	if err := firstError(p.head.Validate(), p.tip.Validate(), p.ferrule.Validate(), p.shop.Validate()); err != nil {
		return nil, err
	}
	now := p.evaluate().Verdict
	var changes []Change
	for _, knob := range knobs {
		for _, direction := range [...]int64{-1, 1} {
			if c, found := knob.turn(p, direction, now); found {
				changes = append(changes, c)
			}
		}
	}
	slices.SortStableFunc(changes, func(a, b Change) int {
		return cmp.Or(a.Shift.Abs().Compare(b.Shift.Abs()), cmp.Compare(a.Field, b.Field))
	})
	return changes, nil
}

// knob is one dimension that can be moved.
type knob struct{ field Field }

var (
	reachOfDiameters = measure.Micrometres(2500)
	reachOfLengths   = measure.Micrometres(12500)
)

// knobs are the dimensions on which verdicts hang.
var knobs = func() []knob {
	var all []knob
	for _, f := range fieldsWhere(func(r *fieldRow) bool { return r.moved }) {
		all = append(all, knob{f})
	}
	return all
}()

// reach is how far the dimension is moved.
func (k knob) reach() measure.Length {
	if k.field.Kind() == KindAlong {
		return reachOfLengths
	}
	return reachOfDiameters
}

// dim is the dimension in a joint. A ferrule that is known by its tip alone is given its bore first.
func (k knob) dim(p *probe) *measure.Dim {
	if k.field == FieldFerruleBore {
		p.ferrule.Bore = p.ferrule.boreOn(&p.head, &p.shop)
	}
	return dimOf(&p.head, &p.tip, &p.ferrule, k.field)
}

// turn moves the dimension one way until the verdict is another, then closes in on where. It goes no further than there are parts
// of such sizes.
func (k knob) turn(p probe, direction int64, now Verdict) (Change, bool) {
	dim := k.dim(&p)
	if !dim.Given() {
		return Change{}, false
	}
	given := *dim
	other := func(shift measure.Length) bool {
		*dim = given.Shift(shift.MulInt(direction))
		return p.evaluate().Verdict != now
	}
	reach := k.reach()
	if impossible, found := threshold(measure.Length{}, reach, func(shift measure.Length) bool {
		*dim = given.Shift(shift.MulInt(direction))
		return valid(&p.head, &p.tip, &p.ferrule) != nil
	}); found {
		reach = impossible.Sub(measure.Picometres(1))
	}
	const steps = 500
	step := k.reach().DivRound(steps)
	for from := (measure.Length{}); from.Less(reach); from = from.Add(step) {
		to := measure.Min(from.Add(step), reach)
		if !other(to) {
			continue
		}
		at, found := threshold(from, to, other)
		if !found {
			return Change{}, false
		}
		other(at)
		return Change{Field: k.field, Shift: at.MulInt(direction), To: p.fit.Verdict}, true
	}
	return Change{}, false
}
