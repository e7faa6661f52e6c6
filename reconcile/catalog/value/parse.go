package value

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog/words"
)

type parser struct{ *lexer }

// cell reads the tokens of a whole cell.
func (p parser) cell(tokens []token) Reading {
	if p.problem.Code != "" {
		return unreadable("%s", p.problem.Message)
	}
	if !has(tokens, aNumber) {
		return wordsOnly(tokens)
	}
	switch p.ctx.Want {
	case WantCount, WantPrice:
		return p.number(tokens)
	case WantAngle:
		return p.angle(tokens)
	case WantTaper:
		return p.taper(tokens)
	case WantAny:
		switch {
		case hasText(tokens, aUnit, "deg"):
			return p.angle(tokens)
		case hasUnit(tokens, words.IsCurrency):
			return p.number(tokens)
		}
	}
	tokens = p.withoutMoney(tokens)
	r := p.combine(p.items(tokens))
	if r.Kind == Length && r.Qualifier == Exact && tokens[0].is(aSign, "(") && tokens[len(tokens)-1].is(aSign, ")") {
		r.Qualifier = Reference // as drawings mark reference dimensions
	}
	return r
}

// withoutMoney sets aside what stands in brackets behind a size and is an amount of money: what a finish costs, say.
func (p parser) withoutMoney(tokens []token) []token {
	if !hasUnit(tokens, words.IsCurrency) {
		return tokens
	}
	from := -1
	for i, t := range tokens {
		switch {
		case t.is(aSign, "(") && has(tokens[:i], aNumber):
			from = i
		case !t.is(aSign, ")") || from < 0:
		case hasUnit(tokens[from:i], words.IsCurrency) && countNumbers(tokens[from:i]) == 1 && !hasUnit(tokens[from:i], isLength):
			p.forgive(ForgaveMoney, fmt.Sprintf("%s speaks of money and was set aside", strings.TrimSpace(joinRaw(tokens[from:i+1]))))
			return p.withoutMoney(append(slices.Clip(tokens[:from]), tokens[i+1:]...))
		default:
			from = -1
		}
	}
	return tokens
}

func countNumbers(tokens []token) (count int) {
	for _, t := range tokens {
		if t.kind == aNumber {
			count++
		}
	}
	return count
}

func has(tokens []token, k kind) bool {
	for _, t := range tokens {
		if t.kind == k {
			return true
		}
	}
	return false
}

func hasText(tokens []token, k kind, text string) bool {
	for _, t := range tokens {
		if t.is(k, text) {
			return true
		}
	}
	return false
}

func hasUnit(tokens []token, is func(string) bool) bool {
	for _, t := range tokens {
		if t.kind == aUnit && is(t.text) {
			return true
		}
	}
	return false
}

// lengthUnit returns the unit of that name, NoUnit for any that is no length.
func lengthUnit(name string) measure.Unit {
	switch name {
	case "mm":
		return measure.Millimetre
	case "cm":
		return measure.Centimetre
	case "m":
		return measure.Metre
	case "um":
		return measure.Micrometre
	case "in":
		return measure.Inch
	case "thou":
		return measure.Mil
	}
	return measure.NoUnit
}

func isLength(unit string) bool { return lengthUnit(unit) != measure.NoUnit }

func unreadable(format string, args ...any) Reading {
	return Reading{Kind: Unreadable, Problem: Problem{problemUnreadable, fmt.Sprintf(format, args...)}}
}

// wordsOnly is a cell without a number: "taper", "flat".
func wordsOnly(tokens []token) Reading {
	r := Reading{Kind: Text}
	for _, t := range tokens {
		if t.kind == aForm && r.Form == FormUnknown {
			r.Form = formNamed(t.text)
		}
	}
	return r
}

func formNamed(name string) Form {
	if name == "taper" {
		return FormTaper
	}
	return FormParallel
}

// item is one value of a cell with all that stands around it, and how it is joined to the item before: "/", "(", "=",
// "or" or "" for a mere space.
type item struct {
	tokens []token
	joint  string
}

