package fitcalc

import (
	"example.com/seatline/fitcalc/measure"
)

// Evaluate decides one joint: head, tip and ferrule by the limits of a shop.
//
// Data that is missing is no error; the verdict is then [Ask] with a reason for each missing dimension, unless what is
// given already rules the joint out. The error is an [*InputError] for sizes that no joint can have, or a [*SettingError].
func Evaluate(head Head, tip Tip, ferrule Ferrule, shop Shop) (fit Fit, err error) {
	if err := valid(&head, &tip, &ferrule); err != nil {
		return Fit{}, err
	}
	if err := shop.Validate(); err != nil {
		return Fit{}, err
	}
	evaluate(&fit, &head, &tip, &ferrule, &shop, true)
	return fit, nil
}

func valid(head *Head, tip *Tip, ferrule *Ferrule) error {
	if err := head.Validate(); err != nil {
		return err
	}
	if err := tip.Validate(); err != nil {
		return err
	}
	return ferrule.Validate()
}

// EvaluateInto is [Evaluate] for those who decide many joints: it copies nothing, allocates nothing, and leaves checking the
// parts, once each, to Validate. What it finds for parts that are not valid means nothing.
func EvaluateInto(fit *Fit, head *Head, tip *Tip, ferrule *Ferrule, shop *Shop) {
	*fit = Fit{}
	evaluate(fit, head, tip, ferrule, shop, true)
}

// DecideInto is [EvaluateInto] for those who need no more than the verdict of most joints: it stops at the first reason that rules a
// joint out. Verdict and [Fit.Reason] are those of EvaluateInto. Where the verdict is [No], further reasons and numbers may be
// missing; everywhere else the fit is the same.
func DecideInto(fit *Fit, head *Head, tip *Tip, ferrule *Ferrule, shop *Shop) {
	*fit = Fit{}
	evaluate(fit, head, tip, ferrule, shop, false)
}

// evaluate fills in a fit that is empty; where it need not be whole, no further than to the first reason that rules the joint out.
func evaluate(fit *Fit, head *Head, tip *Tip, ferrule *Ferrule, shop *Shop, whole bool) {
	judge(fit, head, tip, ferrule, shop, whole)
	if whole || fit.Verdict != No {
		assumeTaper(fit, head, tip, ferrule, shop)
	}
}

// judge is evaluate without asking whether another taper would change the verdict.
func judge(fit *Fit, head *Head, tip *Tip, ferrule *Ferrule, shop *Shop, whole bool) {
	j := newJoint(fit, head, tip, ferrule, shop)
	if head.Top == TopRounded {
		fit.Assumptions = 0 // it takes no ferrule, whatever there may be: nothing is held against it, and nothing turned
		j.seat()
		j.decide()
		return
	}
	j.flush()
	if whole || j.worst != Blocks {
		j.grip()
	}
	if whole || j.worst != Blocks {
		j.seat()
	}
	if whole || j.worst != Blocks {
		j.bore()
	}
	if whole || j.worst != Blocks {
		j.work()
	}
	if whole || j.worst != Blocks {
		j.remarks()
	}
	j.decide()
}

// joint is one evaluation under way: the parts, with the shop's tolerances where the source states none, and the fit
// being filled in. The sizes here are the usual ones, in the middle of their limits; those of the parts are as stated, and
// what is taken from them is their middle.
type joint struct {
	fit     *Fit
	head    *Head
	tip     Tip // as the shop takes it
	ferrule *Ferrule
	shop    *Shop

	hoselOD     measure.Dim
	hoselOf     Field // FieldHoselOD or FieldAdapterOD
	headBore    measure.Dim
	boreDepth   measure.Dim
	baseOD      measure.Dim
	ferruleBore measure.Dim
	style       Style

	tipEnd    measure.Dim    // the tip's diameter at its untrimmed end
	insertion measure.Length // position of the ferrule's base on the shaft
	seated    measure.Length // position of the ferrule's top on the shaft
	atBase    measure.Length // the shaft's usual diameter at the ferrule's base
	inBore    measure.Length // the largest usual diameter from the tip end to there

	worst    Level
	prepares bool // whether anything has to be prepared
}

// newJoint brings the parts together.
func newJoint(fit *Fit, head *Head, tip *Tip, ferrule *Ferrule, shop *Shop) joint {
	j := joint{fit: fit, head: head, tip: *tip, ferrule: ferrule, shop: shop}
	j.tip.complete(shop)
	j.bringHead()
	j.bringFerrule()
	j.bringTip()
	j.bringFerruleBore()
	return j
}

