package words

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/internal/pattern"
)

// Category says which kind of club a text speaks of: driver fairway hybrid iron wedge putter chipper.
func (v *Vocabulary) Category(text string) (Hit, bool) { return v.term(classCategory, text) }

// SaysMoreThanCategory reports whether a text has words that name no kind of club: "Iron, silver ring", and not "Iron 7".
func (v *Vocabulary) SaysMoreThanCategory(text string) bool {
	return v.saysMoreThan(text, classCategory)
}

// SaysMoreThanStyle reports whether a text has words that name no form of a ferrule: "straight, black", and not "straight, tapered".
func (v *Vocabulary) SaysMoreThanStyle(text string) bool {
	return v.saysMoreThan(text, classStyle, classForm)
}

// saysMoreThan reports whether a text has words that are none of some classes.
func (v *Vocabulary) saysMoreThan(text string, classes ...string) bool {
	if len(classes) == 0 {
		return strings.ContainsFunc(text, unicode.IsLetter)
	}
	return slices.ContainsFunc(v.segmentsOf(classes[0], text), func(s segment) bool {
		return len(s.options) == 0 && v.saysMoreThan(s.text, classes[1:]...)
	})
}

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
	if h, found := tally.of("ferrules"); found && len(tally.said) > 1 {
		h.Score *= 0.8
		return h, true
	}
	return tally.best()
}

// OtherGoods reports whether a text names goods that stand in lists of parts and are none: shim sleeves, adhesive, grips. It does not
// where it names heads or ferrules too, unless the word for these is part of the other: "bague de réduction".
func (v *Vocabulary) OtherGoods(text string) (Hit, bool) {
	goods, found := v.tally(classGoods, text).of("other")
	if !found {
		return Hit{}, false
	}
	if kind, named := v.Kind(text); named && kind.Value != "tips" && !strings.Contains(Fold(goods.Words), Fold(kind.Words)) {
		return Hit{}, false
	}
	return goods, true
}

// MentionsGoods reports whether a text speaks of such goods, whatever it is about: "irons, each with a shim".
func (v *Vocabulary) MentionsGoods(text string) bool {
	_, found := v.tally(classGoods, text).of("other")
	return found
}

// Accessory reports whether a text is the name of what such lists have beside parts: screws, weights, shafts. Heads are described by some of
// these words too, and models are called after them, so that they count only at either end of the text, and where it speaks of heads, ferrules
// or kinds of club only where they mean that the other is what it is for: "screw for driver head", "ドライバー用ウェイト".
func (v *Vocabulary) Accessory(text string) (Hit, bool) {
	if len(text) > maxText || !v.classes[classGoods].mayKnow(text) {
		return Hit{}, false
	}
	var named []segment
	for _, s := range v.segmentsOf(classGoods, text) {
		if !isNumber(s.text) {
			named = append(named, s)
		}
	}
	for i, s := range named {
		e := slices.IndexFunc(s.options, func(e entry) bool { return e.value == "accessory" && e.weight >= sureWord })
		if e < 0 {
			continue
		}
		hit := Hit{Value: "accessory", Score: s.options[e].weight, Words: s.options[e].words, Language: s.options[e].language}
		kind, isPart := v.Kind(text)
		_, isClub := v.Category(text)
		if _, byClub := v.Category(kind.Words); byClub || kind.Value == "tips" {
			isPart = false
		}
		switch {
		case i == 0, i == len(named)-1 && !isPart, !isPart && !isClub:
			return hit, true
		}
	}
	return Hit{}, false
}

// SpeaksOfChange reports whether a remark says that a size is another one, or will be: "new size", "falsch", "dès 2027", "変更".
func (v *Vocabulary) SpeaksOfChange(text string) (Hit, bool) {
	t := v.tally(classRemark, text)
	if hit, said := t.of("size"); said {
		return hit, true
	}
	if hit, said := t.of("from"); said && slices.ContainsFunc(tokensOf(text), IsYear) {
		return hit, true
	}
	return Hit{}, false
}

// SaysChange reports whether a text is made of words by which remarks speak of another size: "errata", "should be".
func (v *Vocabulary) SaysChange(text string) bool {
	all := v.segments(classRemark, tokensOf(text))
	return len(all) > 0 && !slices.ContainsFunc(all, func(s segment) bool {
		return !slices.ContainsFunc(s.options, func(e entry) bool { return e.value == "size" && e.weight >= sureWord })
	})
}

