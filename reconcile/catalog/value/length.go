package value

import (
	"errors"
	"fmt"
	"strings"
	"unicode"

	"example.com/seatline/fitcalc/limits"
	"example.com/seatline/fitcalc/measure"
)

// peel takes off what stands around a value and records it in the reading. What is left begins with a number and holds
// only numbers, units, signs and classes. Trouble says why there is no such value.
func (p parser) peel(r *Reading, tokens []token) (core []token, trouble string) {
	var before, after []string
	var class []token // stands last for the strict parser, after the unit
	started := false
	for i, t := range tokens {
		switch t.kind {
		case aNumber:
			started = true
			core = append(core, t)
		case aUnit:
			switch {
			case !isLength(t.text):
				return nil, fmt.Sprintf("%q is no unit of length", t.raw)
			case i > 0 && tokens[i-1].is(aUnit, t.text):
				r.Leniencies = append(r.Leniencies, Leniency{ForgaveUnitTwice, "the unit stands twice: " + tokens[i-1].raw + " " + t.raw})
			case started:
				core = append(core, t)
			}
		case aClass:
			class = append(class, t)
		case aSign:
			switch {
			case t.text == "%":
				return nil, "a percentage is no size"
			case t.text == "x":
				return nil, "two sizes in one cell"
			case t.text == "+" && !started:
			case t.text == "/" && !(i+1 < len(tokens) && (tokens[i+1].is(aSign, "+") || tokens[i+1].is(aSign, "-") || isZero(tokens[i+1]))):
			case strings.Contains("+-±~/", t.text):
				if t.text == "-" && lastSign(tokens[i+1:]) { // 13.5 -
					break
				}
				core = append(core, t)
			}
		case aMark:
			p.mark(r, t)
		case aForm:
			r.Form = formNamed(t.text)
		case aFootnote:
			r.Leniencies = append(r.Leniencies, Leniency{ForgaveFootnote, "the footnote mark " + strings.TrimSpace(t.raw) + " was set aside"})
		case aWord:
			if started {
				after = append(after, t.raw)
			} else {
				before = append(before, t.raw)
			}
		}
	}
	return p.core(r, append(core, class...), strings.Join(before, " "), strings.Join(after, " "))
}

func lastSign(rest []token) bool { return !has(rest, aNumber) && !has(rest, aClass) }

func isZero(t token) bool { return t.kind == aNumber && t.num.Sign() == 0 }

// core checks what is left of a value and the words around it.
func (p parser) core(r *Reading, core []token, before, after string) ([]token, string) {
	if len(core) == 0 || core[0].kind != aNumber {
		if len(core) > 1 && core[0].is(aSign, "-") {
			return nil, "a size cannot be negative"
		}
		return nil, "there is no number where one is needed"
	}
	if before != "" && !p.v.IsHeadingWord(before) && !(core[0].gap && hasUnit(core, isLength)) {
		return nil, fmt.Sprintf("%q stands before the number", before)
	}
	if rest := strings.TrimSpace(before + " " + after); rest != "" {
		if strings.ContainsAny(rest, "0123456789") || !strings.ContainsFunc(rest, unicode.IsLetter) {
			return nil, fmt.Sprintf("%q is not understood", rest)
		}
		r.Rest = rest
		code := ForgaveTrailingText
		if p.v.IsHeadingWord(rest) {
			code = ForgaveNaming
		}
		r.Leniencies = append(r.Leniencies, Leniency{code, fmt.Sprintf("%q beside the value was set aside", rest)})
	}
	return core, ""
}