// items divides a cell into its values.
func (p parser) items(tokens []token) []item {
	list := []item{{}}
	add := func(t token) { list[len(list)-1].tokens = append(list[len(list)-1].tokens, t) }
	split := func(joint string) { list = append(list, item{joint: joint}) }
	for i, t := range tokens {
		started := has(list[len(list)-1].tokens, aNumber)
		switch {
		case t.kind == aSeparator && started && has(tokens[i:], aNumber):
			split("or")
		case t.kind == aSeparator:
		case (t.is(aSign, ",") || t.is(aSign, "(")) && started && i+1 < len(tokens) && p.zeroDeviation(tokens[i+1:]): // 13.5 (0/-0.1)
		case t.is(aSign, ",") && started && p.startsValue(tokens[i+1:]):
			split("or")
		case t.is(aSign, "/") && i+1 < len(tokens) && isZero(tokens[i+1]) && (hasText(list[len(list)-1].tokens, aSign, "+") || hasText(list[len(list)-1].tokens, aSign, "-")):
			add(t) // +0.03/0
		case t.is(aSign, "/") && started && p.startsValue(tokens[i+1:]):
			split("/")
		case t.is(aSign, "=") && started && p.startsValue(tokens[i+1:]):
			split("=")
		case t.is(aSign, "(") && started && p.startsValue(tokens[i+1:]):
			split("(")
		case t.is(aSign, "("), t.is(aSign, ")"), t.is(aSign, ","), t.is(aSign, "="), t.is(aSign, ":"):
		case t.kind == aNumber && started && (t.gap || behindWideMark(list[len(list)-1].tokens)) && complete(list[len(list)-1].tokens) && !p.zeroDeviation(tokens[i:]):
			marks := leadingMarks(&list[len(list)-1])
			split("")
			for _, m := range marks {
				add(m)
			}
			add(t)
		default:
			add(t)
		}
	}
	return list
}

// startsValue reports whether a value begins with the next tokens, signs and words about it apart. A deviation is no
// value.
func (p parser) startsValue(tokens []token) bool {
	for _, t := range tokens {
		switch {
		case t.kind == aNumber:
			return true
		case t.kind == aMark || t.kind == aForm || t.kind == aUnit && words.IsCurrency(t.text):
		default:
			return false
		}
	}
	return false
}

// zeroDeviation reports whether the next number is the bare 0 of 0/-0.05.
func (p parser) zeroDeviation(tokens []token) bool {
	if !isZero(tokens[0]) || len(tokens) < 3 {
		return false
	}
	next := tokens[1]
	if next.is(aSign, "/") {
		next = tokens[2]
	}
	return next.is(aSign, "-") || next.is(aSign, "+")
}

// leadingMarks takes off the marks at the end of an item that belong to the next number, as in "min 13.5 max 13.7": the
// item began with a mark of its own.
func leadingMarks(it *item) []token {
	end := len(it.tokens)
	if it.tokens[0].kind != aMark {
		return nil
	}
	for end > 0 && it.tokens[end-1].kind == aMark {
		end--
	}
	marks := it.tokens[end:]
	it.tokens = it.tokens[:end:end]
	return marks
}

// behindWideMark reports whether an item ends with a small word of writing that has no blanks: 13.4以上13.6以下.
func behindWideMark(tokens []token) bool {
	last := tokens[len(tokens)-1]
	r, _ := utf8.DecodeLastRuneInString(last.raw)
	return last.kind == aMark && isWide(r)
}

// complete reports whether an item's last token can be the end of a value.
func complete(tokens []token) bool {
	last := tokens[len(tokens)-1]
	return last.kind == aUnit || last.kind == aNumber || last.kind == aForm || last.kind == aWord || last.kind == aMark || last.kind == aFootnote
}

// combine reads the items of a cell: one value, one value in two units, two limits, or a list.
func (p parser) combine(items []item) Reading {
	units := p.unitsOf(items)
	var values []Reading
	var joints []string
	for i := 0; i < len(items); i++ {
		joints = append(joints, items[i].joint)
		if i+1 < len(items) && items[i+1].joint != "or" {
			if pair, ok := p.twoUnits(items[i], items[i+1]); ok {
				values = append(values, pair)
				i++
				continue
			}
		}
		values = append(values, p.one(items[i].tokens, units[i]))
	}
	for _, v := range values {
		if v.Kind == Unreadable {
			return v
		}
	}
	if len(values) == 2 && values[0].Kind == Length && values[1].Kind == Length && values[0].Form == values[1].Form {
		if one, ok := p.merge(values[0], values[1], joints[1]); ok {
			return one
		}
	}
	if len(values) == 1 {
		return values[0]
	}
	repeated := p.repeat(values)
	for i := 1; i < len(values); i++ {
		if repeated && joints[i] == "" {
			continue
		}
		if joints[i] != "or" && joints[i] != "/" {
			return unreadable("two values without a word or sign between them that says how they belong together")
		}
		if joints[i] == "/" && !alike(values[i-1], values[i]) {
			return unreadable("%s: the values are too different to be of one thing", strings.TrimSpace(joinRaw(p.tokens)))
		}
	}
	list := Reading{Kind: List, List: values, Unit: values[0].Unit, UnitStated: values[0].UnitStated}
	for _, v := range values {
		list.Leniencies = append(list.Leniencies, v.Leniencies...)
		if v.Problem.Code != "" && list.Problem.Code == "" {
			list.Problem = v.Problem
		}
	}
	list.Leniencies = distinct(append(p.forgiven, list.Leniencies...))
	return list
}