// SpeaksOfReading reports whether a remark says what a size was found to be: "measured", "tatsächlich", "réel", 実測.
func (v *Vocabulary) SpeaksOfReading(text string) (Hit, bool) {
	return v.tally(classRemark, text).of("measured")
}

// IsYear reports whether a number is that of a year near ours.
func IsYear(number string) bool {
	return len(number) == 4 && (number[:2] == "19" || number[:2] == "20") && isNumber(number)
}

// tally is what a text says of each value of a class.
type tally struct {
	said  []tallied
	total float64
}

// tallied is what a text says of a value, and how much of it does.
type tallied struct {
	Hit
	known float64
}

// of returns what the text says of a value.
func (t tally) of(value string) (Hit, bool) {
	if at := slices.IndexFunc(t.said, func(one tallied) bool { return one.Value == value }); at >= 0 {
		return t.said[at].Hit, true
	}
	return Hit{}, false
}

func (v *Vocabulary) tally(class, text string) (t tally) {
	if len(text) > maxText {
		text = text[:maxText]
	}
	for _, s := range v.segmentsOf(class, splitCamel(text)) {
		t.total += float64(s.weight)
		for i, e := range s.options {
			if slices.ContainsFunc(s.options[:i], func(before entry) bool { return before.value == e.value }) {
				continue
			}
			at := slices.IndexFunc(t.said, func(one tallied) bool { return one.Value == e.value })
			if at < 0 {
				at, t.said = len(t.said), append(t.said, tallied{Hit: Hit{Value: e.value}})
			}
			if said := &t.said[at]; e.weight > said.Score {
				said.Hit = Hit{Value: e.value, Score: e.weight, Words: e.words, Language: e.language}
			}
			t.said[at].known += float64(s.weight)
		}
	}
	return t
}

// maxText is how much of a text is looked at, in bytes.
const maxText = 600

// best returns the value with the most and surest words. A text that names another value as well is less certain.
func (t tally) best() (Hit, bool) {
	var best tallied
	top := 0.0
	for _, one := range t.said {
		if rank := one.Score * one.known; rank > top {
			best, top = one, rank
		}
	}
	if best.Value == "" {
		return Hit{}, false
	}
	best.Score *= 0.6 + 0.4*best.known/t.total
	if slices.ContainsFunc(t.said, func(one tallied) bool { return one.Value != best.Value && one.Score >= 0.5 }) {
		best.Score *= 0.6
	}
	return best.Hit, true
}

func (v *Vocabulary) term(class, text string) (Hit, bool) { return v.tally(class, text).best() }

// Mark returns what a text is as a whole among the small words of a class: not_applicable not_made missing ditto as_set approximate
// reference at_most at_least total statistic note diameter radius per_side included half_angle measured sample fits or to to_depth per per_many old new
// all. Only hits of at least 0.7 are returned.
func (v *Vocabulary) Mark(text, mark string) (Hit, bool) {
	text = strings.TrimSpace(text)
	if inner, whole := bracketed(text); whole {
		text = strings.TrimSpace(inner)
	}
	if text == "" || len(text) > maxText {
		return Hit{}, false
	}
	lex := v.classes[classMark]
	for _, options := range [][]entry{lex.sign(text), v.word(lex, text)} {
		for _, e := range options {
			if e.value == mark && e.weight >= 0.7 && !anotherShort(text, e.words) {
				return Hit{Value: mark, Score: e.weight, Words: e.words, Language: e.language}, true
			}
		}
	}
	return Hit{}, false
}

// anotherShort reports whether a text of up to three letters differs from a small word by its accents: "đỏ" (red) is not "do." (ditto).
func anotherShort(text, word string) bool {
	if isPlain(text) == isPlain(word) || utf8.RuneCountInString(text) > 3 {
		return false
	}
	return isLatin(text) && isLatin(word)
}

func isLatin(s string) bool {
	return !strings.ContainsFunc(s, func(r rune) bool { return unicode.IsLetter(r) && !unicode.Is(unicode.Latin, r) }) && strings.ContainsFunc(s, unicode.IsLetter)
}

// LongestMark is how many characters of a text may be a small word.
const LongestMark = 40

