package value

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/fitcalc/limits"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog/words"
)

// Tolerance is what a tolerance column or a note says of the dimensions it covers. The zero Tolerance says nothing.
type Tolerance struct {
	// Lower and Upper are the deviations from the nominal size; both zero where the tolerance is a class.
	Lower, Upper measure.Length
	// Class is an ISO 286-1 class or grade (h9, IT11) or an ISO 2768-1 class (ISO 2768-m), empty for deviations.
	Class string
	// Scope are the words before the tolerance that say what it is for ("Hosel OD"), After those between it and the next comma
	// ("on bores") where no other tolerance follows; empty where there are none.
	Scope, After string
	Text         string
	Unit         string
	Leniencies   []Leniency
	Problem      Problem
}

// Apply returns the dimension with the tolerance's limits. A dimension that has limits of its own keeps them, and so
// does one that is not given. The error is the tolerance's own problem, or that of a class without a table for the size.
func (t Tolerance) Apply(d measure.Dim) (measure.Dim, error) {
	if !d.Given() || d.HasLimits() {
		return d, nil
	}
	if t.Problem.Code != "" {
		return d, errors.New(t.Problem.Message)
	}
	if t.Class == "" {
		return measure.WithDeviations(d.Nominal(), t.Lower, t.Upper).WithShape(d.Shape()).WithOrigin(measure.Stated), nil
	}
	if strings.Contains(t.Class, "2768") {
		general, err := limits.ParseGeneral(t.Class)
		if err != nil {
			return d, err
		}
		return general.Apply(d)
	}
	limited, err := limits.ParseDimIn(measure.Notation{Unit: measure.Millimetre}, d.Nominal().String()+" "+t.Class)
	if err != nil {
		return d, err
	}
	return limited.WithShape(d.Shape()), nil
}

// ReadTolerance reads a tolerance: "±0.05", "+0/-0.1", "ISO 2768-m", "h9", "all dims ±0.1 mm", and where the context wants a
// length also a bare "0.05", as a tolerance column has it. It reports false where the text holds none.
func ReadTolerance(text string, ctx Context) (Tolerance, bool) {
	all := ReadTolerances(text, ctx)
	if len(all) == 0 {
		return Tolerance{Text: text}, false
	}
	return all[0], true
}

// ReadTolerances reads all tolerances of a note, each with the words before it as its scope: "Hosel OD ±.003, bore ±.001 in".
func ReadTolerances(text string, ctx Context) []Tolerance {
	if len(text) > 4*maxText {
		return nil
	}
	clean, _ := unquote(strings.TrimSpace(text))
	normal, notes := normalise(clean)
	normal = minusAhead(normal)
	l := &lexer{v: words.Load(), ctx: ctx}
	l.lex(normal)
	r := toleranceReader{lexer: l, text: text}
	for r.at < len(l.tokens) {
		if t, found := r.next(); found {
			t.Leniencies = append(append([]Leniency{}, notes...), t.Leniencies...)
			r.found = append(r.found, t)
			r.behind = true
		}
	}
	r.closeScope()
	if len(r.found) == 0 && (ctx.Want == WantLength || ctx.Want == WantDiameter) {
		r.bare()
	}
	for i := range r.found {
		r.settleUnit(i)
	}
	return r.found
}

type toleranceReader struct {
	*lexer
	text  string
	at    int
	scope string
	// behind is set while the words read stand behind the last tolerance found, with no comma between.
	behind bool
	found  []Tolerance
	parts  [][2]measure.Number // lower and upper, as written, beside found
	units  [][2]string
}

func (r *toleranceReader) peek(ahead int) token {
	if r.at+ahead < len(r.tokens) {
		return r.tokens[r.at+ahead]
	}
	return token{kind: aWord}
}

