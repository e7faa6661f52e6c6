package words

import (
	"fmt"
	"io/fs"
	"maps"
	"math/bits"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
	"golang.org/x/text/unicode/norm"

	"example.com/seatline/reconcile/catalog/words/data"
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
	// transcribed spells letters of the language that is being read out in others, as people do who cannot type them: ue for ü.
	transcribed *strings.Replacer
	transcribes bool
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
	classBesideDate = "beside_date"
	classWrong      = "beside_wrong"
	classKind       = "kind"
	classGoods      = "goods"
	classRemark     = "remark"
	classShade      = "shade"
	classLegend     = "legend"
	classReading    = "reading"
	classBlank      = "blank"
	classFlatPrice  = "flat_price"
	classSaid       = "said"
	classAnswer     = "answer"
	classClubWord   = "club_word"
	classClubName   = "club_name"
	classClubCode   = "club_code"
	classClubLetter = "club_letter"
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

// loaded panics where the embedded files are damaged, which only a change to the files can bring about and every test
// of the package notices.
var loaded = sync.OnceValue(func() *Vocabulary {
	files, err := data.Files()
	if err == nil {
		var v *Vocabulary
		if v, err = build(files); err == nil {
			return v
		}
	}
	panic(fmt.Sprintf("words: embedded vocabulary: %v", err))
})

// read builds a vocabulary from a folder of language files and a grammar.
func read(folder fs.FS) (*Vocabulary, error) {
	files, err := data.From(folder)
	if err != nil {
		return nil, err
	}
	return build(files)
}

// grammarName is the file that says what concepts make of headings, in whatever language.
const grammarName = "grammar.toml"

func build(files []data.File) (*Vocabulary, error) {
	v := &Vocabulary{classes: map[string]*lexicon{}, variants: map[rune]rune{}, concepts: map[string]concepts{}, written: map[[2]string][]string{}}
	for _, file := range files {
		enter := v.readLanguage
		if file.Name == grammarName {
			enter = v.readGrammar
		}
		if err := enter(file); err != nil {
			return nil, fmt.Errorf("%s: %w", file.Name, err)
		}
	}
	v.endings, v.links = v.Written("grammar", "endings"), append([]string{""}, v.Written("grammar", "links")...)
	v.prefixes = v.Written("grammar", "prefixes")
	v.money = map[string]string{}
	for key, signs := range v.written {
		for _, sign := range signs {
			if key[0] == classMoneySign {
				v.money[sign] = key[1]
			}
		}
	}
	v.findClubSigns()
	for _, lex := range v.classes {
		lex.keys, lex.signKeys = slices.Sorted(maps.Keys(lex.words)), slices.Sorted(maps.Keys(lex.signs))
		for _, word := range lex.keys {
			if len(word) >= 6 && plainWord(word) {
				lex.sorted = append(lex.sorted, word)
			}
		}
	}
	v.classes[classConcept].byConsonants = sync.OnceValue(v.classes[classConcept].indexConsonants)
	return v, nil
}

func (v *Vocabulary) readLanguage(file data.File) error {
	language, _ := file.Table["language"].(string)
	if language == "" {
		return fmt.Errorf("no language")
	}
	if pairs, ok := file.Table["variants"].(string); ok {
		for _, pair := range strings.Fields(pairs) {
			from, size := utf8.DecodeRuneInString(pair)
			to, _ := utf8.DecodeRuneInString(pair[size:])
			v.variants[from] = to
		}
	}
	spelling, transcribes := file.Table["transcribed"].(string)
	v.transcribes = transcribes
	v.transcribed = strings.NewReplacer(strings.FieldsFunc(spelling, func(r rune) bool { return r == ' ' || r == '=' })...)
	for _, class := range slices.Sorted(maps.Keys(file.Table)) {
		table, ok := file.Table[class].(map[string]any)
		if !ok || class == data.Encoding {
			continue
		}
		for _, value := range slices.Sorted(maps.Keys(table)) {
			if err := v.enter(class, value, language, table[value]); err != nil {
				return err
			}
		}
	}
	return nil
}

// enter enters the phrases of one key of a class.
func (v *Vocabulary) enter(class, value, language string, list any) error {
	phrases, ok := list.([]any)
	if !ok {
		return fmt.Errorf("%s.%s is no list", class, value)
	}
	for _, phrase := range phrases {
		text, ok := phrase.(string)
		if !ok {
			return fmt.Errorf("%s.%s holds what is no text", class, value)
		}
		if asWritten[class] {
			if key := [2]string{class, value}; !slices.Contains(v.written[key], text) {
				v.written[key] = append(v.written[key], text)
			}
			continue
		}
		if err := v.add(class, value, language, text); err != nil {
			return err
		}
	}
	return nil
}

// asWritten are the classes whose phrases are no words to be looked up: whoever asks for them says how they are compared.
var asWritten = map[string]bool{"supplier": true, "month": true, "deviation": true, "fraction": true, "run": true, "grammar": true, "demand": true,
	"quantity": true, "spreadsheet": true, "exception": true, "date": true, "part_of_unit": true, "place": true, classTimes: true, classMoneySign: true}

// Written returns the phrases of all languages for a value of a class that is compared in a way of its own: the legal forms of companies,
// the names of months, and so on. See the language files for what there is.
func (v *Vocabulary) Written(class, value string) []string { return v.written[[2]string{class, value}] }

// AnyOf returns a regular expression for any of the phrases of all languages for a value of such a class, the longest first, in small letters.
func (v *Vocabulary) AnyOf(class, value string) string {
	return anyOf(v.Written(class, value), func(phrase string) string { return phrase })
}

// AnyUnit returns the same for units, which end where a word does.
func (v *Vocabulary) AnyUnit(units ...string) string {
	var phrases []string
	for _, unit := range units {
		phrases = append(phrases, append(v.phrases(classUnit, unit), v.phrases(classUnitBeside, unit)...)...)
	}
	return anyOf(phrases, func(phrase string) string {
		if last := phrase[len(phrase)-1]; last >= 'a' && last <= 'z' {
			return phrase + `\b`
		}
		return phrase
	})
}

func anyOf(phrases []string, end func(string) string) string {
	all := make([]string, len(phrases))
	for i, phrase := range phrases {
		all[i] = end(regexp.QuoteMeta(strings.ToLower(phrase)))
	}
	slices.Sort(all)
	all = slices.Compact(all)
	slices.SortStableFunc(all, func(a, b string) int { return len(b) - len(a) })
	return strings.Join(all, "|")
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

// add enters one phrase, which may end in @ and its weight.
func (v *Vocabulary) add(class, value, language, phrase string) error {
	weight := 1.0
	if at := strings.LastIndexByte(phrase, '@'); at > 0 {
		w, err := strconv.ParseFloat(phrase[at+1:], 64)
		if err != nil || w <= 0 || w > 1 {
			return fmt.Errorf("%s.%s: %q has no weight between 0 and 1 after its @", class, value, phrase)
		}
		phrase, weight = phrase[:at], w
	}
	e := entry{value: value, words: phrase, language: language, weight: weight}
	if class == classConcept {
		set, err := v.conceptSet(value)
		if err != nil {
			return err
		}
		e.concepts = set
	}
	lex := v.classes[class]
	if lex == nil {
		lex = &lexicon{words: make(map[string][]entry, roomOf(class)), signs: map[string][]entry{}}
		v.classes[class] = lex
	}
	folded := Fold(phrase)
	if sign := signForm(phrase); !strings.ContainsFunc(sign, unicode.IsLetter) || sign != folded {
		lex.signs[sign] = append(lex.signs[sign], e)
	}
	if isPlain(phrase) {
		v.enterTokens(lex, tokensOf(phrase), e)
	} else {
		v.enterTokens(lex, tokens(folded), e)
	}
	if v.transcribes {
		small := strings.ToLower(phrase)
		if transcribed := v.transcribed.Replace(small); transcribed != small {
			v.enterTokens(lex, tokensOf(transcribed), e)
		}
	}
	return nil
}

// roomOf is for how many words of a class there is room from the start: those of headings are most.
func roomOf(class string) int {
	if class == classConcept {
		return 1 << 14
	}
	return 0
}

// enterTokens enters a word or phrase by its tokens.
func (v *Vocabulary) enterTokens(lex *lexicon, list []string, e entry) {
	if len(list) == 0 {
		return
	}
	lex.maxTokens = max(lex.maxTokens, len(list))
	key := strings.Join(list, " ")
	lex.words[key] = append(lex.words[key], e)
	if folded := v.foldVariants(key); folded != key {
		lex.words[folded] = append(lex.words[folded], e)
	}
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

// conceptSet returns the set of the concepts in a text, numbering those that are new.
func (v *Vocabulary) conceptSet(text string) (concepts, error) {
	var set concepts
	for name := range strings.FieldsSeq(text) {
		bit, known := v.concepts[name]
		if !known {
			if len(v.concepts) == maxConcepts {
				return concepts{}, fmt.Errorf("%q is one concept more than the %d there is room for", name, maxConcepts)
			}
			bit = concept(len(v.concepts))
			v.concepts[name] = bit
		}
		set = set.and(bit)
	}
	return set, nil
}

type grammarFile struct {
	Neutral []string      `toml:"neutral"`
	Aside   []string      `toml:"aside"`
	Roles   []grammarRole `toml:"role"`
}

type grammarRole struct {
	Name     string   `toml:"name"`
	Kinds    []string `toml:"kinds"`
	Quantity string   `toml:"quantity"`
	Allows   []string `toml:"allows"`
	Excludes []string `toml:"excludes"`
	Forms    []string `toml:"forms"`
	Alone    []string `toml:"alone"`
	Heads    []string `toml:"heads"`
	Ferrules []string `toml:"ferrules"`
	Tips     []string `toml:"tips"`
}

func (v *Vocabulary) readGrammar(from data.File) error {
	var file grammarFile
	if err := toml.Unmarshal(from.Text, &file); err != nil {
		return err
	}
	var err error
	if v.neutral, err = v.conceptSet(strings.Join(file.Neutral, " ")); err != nil {
		return err
	}
	if v.aside, err = v.conceptSet(strings.Join(file.Aside, " ")); err != nil {
		return err
	}
	for _, entry := range file.Roles {
		r := role{name: entry.Name, kinds: entry.Kinds, quantity: entry.Quantity}
		if len(entry.Allows) == 1 && entry.Allows[0] == "*" {
			r.allows = concepts{^uint64(0), ^uint64(0)}.without(v.aside)
		} else if r.allows, err = v.conceptSet(strings.Join(entry.Allows, " ")); err != nil {
			return err
		}
		if r.excludes, err = v.conceptSet(strings.Join(entry.Excludes, " ")); err != nil {
			return err
		}
		ofKind := map[string][]string{"": entry.Forms, "heads": entry.Heads, "ferrules": entry.Ferrules, "tips": entry.Tips}
		for _, kind := range slices.Sorted(maps.Keys(ofKind)) {
			for _, text := range ofKind[kind] {
				f, err := v.readForm(text, kind)
				if err != nil {
					return fmt.Errorf("role %s: %w", entry.Name, err)
				}
				r.forms = append(r.forms, f)
			}
		}
		for _, text := range entry.Alone {
			f, err := v.readForm(text, "")
			if err != nil {
				return fmt.Errorf("role %s: %w", entry.Name, err)
			}
			f.alone = true
			r.forms = append(r.forms, f)
		}
		v.roles = append(v.roles, r)
	}
	return nil
}

func (v *Vocabulary) readForm(text, kind string) (form, error) {
	names, number, _ := strings.Cut(text, " = ")
	score, err := strconv.ParseFloat(number, 64)
	if err != nil || score <= 0 || score > 1 {
		return form{}, fmt.Errorf("form %q has no score between 0 and 1", text)
	}
	needs, err := v.conceptSet(names)
	return form{needs: needs, words: names, score: score, kind: kind}, err
}
