package say

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"strings"
	"sync"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// Language says things in one language. It may be used by several goroutines at once. Nil is English.
type Language struct {
	tag   string
	words Words
	// reasons are the sentences by code, phrases the phrases by name, those with most cases first.
	reasons [][]template
	phrases map[string][]template
	// verdicts and fields are words that are asked for often.
	verdicts, fields []string
	notation         fitcalc.Notation
}

var english = sync.OnceValue(func() *Language {
	l, err := In("en", nil)
	if err != nil {
		panic(err) // the built-in file is tested
	}
	return l
})

// English returns the language that a nil [*Language] is.
func English() *Language { return english() }

// In returns a built-in language, with the words of a file in the place of its own; nil is no file. The file may be in another language
// than those built in, which it names: what it leaves out is English then. Of its sections those that are not of this package are left to
// whose they are. The error is a [*LanguageError] or a [*WordsError].
func In(tag string, file []byte) (*Language, error) { return read(tag, file, nil, false) }

// With is [In] with the words of another package besides, in files named like those of this one: de.toml. A section that neither has
// is an error then.
func With(tag string, file []byte, more fs.FS) (*Language, error) { return read(tag, file, more, true) }

func read(tag string, file []byte, more fs.FS, strict bool) (*Language, error) {
	tag = cmp.Or(tag, "en")
	base := tag
	var own Words
	if file != nil {
		var err error
		if own, err = ParseWords(file); err != nil {
			return nil, err
		}
		tag = cmp.Or(own["language"], tag)
		if base = tag; !slices.Contains(Languages(), base) {
			base = "en"
		}
	}
	if !slices.Contains(Languages(), base) {
		return nil, &LanguageError{tag}
	}
	words, err := builtIn(base, more)
	if err != nil {
		return nil, err
	}
	if err := words.overlay(own, strict); err != nil {
		return nil, err
	}
	return newLanguage(tag, words)
}

func newLanguage(tag string, words Words) (*Language, error) {
	l := &Language{
		tag: tag, words: words, phrases: map[string][]template{},
		notation: fitcalc.Notation{Decimal: words["number.decimal"], Under: words["length.under"]},
	}
	for _, v := range fitcalc.Verdicts() {
		l.verdicts = grown(l.verdicts, int(v), words["verdict."+v.String()])
	}
	for f := fitcalc.NoField + 1; f.String() != ""; f++ {
		l.fields = grown(l.fields, int(f), words["field."+f.String()])
	}
	return l, l.compile()
}

func grown[T any](all []T, at int, value T) []T {
	for len(all) <= at {
		var none T
		all = append(all, none)
	}
	all[at] = value
	return all
}

// compile reads the phrases and sentences.
func (l *Language) compile() error {
	for _, key := range l.keys("phrase.") {
		name, cases, _ := strings.Cut(strings.TrimPrefix(key, "phrase."), ".")
		t, err := l.template(key, cases)
		if err != nil {
			return err
		}
		if slices.ContainsFunc(t.parts, func(p part) bool { return strings.HasPrefix(p.blank, "@") }) {
			return &WordsError{key, errors.New("a phrase has no phrase in it")}
		}
		l.phrases[name] = append(l.phrases[name], t)
	}
	for _, all := range l.phrases {
		order(all)
	}
	for code := range fitcalc.Codes() {
		var all []template
		for _, key := range l.keys("sentence." + code.String()) {
			cases := strings.TrimPrefix(key, "sentence."+code.String())
			if cases != "" && cases[0] != '.' {
				continue // of a code that begins alike
			}
			t, err := l.template(key, cases)
			if err != nil {
				return err
			}
			if err := check(t.parts, code, l.phrases); err != nil {
				return &WordsError{key, err}
			}
			all = append(all, t)
		}
		order(all)
		l.reasons = grown(l.reasons, int(code), all)
	}
	return l.checkSentences()
}

// checkSentences finds sentences of codes that there are not.
func (l *Language) checkSentences() error {
	for _, key := range l.keys("sentence.") {
		area, rest, _ := strings.Cut(strings.TrimPrefix(key, "sentence."), ".")
		name, _, _ := strings.Cut(rest, ".")
		if _, known := fitcalc.ParseCode(area + "." + name); !known {
			return &WordsError{key, fmt.Errorf("there is no reason %s.%s", area, name)}
		}
	}
	return nil
}

func (l *Language) template(key, cases string) (template, error) {
	t, err := parseTraits(cases)
	if err != nil {
		return template{}, &WordsError{key, err}
	}
	parts, err := parse(l.words[key])
	if err != nil {
		return template{}, &WordsError{key, err}
	}
	return template{traits: t, parts: parts}, nil
}

// keys are those that begin so, sorted.
func (l *Language) keys(prefix string) []string {
	var all []string
	for key := range l.words {
		if strings.HasPrefix(key, prefix) {
			all = append(all, key)
		}
	}
	slices.Sort(all)
	return all
}

func (l *Language) orEnglish() *Language {
	if l == nil {
		return English()
	}
	return l
}

// Tag returns the tag of the language: en.
func (l *Language) Tag() string { return l.orEnglish().tag }

