package words

import (
	"math/bits"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/text/unicode/norm"
)

// Vocabulary is the words of all languages, ready to be compared. It never changes after [Load] and may be used by
// several goroutines.
type Vocabulary struct {
	classes  map[string]*lexicon
	variants map[rune]rune
	roles    []role
	concepts map[string]concepts
	neutral  concepts
	aside    concepts
	// written are phrases by class and value, as they stand in the files.
	written map[[2]string][]string
	// endings are what inflected words may end in, links the letters between the parts of compounds, prefixes what names of fields begin
	// with that a firm has added.
	endings, links, prefixes []string
	// clubEnds are the characters that may end a club beside digits, rangeWords the words between two: see [Vocabulary.EndsClub].
	clubEnds   map[rune]bool
	rangeWords []string
	// money are the signs for currencies that are compared as they are written.
	money map[string]string
}

// The classes of words, as the tables of the language files are called.
const (
	classConcept    = "concept"
	classCategory   = "category"
	classTop        = "top"
	classStyle      = "style"
	classMaterial   = "material"
	classForm       = "form"
	classUnit       = "unit"
	classUnitBeside = "unit_beside"
	classMoneySign  = "money_sign"
	classTimes      = "times"
	classMark       = "mark"
	classPieces     = "pieces"
	classPacking    = "packing"
	classPriceWord  = "price_word"
	classCoin       = "coin"
	classPayment    = "payment"
	classQuote      = "quote"
	// classQuoted is made of several classes: see [Vocabulary.Quote].
	classQuoted = "quoted"
	// classHomeCurrency are the currencies of a language's countries, by its name.
	classHomeCurrency = "home_currency"
	classBesideDate   = "beside_date"
	classWrong        = "beside_wrong"
	classKind         = "kind"
	classGoods        = "goods"
	classRemark       = "remark"
	classShade        = "shade"
	classLegend       = "legend"
	classReading      = "reading"
	classBlank        = "blank"
	classFlatPrice    = "flat_price"
	classSaid         = "said"
	classAnswer       = "answer"
	classClubWord     = "club_word"
	classClubName     = "club_name"
	classClubCode     = "club_code"
	classClubLetter   = "club_letter"
	// classClubOwn are letters before numbers of clubs that mean something else in other languages: F4 is an iron in French.
	classClubOwn = "club_own"
)

// entry is one word or phrase and what it stands for.
type entry struct {
	value    string
	words    string
	language string
	weight   float64
	concepts concepts
	also     []string // further languages in which the words mean the same
}

// lexicon is the words of one class, by their tokens joined with spaces; signs are those that folding would remove.
type lexicon struct {
	words     map[string][]entry
	signs     map[string][]entry
	keys      []string // those of words, in order
	signKeys  []string // those of signs, in order
	sorted    []string // the keys of words of one token and six letters at least
	maxTokens int
	// tokens and texts are what was found of the last words and texts.
	tokens kept[*token]
	texts  kept[[]segment]
	// byConsonants returns the words of headings by their consonants, and by language. It is made when it is first asked for.
	byConsonants func() map[string]map[string][]entry
}

// concepts is a set of concepts of the grammar of headings.
type concepts struct{ low, high uint64 }

const maxConcepts = 128

func concept(n int) concepts {
	if n < 64 {
		return concepts{low: 1 << n}
	}
	return concepts{high: 1 << (n - 64)}
}

func (c concepts) has(all concepts) bool       { return all.without(c) == concepts{} }
func (c concepts) and(d concepts) concepts     { return concepts{c.low | d.low, c.high | d.high} }
func (c concepts) without(d concepts) concepts { return concepts{c.low &^ d.low, c.high &^ d.high} }
func (c concepts) meets(d concepts) bool       { return c.low&d.low != 0 || c.high&d.high != 0 }
func (c concepts) count() int                  { return bits.OnesCount64(c.low) + bits.OnesCount64(c.high) }

type role struct {
	name     string
	kinds    []string
	quantity string
	allows   concepts
	// excludes are concepts that speak clearly against the role: the outside diameter of a shaft is none of a head.
	excludes concepts
	forms    []form
}

// form is a set of concepts that names a role. Kind is set where it does so in tables of one kind only.
type form struct {
	needs concepts
	words string
	score float64
	kind  string
	// alone is set where the form tells nothing beside words that are not known: a count of what is on hand is a stock, one of what was
	// ordered is none.
	alone bool
}

// Load returns the vocabulary. It is read once; the same pointer is returned ever after.
func Load() *Vocabulary { return loaded() }