func (j *joint) bringHead() {
	h, shop := j.head, j.shop
	j.hoselOD, j.hoselOf, j.headBore, j.boreDepth = h.HoselOD, FieldHoselOD, h.Bore, h.BoreDepth
	if h.Adapter.Given() {
		j.bringAdapter()
	}
	j.tolerance(&j.hoselOD, shop.HoselODTolerance, AssumedHoselODTolerance)
	j.hoselOD = centred(j.hoselOD)
	j.tolerance(&j.headBore, shop.BoreTolerance, AssumedBoreTolerance)
	j.headBore, j.boreDepth = centred(j.headBore), centred(j.boreDepth)
}

// bringAdapter puts the sleeve in the hosel's place. Sheets often give one bore and one depth, and mean those that take the
// tip.
func (j *joint) bringAdapter() {
	a := &j.head.Adapter
	j.hoselOD, j.hoselOf = a.TopOD, FieldAdapterOD
	switch {
	case a.Bore.Given():
		j.headBore = a.Bore
	case j.headBore.Given():
		j.assume(AssumedAdapterBore)
	}
	switch {
	case a.BoreDepth.Given():
		j.boreDepth = a.BoreDepth
	case j.boreDepth.Given():
		j.assume(AssumedAdapterBore)
	}
}

func (j *joint) bringFerrule() {
	f := j.ferrule
	j.baseOD, j.style = f.BaseOD, f.TakenStyle()
	j.tolerance(&j.baseOD, j.shop.FerruleODTolerance, AssumedBaseODTolerance)
	j.baseOD = centred(j.baseOD)
	if f.Style == StyleUnknown && j.style == Plain {
		j.assume(AssumedPlain)
	}
}

func (j *joint) bringTip() {
	j.insertion = j.boreDepth.Nominal()
	if !j.boreDepth.Given() {
		j.insertion = j.shop.InsertionDepth
		if j.tip.form > TipParallel {
			j.assume(AssumedInsertion)
		}
	}
	j.seated = j.insertion.Add(j.ferrule.Length.Middle())
	if j.tip.form == TipUnknown {
		return
	}
	j.tipEnd = j.tip.end
	j.tolerance(&j.tipEnd, j.shop.TipTolerance, AssumedTipTolerance)
	j.tipEnd = centred(j.tipEnd)
	j.atBase = j.tip.usualAt(j.insertion)
	j.inBore = j.tip.widest(measure.Length{}, j.insertion)
}

// tolerance gives a dimension without limits the shop's, and says so; limits that were learned of other parts are said too.
func (j *joint) tolerance(d *measure.Dim, tolerance measure.Length, a Assumption) {
	if d.Origin() == measure.Learned {
		j.assume(AssumedLearnedTolerance)
	}
	if d.Given() && !d.HasLimits() {
		j.assume(a)
		origin := measure.Default
		if d.Origin() == measure.Measured { // a single reading: only its tolerance is taken from elsewhere
			origin = measure.Measured
		}
		*d = measure.PlusMinus(d.Nominal(), tolerance).WithShape(d.Shape()).WithOrigin(origin)
	}
}

// centred returns a dimension with its nominal size in the middle of its limits, where the usual piece is: 13.6 +0.30/+0.10 is
// usually 13.8.
func centred(d measure.Dim) measure.Dim {
	middle := d.Middle()
	if middle == d.Nominal() {
		return d
	}
	return measure.WithDeviations(middle, d.Lower().Sub(middle), d.Upper().Sub(middle)).WithShape(d.Shape()).WithOrigin(d.Origin())
}

// shaft returns a usual diameter of the tip with the tip's limits.
func (j *joint) shaft(usual measure.Length) measure.Dim {
	return j.tipEnd.Shift(usual.Sub(j.tipEnd.Nominal()))
}

func (j *joint) assume(a Assumption) { j.fit.Assumptions = j.fit.Assumptions.with(a) }

func (j *joint) reason(r Reason) {
	j.worst = max(j.worst, r.Level)
	j.prepares = j.prepares || r.Level == Prepares
	if int(j.fit.count) < len(j.fit.reasons) {
		j.fit.reasons[j.fit.count] = r
		j.fit.count++
	}
}

func (j *joint) missing(f Field) {
	for _, r := range j.fit.reasons[:j.fit.count] {
		if r.Code == DataMissing && r.Field == f {
			return
		}
	}
	j.reason(Reason{Code: DataMissing, Level: Undecided, Field: f})
}

// decide turns the weightiest reason into the verdict and puts the reasons in order of weight.
func (j *joint) decide() {
	j.fit.Verdict = verdictOf[j.worst]
	reasons := j.fit.reasons[:j.fit.count]
	for i := 1; i < len(reasons); i++ { // insertion sort: stable, short, allocates nothing
		for k := i; k > 0 && reasons[k-1].Level < reasons[k].Level; k-- {
			reasons[k-1], reasons[k] = reasons[k], reasons[k-1]
		}
	}
}

var verdictOf = [...]Verdict{
	Remarks: Flush, Turns: Turn, Prepares: Prep, Measures: Measure, Undecided: Ask, Blocks: No, TakesNone: Bare,
}
