package value

import (
	"cmp"
	"fmt"
	"strings"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
)

// angle reads an angle: 90°, 82° incl., 45 deg per side, 0.5 x 45°. A bare number is in degrees.
func (p parser) angle(tokens []token) Reading {
	r := Reading{Kind: Angle, Unit: "deg"}
	var number *token
	var rest []string
	for i := range tokens {
		t := &tokens[i]
		next := token{}
		if i+1 < len(tokens) {
			next = tokens[i+1]
		}
		switch {
		case t.kind == aNumber && number != nil && (i > 0 && tokens[i-1].is(aSign, "~") || i > 0 && tokens[i-1].is(aSign, "-")):
			return unreadable("a range of angles")
		case t.kind == aNumber && number != nil && i > 0 && tokens[i-1].kind == aSign && strings.Contains("±+-", tokens[i-1].text):
			rest = append(rest, tokens[i-1].text+t.raw)
		case t.kind == aNumber && next.is(aSign, "x"): // the width of a chamfer before its angle
			rest = append(rest, t.raw+" x")
			r.HalfAngle = true
		case t.kind == aNumber && number == nil:
			number = t
		case t.kind == aNumber:
			return unreadable("two angles in one cell")
		case t.kind == aUnit && t.text == "deg", t.kind == aUnit && t.text == "rad":
			r.Unit, r.UnitStated = t.text, true
		case t.kind == aUnit && number == nil && len(rest) > 0: // 0.5 mm x 45°
		case t.kind == aUnit:
			return unreadable("%q is no unit of an angle", t.raw)
		case t.kind == aMark && t.text == "per_side":
			r.HalfAngle = true
		case t.kind == aMark:
			p.mark(&r, *t)
		case t.kind == aWord:
			rest = append(rest, t.raw)
		}
	}
	if number == nil {
		return unreadable("there is no number where one is needed")
	}
	r.PerSide = false
	r.Leniencies = append(append([]Leniency{}, p.forgiven...), r.Leniencies...)
	if len(rest) > 0 {
		r.Rest = strings.Join(rest, " ")
		r.Leniencies = append(r.Leniencies, Leniency{ForgaveTrailingText, fmt.Sprintf("%q beside the angle was set aside", r.Rest)})
	}
	if !r.UnitStated {
		if p.ctx.Unit == "rad" {
			r.Unit = "rad"
		}
		r.Leniencies = append(r.Leniencies, Leniency{ForgaveUnitElsewhere, "the number stands alone and is in " + r.Unit})
	}
	var err error
	if r.Unit == "rad" {
		r.Angle, err = measure.FromRadians(number.num.Float64())
	} else {
		r.Angle, err = measure.FromDegrees(number.num.Float64())
	}
	if err != nil {
		return unreadable("%v", err)
	}
	if number.comma != nil {
		return unreadable("the comma in %s may be a decimal comma or part thousands", number.raw)
	}
	r.Decimals = number.num.Decimals()
	return r
}

// ManyPieces is a number of pieces for which a price is quoted.
var ManyPieces = pattern.Lazy(`1[., ’']?000|500|250|144|100|50|25|12|10`)

// isLot reports whether tokens at the end of a price are a word for per and for how many pieces it is: 3,90 les 10.
func (p parser) isLot(tokens []token) bool {
	word, count := tokens[0], tokens[1].raw
	if p.ctx.Want != WantPrice || word.kind != aWord && word.kind != aMark || ManyPieces().FindString(count) != count {
		return false
	}
	if len(tokens) > 3 || len(tokens) == 3 && tokens[2].kind != aUnit && tokens[2].kind != aWord {
		return false
	}
	_, per := p.v.Mark(word.raw, "per_many")
	return per
}

// beforeNumber reports whether a number begins the tokens behind a sign, or stands behind the bracket that closes it: -2, (-)2.
func beforeNumber(tokens []token) bool {
	if len(tokens) > 1 && tokens[0].is(aSign, ")") {
		tokens = tokens[1:]
	}
	return len(tokens) > 0 && tokens[0].kind == aNumber
}

