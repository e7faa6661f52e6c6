package numberkey

import (
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/words"
)

// scale is in what the digits of a part number count a size: 1350 in hundredths of a millimetre is 13.50.
type scale struct {
	// unit is mm or in, empty where it is not said; shift is how many of the digits are decimals, −1 where that is not said.
	unit  string
	shift int
	// of is into how many parts a unit is divided that the digits count, 8 for eighths, zero where these are decimal.
	of int
}

// unsaid is the scale of which nothing is said.
var unsaid = scale{shift: -1}

// counts reports whether the digits are not the size as it stands.
func (s scale) counts() bool { return s.shift > 0 || s.of > 0 }

// apply writes digits as a size in the unit, with as many decimals as the scale has.
func (s scale) apply(digits string) string {
	if n, err := strconv.Atoi(digits); s.of > 0 && err == nil && lexicon.IsDigits(digits) {
		return strconv.FormatFloat(float64(n)/float64(s.of), 'f', -1, 64)
	}
	if s.shift <= 0 || !lexicon.IsDigits(digits) {
		return digits
	}
	if missing := s.shift + 1 - len(digits); missing > 0 {
		digits = strings.Repeat("0", missing) + digits
	}
	at := len(digits) - s.shift
	whole := strings.TrimLeft(digits[:at], "0")
	if whole == "" {
		whole = "0"
	}
	return whole + "." + digits[at:]
}

// shifts are how many decimals the words for parts of a unit stand for.
var shifts = map[string]int{"tenth": 1, "hundredth": 2, "thousandth": 3}

// divisions are into how many parts the words for parts of an inch divide it that are not decimal.
var divisions = map[string]int{"quarter": 4, "eighth": 8, "sixteenth": 16, "thirtysecond": 32, "sixtyfourth": 64}

// partOfInch finds such parts in figures: 1/8 in.
var partOfInch = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)(?:^|[^\d.,/])1 ?/ ?(4|8|16|32|64)(?:` + words.Load().AnyOf("fraction", "ordinal") + `)?(?:$|[^\d.,%])`)
})

// partOfUnit finds parts of a unit in figures: 1/100 mm, 0.01 mm, x 100, and with the word of a language between the two. The unit may stand
// elsewhere.
var partOfUnit = sync.OnceValue(func() *regexp.Regexp {
	v := words.Load()
	return regexp.MustCompile(`(?i)(?:^|[^\d.,])(?:1 ?/ ?(10{1,3})(?:` + v.AnyOf("fraction", "ordinal") + `)?|0[.,](0{0,2}1)|(10{1,3}) ?(?:` + v.AnyOf("part_of_unit", "over") + `) ?1|[x×*/÷·] ?(10{1,3}))(?:$|[^\d.,%]|[.,](?:$|\D))`)
})

// partInWords finds parts of a unit in words: hundredths, Hundertstel, centièmes.
var partInWords = sync.OnceValue(func() map[string]*regexp.Regexp {
	all := map[string]*regexp.Regexp{}
	for _, name := range slices.Concat(slices.Sorted(maps.Keys(shifts)), slices.Sorted(maps.Keys(divisions))) {
		all[name] = regexp.MustCompile(`(?i)(?:` + words.Load().AnyOf("part_of_unit", name) + `)`)
	}
	return all
})

// scaleIn returns the scale that a text says, and the text without it. Known is false where it says none, or two.
func scaleIn(lex *lexicon.Lexicon, text string) (s scale, rest string, known bool) {
	s, rest = unsaid, text
	for name, expression := range partInWords() {
		if at := expression.FindStringIndex(rest); at != nil {
			if s.shift >= 0 {
				return unsaid, text, false
			}
			s.shift, s.of, rest = shifts[name], divisions[name], rest[:at[0]]+" "+rest[at[1]:]
		}
	}
	if at := partOfInch().FindStringSubmatchIndex(rest); at != nil && s.shift < 0 {
		s.shift = 0
		s.of, _ = strconv.Atoi(rest[at[2]:at[3]])
		rest = rest[:at[0]] + " " + rest[at[3]:]
	}
	if at := partOfUnit().FindStringSubmatchIndex(rest); at != nil && s.shift < 0 {
		for group := 1; group <= 4; group++ {
			if at[2*group] >= 0 {
				s.shift = at[2*group+1] - at[2*group]
				if group != 2 {
					s.shift-- // the zeros behind the one
				}
				end := at[2*group+1]
				rest = rest[:at[0]] + " " + rest[end:]
				break
			}
		}
	}
	switch units := lex.LengthUnitsIn(bracketUnits(rest)); {
	case len(units) > 1:
		return unsaid, text, false
	case len(units) == 1 && units[0] == "thou" && s.shift < 0:
		s.unit, s.shift = "in", 3
	case len(units) == 1 && units[0] == "um" && s.shift < 0:
		s.unit, s.shift = "mm", 3
	case len(units) == 1 && (units[0] == "mm" || units[0] == "in"):
		s.unit, s.shift = units[0], max(s.shift, 0)
	case len(units) == 1:
		return unsaid, text, false
	}
	if s.of > 0 && s.unit != "in" {
		if s.unit != "" {
			return unsaid, text, false // nobody divides millimetres so
		}
		s.unit = "in"
	}
	return s, rest, s != unsaid
}

// endingUnit is a unit at the end of a text, which there is one even where it may be a small word elsewhere: "1/1000 in".
var endingUnit = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)(?:^|[\s(])(` + words.Load().AnyUnit("mm", "in") + `)[).]*$`)
})

// bracketUnits puts brackets about the unit at the end of a text, where such count.
func bracketUnits(text string) string {
	text = strings.TrimRight(text, " ,;")
	if at := endingUnit().FindStringSubmatchIndex(text); at != nil {
		return text[:at[2]] + "(" + text[at[2]:at[3]] + ")"
	}
	return text
}