// next reads the tolerance at the current token, or passes the token by.
func (r *toleranceReader) next() (Tolerance, bool) {
	t := r.peek(0)
	switch {
	case t.kind == aClass:
		r.at++
		return r.keep(Tolerance{Class: t.text}, measure.Number{}, measure.Number{}, "", ""), true
	case t.kind == aWord && len(r.tokens) == 1:
		if c, err := limits.ParseClass(t.raw); err == nil {
			r.at++
			return r.keep(Tolerance{Class: c.String()}, measure.Number{}, measure.Number{}, "", ""), true
		}
	case t.is(aSign, "±") && r.peek(1).kind == aNumber:
		r.at++
		n, unit := r.amount()
		return r.keep(Tolerance{}, negated(n), n, unit, unit), true
	case t.kind == aSign && (t.text == "+" || t.text == "-") && r.peek(1).kind == aNumber && (t.gap || r.at > 0 && opensDeviation(r.tokens[r.at-1])):
		return r.deviations()
	case isZero(t) && (r.peek(1).is(aSign, "/") && (r.peek(2).is(aSign, "-") || r.peek(2).is(aSign, "+")) || r.peek(1).is(aSign, "-") || r.peek(1).is(aSign, "+")):
		return r.deviations()
	}
	if t.kind == aWord || t.kind == aMark || t.kind == aForm {
		if (t.gap || r.at > 0 && r.tokens[r.at-1].is(aSign, "(")) && r.scope != "" {
			r.scope += " "
		}
		r.scope += strings.TrimSpace(t.raw)
	}
	switch {
	case r.behind && (t.kind == aSeparator && (!isWord(t.raw) || r.moreFollow()) || t.is(aSign, ",")), t.kind == aSeparator && t.text != "&" && !isWord(t.raw):
		r.closeScope()
	case r.scope != "" && (t.kind == aSeparator || t.is(aSign, ",")):
		r.scope += ","
	}
	r.at++
	return Tolerance{}, false
}

// moreFollow reports whether another deviation may stand behind the current token.
func (r *toleranceReader) moreFollow() bool {
	return slices.ContainsFunc(r.tokens[r.at:], func(t token) bool { return t.kind == aSign && strings.Contains("±+-", t.text) })
}

// isWord reports whether a text is a word and no sign: "and".
func isWord(text string) bool { return strings.ContainsFunc(text, unicode.IsLetter) }

// opensDeviation reports whether a sign right behind a token is that of a deviation, and no dash: behind a bracket, a comma, or a word of
// writing that has no blanks.
func opensDeviation(before token) bool {
	last, _ := utf8.DecodeLastRuneInString(before.raw)
	return before.is(aSign, "(") || before.is(aSign, ",") || before.is(aSign, ":") || before.kind == aSeparator || (before.kind == aWord || before.kind == aMark) && isWide(last)
}

// closeScope ends a part of the text: words behind a tolerance say what it is for where no other follows.
func (r *toleranceReader) closeScope() {
	if r.behind {
		r.found[len(r.found)-1].After = r.scope
	}
	r.scope, r.behind = "", false
}

// amount reads a number and the unit after it.
func (r *toleranceReader) amount() (measure.Number, string) {
	n := r.peek(0).num
	r.at++
	if r.peek(0).kind == aUnit {
		unit := r.peek(0).text
		r.at++
		return n, unit
	}
	if r.peek(0).is(aSign, "%") {
		r.at++
		return n, "%"
	}
	return n, ""
}

// deviations reads +0.1/-0.05 in either order, with a slash, a comma or a space between, or one deviation alone.
func (r *toleranceReader) deviations() (Tolerance, bool) {
	first, firstUnit := r.signed()
	if r.peek(0).is(aSign, "/") || r.peek(0).is(aSign, ",") {
		r.at++
	}
	second, secondUnit := measure.Number{}, firstUnit
	one := true
	if t := r.peek(0); (t.is(aSign, "+") || t.is(aSign, "-")) && r.peek(1).kind == aNumber || isZero(t) {
		second, secondUnit = r.signed()
		one = false
	}
	lower, upper := first, second
	lowerUnit, upperUnit := firstUnit, secondUnit
	if first.Float64() > second.Float64() {
		lower, upper, lowerUnit, upperUnit = second, first, secondUnit, firstUnit
	}
	t := Tolerance{}
	if one {
		t.Leniencies = append(t.Leniencies, Leniency{ForgaveOneDeviation, "one deviation alone: the other is taken as 0"})
	}
	return r.keep(t, lower, upper, lowerUnit, upperUnit), true
}

