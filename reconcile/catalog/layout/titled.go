package layout

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/seatline/fitcalc"
	lengths "example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/internal/pattern"
)

// A title may give a size to all parts below it: "Irons - bore 9.50 mm". A series gives one to each of them: "base OD 12.0 to 14.0 mm in
// steps of .2 mm". A size counts with its name beside it, and with its unit or one that it can have only, where the title gives no other one for the name.

// Titled is a size that a title gives.
type Titled struct {
	Role catalog.Role
	// Text is the size as it stands there.
	Text string
	// Size is it, not given where it is a series.
	Size lengths.Dim
	// Series are the sizes of a series, the smallest first, and digits are theirs, as many decimals of all as the finest needs: 124 for 12.4.
	Series []lengths.Length
	Digits []string
	// NotTip is set where the title names its tips beside the size, and it is none of them: "for .355 taper - bored 8.9" is no .350 in tip.
	NotTip bool
}

// mostOfSeries is how many sizes a series has at most.
const mostOfSeries = 500

// TitledSizes returns the sizes that a title gives to parts of a kind.
func TitledSizes(lex *lexicon.Lexicon, kind catalog.Kind, title string) []Titled {
	if len(title) > lexicon.LongestNote || !strings.ContainsAny(title, "0123456789") {
		return nil
	}
	places := slices.DeleteFunc(sizetext.Places(title, 24), func(at []int) bool { return lex.IsMoney(title, at) })
	tips, _ := lex.TipsIn(title, true)
	var found []Titled
	twice := map[catalog.Role]bool{}
	for i := 0; i < len(places); {
		from := 0
		if i > 0 {
			from = places[i-1][1]
		}
		one, taken := titledAt(lex, kind, title, from, places[i:], tips)
		i += taken
		if one.Role == "" {
			continue
		}
		if slices.ContainsFunc(found, func(t Titled) bool { return t.Role == one.Role }) {
			twice[one.Role] = true
		}
		found = append(found, one)
	}
	return slices.DeleteFunc(found, func(t Titled) bool { return twice[t.Role] })
}

// titledAt reads the size at the first of some places with numbers; before is where the text about it begins. Taken is how many of the places
// it is, also where it is none that counts: then its role is empty.
func titledAt(lex *lexicon.Lexicon, kind catalog.Kind, title string, before int, places [][]int, tips []fitcalc.TipSize) (one Titled, taken int) {
	at := places[0]
	role := titledRole(lex, kind, title[before:at[0]])
	if len(places) > 1 {
		whole := title[at[0]:places[1][1]]
		if limits := lex.Read(whole, value.Context{Want: value.WantDiameter}); limits.Kind == value.Length && limits.Dim.HasLimits() && limits.UnitStated {
			return seriesAt(lex, kind, title, role, limits, places)
		}
		if between := title[at[1]:places[1][0]]; !strings.ContainsAny(between, ",;，、；") && !strings.Contains(between, ". ") && titledRole(lex, kind, between) == "" && titledBehind(lex, kind, between, false) == "" {
			return Titled{}, 2 // "9.35 or 9.5 mm"
		}
	}
	reading := lex.Read(title[at[0]:at[1]], value.Context{Want: value.WantDiameter})
	if role == "" || !mayBeOf(kind, role, reading) { // "bored 1.25 in deep"
		end := len(title)
		if len(places) > 1 {
			end = places[1][0]
		}
		behind := title[at[1]:end]
		if rest, point := strings.CutPrefix(behind, "."); point && abbreviates(lex, title[:at[1]], rest) { // ".366 in. bore"
			behind = rest
		}
		role = titledBehind(lex, kind, behind, end == len(title))
	}
	last, _ := utf8.DecodeLastRuneInString(title[:at[0]])
	if role == "" || strings.ContainsRune("±+", last) || !lexicon.StandsFree(title, at[0], at[1]) {
		return Titled{}, 1
	}
	tipName := !reading.UnitStated && sizetext.IsTipName(reading)
	if unit := soleUnit(kind, role, reading); unit != "" && strings.ContainsAny(title[at[0]:at[1]], sizetext.DecimalMarks) {
		reading = lex.Read(title[at[0]:at[1]], value.Context{Want: value.WantDiameter, Unit: unit})
	} else if !reading.UnitStated {
		return Titled{}, 1
	}
	if reading.Kind != value.Length || reading.Problem.Code != "" {
		return Titled{}, 1
	}
	if b, known := traits.BoundsOf(kind, role); !known || !b.Possible(traits.MM(reading.Dim.Nominal())) {
		return Titled{}, 1
	}
	notTip := besideTips(tips, reading.Dim.Nominal())
	if tipName && !notTip { // "for .370"
		return Titled{}, 1
	}
	return Titled{Role: role, Text: title[at[0]:at[1]], Size: reading.Dim, NotTip: notTip}, 1
}