// number reads a count or a price: 12 pcs, 1,250, $1.25, 3,– €.
func (p parser) number(tokens []token) Reading {
	r := Reading{Kind: Number}
	var number *token
	var rest []string
	thousands, negative := 0.0, false
	for i := range tokens {
		t := &tokens[i]
		switch t.kind {
		case aNumber:
			switch {
			case number == nil:
				number = t
			case t.gap && tokens[i-1].kind == aNumber && spacedGroup(tokens[i-1].raw, t.raw) && t.comma == nil: // 1 250,50
				thousands = (thousands + number.num.Float64()) * 1000
				number = t
			case tokens[i-1].is(aSign, "/") || tokens[i-1].is(aMark, "per"): // 1.25 / 12 pcs
				rest = append(rest, "/"+t.raw)
			case p.isLot(tokens[i-1:]):
				rest = append(rest, t.raw)
			default:
				return unreadable("two numbers in one cell")
			}
		case aUnit:
			if r.Unit == "" || words.IsCurrency(t.text) {
				r.Unit, r.UnitStated = t.text, true
			}
		case aMark:
			if t.text != "diameter" && t.text != "radius" {
				p.mark(&r, *t)
			}
		case aWord:
			rest = append(rest, t.raw)
		case aSign:
			switch {
			case t.text == "%":
				return unreadable("a percentage is no count and no price")
			case t.text == "-" && number == nil && beforeNumber(tokens[i+1:]):
				if negative = true; !p.ctx.Signed {
					bad := unreadable("a count or a price cannot be negative")
					bad.Negative = true
					return bad
				}
			case t.text == "+" && number != nil:
				r.Qualifier = AtLeast
			}
		}
	}
	if number == nil {
		return unreadable("there is no number where one is needed")
	}
	r.Leniencies = append(append([]Leniency{}, p.forgiven...), r.Leniencies...)
	if len(rest) > 0 {
		r.Rest = strings.Join(rest, " ")
		r.Leniencies = append(r.Leniencies, Leniency{ForgaveTrailingText, fmt.Sprintf("%q beside the number was set aside", r.Rest)})
	}
	r.Number, r.Decimals = thousands+number.num.Float64(), number.num.Decimals()
	whole := p.ctx.Want == WantPrice && wholeCurrency[cmp.Or(r.Unit, p.ctx.Unit)]
	switch {
	case thousands > 0:
		r.Leniencies = append(r.Leniencies, Leniency{ForgaveThousands, "the space before " + number.raw + " parts thousands"})
	case number.comma != nil && (p.ctx.Want == WantCount || whole): // nobody counts thousandths
		r.Number, r.Decimals = number.comma.AsThousands.Float64(), 0
		r.Leniencies = append(withoutCode(r.Leniencies, ForgaveDecimalComma), Leniency{ForgaveThousands, "the comma in " + number.raw + " parts thousands"})
	case number.comma != nil:
		return unreadable("the comma in %s may be a decimal comma or part thousands", number.raw)
	case pointGroups(number.raw) && (p.ctx.Mark == MarkComma || whole || p.ctx.Want == WantCount && p.ctx.Mark != MarkPoint): // 1.250 where the decimal mark is a comma
		r.Number, r.Decimals = r.Number*1000, 0
		r.Leniencies = append(r.Leniencies, Leniency{ForgaveThousands, "the point in " + number.raw + " parts thousands"})
	}
	if p.ctx.Want == WantCount && r.Number != float64(int64(r.Number)) {
		return unreadable("%s is no whole number", number.raw)
	}
	if negative {
		r.Number = -r.Number
	}
	return r
}