func (p parser) mark(r *Reading, t token) {
	switch t.text {
	case "diameter":
		r.Diameter = true
		r.Leniencies = append(r.Leniencies, Leniency{ForgaveDiameterSign, "the cell says that this is a diameter: " + t.raw})
	case "radius":
		r.Radius = true
		r.Leniencies = append(r.Leniencies, Leniency{ForgaveRadiusSign, "the cell says that this is a radius: " + t.raw})
	case "per_side":
		r.PerSide = true
	case "approximate":
		r.Qualifier = Approximate
		r.Leniencies = append(r.Leniencies, Leniency{ForgaveApproximation, "the value is approximate: " + t.raw})
	case "at_most":
		r.Qualifier = AtMost
	case "at_least":
		r.Qualifier = AtLeast
	case "reference":
		r.Qualifier = Reference
	case "included":
		r.Included = true
	case "half_angle":
		r.HalfAngle = true
	}
}

// dim makes a dimension of a value without anything around it, by writing it out for the strict parser.
func (p parser) dim(core []token, unit string) (measure.Dim, []Leniency, error) {
	var forgiven []Leniency
	outer := lengthUnit(unit)
	if isFine(ownUnit(core)) && len(core) > 1 && core[1].kind != aUnit {
		// 13.6 ±50 µm: the size itself is in the column's unit, or the strict parser refuses it.
		outer = measure.NoUnit
		if isLength(p.ctx.Unit) && !isFine(p.ctx.Unit) {
			core = append([]token{core[0], {kind: aUnit, text: p.ctx.Unit}}, core[1:]...)
		}
	}
	core, isRange := rangeSign(core)
	if isRange || hasText(core, aSign, "~") {
		forgiven = append(forgiven, Leniency{ForgaveRange, "two sizes read as limits"})
		if first, last, found := reversed(core); found {
			forgiven = append(forgiven, wrongWayRound(first, last))
		}
	}
	if number, sign, found := oneDeviation(core); found {
		opposite := map[string]string{"+": "-", "-": "+"}[sign]
		core = append(append([]token{}, core...), token{kind: aSign, text: "/"}, token{kind: aSign, text: opposite}, token{kind: aNumber})
		forgiven = append(forgiven, Leniency{ForgaveOneDeviation, fmt.Sprintf("%s%s alone: the other deviation is taken as 0", sign, number)})
	}
	if len(core) == 1 || len(core) == 2 && core[1].kind == aUnit {
		size, exact, err := core[0].num.In(outer)
		if err == nil && !exact {
			forgiven = append(forgiven, Leniency{ForgaveNoise, core[0].raw + " is finer than a picometre and is rounded"})
		}
		return measure.Nominal(size), forgiven, err
	}
	d, err := limits.ParseDimIn(measure.Notation{Unit: outer}, spell(core))
	return d, forgiven, err
}

func isFine(unit string) bool { return unit == "um" || unit == "thou" }

// rangeSign makes a sign for limits of a minus between two sizes of one kind: 13.5-13.7. A deviation is far smaller
// than the size.
func rangeSign(core []token) ([]token, bool) {
	var numbers, minus []int
	for i, t := range core {
		switch {
		case t.kind == aNumber:
			numbers = append(numbers, i)
		case t.is(aSign, "-"):
			minus = append(minus, i)
		case t.kind != aUnit:
			return core, false
		}
	}
	if len(numbers) != 2 || len(minus) != 1 || core[numbers[1]].num.Float64() < core[numbers[0]].num.Float64()/2 {
		return core, false
	}
	changed := append([]token{}, core...)
	changed[minus[0]].text = "~"
	return changed, true
}

func wrongWayRound(first, last string) Leniency {
	return Leniency{ForgaveReversed, fmt.Sprintf("%s comes before %s, the wrong way round for limits; they are put in order, and one of them may be a slip", first, last)}
}

// reversed recognises two limits in one unit of which the first is the greater.
func reversed(core []token) (first, last string, found bool) {
	var numbers []token
	unit := ""
	for _, t := range core {
		switch {
		case t.kind == aNumber:
			numbers = append(numbers, t)
		case t.kind == aUnit && unit != "" && t.text != unit:
			return "", "", false
		case t.kind == aUnit:
			unit = t.text
		}
	}
	if len(numbers) != 2 || numbers[0].num.Float64() <= numbers[1].num.Float64() {
		return "", "", false
	}
	return numbers[0].raw, numbers[1].raw, true
}