func (r *toleranceReader) signed() (measure.Number, string) {
	negative := false
	if t := r.peek(0); t.kind == aSign {
		negative = t.text == "-"
		r.at++
	}
	n, unit := r.amount()
	if negative {
		n = negated(n)
	}
	return n, unit
}

// negated returns −n.
func negated(n measure.Number) measure.Number {
	if n.Sign() == 0 {
		return n
	}
	m, _, err := measure.ParseNumber("-" + n.String())
	if err != nil { // digits beyond those a Number holds; no tolerance has them
		return n
	}
	return m
}

func (r *toleranceReader) keep(t Tolerance, lower, upper measure.Number, lowerUnit, upperUnit string) Tolerance {
	t.Text = r.text
	t.Scope = r.scope
	r.scope = ""
	r.parts = append(r.parts, [2]measure.Number{lower, upper})
	r.units = append(r.units, [2]string{lowerUnit, upperUnit})
	t.Leniencies = append(append([]Leniency{}, r.forgiven...), t.Leniencies...)
	return t
}

// bare takes a number alone as ± that number.
func (r *toleranceReader) bare() {
	var number *token
	unit := ""
	for i := range r.tokens {
		switch t := &r.tokens[i]; {
		case t.kind == aNumber && number == nil:
			number = t
		case t.kind == aUnit:
			unit = t.text
		default:
			return
		}
	}
	if number == nil {
		return
	}
	t := Tolerance{Leniencies: []Leniency{{ForgavePlusMinus, number.raw + " read as ±" + number.raw}}}
	r.found = append(r.found, r.keep(t, negated(number.num), number.num, unit, unit))
}

// leastThou is the least deviation in thousandths of an inch, 2.5 µm: of the parts of a joint none is finer. Common practice.
const leastThou = 0.1

// isPartOfThou reports whether deviations would be less than anybody holds in thousandths of an inch.
func (r *toleranceReader) isPartOfThou(i int) bool {
	most := max(math.Abs(r.parts[i][0].Float64()), math.Abs(r.parts[i][1].Float64()))
	return most > 0 && most < leastThou
}

// settleUnit makes lengths of the deviations: in the unit beside them, that of a later tolerance, that named anywhere
// in the text, or that of the context.
func (r *toleranceReader) settleUnit(i int) {
	t := &r.found[i]
	if t.Class != "" {
		return
	}
	elsewhere := ""
	for j := i; j < len(r.units) && elsewhere == ""; j++ {
		elsewhere = r.units[j][1]
	}
	for _, tok := range r.tokens {
		if elsewhere == "" && tok.kind == aUnit && isLength(tok.text) { // "each" is one of pieces
			elsewhere = tok.text
		}
	}
	if elsewhere == "" {
		if hits := r.v.Units(r.text); len(hits) == 1 && isLength(hits[0].Value) {
			elsewhere = hits[0].Value
		}
	}
	if elsewhere == "" {
		elsewhere = r.ctx.Unit
		if isLength(elsewhere) {
			t.Leniencies = append(t.Leniencies, Leniency{ForgaveUnitElsewhere, "the unit " + elsewhere + " stands elsewhere"})
		}
	}
	if elsewhere == "thou" && r.isPartOfThou(i) { // ±.002 beside 530
		elsewhere = "in"
	}
	for side, target := range []*measure.Length{&t.Lower, &t.Upper} {
		unit := r.units[i][side]
		if unit == "" {
			unit = r.units[i][1-side]
		}
		if unit == "" {
			unit = elsewhere
		}
		t.Unit = unit
		if !isLength(unit) {
			t.Problem = Problem{problemUnit, fmt.Sprintf("the tolerance %q has no unit of length", strings.TrimSpace(r.text))}
			return
		}
		l, _, err := r.parts[i][side].In(lengthUnit(unit))
		if err != nil {
			t.Problem = Problem{problemUnreadable, briefly(err)}
			return
		}
		*target = l
	}
}