// besideTips reports whether tips are named, and a size is none of them, also not rounded to a tenth of a millimetre.
func besideTips(tips []fitcalc.TipSize, size lengths.Length) bool {
	return len(tips) > 0 && !slices.ContainsFunc(tips, func(tip fitcalc.TipSize) bool { return size.Sub(tip.Diameter).Abs().Less(lengths.Micrometres(60)) })
}

// mayBeOf reports whether a size can be that of a role, a bare number in some unit.
func mayBeOf(kind catalog.Kind, role catalog.Role, size value.Reading) bool {
	b, known := traits.BoundsOf(kind, role)
	switch {
	case !known:
		return false
	case size.Kind == value.Length:
		return b.Possible(traits.MM(size.Dim.Nominal()))
	}
	return size.Kind == value.Number && sizetext.PossibleNumber(role, size.Number)
}

// soleUnit returns the one unit in which a bare number can be the size of a role, empty where there is none or another one.
func soleUnit(kind catalog.Kind, role catalog.Role, bare value.Reading) (unit string) {
	b, known := traits.BoundsOf(kind, role)
	if bare.Kind != value.Number || !known {
		return ""
	}
	for _, one := range traits.LengthUnits[:3] {
		if !b.Possible(bare.Number * traits.UnitMM[one]) {
			continue
		}
		if unit != "" {
			return ""
		}
		unit = one
	}
	return unit
}

// titledRole returns the role of parts of a kind that the end of a text names, empty where it names none or speaks of a limit or a radius.
func titledRole(lex *lexicon.Lexicon, kind catalog.Kind, text string) catalog.Role {
	text = strings.TrimRight(text, " ,;")
	text = lastSentence(lex, text[strings.LastIndexAny(text, ",;/(")+1:])
	return cmp.Or(titledBy(lex, kind, sizetext.NameAtEnd(lex, text), text), titledBy(lex, kind, nameWithin(lex, text), text))
}

// nameWithin returns the name of a size at the end of what is written without blanks, behind words by which it is said of all parts: รูใน in
// ทุกรหัสรูใน. It is empty where there is none.
func nameWithin(lex *lexicon.Lexicon, text string) string {
	run := text[strings.LastIndexByte(text, ' ')+1:]
	for at, first := range run {
		name := run[at:]
		if at > 0 && lexicon.WithoutBlanks(first) && utf8.RuneCountInString(name) <= sizetext.LongestWideName && lex.Words.SaysEvery(run[:at]) && sizetext.RoleNamed(lex, name) != "" {
			return name
		}
	}
	return ""
}

// betweenSentences is the last sign between two sentences of a text, with the word before it.
var betweenSentences = pattern.Lazy(`^.*?(\pL*)[.!?]+\s+\p{Lu}`)

// lastSentence is the last sentence of a text, with the words before it where they may be an abbreviation: "Max. Bohrung".
func lastSentence(lex *lexicon.Lexicon, text string) string {
	for {
		at := betweenSentences().FindStringSubmatchIndex(text)
		if at == nil || limits(lex, text[at[2]:at[3]]) {
			return text
		}
		_, size := utf8.DecodeLastRuneInString(text[:at[1]])
		text = text[at[1]-size:]
	}
}

// limits reports whether a text makes a limit or a radius of a size.
func limits(lex *lexicon.Lexicon, text string) bool {
	hints := lex.Words.Hints(text)
	return hints.Min || hints.Max || hints.Radius || hints.PerSide
}

