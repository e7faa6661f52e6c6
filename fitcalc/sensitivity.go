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
type knob struct {
	field Field
	reach measure.Length
	dim   func(*probe) *measure.Dim
}

var (
	reachOfDiameters = measure.Micrometres(2500)
	reachOfLengths   = measure.Micrometres(12500)
)

var knobs = []knob{
	{FieldHoselOD, reachOfDiameters, func(p *probe) *measure.Dim { return &p.head.HoselOD }},
	{FieldHeadBore, reachOfDiameters, func(p *probe) *measure.Dim { return &p.head.Bore }},
	{FieldBoreDepth, reachOfLengths, func(p *probe) *measure.Dim { return &p.head.BoreDepth }},
	{FieldCountersinkMouth, reachOfDiameters, func(p *probe) *measure.Dim { return &p.head.Countersink.Mouth }},
	{FieldCountersinkDepth, reachOfLengths, func(p *probe) *measure.Dim { return &p.head.Countersink.Depth }},
	{FieldCounterbore, reachOfDiameters, func(p *probe) *measure.Dim { return &p.head.Counterbore.Diameter }},
	{FieldCounterboreDepth, reachOfLengths, func(p *probe) *measure.Dim { return &p.head.Counterbore.Depth }},
	{FieldAdapterOD, reachOfDiameters, func(p *probe) *measure.Dim { return &p.head.Adapter.TopOD }},
	{FieldAdapterBore, reachOfDiameters, func(p *probe) *measure.Dim { return &p.head.Adapter.Bore }},
	{FieldAdapterBoreDepth, reachOfLengths, func(p *probe) *measure.Dim { return &p.head.Adapter.BoreDepth }},
	{FieldTip, reachOfDiameters, func(p *probe) *measure.Dim { return &p.tip.end }},
	{FieldFerruleBore, reachOfDiameters, func(p *probe) *measure.Dim {
		p.ferrule.Bore = p.ferrule.boreOn(&p.head, &p.shop)
		return &p.ferrule.Bore
	}},
	{FieldBaseOD, reachOfDiameters, func(p *probe) *measure.Dim { return &p.ferrule.BaseOD }},
	{FieldLength, reachOfLengths, func(p *probe) *measure.Dim { return &p.ferrule.Length }},
	{FieldCollarOD, reachOfDiameters, func(p *probe) *measure.Dim { return &p.ferrule.Collar.OD }},
	{FieldCollarLength, reachOfLengths, func(p *probe) *measure.Dim { return &p.ferrule.Collar.Length }},
	{FieldStepOD, reachOfDiameters, func(p *probe) *measure.Dim { return &p.ferrule.Step.OD }},
	{FieldStepLength, reachOfLengths, func(p *probe) *measure.Dim { return &p.ferrule.Step.Length }},
	{FieldRingDepth, reachOfDiameters, func(p *probe) *measure.Dim { return &p.ferrule.RingDepth }},
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
	reach := k.reach
	if impossible, found := threshold(measure.Length{}, reach, func(shift measure.Length) bool {
		*dim = given.Shift(shift.MulInt(direction))
		return valid(&p.head, &p.tip, &p.ferrule) != nil
	}); found {
		reach = impossible.Sub(measure.Picometres(1))
	}
	const steps = 500
	step := k.reach.DivRound(steps)
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
