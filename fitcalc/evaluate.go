package fitcalc

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
	j := joint{Joint: jointOf(head, tip, ferrule, shop), fit: fit}
	j.bring()
	j.judge(whole)
}

// Fit decides the joint, as [Evaluate] does.
func (j *Joint) Fit() (fit Fit) {
	judged := joint{Joint: *j, fit: &fit}
	judged.judge(true)
	assumeTaper(&fit, j.head, j.given, j.ferrule, j.shop)
	return fit
}

// joint is one evaluation under way: what is taken of the parts, and the fit being filled in.
type joint struct {
	Joint
	fit      *Fit
	worst    Level
	prepares bool // whether anything has to be prepared
}

// newJoint brings the parts together.
func newJoint(fit *Fit, head *Head, tip *Tip, ferrule *Ferrule, shop *Shop) joint {
	j := joint{Joint: jointOf(head, tip, ferrule, shop), fit: fit}
	j.bring()
	return j
}

func (j *joint) judge(whole bool) {
	if j.head.Top == TopRounded {
		j.Assumptions = 0 // it takes no ferrule, whatever there may be: nothing is held against it, and nothing turned
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
	j.fit.Verdict, j.fit.Assumptions = verdictOf[j.worst], j.Assumptions
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