// repeat reports whether several values with only blanks between them are one size that was read again and again: .541 .540 .541. Three at
// least, since two may be limits, and so near each other that they are no sizes of several things.
func (p parser) repeat(values []Reading) bool {
	if len(values) < leastRepeats || p.ctx.Want == WantPrice || p.ctx.Want == WantCount || p.ctx.Want == WantAngle {
		return false
	}
	least, most := math.Inf(1), 0.0
	for _, v := range values {
		if v.Problem.Code != "" || v.Qualifier != Exact || v.Form != FormUnknown || v.Unit != values[0].Unit {
			return false
		}
		size := v.Number
		if v.Kind == Length && !v.Dim.HasLimits() {
			size = v.Dim.Nominal().Millimetres()
		} else if v.Kind != Number {
			return false
		}
		least, most = min(least, size), max(most, size)
	}
	return least > 0 && most <= least*(1+mostRepeatSpread)
}

const (
	// leastRepeats is how many values with only blanks between them are readings of one size.
	leastRepeats = 3
	// mostRepeatSpread is how far, as a share, such readings may differ: .48 and .49 in are two sizes. Common practice.
	mostRepeatSpread = 0.02
)

// alike reports whether two values of a list may stand for the same thing: neither is three times the other.
func alike(a, b Reading) bool {
	x, y := a.Number, b.Number
	if a.Kind == Length && b.Kind == Length {
		x, y = a.Dim.Nominal().Millimetres(), b.Dim.Nominal().Millimetres()
	}
	return x <= 3*y && y <= 3*x
}

func distinct(list []Leniency) []Leniency {
	var kept []Leniency
	seen := map[string]bool{}
	for _, l := range list {
		if !seen[l.Code] {
			seen[l.Code] = true
			kept = append(kept, l)
		}
	}
	return kept
}

// unitsOf returns the unit of each item: its own, that of the next item that has one, else of the last before it.
func (p parser) unitsOf(items []item) []string {
	units := make([]string, len(items))
	next := ""
	for i := len(items) - 1; i >= 0; i-- {
		if own := ownUnit(items[i].tokens); own != "" {
			next = own
		}
		units[i] = next
	}
	previous := ""
	for i := range units {
		if units[i] == "" {
			units[i] = previous
		}
		previous = units[i]
	}
	return units
}

func ownUnit(tokens []token) string {
	for _, t := range tokens {
		if t.kind == aUnit && isLength(t.text) {
			return t.text
		}
	}
	return ""
}

// twoUnits reads a value that is given twice: .370 (9.398mm), 9.4 mm / .370", .370 (9.4).
func (p parser) twoUnits(a, b item) (Reading, bool) {
	unitA, unitB := ownUnit(a.tokens), ownUnit(b.tokens)
	inferred := false
	switch {
	case unitA != "" && unitB != "" && isInch(unitA) != isInch(unitB):
	case unitA != "" && unitB != "":
		return Reading{}, false
	case b.joint == "/" && unitA == "" && unitB == "" && p.ctx.Want == WantAny:
		return Reading{}, false
	case unitA == "" && unitB != "":
		unitA, inferred = opposite(unitB), true
	case unitB == "" && unitA != "":
		unitB, inferred = opposite(unitA), true
	default:
		return p.twoBare(a, b)
	}
	first, second := p.one(a.tokens, unitA), p.one(b.tokens, unitB)
	if first.Kind != Length || second.Kind != Length {
		return Reading{}, false
	}
	share := int64(statedShare)
	if inferred {
		share = inferredShare
	}
	if agrees(first, second, share) {
		return both(first, second), true
	}
	if inferred {
		if same, ok := p.sameUnit(a, b, opposite(unitB)); ok && ownUnit(a.tokens) != "" {
			return same, true
		}
		if b.joint != "(" && b.joint != "=" || p.isLimits(b, opposite(unitB)) {
			return Reading{}, false
		}
	}
	r := unreadable("%s and %s are not the same size", say(first), say(second))
	r.Problem.Code = problemConflict
	r.Alternatives = []Alternative{{first.Dim, say(first), "(the first)"}, {second.Dim, say(second), "(the second)"}}
	return r, true
}

