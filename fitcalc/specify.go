package fitcalc

import "example.com/seatline/fitcalc/measure"

// Specification is what a ferrule must be for a head and tip: what to order from a moulder. The ranges are of nominal sizes
// made to the tolerances that the specification names; an empty range cannot be met.
type Specification struct {
	// BaseOD is every base OD that ends flush or can be turned to, on the diameter; FlushOD those that end flush as
	// supplied.
	BaseOD, FlushOD measure.Interval
	// BestBaseOD is the smallest that keeps the risk of an undersize base: the one that leaves least to turn. A base
	// nominally equal to the hosel is smaller, and half of those come out undersize.
	BestBaseOD measure.Length
	// Bore is every bore that holds and is not stretched beyond the limit at that length, BestBore the one with the
	// interference usual in the trade, where that is among them.
	Bore     measure.Interval
	BestBore measure.Length
	// Length is every length that grips with the best bore and is not unusual on this hosel.
	Length measure.Interval
	// ForLength is the length for which Bore was worked out: the wanted one, or the shop's usual one.
	ForLength measure.Length
	// Style is the form of base that this hosel's top calls for.
	Style Style
	// BaseODTolerance and BoreTolerance are the ± that the ranges allow for.
	BaseODTolerance, BoreTolerance measure.Length
}

// Specify returns what a ferrule must be for a head and tip. Of wanted, the length, the style and the tolerances of bore and
// base OD are taken where they are given, the shop's otherwise.
//
// The error is an [*InputError] or a [*SettingError]; without a hosel OD or a tip nothing can be specified, and the error
// names which.
func Specify(head Head, tip Tip, wanted Ferrule, shop Shop) (Specification, error) {
	p := probe{head: head, tip: tip, ferrule: wanted, shop: shop}
	if err := firstError(p.head.Validate(), p.tip.Validate(), p.ferrule.Validate(), p.shop.Validate()); err != nil {
		return Specification{}, err
	}
	if !p.hosel().Given() {
		return Specification{}, &InputError{Field: FieldHoselOD, Reason: "must be given for a ferrule to be specified"}
	}
	if tip.form == TipUnknown {
		return Specification{}, &InputError{Field: FieldTip, Reason: "must be given for a ferrule to be specified"}
	}
	s := Specification{ForLength: wanted.Length.Nominal(), Style: styleFor(&head)}
	if !wanted.Length.Given() {
		s.ForLength = shop.UsualLength
	}
	p.ferrule = Ferrule{
		Bore:   tolerancesOf(wanted.Bore, shop.FerruleBoreTolerance),
		BaseOD: tolerancesOf(wanted.BaseOD, shop.FerruleODTolerance),
		Length: measure.Nominal(s.ForLength),
		Style:  Plain,
	}
	s.BoreTolerance, s.BaseODTolerance = p.ferrule.Bore.Width().Half(), p.ferrule.BaseOD.Width().Half()
	p.specifyBaseOD(&s)
	p.specifyBore(&s)
	p.specifyLength(&s)
	return s, nil
}

// tolerancesOf is a dimension of which only the deviations matter.
func tolerancesOf(d measure.Dim, otherwise measure.Length) measure.Dim {
	if !d.Given() {
		d = measure.Nominal(measure.Millimetres(1))
	}
	return d.OrPlusMinus(otherwise)
}

func styleFor(h *Head) Style {
	switch {
	case h.Top == TopRounded:
		return StyleUnknown
	case h.Top == TopCounterbored || h.Counterbore.Diameter.Given() || h.Counterbore.Depth.Given():
		return Stepped
	}
	return Plain
}

// within turns the ODs or bores at which two conditions begin to hold, and cease to, into a range.
func within(from measure.Length, fromFound bool, to measure.Length, toFound bool) measure.Interval {
	if !fromFound || !toFound {
		return measure.Interval{}
	}
	return measure.NewInterval(measure.Including(from), measure.Excluding(to))
}

func (p *probe) specifyBaseOD(s *Specification) {
	hosel := p.hosel().Nominal()
	least, most := hosel.MulRatio(1, 2), hosel.MulInt(2)
	at := func(od measure.Length) *Fit {
		p.ferrule.BaseOD = moved(p.ferrule.BaseOD, od)
		return p.evaluate()
	}
	enough, found := threshold(least, most, func(od measure.Length) bool {
		return at(od).Flush.VisibleUndersize <= p.shop.UndersizeRisk
	})
	proud, proudFound := threshold(least, most, func(od measure.Length) bool {
		return at(od).Flush.VisibleOversize > p.shop.UndersizeRisk
	})
	tooMuch, tooMuchFound := threshold(least, most, func(od measure.Length) bool {
		f := at(od)
		return f.Flush.VisibleOversize > p.shop.UndersizeRisk && p.shop.TurnLimit.Less(f.Flush.TurnDown.Most)
	})
	s.FlushOD = within(enough, found, proud, proudFound)
	s.BaseOD = within(enough, found, tooMuch, tooMuchFound)
	s.BestBaseOD = enough
	p.ferrule.BaseOD = moved(p.ferrule.BaseOD, enough)
}

func (p *probe) specifyBore(s *Specification) {
	insertion := p.evaluate().Grip.Insertion
	peak := p.tip.widest(insertion, insertion.Add(s.ForLength))
	least, most := peak.MulRatio(1, 2), peak.MulInt(2)
	at := func(bore measure.Length) *Fit {
		p.ferrule.Bore = moved(p.ferrule.Bore, bore)
		return p.evaluate()
	}
	whole, wholeFound := threshold(least, most, func(bore measure.Length) bool { return at(bore).Grip.Split <= p.shop.SplitRisk })
	loose, looseFound := threshold(least, most, func(bore measure.Length) bool {
		f := at(bore)
		return f.Grip.Slip > p.shop.SlipRisk || f.Grip.Length.Less(p.shop.LeastGrip)
	})
	s.Bore = within(whole, wholeFound, loose, looseFound)
	s.BestBore = peak.Sub(p.shop.UsualInterference)
	if !s.Bore.Empty() && !s.Bore.Contains(s.BestBore) {
		s.BestBore = whole.Add(loose.Sub(whole).Half())
	}
	p.ferrule.Bore = moved(p.ferrule.Bore, s.BestBore)
}

func (p *probe) specifyLength(s *Specification) {
	longest := p.shop.MostLength
	if hosel := p.head.HoselLength; hosel.Given() {
		longest = measure.Min(longest, times(hosel.Nominal(), p.shop.LengthOfHosel))
	}
	shortest := p.shop.LeastLength
	grips := func(length measure.Length) bool {
		p.ferrule.Length = measure.Nominal(length)
		f := p.evaluate()
		return !f.has(GripLoose) && !f.has(GripShort)
	}
	if at, found := threshold(shortest, longest, grips); found {
		shortest = at
	} else if !grips(shortest) {
		return
	}
	splits := func(length measure.Length) bool {
		p.ferrule.Length = measure.Nominal(length)
		return p.evaluate().has(GripSplit)
	}
	if at, found := threshold(shortest, longest, splits); found {
		s.Length = measure.NewInterval(measure.Including(shortest), measure.Excluding(at))
		return
	}
	s.Length = measure.Closed(shortest, longest)
}
