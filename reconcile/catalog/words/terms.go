package words

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Category says which kind of club a text speaks of: driver fairway hybrid iron wedge putter chipper.
func (v *Vocabulary) Category(text string) (Hit, bool) { return v.term(classCategory, text) }

// TopForm says which form of a hosel's top a text names: flat rounded countersunk counterbored; chamfered counts as
// countersunk with a lower score.
func (v *Vocabulary) TopForm(text string) (Hit, bool) { return v.term(classTop, text) }

// Style says which form of a ferrule's base a text names: plain collared stepped.
func (v *Vocabulary) Style(text string) (Hit, bool) { return v.term(classStyle, text) }

// Material says which material a text names: cellulose_acetate cellulose_acetate_butyrate abs nylon acetal, or other
// for a material that is known to be none of these.
func (v *Vocabulary) Material(text string) (Hit, bool) { return v.term(classMaterial, text) }

// BoreForm says whether a text speaks of a parallel or a tapered bore or tip: parallel taper.
func (v *Vocabulary) BoreForm(text string) (Hit, bool) { return v.term(classForm, text) }

// Kind says what a title, a sheet name or a file name lists: heads, ferrules or tips. Where a text speaks of ferrules
// and of something else, as "Ferrules for iron heads" does, it is about ferrules.
func (v *Vocabulary) Kind(text string) (Hit, bool) {
	tally := v.tally(classKind, text)
	if h, found := tally.hits["ferrules"]; found && len(tally.hits) > 1 {
		h.Score *= 0.8
		return h, true
	}
	return tally.best()
}

// tally is what a text says of each value of a class.
type tally struct {
	hits  map[string]Hit
	order []string
	known map[string]float64
	total float64
}

func (v *Vocabulary) tally(class, text string) tally {
	t := tally{hits: map[string]Hit{}, known: map[string]float64{}}
	if len(text) > maxText {
		text = text[:maxText]
	}
	for _, s := range v.segments(class, tokens(Fold(splitCamel(text)))) {
		t.total += float64(s.weight)
		seen := map[string]bool{}
		for _, e := range s.options {
			if seen[e.value] {
				continue
			}
			seen[e.value] = true
			h, known := t.hits[e.value]
			if !known {
				t.order = append(t.order, e.value)
			}
			if e.weight > h.Score {
				h = Hit{Value: e.value, Score: e.weight, Words: e.words, Language: e.language}
			}
			t.hits[e.value] = h
			t.known[e.value] += float64(s.weight)
		}
	}
	return t
}

// maxText is how much of a text is looked at, in bytes.
const maxText = 600

// best returns the value with the most and surest words. A text that names another value as well is less certain.
func (t tally) best() (Hit, bool) {
	var best Hit
	top := 0.0
	for _, value := range t.order {
		if rank := t.hits[value].Score * t.known[value]; rank > top {
			best, top = t.hits[value], rank
		}
	}
	if best.Value == "" {
		return Hit{}, false
	}
	best.Score *= 0.6 + 0.4*t.known[best.Value]/t.total
	for _, value := range t.order {
		if value != best.Value && t.hits[value].Score >= 0.5 {
			best.Score *= 0.6
			break
		}
	}
	return best, true
}

func (v *Vocabulary) term(class, text string) (Hit, bool) { return v.tally(class, text).best() }

// Mark returns what a text is as a whole among the small words of a class: not_applicable missing ditto approximate
// reference at_most at_least total note diameter radius per_side included half_angle fits or to per all. Only hits of at least 0.7 are
// returned.
func (v *Vocabulary) Mark(text, mark string) (Hit, bool) {
	text = strings.TrimSpace(text)
	if at := brackets.FindStringIndex(text); at != nil && at[0] == 0 && at[1] == len(text) {
		_, open := utf8.DecodeRuneInString(text)
		_, end := utf8.DecodeLastRuneInString(text)
		text = strings.TrimSpace(text[open : len(text)-end])
	}
	if text == "" || len(text) > maxText {
		return Hit{}, false
	}
	lex := v.classes[classMark]
	for _, options := range [][]entry{lex.signs[signForm(text)], v.lookup(lex, strings.Join(tokens(Fold(text)), " "))} {
		for _, e := range options {
			if e.value == mark && e.weight >= 0.7 {
				return Hit{Value: mark, Score: e.weight, Words: e.words, Language: e.language}, true
			}
		}
	}
	return Hit{}, false
}

