package fitcalc

import (
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/stack"
)

// Evaluate decides one joint: head, tip and ferrule by the limits of a shop.
//
// Data that is missing is no error; the verdict is then [Ask] with a reason for each missing dimension, unless what is
// given already rules the joint out. The error is an [*InputError] for sizes that no joint can have, or a [*SettingError].
func Evaluate(head Head, tip Tip, ferrule Ferrule, shop Shop) (Fit, error) {
	if err := firstError(head.Validate(), tip.Validate(), ferrule.Validate()); err != nil {
		return Fit{}, err
	}
	if !shop.sound() {
		wrong := shop // a copy, so that a sound shop stays off the heap
		return Fit{}, wrong.Validate()
	}
	var fit Fit
	EvaluateInto(&fit, &head, &tip, &ferrule, &shop)
	return fit, nil
}

// EvaluateInto is [Evaluate] for those who decide many joints: it copies nothing, allocates nothing, and leaves checking the
// parts, once each, to Validate. What it finds for parts that are not valid means nothing.
func EvaluateInto(fit *Fit, head *Head, tip *Tip, ferrule *Ferrule, shop *Shop) {
	*fit = Fit{}
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

	hoselOD   measure.Dim
	hoselOf   Field // FieldHoselOD or FieldAdapterOD
	headBore  measure.Dim
	boreDepth measure.Dim
	baseOD    measure.Dim
	bore2     measure.Dim // the ferrule's bore
	style     Style
	insertion measure.Length
	seated    measure.Length // position of the ferrule's top on the shaft

	worst Level
}

func newJoint(fit *Fit, head *Head, tip *Tip, ferrule *Ferrule, shop *Shop) joint {
	j := joint{fit: fit, head: head, tip: tip, ferrule: ferrule, shop: shop, style: ferrule.Style}
	j.hoselOD, j.hoselOf, j.headBore, j.boreDepth = head.HoselOD, FieldHoselOD, head.Bore, head.BoreDepth
	if a := &head.Adapter; a.TopOD.Given() {
		j.hoselOD, j.hoselOf = a.TopOD, FieldAdapterOD
		if a.Bore.Given() {
			j.headBore = a.Bore
		} else if j.headBore.Given() {
			j.assume(AssumedAdapterBore)
		}
		if a.BoreDepth.Given() {
			j.boreDepth = a.BoreDepth
		}
	}
	j.hoselOD = j.toleranced(j.hoselOD, shop.HoselODTolerance, AssumedHoselODTolerance)
	j.headBore = j.toleranced(j.headBore, shop.BoreTolerance, AssumedBoreTolerance)
	j.baseOD = j.toleranced(ferrule.BaseOD, shop.FerruleODTolerance, AssumedBaseODTolerance)
	j.bore2 = j.toleranced(ferrule.Bore, shop.FerruleBoreTolerance, AssumedFerruleBoreTolerance)
	if j.style == StyleUnknown {
		switch {
		case ferrule.Step.OD.Given() || ferrule.Step.Length.Given():
			j.style = Stepped
		case ferrule.Collar.OD.Given() || ferrule.Collar.Length.Given():
			j.style = Collared
		default:
			j.style = Plain
			j.assume(AssumedPlain)
		}
	}
	j.insertion = j.boreDepth.Nominal()
	if !j.boreDepth.Given() {
		j.insertion = shop.InsertionDepth
		if tip.form > TipParallel {
			j.assume(AssumedInsertion)
		}
	}
	j.seated = j.insertion.Add(ferrule.Length.Nominal())
	return j
}

// toleranced gives a dimension without limits the shop's, and says so.
func (j *joint) toleranced(d measure.Dim, tolerance measure.Length, a Assumption) measure.Dim {
	if !d.Given() || d.HasLimits() {
		return d
	}
	j.assume(a)
	return d.OrPlusMinus(tolerance)
}

// tipAt returns the shaft's diameter at a position, with limits.
func (j *joint) tipAt(position measure.Length) measure.Dim {
	if !j.tip.end.HasLimits() {
		j.assume(AssumedTipTolerance)
	}
	return j.tip.Diameter(position).OrPlusMinus(j.shop.TipTolerance)
}

func (j *joint) assume(a Assumption) { j.fit.Assumptions = j.fit.Assumptions.with(a) }

func (j *joint) reason(r Reason) {
	j.worst = max(j.worst, r.Level)
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
	j.fit.Flush = flushFit(j.baseOD, j.hoselOD, j.shop)
	f := &j.fit.Flush
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

func flushFit(base, hosel measure.Dim, shop *Shop) FlushFit {
	s := stack.Of(base).Minus(hosel)
	over := s.Above(shop.FlushStep)
	zero := measure.Length{}
	return FlushFit{
		Known:    true,
		HoselOD:  hosel,
		Oversize: Amount{s.Nominal(), s.Least(), s.Most()},
		TurnDown: Amount{
			measure.Max(s.Nominal(), zero), measure.Max(s.Least(), zero), measure.Max(s.Most(), zero),
		},
		// Only what stands out by more than the step is turned, and then all of it.
		MeanTurnDownMM:   s.MeanExcess(shop.FlushStep) + shop.FlushStep.Millimetres()*over,
		Undersize:        s.Below(zero),
		VisibleUndersize: s.Below(shop.FlushStep.Neg()),
		VisibleOversize:  over,
	}
}