// oneDeviation recognises 13.6 -0.1 and 13.6 +0.05.
func oneDeviation(core []token) (number, sign string, found bool) {
	signs, numbers := 0, 0
	for _, t := range core {
		switch {
		case t.kind == aNumber:
			numbers++
			number = t.raw
		case t.is(aSign, "+"), t.is(aSign, "-"):
			signs++
			sign = t.text
		case t.kind != aUnit:
			return "", "", false
		}
	}
	return number, sign, signs == 1 && numbers == 2
}

// spell writes a value for the strict parser.
func spell(core []token) string {
	var b strings.Builder
	for i, t := range core {
		switch t.kind {
		case aNumber:
			if i > 0 && core[i-1].kind != aSign {
				b.WriteByte(' ')
			}
			b.WriteString(t.num.String())
		case aUnit:
			b.WriteString(" " + lengthUnit(t.text).String())
		case aSign:
			if t.text != "/" && (i == 0 || core[i-1].kind != aSign) {
				b.WriteByte(' ')
			}
			b.WriteString(t.text)
		case aClass:
			b.WriteString(" " + t.text)
		}
	}
	return strings.TrimSpace(b.String())
}

// briefly says what the strict parser found wrong, without its advice to the writer.
func briefly(err error) string {
	var parse *measure.ParseError
	if errors.As(err, &parse) {
		if parse.Rest != "" && parse.Rest != parse.Input {
			return parse.Reason + " at \"" + parse.Rest + "\""
		}
		return parse.Reason
	}
	return err.Error()
}

// resolveComma decides a comma that may part thousands by the bounds of the column. Where they do not settle it there
// are two readings and no value.
func (p parser) resolveComma(r Reading, t token, unit string) (measure.Number, Reading, bool) {
	decimal, thousands := t.comma.AsDecimal, t.comma.AsThousands
	if unit != "" && p.bounded() {
		asDecimal, _, errDecimal := decimal.In(lengthUnit(unit))
		asThousands, _, errThousands := thousands.In(lengthUnit(unit))
		decimalFits := errDecimal == nil && p.within(asDecimal)
		thousandsFits := errThousands == nil && p.within(asThousands)
		if decimalFits != thousandsFits {
			if decimalFits {
				return decimal, Reading{}, true
			}
			return thousands, Reading{}, true
		}
	}
	bad := unreadable("the comma in %s may be a decimal comma or part thousands", t.raw)
	bad.Unit, bad.UnitStated = r.Unit, r.UnitStated
	for _, n := range []measure.Number{decimal, thousands} {
		a := Alternative{Text: strings.TrimSpace(n.String() + " " + unit), Why: "(a decimal comma)"}
		if n == thousands {
			a.Why = "(a comma that parts thousands)"
		}
		if l, _, err := n.In(lengthUnit(unit)); err == nil {
			a.Dim = measure.Nominal(l)
		}
		bad.Alternatives = append(bad.Alternatives, a)
	}
	return measure.Number{}, bad, false
}

func (p parser) bounded() bool { return !p.ctx.Least.IsZero() || !p.ctx.Most.IsZero() }

func (p parser) within(l measure.Length) bool { return !l.Less(p.ctx.Least) && !p.ctx.Most.Less(l) }

// shorthand recognises the trade's way to write a tip: 370 for .370 in.
func shorthand(raw string) bool { return len(raw) == 3 && raw[0] != '0' && digitsAhead(raw) == 3 }

const whyShorthand = "(trade shorthand for thousandths of an inch)"

