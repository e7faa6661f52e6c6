package words

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"

	"example.com/seatline/reconcile/catalog/words/data"
)

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

// build makes a vocabulary of the files. The classes are entered side by side: the first sheet waits for them.
func build(files []data.File) (*Vocabulary, error) {
	v := &Vocabulary{classes: map[string]*lexicon{}, variants: map[rune]rune{}, concepts: map[string]concepts{}, written: map[[2]string][]string{}}
	languages, err := v.readLanguages(files)
	if err != nil {
		return nil, err
	}
	for _, from := range languages {
		for class := range from.classes {
			if v.classes[class] == nil {
				v.classes[class] = &lexicon{words: make(map[string][]entry, roomOf(class)), signs: map[string][]entry{}}
			}
		}
	}
	if err := v.enterClasses(languages); err != nil {
		return nil, err
	}
	for _, file := range files {
		if file.Name == grammarName {
			if err := v.readGrammar(file); err != nil {
				return nil, fmt.Errorf("%s: %w", file.Name, err)
			}
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
	v.mergeQuotes()
	return v, nil
}

// language is what a file says of a language.
type language struct {
	file, name string
	// transcribed spells its letters in others, as people do who cannot type them: ue for ü. It is nil where they do not.
	transcribed *strings.Replacer
	// classes are its phrases that are looked up, by class and value.
	classes map[string]map[string][]string
}

// readLanguages reads what is not looked up itself, and prepares what is.
func (v *Vocabulary) readLanguages(files []data.File) ([]language, error) {
	var languages []language
	for _, file := range files {
		if file.Name == grammarName {
			continue
		}
		one, err := v.readLanguage(file)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", file.Name, err)
		}
		languages = append(languages, one)
	}
	return languages, nil
}

func (v *Vocabulary) readLanguage(file data.File) (language, error) {
	name, _ := file.Table["language"].(string)
	if name == "" {
		return language{}, fmt.Errorf("no language")
	}
	from := language{file: file.Name, name: name, classes: map[string]map[string][]string{}}
	if pairs, ok := file.Table["variants"].(string); ok {
		for _, pair := range strings.Fields(pairs) {
			from, size := utf8.DecodeRuneInString(pair)
			to, _ := utf8.DecodeRuneInString(pair[size:])
			v.variants[from] = to
		}
	}
	if spelling, transcribes := file.Table["transcribed"].(string); transcribes {
		from.transcribed = strings.NewReplacer(strings.FieldsFunc(spelling, func(r rune) bool { return r == ' ' || r == '=' })...)
	}
	for _, class := range slices.Sorted(maps.Keys(file.Table)) {
		table, ok := file.Table[class].(map[string]any)
		if !ok || class == data.Encoding {
			continue
		}
		for _, value := range slices.Sorted(maps.Keys(table)) {
			phrases, err := phrasesIn(table[value])
			if err != nil {
				return language{}, fmt.Errorf("%s.%s %w", class, value, err)
			}
			if asWritten[class] {
				v.keepWritten([2]string{class, value}, phrases)
				continue
			}
			if from.classes[class] == nil {
				from.classes[class] = map[string][]string{}
			}
			from.classes[class][value] = phrases
		}
	}
	return from, nil
}

func phrasesIn(value any) ([]string, error) {
	list, ok := value.([]any)
	if !ok {
		return nil, errors.New("is no list")
	}
	phrases := make([]string, len(list))
	for i, phrase := range list {
		if phrases[i], ok = phrase.(string); !ok {
			return nil, errors.New("holds what is no text")
		}
	}
	return phrases, nil
}

func (v *Vocabulary) keepWritten(key [2]string, phrases []string) {
	for _, phrase := range phrases {
		if !slices.Contains(v.written[key], phrase) {
			v.written[key] = append(v.written[key], phrase)
		}
	}
}

// enterClasses enters each class of all languages by itself: only that of concepts numbers these.
func (v *Vocabulary) enterClasses(languages []language) error {
	names := slices.Sorted(maps.Keys(v.classes))
	problems := make([]error, len(names))
	var all sync.WaitGroup
	for i, class := range names {
		all.Go(func() { problems[i] = v.enterClass(class, languages) })
	}
	all.Wait()
	return errors.Join(problems...)
}

func (v *Vocabulary) enterClass(class string, languages []language) error {
	lex := v.classes[class]
	for _, from := range languages {
		values := from.classes[class]
		for _, value := range slices.Sorted(maps.Keys(values)) {
			if err := v.enter(lex, class, value, from, values[value]); err != nil {
				return fmt.Errorf("%s: %s.%s: %w", from.file, class, value, err)
			}
		}
	}
	lex.order()
	if class == classConcept {
		lex.byConsonants = sync.OnceValue(lex.indexConsonants)
	}
	return nil
}

// enter enters the phrases of one value of a class.
func (v *Vocabulary) enter(lex *lexicon, class, value string, from language, phrases []string) error {
	of := entry{value: value, language: from.name}
	if class == classConcept {
		set, err := v.conceptSet(value)
		if err != nil {
			return err
		}
		of.concepts = set
	}
	for _, phrase := range phrases {
		e, err := of.weighed(phrase)
		if err != nil {
			return err
		}
		v.add(lex, e, class != classConcept, from.transcribed)
	}
	return nil
}

// weighed returns an entry for a phrase, which may end in @ and its weight.
func (e entry) weighed(phrase string) (entry, error) {
	e.words, e.weight = phrase, 1
	if at := strings.LastIndexByte(phrase, '@'); at > 0 {
		w, err := strconv.ParseFloat(phrase[at+1:], 64)
		if err != nil || w <= 0 || w > 1 {
			return entry{}, fmt.Errorf("%q has no weight between 0 and 1 after its @", phrase)
		}
		e.words, e.weight = phrase[:at], w
	}
	return e, nil
}

// add enters one phrase, as a sign too where it may stand as one: no heading is looked up by its signs.
func (v *Vocabulary) add(lex *lexicon, e entry, asSign bool, transcribed *strings.Replacer) {
	if asSign {
		if sign := signForm(e.words); !strings.ContainsFunc(sign, unicode.IsLetter) || sign != Fold(e.words) {
			lex.signs[sign] = append(lex.signs[sign], e)
		}
	}
	v.enterTokens(lex, tokensOf(e.words), e)
	if transcribed != nil {
		small := strings.ToLower(e.words)
		if other := transcribed.Replace(small); other != small {
			v.enterTokens(lex, tokensOf(other), e)
		}
	}
}

// order puts the words in the order in which they are searched.
func (lex *lexicon) order() {
	lex.tokens, lex.texts = keeping[*token](placesOfWords), keeping[[]segment](placesOfTexts)
	lex.keys, lex.signKeys = slices.Sorted(maps.Keys(lex.words)), slices.Sorted(maps.Keys(lex.signs))
	for _, word := range lex.keys {
		if len(word) >= 6 && plainWord(word) {
			lex.sorted = append(lex.sorted, word)
		}
	}
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