// LeadingMark returns the longest word of a class of small words with which a text begins, and how many bytes it takes
// with the space, point or colon after it. Words of letters must end where the text's word does.
func (v *Vocabulary) LeadingMark(text string, marks ...string) (h Hit, length int) {
	lex := v.classes[classMark]
	if head := text[:min(len(text), LongestMark+1)]; isPlain(head) {
		return lex.leadingPlain(text, marks)
	}
	return v.leadingAny(lex, text, marks)
}

// leadingAny is LeadingMark for a text of any characters.
func (v *Vocabulary) leadingAny(lex *lexicon, text string, marks []string) (h Hit, length int) {
	limit := 0
	for i, r := range text {
		limit++
		end := i + utf8.RuneLen(r)
		if r == utf8.RuneError || limit > LongestMark {
			break
		}
		if end < len(text) && !wordEnds(r, firstRune(text[end:])) {
			continue
		}
		prefix := text[:end]
		var options []entry
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			options = v.word(lex, prefix)
		}
		// A point before a digit is the number's: "max.535".
		if !unicode.IsSpace(r) && !(r == '.' && end < len(text) && unicode.IsDigit(firstRune(text[end:]))) {
			options = slices.Concat(options, lex.sign(prefix))
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

// SaysNo reports whether a text as a whole answers no: "no", "N", "否".
func (v *Vocabulary) SaysNo(text string) (Hit, bool) { return v.answers("no", text) }

// SaysNoneLeft reports whether a text as a whole says of a stock that nothing is left of it: "gone", "ausverkauft", "acabou", 无.
func (v *Vocabulary) SaysNoneLeft(text string) (Hit, bool) { return v.answers("none", text) }

// SaysLacking reports whether the words behind a count say that so many are lacking, or are yet to come: "short", "fehlen", 不足.
func (v *Vocabulary) SaysLacking(text string) (Hit, bool) { return v.answers("lacking", text) }

// SaysOfStock reports whether a text says of a stock how much there is, or when, without a count: "low", "unterwegs", 少量.
func (v *Vocabulary) SaysOfStock(text string) (Hit, bool) {
	if h, found := v.SaysBesideStock(text); found {
		return h, true
	}
	for _, says := range [...]func(string) (Hit, bool){v.SaysNo, v.IsMissing, v.IsNotMade, v.IsNotApplicable, v.IsDitto} {
		if h, found := says(text); found {
			return h, true
		}
	}
	if v.LegendMeaning(text) != "" || v.Irrelevant(text) {
		return Hit{Value: "of stock", Score: 0.8, Words: text}, true
	}
	return Hit{}, false
}

// SaysBesideStock reports whether a text says so beside a count, too: "left", "low", "on order".
func (v *Vocabulary) SaysBesideStock(text string) (Hit, bool) {
	if h, found := v.answers("uncounted", text); found {
		return h, true
	}
	for _, says := range [...]func(string) (Hit, bool){v.SaysLacking, v.SaysNoneLeft} {
		if h, found := says(text); found {
			return h, true
		}
	}
	if v.SpeaksOfStock(text) {
		return Hit{Value: "of stock", Score: 0.8, Words: text}, true
	}
	return Hit{}, false
}

func (v *Vocabulary) answers(value, text string) (Hit, bool) {
	for _, e := range v.word(v.classes[classAnswer], text) {
		if e.value == value {
			return Hit{Value: e.value, Score: e.weight, Words: e.words, Language: e.language}, true
		}
	}
	return Hit{}, false
}

// IsNotMade reports whether a cell says that there is no such part: "not made", "nicht im Programm", "設定なし".
func (v *Vocabulary) IsNotMade(text string) (Hit, bool) { return v.Mark(text, "not_made") }

// BesideDate is what a word beside a date says of what holds: −1 until then, 1 from then on, 0 nothing.
func (v *Vocabulary) BesideDate(text string) int {
	e, found := v.whole(classBesideDate, text)
	switch {
	case !found:
		return 0
	case e.value == "from":
		return 1
	}
	return -1
}

// BesideWrong reports whether words say of the size beside them that it does not hold: "not", "et non", 而不是.
func (v *Vocabulary) BesideWrong(text string) bool {
	_, found := v.whole(classWrong, text)
	return found
}

// IsMissing reports whether a cell says that the value is not known yet: "TBD", "auf Anfrage", "未定".
func (v *Vocabulary) IsMissing(text string) (Hit, bool) { return v.Mark(text, "missing") }

// IsUnnumbered reports whether the cell of a part number says that there is none: "no label", "ohne Nr.", "s/clave", 品番なし.
func (v *Vocabulary) IsUnnumbered(text string) (Hit, bool) { return v.Mark(text, "unnumbered") }

// IsDitto reports whether a cell refers to the value above it: "ditto", "s. o.", "同上". The French "s.o." for "sans
// objet" is also [Vocabulary.IsNotApplicable]; which it is depends on the language of the sheet.
func (v *Vocabulary) IsDitto(text string) (Hit, bool) { return v.Mark(text, "ditto") }

// IsAsSet reports whether a cell refers to the value of the set that its part is of: "as set", "wie Satz", "セットと同じ".
func (v *Vocabulary) IsAsSet(text string) (Hit, bool) { return v.Mark(text, "as_set") }

// IsTotal reports whether a text is the label of a row of sums. A word for total must begin it, with little after it.
func (v *Vocabulary) IsTotal(text string) (Hit, bool) {
	text = strings.TrimSpace(text)
	if h, found := v.Mark(strings.TrimRight(text, ":：. "), "total"); found {
		return h, true
	}
	if h, found := v.Mark(strings.TrimRight(text, ":：. "), "statistic"); found {
		return h, true // alone only: "Max Forged" may be a part
	}
	h, length := v.LeadingMark(text, "total")
	rest := strings.TrimSpace(text[length:])
	if length == 0 || shortWide(h.Words) || len(tokensOf(rest)) > 4 {
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
	text = unframed(text)
	if h, found := v.Mark(strings.TrimRight(text, ":： "), "note"); found {
		return h, true
	}
	if h, length := v.LeadingMark(text, "note"); length > 0 {
		next := strings.TrimSpace(text[length:])
		if strings.HasPrefix(next, ":") || strings.HasPrefix(next, "：") || !shortWide(h.Words) && len(tokensOf(next)) >= 2 || h.Language == "sign" {
			h.Score *= 0.9
			return h, true
		}
	}
	if mayRefer(text) && reference().MatchString(text) && len(tokensOf(text)) >= 3 {
		return Hit{Value: "note", Score: 0.7, Words: text[:1], Language: "sign"}, true
	}
	if sentence(text) {
		return Hit{Value: "note", Score: 0.6, Language: "sign"}, true
	}
	return Hit{}, false
}

// unframed returns a text without the signs of footnotes that stand on both sides of it, as they do about a title: *** IRONS ***.
func unframed(text string) string {
	const signs = "*†‡※§ "
	if inner := strings.TrimRight(text, signs); len(inner) < len(text) && strings.TrimLeft(inner, signs) != "" && len(strings.TrimLeft(text, signs)) < len(text) {
		return strings.TrimLeft(inner, signs)
	}
	return text
}

// reference is a footnote's mark before its text: *, **, (1), 1), ¹, a).
var reference = pattern.Lazy(`^(\*+|[†‡※§]|\(?[1-9a-e]\)|[¹²³⁴⁵])\s*\pL`)

// mayRefer reports whether a text begins with a sign that a footnote's mark begins with.
func mayRefer(text string) bool {
	switch first := firstRune(text); {
	case first >= '1' && first <= '9', first >= 'a' && first <= 'e':
		return len(text) > 1 && text[1] == ')'
	default:
		return strings.ContainsRune("*†‡※§(¹²³⁴⁵", first)
	}
}

// sentence reports whether a text reads like prose: many words, or a few and a full stop.
func sentence(text string) bool {
	wide, thai, spaced, figures := 0, 0, 0, 0
	for _, word := range tokensOf(text) {
		switch {
		case isNumber(word):
			figures++
		case unicode.Is(unicode.Thai, firstRune(word)):
			thai++
		case isWide(firstRune(word)):
			wide++
		case utf8.RuneCountInString(word) >= 2:
			spaced++
		}
	}
	wide += thai / 4 // letters and not syllables
	stop := strings.ContainsAny(text[len(text)-1:], ".!?") || strings.HasSuffix(text, "。")
	return spaced >= 8 && figures*2 < spaced || wide >= 18 || stop && (spaced >= 4 || wide >= 6)
}