// wholeCurrency are the currencies without a smaller unit: those of ISO 4217 whose minor unit is 0, and those whose cents are out of use
// (common practice): of Taiwan, Indonesia, Hungary and Colombia.
var wholeCurrency = map[string]bool{"BIF": true, "CLP": true, "DJF": true, "GNF": true, "ISK": true, "JPY": true, "KMF": true, "KRW": true, "PYG": true,
	"RWF": true, "TWD": true, "IDR": true, "HUF": true, "COP": true, "UGX": true, "VND": true, "VUV": true, "XAF": true, "XOF": true, "XPF": true}

// spacedGroup reports whether a number goes on another one as thousands parted by a space do: 1 and 250, 250 and 000,50.
func spacedGroup(before, raw string) bool {
	whole, _, _ := strings.Cut(strings.Replace(raw, ",", ".", 1), ".")
	return len(before) <= 3 && before[0] != '0' && len(whole) == 3 && strings.Trim(before+whole, "0123456789") == ""
}

// pointGroups reports whether a number is written like thousands with a point: 1.250.
func pointGroups(raw string) bool {
	whole, group, found := strings.Cut(raw, ".")
	return found && len(group) == 3 && len(whole) >= 1 && len(whole) <= 3 && whole[0] != '0' && !strings.Contains(raw, ",")
}

// taper reads growth of the diameter per length. A small bare number is taken as growth per same unit.
func (p parser) taper(tokens []token) Reading {
	r := Reading{Kind: Taper}
	var b strings.Builder
	var rest []string
	numbers, percent := 0, false
	ratio := strings.Contains(joinRaw(tokens), ":")
	for i, t := range tokens {
		switch t.kind {
		case aNumber:
			numbers++
			if i > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(t.num.String())
		case aUnit:
			if isLength(t.text) {
				b.WriteString(" " + lengthUnit(t.text).String())
				r.UnitStated = true
			}
		case aSign:
			switch t.text {
			case "/", ":":
				b.WriteString(t.text)
			case "%":
				percent = true
			case "±", "~":
				return unreadable("a taper with limits cannot be used; give one value")
			}
		case aMark:
			if t.text == "per" {
				b.WriteByte('/')
			} else {
				p.mark(&r, t)
			}
		case aForm:
			r.Form = formNamed(t.text)
		case aWord:
			rest = append(rest, t.raw)
		}
	}
	r.Rest = strings.Join(rest, " ")
	r.Leniencies = append(append([]Leniency{}, p.forgiven...), r.Leniencies...)
	text := b.String()
	if m := growthWithoutUnit().FindStringSubmatch(text); m != nil { // .0075 per inch: inches per inch
		text = m[1] + " " + m[2] + "/ " + m[2]
	}
	if r.UnitStated || ratio {
		taper, err := measure.ParseTaper(text)
		if err != nil {
			return unreadable("%s", briefly(err))
		}
		r.Taper, r.Number = taper, taper.Ratio()
		return r
	}
	if numbers != 1 {
		return unreadable("more than one number, and none has a unit")
	}
	growth := firstNumber(tokens).num
	size, _, err := growth.In(measure.Millimetre)
	if err != nil {
		return unreadable("%s", briefly(err))
	}
	over := measure.Millimetres(1)
	if percent {
		over = measure.Millimetres(100)
	}
	r.Taper = measure.TaperOver(size, over)
	r.Number = r.Taper.Ratio()
	if !percent {
		if r.Number > mostTaper {
			r.Kind = Number
			r.Problem = Problem{problemUnit, "the number does not say over which length the diameter grows by it"}
			r.Taper = measure.Taper{}
			r.Number = growth.Float64()
			return r
		}
		r.Leniencies = append(r.Leniencies, Leniency{ForgaveUnitElsewhere, "taken as growth per same unit of length"})
	}
	return r
}

var growthWithoutUnit = pattern.Lazy(`^ ?([\d./]+) ?/ (mm|cm|m|in)$`)

// mostTaper is the steepest taper that a bare number is taken for: shafts taper by less than a hundredth.
const mostTaper = 0.05

func joinRaw(tokens []token) string {
	var b strings.Builder
	for _, t := range tokens {
		b.WriteString(t.raw)
	}
	return b.String()
}
