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
	if !shop.sound() {
		wrong := shop // a copy, so that a sound shop stays off the heap
		return Fit{}, wrong.Validate()
	}
	evaluate(&fit, &head, &tip, &ferrule, &shop)
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
	evaluate(fit, head, tip, ferrule, shop)
}

// evaluate fills in a fit that is empty.
func evaluate(fit *Fit, head *Head, tip *Tip, ferrule *Ferrule, shop *Shop) {
	j := newJoint(fit, head, tip, ferrule, shop)
	j.flush()
	j.grip()
	j.seat()
	j.bore()
	j.work()
	j.remarks()
	j.decide()
}

// joint is one evaluation under way: the parts, with the shop's tolerances where the source states none, and the fit
// being filled in.
type joint struct {
	fit     *Fit
	head    *Head
	tip     *Tip
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
	atBase    measure.Length // the shaft's nominal diameter at the ferrule's base
	inBore    measure.Length // the largest nominal diameter from the tip end to there

	worst    Level
	prepares bool // whether anything has to be prepared
}

// newJoint brings the parts together.
func newJoint(fit *Fit, head *Head, tip *Tip, ferrule *Ferrule, shop *Shop) joint {
	j := joint{fit: fit, head: head, tip: tip, ferrule: ferrule, shop: shop}
	j.bringHead()
	j.bringFerrule()
	j.bringTip()
	return j
}

func (j *joint) bringHead() {
	h, shop := j.head, j.shop
	j.hoselOD, j.hoselOf, j.headBore, j.boreDepth = h.HoselOD, FieldHoselOD, h.Bore, h.BoreDepth
	if h.Adapter.Given() {
		j.bringAdapter()
	}
	j.tolerance(&j.hoselOD, shop.HoselODTolerance, AssumedHoselODTolerance)
	j.tolerance(&j.headBore, shop.BoreTolerance, AssumedBoreTolerance)
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
	j.baseOD, j.ferruleBore, j.style = f.BaseOD, f.Bore, f.Style
	j.tolerance(&j.baseOD, j.shop.FerruleODTolerance, AssumedBaseODTolerance)
	j.tolerance(&j.ferruleBore, j.shop.FerruleBoreTolerance, AssumedFerruleBoreTolerance)
	if j.style != StyleUnknown {
		return
	}
	switch {
	case f.Step.OD.Given() || f.Step.Length.Given():
		j.style = Stepped
	case f.Collar.OD.Given() || f.Collar.Length.Given():
		j.style = Collared
	default:
		j.style = Plain
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
	j.seated = j.insertion.Add(j.ferrule.Length.Nominal())
	if j.tip.form == TipUnknown {
		return
	}
	j.tipEnd = j.tip.end
	j.tolerance(&j.tipEnd, j.shop.TipTolerance, AssumedTipTolerance)
	j.atBase = j.tip.nominalAt(j.insertion)
	j.inBore = j.tip.widest(measure.Length{}, j.insertion)
}

// tolerance gives a dimension without limits the shop's, and says so.
func (j *joint) tolerance(d *measure.Dim, tolerance measure.Length, a Assumption) {
	if d.Given() && !d.HasLimits() {
		j.assume(a)
		*d = measure.PlusMinus(d.Nominal(), tolerance).WithShape(d.Shape()).WithOrigin(measure.Default)
	}
}

// shaft returns a nominal diameter of the tip with the tip's limits.
func (j *joint) shaft(nominal measure.Length) measure.Dim {
	return j.tipEnd.Shift(nominal.Sub(j.tipEnd.Nominal()))
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
	Remarks: Flush, Turns: Turn, Prepares: Prep, Undecided: Ask, Blocks: No, TakesNone: Bare,
}

// flush compares base OD and hosel OD.
func (j *joint) flush() {
	if !j.hoselOD.Given() {
		j.missing(j.hoselOf)
	}
	if !j.baseOD.Given() {
		j.missing(FieldBaseOD)
	}
	if !j.hoselOD.Given() || !j.baseOD.Given() {
		return
	}
	f := &j.fit.Flush
	j.fillFlush(f)
	switch {
	case f.VisibleUndersize > j.shop.UndersizeRisk:
		j.reason(Reason{Code: FlushUndersize, Level: Blocks, Size: f.Oversize.Nominal, Limit: j.shop.FlushStep,
			Share: f.VisibleUndersize, Bound: j.shop.UndersizeRisk})
	case f.VisibleOversize <= j.shop.UndersizeRisk:
		j.reason(Reason{Code: FlushAsSupplied, Level: Remarks, Size: f.Oversize.Nominal, Limit: j.shop.FlushStep})
	case f.TurnDown.Most.Compare(j.shop.TurnLimit) <= 0:
		j.reason(Reason{Code: FlushTurn, Level: Turns, Size: f.TurnDown.Nominal, Other: f.TurnDown.Most,
			Share: f.VisibleOversize})
	default:
		j.reason(Reason{Code: FlushTurnLimit, Level: Blocks, Size: f.TurnDown.Most, Limit: j.shop.TurnLimit})
	}
}

func (j *joint) fillFlush(f *FlushFit) {
	zero := measure.Length{}
	f.Known, f.HoselOD, f.Oversize = true, j.hoselOD, difference(&j.baseOD, &j.hoselOD)
	f.TurnDown = Amount{
		measure.Max(f.Oversize.Nominal, zero), measure.Max(f.Oversize.Least, zero), measure.Max(f.Oversize.Most, zero),
	}
	f.flushOdds(&j.baseOD, &j.hoselOD, j.shop.FlushStep)
}