// isLimits reports whether an item states limits in a unit: 13.6 mm (13.5-13.7).
func (p parser) isLimits(it item, unit string) bool {
	r := p.one(it.tokens, unit)
	return r.Kind == Length && r.Dim.HasLimits()
}

// sameUnit reads a size that is stated twice in one unit, once rounded or as a fraction: 7/16" (0.438).
func (p parser) sameUnit(a, b item, unit string) (Reading, bool) {
	first, second := p.one(a.tokens, unit), p.one(b.tokens, unit)
	if first.Kind == Length && second.Kind == Length && !first.Dim.HasLimits() && !second.Dim.HasLimits() && agrees(first, second, inferredShare) {
		return both(first, second), true
	}
	return Reading{}, false
}

// twoBare reads two numbers without units that are the same size: in inches and millimetres, either way round, or, with
// a fraction among them, both in inches.
func (p parser) twoBare(a, b item) (Reading, bool) {
	if b.joint == "" {
		return Reading{}, false
	}
	for _, units := range [][2]string{{"in", "mm"}, {"mm", "in"}} {
		first, second := p.one(a.tokens, units[0]), p.one(b.tokens, units[1])
		if first.Kind == Length && second.Kind == Length && first.Problem.Code == "" && second.Problem.Code == "" && agrees(first, second, inferredShare) {
			return both(first, second), true
		}
	}
	if b.joint != "/" && (firstNumber(a.tokens).num.IsFraction() || firstNumber(b.tokens).num.IsFraction()) {
		return p.sameUnit(a, b, "in")
	}
	return Reading{}, false
}

func isInch(unit string) bool { return unit == "in" || unit == "thou" }

func opposite(unit string) string {
	if isInch(unit) {
		return "mm"
	}
	return "in"
}

// How far two readings of one size may be apart at most, as a share of it: 1 in (25 mm) agree where both units are
// stated; where one is inferred from the agreement it must be close.
const (
	statedShare   = 20
	inferredShare = 100
)

// agrees reports whether two readings of one size are the same within the rounding of their last digits: half a unit of
// the last place of the coarser, and at most the share 1/share of the size.
func agrees(a, b Reading, share int64) bool {
	size := a.Dim.Nominal()
	difference := size.Sub(b.Dim.Nominal()).Abs()
	coarser := measure.Max(lastPlace(a), lastPlace(b))
	limit := measure.Min(coarser.Half(), size.DivRound(share))
	return size.Sign() > 0 && !limit.Add(measure.Picometres(1)).Less(difference)
}

// lastPlace returns one unit of the last decimal that the value was written with; nothing for a fraction of an inch and
// for whole inches, which are exact.
func lastPlace(r Reading) measure.Length {
	if r.Decimals < 0 || r.Decimals == 0 && r.Unit == "in" {
		return measure.Length{}
	}
	place := lengthUnit(r.Unit).PerUnit()
	for range r.Decimals {
		place = place.DivRound(10)
	}
	return place
}

// muchFiner is how many times finer the second of two readings must be written to be kept: the first is the one that
// was measured or designed, and .001 in and .01 mm are usual beside each other.
const muchFiner = 5

// both keeps the first of two readings that agree, unless the second is much finer or has limits.
func both(a, b Reading) Reading {
	kept := a
	finer := lastPlace(b).MulInt(muchFiner).Less(lastPlace(a))
	if b.Dim.HasLimits() && !a.Dim.HasLimits() || finer && a.Dim.HasLimits() == b.Dim.HasLimits() {
		kept = b
	}
	kept.UnitStated = true
	kept.Diameter, kept.Radius, kept.PerSide = a.Diameter || b.Diameter, a.Radius || b.Radius, a.PerSide || b.PerSide
	if kept.Form == FormUnknown {
		kept.Form = max(a.Form, b.Form)
	}
	kept.Leniencies = distinct(append(append([]Leniency{}, a.Leniencies...), b.Leniencies...))
	kept.Leniencies = withoutCode(kept.Leniencies, ForgaveUnitElsewhere)
	kept.Leniencies = append(kept.Leniencies, Leniency{ForgaveBothUnits, fmt.Sprintf("%s and %s agree; %s is used", say(a), say(b), say(kept))})
	return kept
}

func withoutCode(list []Leniency, code string) []Leniency {
	var kept []Leniency
	for _, l := range list {
		if l.Code != code {
			kept = append(kept, l)
		}
	}
	return kept
}