// titledBehind is titledRole for a name that stands behind its size, "all 25 mm long": what is not set off from a number behind it, by a sign or by other
// words, is the name of that: "a 9.3 mm bore for .370".
func titledBehind(lex *lexicon.Lexicon, kind catalog.Kind, text string, atEnd bool) catalog.Role {
	cut := strings.IndexAny(text, ",;/().")
	if at := joinerIn(lex, text); at >= 0 && (cut < 0 || at < cut) {
		cut = at
	}
	if cut >= 0 {
		text = text[:cut]
	}
	name := sizetext.NameAtStart(lex, text)
	if cut < 0 && !atEnd {
		_, rest, _ := strings.Cut(text, name)
		if strings.TrimSpace(rest) == "" {
			return ""
		}
	}
	return titledBy(lex, kind, name, text)
}

// joinerIn returns where the first word of a text stands that joins two things, −1 where none does: "deep and takes a".
func joinerIn(lex *lexicon.Lexicon, text string) int {
	from := 0
	for word := range strings.FieldsSeq(text) {
		at := from + strings.Index(text[from:], word)
		if lex.Words.JoinsNames(word) {
			return at
		}
		from = at + len(word)
	}
	return -1
}

// titledBy returns the role of parts of a kind that a name within a text says.
func titledBy(lex *lexicon.Lexicon, kind catalog.Kind, name, text string) catalog.Role {
	if name == "" {
		return ""
	}
	found := lex.MatchIn(kind, name)
	if len(found) == 0 || found[0].Score < lexicon.HeadingScore {
		return ""
	}
	if limits(lex, text) {
		return ""
	}
	role := catalog.Role(found[0].Role)
	if role == catalog.TipTaken || traits.Of[role].Want != traits.Length {
		return ""
	}
	return role
}

// seriesAt reads a range of sizes with the step between them, of a role that may be empty.
func seriesAt(lex *lexicon.Lexicon, kind catalog.Kind, title string, role catalog.Role, limits value.Reading, places [][]int) (one Titled, taken int) {
	if len(places) < 3 || !saysStep(lex, title, places[1][1], places[2]) {
		return Titled{}, 2 // limits, or sizes of some of the parts
	}
	step := lex.Read(title[places[2][0]:places[2][1]], value.Context{Want: value.WantDiameter, Unit: limits.Unit})
	if role == "" || step.Kind != value.Length || step.Dim.HasLimits() {
		return Titled{}, 3
	}
	b, known := traits.BoundsOf(kind, role)
	from, to, by := limits.Dim.Lower(), limits.Dim.Upper(), step.Dim.Nominal()
	if !known || !b.Possible(traits.MM(from)) || !b.Possible(traits.MM(to)) || !(lengths.Length{}).Less(by) {
		return Titled{}, 3
	}
	one = Titled{Role: role, Text: title[places[0][0]:places[2][1]]}
	for size := from; !to.Less(size); size = size.Add(by) {
		if one.Series = append(one.Series, size); len(one.Series) > mostOfSeries {
			return Titled{}, 3
		}
	}
	if one.Series[len(one.Series)-1] != to {
		return Titled{}, 3 // the step does not lead there
	}
	one.Digits = digitsOf(one.Series, limits.Unit)
	return one, 3
}

// digitsOf writes sizes in a unit without the decimal point, all with as many decimals as one of them needs; nil where more than four are.
func digitsOf(sizes []lengths.Length, unit string) []string {
	for factor := int64(1); factor <= 10_000; factor *= 10 {
		var digits []string
		for _, size := range sizes {
			units := traits.MM(size) / traits.UnitMM[unit] * float64(factor)
			if math.Abs(units-math.Round(units)) > 1e-6 {
				break
			}
			digits = append(digits, strconv.FormatFloat(math.Round(units), 'f', -1, 64))
		}
		if len(digits) == len(sizes) {
			return digits
		}
	}
	return nil
}

// saysStep reports whether a number is the step of a series, by the words before it or behind it.
func saysStep(lex *lexicon.Lexicon, title string, from int, at []int) bool {
	if _, says := lex.Words.Mark(strings.Trim(title[from:at[0]], " ,;()"), "step"); says {
		return true
	}
	behind := strings.TrimLeft(title[at[1]:], " ")
	for n, words := 0, 0; n < len(behind) && words < 3; words++ {
		_, size := utf8.DecodeRuneInString(behind[n:])
		n += size
		if _, says := lex.Words.Mark(behind[:n], "step"); says {
			return true
		}
	}
	return false
}