func inThousandths(t token) (Alternative, bool) {
	if !shorthand(t.raw) {
		return Alternative{}, false
	}
	size, _, err := t.num.In(measure.Mil)
	if err != nil {
		return Alternative{}, false
	}
	text, _ := size.FormatInches(3)
	return Alternative{measure.Nominal(size), text + " in", whyShorthand}, true
}

// withoutUnit is a number, or a number with limits, whose unit nobody states.
func (p parser) withoutUnit(r Reading, core []token) Reading {
	r.Kind = Number
	if p.ctx.Want != WantAny {
		r.Problem = Problem{problemUnit, "the number has no unit, in its cell or elsewhere"}
	}
	if a, found := inThousandths(core[0]); found {
		r.Alternatives = append(r.Alternatives, a)
	}
	return r
}

// TooWide reports whether the limits of a size are too far apart for one diameter.
func TooWide(dim measure.Dim) bool {
	return dim.HasLimits() && dim.Nominal().Less(dim.Width().MulInt(widestShare))
}

// TooFarApart is [TooWide] for limits of one unit that stand in cells of their own.
func TooFarApart(least, most float64) bool { return (least+most)/2 < (most-least)*widestShare }

// check compares a length with what is plausible and names the usual mistakes that would explain it. First is the
// number that it was read from.
func (p parser) check(r Reading, first token) Reading {
	size := r.Dim.Nominal()
	short, shorthand := inThousandths(first)
	switch {
	case size.Sign() < 0:
		bad := unreadable("a size cannot be negative")
		bad.Problem.Code = problemImplausible
		return bad
	case first.num.IsFraction() && !isInch(r.Unit):
		r.Problem = Problem{problemUnit, fmt.Sprintf("%s is written as a fraction, as inches are, and the unit is %s", first.raw, r.Unit)}
		if l, _, err := first.num.In(measure.Inch); err == nil {
			r.Alternatives = append(r.Alternatives, Alternative{measure.Nominal(l), first.raw + " in", "(a fraction of an inch)"})
		}
		return r
	case shorthand && r.Unit == "in" && !(p.bounded() && p.within(size)):
		r.Problem = Problem{problemImplausible, first.raw + " in is no size of a joint"}
		r.Alternatives = append(r.Alternatives, short)
		return r
	case r.Unit == "thou" && r.Dim.HasLimits() && !r.Dim.Width().IsZero() && r.Dim.Width().MulInt(1/leastThou).Less(measure.Mil.PerUnit()):
		r.Problem = Problem{problemImplausible, "the limits of " + first.raw + " are a small part of a thousandth of an inch apart; perhaps they are in inches"}
		return r
	case p.ctx.Want == WantDiameter && TooWide(r.Dim):
		r.Problem = Problem{problemImplausible, fmt.Sprintf("limits %s and %s are too far apart for one diameter", millimetres(r.Dim.Lower()), millimetres(r.Dim.Upper()))}
		return r
	case !p.bounded() || p.within(size):
		return r
	}
	r.Problem = Problem{problemImplausible, fmt.Sprintf("%s is not between %s and %s", say(r), millimetres(p.ctx.Least), millimetres(p.ctx.Most))}
	if shorthand && p.within(short.Dim.Nominal()) {
		r.Alternatives = append(r.Alternatives, short)
	}
	other := opposite(r.Unit)
	if l, _, err := first.num.In(lengthUnit(other)); err == nil && p.within(l) {
		r.Alternatives = append(r.Alternatives, Alternative{measure.Nominal(l), first.num.String() + " " + other, "(another unit)"})
	}
	return r
}

// widestShare is the share of a diameter, 1/12, beyond which two limits are no tolerance but the names of two sizes, such
// as .335-.370.
const widestShare = 12

func millimetres(l measure.Length) string {
	text, _ := l.FormatMillimetres(3)
	return text + " mm"
}

func firstNumber(tokens []token) token {
	for _, t := range tokens {
		if t.kind == aNumber {
			return t
		}
	}
	return token{}
}