// Words returns the words as they stand in the files, for who writes a page of them. They are not to be changed.
func (l *Language) Words() Words { return l.orEnglish().words }

// Verdict returns a verdict's word.
func (l *Language) Verdict(v fitcalc.Verdict) string { return at(l.orEnglish().verdicts, v) }

// Meaning returns what a verdict means, as a clause.
func (l *Language) Meaning(v fitcalc.Verdict) string {
	return l.orEnglish().words["meaning."+v.String()]
}

// MeasuredMeaning returns what [fitcalc.Measure] means where what would have to be measured was.
func (l *Language) MeasuredMeaning() string { return l.orEnglish().words["meaning.measured"] }

// Field returns what a dimension is called.
func (l *Language) Field(f fitcalc.Field) string { return at(l.orEnglish().fields, f) }

// Category returns what a kind of head is called.
func (l *Language) Category(c fitcalc.Category) string {
	if c == fitcalc.AnyCategory {
		return l.orEnglish().words["category.other"]
	}
	return l.orEnglish().words["category."+c.String()]
}

// Top returns what the form of a hosel's top is called.
func (l *Language) Top(t fitcalc.TopForm) string {
	if t == fitcalc.TopUnknown {
		return l.orEnglish().words["top.unknown"]
	}
	return l.orEnglish().words["top."+t.String()]
}

// TipForm returns what the form of a tip is called.
func (l *Language) TipForm(t fitcalc.TipForm) string {
	if t == fitcalc.TipUnknown {
		return l.orEnglish().words["tip.unknown"]
	}
	return l.orEnglish().words["tip."+t.String()]
}

// Assumption returns an assumption as a clause.
func (l *Language) Assumption(a fitcalc.Assumption) string { return l.Assumed(a.Code()) }

// Assumed is [Language.Assumption] by the code, for codes that package fitcalc does not have too: tip.bore and read.unit.
func (l *Language) Assumed(code string) string { return l.orEnglish().words["assumed."+code] }

func at[T ~uint8](names []string, value T) string {
	if int(value) >= len(names) {
		return ""
	}
	return names[value]
}

// Reason puts a reason in words, with its numbers in the reader's units, as a clause without a full stop.
func (l *Language) Reason(r fitcalc.Reason, u fitcalc.Units) string {
	return string(l.AppendReason(nil, r, u))
}

// AppendReason is [Language.Reason] for who writes many: it appends the clause to b.
func (l *Language) AppendReason(b []byte, r fitcalc.Reason, u fitcalc.Units) []byte {
	l = l.orEnglish()
	var room [8]fitcalc.Number
	numbers := room[:0]
	for n := range r.Numbers() {
		numbers = append(numbers, n)
	}
	f := filling{Language: l, reason: &r, numbers: numbers, units: u, traits: traitsOf(&r, numbers)}
	if int(r.Code) >= len(l.reasons) {
		return b
	}
	if t := choose(l.reasons[r.Code], f.traits); t != nil {
		return f.append(b, t)
	}
	return append(b, r.Code.String()...)
}

// Length writes a length for reading, the preferred unit first.
func (l *Language) Length(length measure.Length, u fitcalc.Units) string {
	return u.ShowIn(length, l.orEnglish().notation)
}

// AxialLength is [Language.Length] for a length along the axis, where fractions have their use.
func (l *Language) AxialLength(length measure.Length, u fitcalc.Units) string {
	return u.ShowLengthIn(length, l.orEnglish().notation)
}

// Share writes a share as a percentage, and never rounds a positive share to nothing or a part to all.
func (l *Language) Share(share float64) string {
	l = l.orEnglish()
	switch p := share * 100; {
	case share <= 0:
		return l.exact(0, 0)
	case p < 0.1:
		return l.words.Fill("share.under", "share", l.percent(0.1, 1))
	case p > 99.9 && share < 1:
		return l.words.Fill("share.over", "share", l.percent(99.9, 1))
	case p < 10 || p > 99 && share < 1:
		return l.exact(p, 1)
	default:
		return l.exact(p, 0)
	}
}

// exact writes a percentage as a share of joints: Spanish puts an article before it, which it does not put before under and over.
func (l *Language) exact(p float64, most int) string {
	return strings.Replace(l.words["share.exact"], "{share}", l.percent(p, most), 1)
}

// percent writes a percentage with at most that many decimals.
func (l *Language) percent(p float64, most int) string {
	text := strconv.FormatFloat(p, 'f', most, 64)
	if most > 0 {
		text = strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
	}
	return l.words.Fill("share.percent", "n", l.notation.Number(text))
}

// Caution is a warning in words.
type Caution struct {
	// Of is the caution that is said.
	Of fitcalc.Caution
	// Title is what it is about, in a word or two, and Text what to do about it, in whole sentences.
	Title, Text string
}

// Cautions returns [fitcalc.Cautions] in words.
func (l *Language) Cautions() []Caution {
	words := l.orEnglish().words
	var all []Caution
	for _, c := range fitcalc.Cautions() {
		all = append(all, Caution{Of: c, Title: words["caution."+c.String()], Text: words["caution."+c.String()+"_text"]})
	}
	return all
}