// asWritten are the classes whose phrases are no words to be looked up: whoever asks for them says how they are compared.
var asWritten = map[string]bool{"supplier": true, "month": true, "deviation": true, "fraction": true, "run": true, "grammar": true, "demand": true,
	"quantity": true, "spreadsheet": true, "exception": true, "date": true, "part_of_unit": true, "place": true, "amount": true, classTimes: true, classMoneySign: true,
	classHomeCurrency: true}

// Written returns the phrases of all languages for a value of a class that is compared in a way of its own: the legal forms of companies,
// the names of months, and so on. See the language files for what there is.
func (v *Vocabulary) Written(class, value string) []string { return v.written[[2]string{class, value}] }

// AnyOf returns a regular expression for any of the phrases of all languages for a value of such a class, the longest first, in small letters.
func (v *Vocabulary) AnyOf(class, value string) string {
	return anyOf(v.Written(class, value), func(phrase string) string { return phrase })
}

// AnyUnit returns the same for units, which end where a word does.
func (v *Vocabulary) AnyUnit(units ...string) string {
	return anyOf(v.UnitPhrases(units...), func(phrase string) string {
		if last := phrase[len(phrase)-1]; last >= 'a' && last <= 'z' {
			return phrase + `\b`
		}
		return phrase
	})
}

// OtherUnits returns the units of the vocabulary that are none of some: of angles, shares, money, pieces.
func (v *Vocabulary) OtherUnits(some []string) (others []string) {
	for _, class := range []string{classUnit, classUnitBeside} {
		lex := v.classes[class]
		for _, entries := range []map[string][]entry{lex.words, lex.signs} {
			for _, options := range entries {
				for _, e := range options {
					if !slices.Contains(some, e.value) && !slices.Contains(others, e.value) {
						others = append(others, e.value)
					}
				}
			}
		}
	}
	return others
}

// UnitPhrases returns the words and signs of all languages for some units.
func (v *Vocabulary) UnitPhrases(units ...string) (all []string) {
	for _, unit := range units {
		all = append(all, append(v.phrases(classUnit, unit), v.phrases(classUnitBeside, unit)...)...)
	}
	return all
}

// UnitsLongestFirst is UnitPhrases in small letters, in the order in which they are to be looked for in a text.
func (v *Vocabulary) UnitsLongestFirst(units ...string) []string {
	return longestFirst(v.UnitPhrases(units...))
}

// MarkPhrases returns the words and signs of all languages for a mark.
func (v *Vocabulary) MarkPhrases(mark string) []string { return v.phrases(classMark, mark) }

// SaidNumbers returns the words of all languages for a number.
func (v *Vocabulary) SaidNumbers(n int) []string { return v.phrases(classSaid, strconv.Itoa(n)) }

func anyOf(phrases []string, end func(string) string) string {
	all := longestFirst(phrases)
	for i, phrase := range all {
		all[i] = end(regexp.QuoteMeta(phrase))
	}
	return strings.Join(all, "|")
}

// longestFirst returns phrases in small letters, each once, the longest first.
func longestFirst(phrases []string) []string {
	all := make([]string, len(phrases))
	for i, phrase := range phrases {
		all[i] = strings.ToLower(phrase)
	}
	slices.Sort(all)
	all = slices.Compact(all)
	slices.SortStableFunc(all, func(a, b string) int { return len(b) - len(a) })
	return all
}

// phrases returns the words and signs of all languages for a value of a class, in the order of the letters.
func (v *Vocabulary) phrases(class, value string) []string {
	lex := v.classes[class]
	if lex == nil {
		return nil
	}
	var all []string
	for _, entries := range []map[string][]entry{lex.words, lex.signs} {
		for _, options := range entries {
			for _, e := range options {
				if e.value == value {
					all = append(all, e.words)
				}
			}
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// signForm is the form in which signs are compared: compatibility forms unified, lower case, one dash and one inch
// sign, no spaces.
func signForm(s string) string {
	switch {
	case isPlain(s):
		return signPlain(s)
	case isSimple(s):
		return signSimple(s)
	}
	return signAny(s)
}

// signAny is signForm for a text of any characters.
func signAny(s string) string {
	s = norm.NFKC.String(replaceSigns.Replace(s))
	s = unifySigns.Replace(strings.ToLower(s))
	return strings.Join(strings.Fields(s), "")
}

var unifySigns = strings.NewReplacer("–", "-", "—", "-", "―", "-", "‐", "-", "‑", "-", "‒", "-", "﹣", "-", "−", "-", "─", "-",
	"″", `"`, "”", `"`, "“", `"`, "„", `"`, "〃", `"`, "′′", `"`, "’’", `"`, "''", `"`, "µ", "μ")

func (v *Vocabulary) foldVariants(s string) string {
	return strings.Map(func(r rune) rune {
		if to, known := v.variants[r]; known {
			return to
		}
		return r
	}, s)
}