// say writes a length in its unit for a message.
func say(r Reading) string {
	unit := lengthUnit(r.Unit)
	if unit == measure.NoUnit {
		return r.Text
	}
	size := r.Dim.Nominal()
	if isInch(r.Unit) {
		text, exact := size.FormatInches(max(r.Decimals, 0))
		if !exact {
			text, _ = size.FormatInches(5)
		}
		return text + " in"
	}
	text, exact := size.FormatMillimetres(max(r.Decimals, 0))
	if !exact {
		text, _ = size.FormatMillimetres(4)
	}
	return text + " mm"
}

// merge makes one value of two in the same unit: two limits, a size and its limits, or the same size twice.
func (p parser) merge(a, b Reading, joint string) (Reading, bool) {
	x, y := a.Dim.Nominal(), b.Dim.Nominal()
	one := a
	one.Leniencies = distinct(append(append([]Leniency{}, a.Leniencies...), b.Leniencies...))
	bare := !a.Dim.HasLimits() && !b.Dim.HasLimits()
	forgiven := Leniency{ForgaveRange, "two sizes read as limits"}
	switch {
	case bare && a.Qualifier == AtLeast && b.Qualifier == AtMost && !y.Less(x): // min 13.5 max 13.7
		one.Dim, one.Qualifier = measure.Between(x, y), Exact
	case bare && x == y && joint != "or":
		forgiven = Leniency{ForgaveBothUnits, "the cell states the same size twice"}
	case bare && joint == "/" && p.ctx.Limits && x.Sub(y).Abs().MulInt(slashShare).Less(x): // .370/.372
		one.Dim = measure.Between(x, y)
		one.Decimals = max(a.Decimals, b.Decimals)
		if y.Less(x) {
			one.Leniencies = append(one.Leniencies, wrongWayRound(say(a), say(b)))
		}
	case (joint == "(" || a.Qualifier == Reference) && !a.Dim.HasLimits() && b.Dim.HasLimits() && !x.Less(b.Dim.Lower()) && !b.Dim.Upper().Less(x): // 13.6 (13.5-13.7)
		one.Dim, one.Qualifier = measure.WithDeviations(x, b.Dim.Lower().Sub(x), b.Dim.Upper().Sub(x)), Exact
	default:
		return Reading{}, false
	}
	one.Leniencies = distinct(append(one.Leniencies, forgiven))
	return one, true
}

// slashShare is the share of a size, 1/50, below which two sizes with a slash between them may be limits: tips that a part
// is made for differ by more.
const slashShare = 50

// one reads one value. Hint is the unit that other values of the cell give it.
func (p parser) one(tokens []token, hint string) Reading {
	r := Reading{Kind: Length}
	core, trouble := p.peel(&r, tokens)
	if trouble != "" {
		return unreadable("%s", trouble)
	}
	own := ownUnit(tokens)
	r.Unit, r.UnitStated = own, own != ""
	if own == "" && hint != "" {
		r.Unit, r.UnitStated = hint, true
	}
	unit := r.Unit
	if unit == "" && isLength(p.ctx.Unit) {
		r.Unit, unit = p.ctx.Unit, p.ctx.Unit
		r.Leniencies = append(r.Leniencies, Leniency{ForgaveUnitElsewhere, "the unit " + unit + " stands elsewhere"})
	}
	first := core[0]
	r.Decimals = first.num.Decimals()
	if first.num.IsFraction() {
		r.Decimals = -1
	}
	r.Number = first.num.Float64()
	r.Leniencies = distinct(append(append([]Leniency{}, p.forgiven...), r.Leniencies...))
	if first.comma != nil {
		number, bad, ok := p.resolveComma(r, first, unit)
		if !ok {
			return bad
		}
		core[0].num = number
		r.Number, r.Decimals = number.Float64(), number.Decimals()
	}
	if p.ctx.Mark == MarkComma && pointGroups(first.raw) {
		r.Leniencies = append(r.Leniencies, Leniency{ForgaveDecimalPoint, "the point in " + first.raw + " is taken for a decimal point, though the column has decimal commas"})
	}
	if unit == "" {
		return p.withoutUnit(r, core)
	}
	d, leniencies, err := p.dim(core, unit)
	if err != nil {
		bad := unreadable("%s", briefly(err))
		bad.Unit, bad.UnitStated = r.Unit, r.UnitStated
		return bad
	}
	if d.Nominal().Overflowed() || d.Upper().Overflowed() {
		return unreadable("%s is no size of a part", first.raw)
	}
	r.Dim = d
	if d.HasLimits() && (r.Qualifier == AtLeast || r.Qualifier == AtMost) {
		r.Qualifier = Exact // "from 13.5 to 13.7"
	}
	r.Leniencies = distinct(append(r.Leniencies, leniencies...))
	r.Number = 0
	return p.check(r, first)
}