// LeadingMark returns the longest word of a class of small words with which a text begins, and how many bytes it takes
// with the space, point or colon after it. Words of letters must end where the text's word does.
func (v *Vocabulary) LeadingMark(text string, marks ...string) (h Hit, length int) {
	lex := v.classes[classMark]
	limit := 0
	for i, r := range text {
		limit++
		end := i + utf8.RuneLen(r)
		if r == utf8.RuneError || limit > 40 {
			break
		}
		if end < len(text) && !wordEnds(r, firstRune(text[end:])) {
			continue
		}
		prefix := text[:end]
		var options []entry
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			options = v.lookup(lex, strings.Join(tokens(Fold(prefix)), " "))
		}
		// A point before a digit is the number's: "max.535".
		if !unicode.IsSpace(r) && !(r == '.' && end < len(text) && unicode.IsDigit(firstRune(text[end:]))) {
			options = slices.Concat(options, lex.signs[signForm(prefix)])
		}
		for _, e := range options {
			for _, mark := range marks {
				if e.value == mark && e.weight >= 0.7 {
					h, length = Hit{Value: mark, Score: e.weight, Words: e.words, Language: e.language}, end
				}
			}
		}
	}
	return h, length
}

// wordEnds reports whether a word may end between two characters.
func wordEnds(a, b rune) bool {
	return !(unicode.IsLetter(a) && unicode.IsLetter(b) && isWide(a) == isWide(b) && !isWide(a))
}

// IsNotApplicable reports whether a cell says that there is no value: "n/a", "–", "entfällt", "なし".
func (v *Vocabulary) IsNotApplicable(text string) (Hit, bool) {
	if h, found := v.Mark(text, "not_applicable"); found {
		return h, true
	}
	if sign := signForm(text); sign != "" && strings.Trim(sign, `-._\/`) == "" {
		return Hit{Value: "not_applicable", Score: 0.9, Words: sign, Language: "sign"}, true
	}
	return Hit{}, false
}

// IsMissing reports whether a cell says that the value is not known yet: "TBD", "auf Anfrage", "未定".
func (v *Vocabulary) IsMissing(text string) (Hit, bool) { return v.Mark(text, "missing") }

// IsDitto reports whether a cell refers to the value above it: "ditto", "s. o.", "同上". The French "s.o." for "sans
// objet" is also [Vocabulary.IsNotApplicable]; which it is depends on the language of the sheet.
func (v *Vocabulary) IsDitto(text string) (Hit, bool) { return v.Mark(text, "ditto") }

// IsTotal reports whether a text is the label of a row of sums. A word for total must begin it, with little after it.
func (v *Vocabulary) IsTotal(text string) (Hit, bool) {
	text = strings.TrimSpace(text)
	if h, found := v.Mark(strings.TrimRight(text, ":：. "), "total"); found {
		return h, true
	}
	h, length := v.LeadingMark(text, "total")
	rest := strings.TrimSpace(text[length:])
	if length == 0 || shortWide(h.Words) || len(tokens(Fold(rest))) > 4 {
		return Hit{}, false
	}
	// "Total length" is a heading, "Total heads: 12" a sum.
	if len(v.Match(text)) > 0 && v.Match(text)[0].Score >= 0.8 {
		return Hit{}, false
	}
	h.Score *= 0.85
	return h, true
}

// IsNote reports whether a text is a remark and no entry: it begins with a word for note, a star or a reference sign,
// or is a sentence.
func (v *Vocabulary) IsNote(text string) (Hit, bool) {
	text = strings.TrimSpace(text)
	if text == "" {
		return Hit{}, false
	}
	if h, found := v.Mark(strings.TrimRight(text, ":： "), "note"); found {
		return h, true
	}
	if h, length := v.LeadingMark(text, "note"); length > 0 {
		next := strings.TrimSpace(text[length:])
		if strings.HasPrefix(next, ":") || strings.HasPrefix(next, "：") || !shortWide(h.Words) && len(tokens(Fold(next))) >= 2 || h.Language == "sign" {
			h.Score *= 0.9
			return h, true
		}
	}
	if reference.MatchString(text) && len(tokens(Fold(text))) >= 3 {
		return Hit{Value: "note", Score: 0.7, Words: text[:1], Language: "sign"}, true
	}
	if sentence(text) {
		return Hit{Value: "note", Score: 0.6, Language: "sign"}, true
	}
	return Hit{}, false
}

// reference is a footnote's mark before its text: *, **, (1), 1), ¹, a).
var reference = regexp.MustCompile(`^(\*+|[†‡※§]|\(?[1-9a-e]\)|[¹²³⁴⁵])\s*\pL`)

// sentence reports whether a text reads like prose: many words, or a few and a full stop.
func sentence(text string) bool {
	wide, spaced, figures := 0, 0, 0
	for _, word := range tokens(Fold(text)) {
		switch {
		case isNumber(word):
			figures++
		case isWide(firstRune(word)):
			wide++
		case utf8.RuneCountInString(word) >= 2:
			spaced++
		}
	}
	stop := strings.ContainsAny(text[len(text)-1:], ".!?") || strings.HasSuffix(text, "。")
	return spaced >= 8 && figures*2 < spaced || wide >= 18 || stop && (spaced >= 4 || wide >= 6)
}
