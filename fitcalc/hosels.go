package fitcalc

import (
	"slices"

	"example.com/seatline/fitcalc/measure"
)

// Hosels decides one joint on hosels of any OD, each as [EvaluateInto] does, for those who walk along many ODs. What does not depend on
// the OD is judged once: how tip, ferrule bore and the head's bore go together, and what is below the base unless a countersink has to be
// cut deeper into a wall.
//
// A Hosels is not for several goroutines at once.
type Hosels struct{ probe probe }

// NewHosels returns a Hosels for a head, of whose hosel, or adapter sleeve, only the deviations of the OD count, as in [Windows]. It copies
// the parts and leaves checking them to Validate; what is found for parts that are not valid means nothing.
func NewHosels(head *Head, tip *Tip, ferrule *Ferrule, shop *Shop) *Hosels {
	return &Hosels{probe{head: *head, tip: *tip, ferrule: *ferrule, shop: *shop}}
}

// At returns the fit on a hosel of an OD, which holds until the next call.
func (h *Hosels) At(od measure.Length) *Fit {
	h.probe.judgeAt(od)
	h.probe.assumeTaper(od)
	return &h.probe.fit
}

// MinutesAt returns [WorkFit.Minutes] on a hosel of an OD. It is found sooner than the whole fit.
func (h *Hosels) MinutesAt(od measure.Length) float64 {
	h.probe.judgeAt(od)
	return h.probe.fit.Work.Minutes
}

// Windows returns what [Windows] does for the joint.
func (h *Hosels) Windows() []Window { return h.probe.windows(false) }

// stage is what one part of the judging finds whatever the hosel's OD.
type stage struct {
	reasons     []Reason
	assumptions AssumptionSet
}

// tell adds what a stage found to a joint under way.
func (s *stage) tell(j *joint) {
	for _, r := range s.reasons {
		if r.Code == DataMissing {
			j.missing(r.Field)
		} else {
			j.reason(r)
		}
	}
	j.Assumptions |= s.assumptions
}

// stages are those of a joint on which the hosel's OD has no bearing, and what they fill in of its fit.
type stages struct {
	judged           bool
	grip, seat, bore stage
	fit              Fit
	seatHangsOnHosel bool
}

// of judges the stages of a joint, whatever the OD of its hosel is.
func (s *stages) of(brought *Joint) {
	apart := func(judge func(*joint)) stage {
		s.fit.reasons, s.fit.count = [len(s.fit.reasons)]Reason{}, 0
		j := joint{Joint: *brought, fit: &s.fit}
		j.Assumptions = 0
		judge(&j)
		return stage{slices.Clone(s.fit.reasons[:s.fit.count]), j.Assumptions}
	}
	s.grip, s.seat, s.bore = apart((*joint).grip), apart((*joint).seat), apart((*joint).bore)
	// A collar that stands too high asks whether the wall lets the countersink be cut deeper.
	s.seatHangsOnHosel = slices.ContainsFunc(s.seat.reasons, func(r Reason) bool { return r.Code == SeatCollarHigh })
	s.judged = true
}

// tellSeat is [joint.seat].
func (s *stages) tellSeat(j *joint) {
	if s.seatHangsOnHosel {
		j.seat()
		return
	}
	s.seat.tell(j)
	j.fit.Seat = s.fit.Seat
}

// judgeAt is judge for a hosel of an OD, and as whole.
func (p *probe) judgeAt(od measure.Length) {
	j := p.begin(od)
	if p.head.Top == TopRounded {
		j.judge(true)
		return
	}
	s := &p.stages
	j.flush()
	s.grip.tell(&j)
	s.tellSeat(&j)
	s.bore.tell(&j)
	p.fit.Grip, p.fit.Bore = s.fit.Grip, s.fit.Bore
	j.work()
	j.remarks()
	j.decide()
}

// assumeTaper is the function of that name, for the fit on a hosel of an OD.
func (p *probe) assumeTaper(od measure.Length) {
	if whateverTheTaper(&p.fit) {
		return
	}
	if p.tip.outgrows(&p.shop) || restsOnTaper(&p.tip, &p.ferrule) && p.hangsOnTaper(od) {
		p.fit.Assumptions = p.fit.Assumptions.with(AssumedTipTaper)
	}
}

func (p *probe) hangsOnTaper(od measure.Length) bool {
	if p.otherTapers == nil {
		for _, rate := range p.shop.OtherTapers() {
			other := probe{head: p.head, tip: p.tip, ferrule: p.ferrule, shop: p.shop}
			other.shop.TipTaper = rate
			p.otherTapers = append(p.otherTapers, other)
		}
	}
	for i := range p.otherTapers {
		other := &p.otherTapers[i]
		if other.judgeAt(od); other.fit.Verdict != p.fit.Verdict {
			return true
		}
	}
	return false
}
