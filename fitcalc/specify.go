package fitcalc

import (
	"slices"

	"example.com/seatline/fitcalc/measure"
)

// Specification is what a ferrule must be for a head and tip: what to order from a moulder. The ranges are of nominal sizes
// made to the tolerances that the specification names, each with the best of the other sizes: with those [Evaluate] finds nothing of
// the ferrule to prepare or to measure first. An empty range cannot be met.
type Specification struct {
	// BaseOD is every base OD that ends flush or can be turned to, on the diameter; FlushOD those that end flush as
	// supplied.
	BaseOD, FlushOD measure.Interval
	// BestBaseOD is the one that leaves least to turn: the hosel's own size where that ends flush, else the smallest that keeps the
	// risk of an undersize base.
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
	s := Specification{ForLength: wanted.Length.Middle(), Style: styleFor(&head)}
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
	p.specifyBore(&s)
	p.specifyBaseOD(&s)
	p.sparesTheWall(&s)
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
	case h.counterbored():
		return Stepped
	}
	return Plain
}

// The ranges are bounded by what Evaluate weighs: a size is in its range as long as no reason of its kind asks for work or for
// measuring.
var (
	gripCodes = []Code{GripLoose, GripSplit, GripShort, GripOverTip}
	tightness = []Code{GripSplit, GripOverTip}
	looseness = []Code{GripLoose, GripShort}
)

// asks reports whether a reason of one of the codes asks for more than turning.
func asks(f *Fit, codes ...Code) bool {
	return slices.ContainsFunc(codes, func(c Code) bool { return weightOf(f, c) >= Prepares })
}

// between returns the sizes from where a first condition ceases to hold up to where a second begins to.
func between(least, most measure.Length, tooLittle, tooMuch func(measure.Length) bool) measure.Interval {
	from, found := threshold(least, most, func(x measure.Length) bool { return !tooLittle(x) })
	if !found {
		return measure.Interval{}
	}
	to, found := threshold(least, most, tooMuch)
	if !found || !from.Less(to) {
		return measure.Interval{}
	}
	return measure.NewInterval(measure.Including(from), measure.Excluding(to))
}

func (p *probe) specifyBaseOD(s *Specification) {
	hosel := p.hosel().Middle()
	least, most := hosel.MulRatio(1, 2), hosel.MulInt(2)
	at := func(od measure.Length) *Fit {
		p.ferrule.BaseOD = moved(p.ferrule.BaseOD, od)
		return p.evaluate()
	}
	small := func(od measure.Length) bool { return asks(at(od), FlushUndersize, WallThin) }
	s.BaseOD = between(least, most, small, func(od measure.Length) bool { return asks(at(od), FlushTurnLimit) })
	s.FlushOD = between(least, most, small, func(od measure.Length) bool { return at(od).Flush.turns(&p.shop) })
	s.BestBaseOD = s.BaseOD.Lower().At()
	if s.FlushOD.Contains(hosel) {
		s.BestBaseOD = hosel
	}
	p.ferrule.BaseOD = moved(p.ferrule.BaseOD, s.BestBaseOD)
}

func (p *probe) specifyBore(s *Specification) {
	insertion := p.evaluate().Grip.Insertion
	tip := p.tip.ByShop(&p.shop)
	peak := tip.widest(insertion, insertion.Add(s.ForLength))
	asks := func(codes []Code) func(measure.Length) bool {
		return func(bore measure.Length) bool {
			p.ferrule.Bore = moved(p.ferrule.Bore, bore)
			return asks(p.evaluate(), codes...)
		}
	}
	s.Bore = between(peak.MulRatio(1, 2), peak.MulInt(2), asks(tightness), asks(looseness))
	usually := p.ferrule.Bore.Middle().Sub(p.ferrule.Bore.Nominal()) // larger than nominally, where the limits are one-sided
	s.BestBore = peak.Sub(p.shop.UsualInterference).Sub(usually)
	if lower, upper := s.Bore.Lower().At(), s.Bore.Upper().At(); !s.Bore.Empty() && !s.Bore.Contains(s.BestBore) {
		s.BestBore = lower.Add(upper.Sub(lower).Half())
	}
	p.ferrule.Bore = moved(p.ferrule.Bore, s.BestBore)
}

// sparesTheWall takes bores out of the range that would leave too little of the ferrule between them and the best base OD.
func (p *probe) sparesTheWall(s *Specification) {
	if s.Bore.Empty() {
		return
	}
	from, to := s.Bore.Lower().At(), s.Bore.Upper().At()
	thin, found := threshold(from, to, func(bore measure.Length) bool {
		p.ferrule.Bore = moved(p.ferrule.Bore, bore)
		return asks(p.evaluate(), WallThin)
	})
	if found {
		s.Bore = measure.NewInterval(measure.Including(from), measure.Excluding(measure.Min(thin, to)))
	}
	p.ferrule.Bore = moved(p.ferrule.Bore, s.BestBore)
}

// specifyLength looks for the longest run of lengths with which the best bore grips, in sixty-fourths of an inch, and then for its
// ends to the picometre: on a tip by sections a longer ferrule may grip worse.
func (p *probe) specifyLength(s *Specification) {
	longest := p.shop.MostLength
	if hosel := p.head.HoselLength; hosel.Given() {
		longest = measure.Min(longest, times(hosel.Middle(), p.shop.LengthOfHosel))
	}
	grips := func(length measure.Length) bool {
		p.ferrule.Length = measure.Nominal(length)
		return !asks(p.evaluate(), gripCodes...)
	}
	from, to, found := longestRun(p.shop.LeastLength, longest, grips)
	if !found {
		return
	}
	upper := measure.Including(to)
	if next := measure.Min(to.Add(sixtyFourth), longest); to.Less(next) {
		if at, ends := threshold(to, next, func(l measure.Length) bool { return !grips(l) }); ends {
			upper = measure.Excluding(at)
		}
	}
	if before := measure.Max(from.Sub(sixtyFourth), p.shop.LeastLength); before.Less(from) {
		if at, begins := threshold(before, from, grips); begins {
			from = at
		}
	}
	s.Length = measure.NewInterval(measure.Including(from), upper)
}

var sixtyFourth = measure.Inches(1).MulRatio(1, 64)

// longestRun returns the ends of the longest run of lengths, in sixty-fourths of an inch from the least on and the most itself, over
// which a condition holds.
func longestRun(least, most measure.Length, holds func(measure.Length) bool) (from, to measure.Length, found bool) {
	var start measure.Length
	running := false
	for at := least; !most.Less(at); {
		if !holds(at) {
			running = false
		} else {
			if !running {
				start, running = at, true
			}
			if !found || to.Sub(from).Less(at.Sub(start)) {
				from, to, found = start, at, true
			}
		}
		if at == most {
			break
		}
		at = measure.Min(at.Add(sixtyFourth), most)
	}
	return from, to, found
}
