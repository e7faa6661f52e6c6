package words

import (
	"maps"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// segment is a stretch of a text: one word or phrase of the vocabulary with all it may stand for, or a token that the
// vocabulary does not know, without options.
type segment struct {
	text    string
	from    int // index of its first token
	weight  int // how much of the text it is
	options []entry
}

// maxRead is how many tokens of a text are looked at. Longer texts are prose.
const maxRead = 80

// segmentsOf divides a text into words of a class and unknown tokens, as [Vocabulary.segments] does its tokens.
func (v *Vocabulary) segmentsOf(class, text string) []segment {
	lex := v.classes[class]
	if lex == nil {
		return nil
	}
	return lex.texts.of(text, longestKeptText, func(text string) []segment { return v.segments(class, tokensOf(text)) })
}

// token is what a class knows of a word by itself.
type token struct {
	// parts are what is inside, counted from it, and known how much of it they know.
	parts []segment
	known int
	// options are what it means as a whole, and weight is how much it is then.
	options []entry
	weight  int
	// leads is set where a phrase of several words may begin with it.
	leads bool
}

func (v *Vocabulary) tokenOf(lex *lexicon, text string) *token {
	return lex.tokens.of(text, longestKeptWord, func(text string) *token {
		t := &token{parts: v.inside(lex, text, 0), options: v.lookup(lex, text), weight: textWeight(text), leads: lex.maxTokens > 1 && v.goesOn(lex, text+" ")}
		for _, s := range t.parts {
			if len(s.options) > 0 {
				t.known += s.weight
			}
		}
		return t
	})
}

// step is the best way to divide a text from a token on.
type step struct {
	known, pieces, next int
	// token is set where the way begins with what is inside the token, text and options where it does with a word or phrase.
	token   *token
	text    string
	options []entry
}

// mostOften is how many tokens all but few texts have at most.
const mostOften = 40

// segments divides the tokens of a text into words of a class and unknown tokens, so that as much as possible is known, in as few
// pieces as possible.
func (v *Vocabulary) segments(class string, list []string) []segment {
	lex := v.classes[class]
	if lex == nil {
		return nil
	}
	list = list[:min(len(list), maxRead)]
	if len(list) == 0 {
		return nil
	}
	var room [mostOften + 1]step
	best := room[:]
	if len(list) > mostOften {
		best = make([]step, len(list)+1)
	}
	var whole string // all phrases are stretches of the whole text
	var starts [maxRead + 1]int32
	count := 0
	for i := len(list) - 1; i >= 0; i-- {
		t := v.tokenOf(lex, list[i])
		best[i] = step{known: best[i+1].known + t.known, pieces: best[i+1].pieces + 1, next: i + 1, token: t}
		take := func(n, weight int, key string, options []entry) {
			known, pieces := best[i+n].known+weight, best[i+n].pieces+1
			if known > best[i].known || known == best[i].known && pieces <= best[i].pieces {
				best[i] = step{known: known, pieces: pieces, next: i + n, text: key, options: options}
			}
		}
		if len(t.options) > 0 {
			take(1, t.weight, list[i], t.options)
		}
		if !t.leads {
			continue
		}
		if whole == "" {
			whole = strings.Join(list, " ")
			for k, token := range list {
				starts[k+1] = starts[k] + int32(len(token)) + 1
			}
		}
		for n := 2; n <= lex.maxTokens && i+n <= len(list); n++ {
			key := whole[starts[i] : starts[i+n]-1]
			if !v.goesOn(lex, key) {
				break // no longer phrase begins so either
			}
			if options := v.lookup(lex, key); len(options) > 0 {
				take(n, textWeight(key), key, options)
			}
		}
	}
	for i := 0; i < len(list); i = best[i].next {
		count++
		if token := best[i].token; token != nil {
			count += len(token.parts) - 1
		}
	}
	all := make([]segment, 0, count)
	for i := 0; i < len(list); i = best[i].next {
		if token := best[i].token; token == nil {
			all = append(all, segment{text: best[i].text, from: i, weight: textWeight(best[i].text), options: best[i].options})
			continue
		}
		for _, part := range best[i].token.parts {
			part.from = i
			all = append(all, part)
		}
	}
	return all
}

func (v *Vocabulary) lookup(lex *lexicon, key string) []entry {
	if options := lex.words[key]; len(options) > 0 || isPlain(key) {
		return options
	}
	if folded := v.foldVariants(key); folded != key {
		return lex.words[folded]
	}
	return nil
}

// textWeight counts letters, wide characters double.
func textWeight(s string) int {
	n := 0
	for _, r := range s {
		switch {
		case r == ' ':
		case isWide(r):
			n += 2
		default:
			n++
		}
	}
	return n
}

// inside looks for what an unknown token is made of: an inflected word, a compound, a word with one slip of the pen.
// The result is the token itself, unknown, where it is none of these.
func (v *Vocabulary) inside(lex *lexicon, token string, at int) []segment {
	unknown := []segment{{text: token, from: at, weight: textWeight(token)}}
	if len(token) < 4 || len(lex.words[token]) > 0 || !plainWord(token) {
		return unknown
	}
	for _, ending := range v.endings {
		if stem, found := strings.CutSuffix(token, ending); found && len(stem) >= 4 && len(lex.words[stem]) > 0 {
			return []segment{{text: token, from: at, weight: textWeight(token), options: lighter(lex.words[stem], 0.97)}}
		}
	}
	if parts := v.compound(lex, token, at, 0); parts != nil {
		return parts
	}
	nearly := slices.DeleteFunc(lex.nearly(token), func(e entry) bool { return IsCurrency(e.value) }) // kroner are no kronor
	if len(nearly) > 0 {
		return []segment{{text: token, from: at, weight: textWeight(token), options: lighter(nearly, 0.85)}}
	}
	return unknown
}

func plainWord(s string) bool {
	return !strings.ContainsFunc(s, func(r rune) bool { return !unicode.IsLetter(r) || isWide(r) })
}

func lighter(options []entry, factor float64) []entry {
	list := make([]entry, len(options))
	for i, e := range options {
		e.weight *= factor
		list[i] = e
	}
	return list
}

// compound divides a word into words of the vocabulary without a rest, linking letters such as those of German between them allowed. All
// but the last part have three letters at least.
func (v *Vocabulary) compound(lex *lexicon, word string, at, depth int) []segment {
	if depth > 4 {
		return nil
	}
	if options := lex.words[word]; depth > 0 && len(options) > 0 && len(word) >= 2 {
		return []segment{{text: word, from: at, weight: textWeight(word), options: options}}
	}
	for n := len(word) - 2; n >= 3; n-- {
		options := lex.words[word[:n]]
		if len(options) == 0 {
			continue
		}
		first := segment{text: word[:n], from: at, weight: textWeight(word[:n]), options: options}
		for _, link := range v.links {
			rest, found := strings.CutPrefix(word[n:], link)
			if !found {
				continue
			}
			if parts := v.compound(lex, rest, at, depth+1); parts != nil {
				first.weight += len(link)
				return append([]segment{first}, parts...)
			}
		}
	}
	return nil
}

// nearly finds the words one slip away from a word of at least six letters: a letter missing, added, wrong, or two
// swapped. The first letter must be right. In a word of four or five letters only two may be swapped: too many short words
// differ by one.
func (lex *lexicon) nearly(word string) []entry {
	var found []entry
	for at := 1; len(word) < 6 && at+1 < len(word); at++ {
		if swapped := word[:at] + word[at+1:at+2] + word[at:at+1] + word[at+2:]; swapped != word {
			found = append(found, lex.words[swapped]...)
		}
	}
	if len(word) < 6 {
		return found
	}
	first, _ := slices.BinarySearch(lex.sorted, word[:1])
	for _, known := range lex.sorted[first:] {
		if known[0] != word[0] {
			break
		}
		if len(known) > len(word)+1 || len(word) > len(known)+1 {
			continue
		}
		if oneSlip(word, known) {
			found = append(found, lex.words[known]...)
		}
	}
	return found
}

func oneSlip(a, b string) bool {
	for a != "" && b != "" && a[0] == b[0] {
		a, b = a[1:], b[1:]
	}
	for a != "" && b != "" && a[len(a)-1] == b[len(b)-1] {
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	if len(a) == 2 && len(b) == 2 {
		return a[0] == b[1] && a[1] == b[0]
	}
	return len(a) <= 1 && len(b) <= 1 && utf8.ValidString(a) && utf8.ValidString(b)
}

// How many letters of a word its short form keeps. More are no short form: "longue" is another word than "longueur".
const leastShort, mostShort = 3, 5

// shortened finds what a token may be short for: in each language the words that it begins, where all of them mean the same or more than
// the shortest: INN_DIA for an inner diameter, "thickn." for a thickness; where it begins none, those of which it has the consonants: LWR for
// lower. Alone it has to be short for the same in all.
func (lex *lexicon) shortened(token string, alone bool) []entry {
	if len(token) < leastShort || len(token) > mostShort || !plainWord(token) {
		return nil
	}
	all := map[string][]entry{}
	at, _ := slices.BinarySearch(lex.keys, token)
	for _, key := range lex.keys[at:] {
		if !strings.HasPrefix(key, token) {
			break
		}
		for _, e := range lex.words[key] {
			if !strings.Contains(key, " ") {
				all[e.language] = append(all[e.language], e)
			}
		}
	}
	if consonants(token) == token {
		for language, entries := range lex.byConsonants()[token] {
			if all[language] == nil {
				all[language] = entries
			}
		}
	}
	var found []entry
	for _, language := range slices.Sorted(maps.Keys(all)) {
		if e, same := least(all[language]); same {
			found = append(found, e)
		}
	}
	if alone && slices.ContainsFunc(found, func(e entry) bool { return e.concepts != found[0].concepts }) {
		return nil
	}
	return lighter(found, 0.8)
}

// least returns the entry whose concepts all others have.
func least(all []entry) (e entry, same bool) {
	e = all[0]
	for _, other := range all[1:] {
		if e.concepts.has(other.concepts) {
			e = other
		}
	}
	return e, !slices.ContainsFunc(all, func(other entry) bool { return !other.concepts.has(e.concepts) })
}

// consonants returns the first letter of a word and its other letters but for vowels, each of two alike once.
func consonants(word string) string {
	var out []byte
	for i := range len(word) {
		c := word[i]
		if i > 0 && (strings.IndexByte("aeiou", c) >= 0 || c == word[i-1]) {
			continue
		}
		out = append(out, c)
	}
	return string(out)
}

// indexConsonants finds the words of a class by their consonants, which are a short form where the word has two letters more.
func (lex *lexicon) indexConsonants() map[string]map[string][]entry {
	all := map[string]map[string][]entry{}
	for _, word := range lex.keys {
		short := consonants(word)
		if !plainWord(word) || len(short) < leastShort || len(short) > mostShort || len(word) < len(short)+2 {
			continue
		}
		if all[short] == nil {
			all[short] = map[string][]entry{}
		}
		for _, e := range lex.words[word] {
			all[short][e.language] = append(all[short][e.language], e)
		}
	}
	return all
}
