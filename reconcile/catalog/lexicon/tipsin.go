package lexicon

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
)

func Distinct(tips []fitcalc.TipSize) []fitcalc.TipSize {
	var kept []fitcalc.TipSize
	for _, tip := range tips {
		if !slices.Contains(kept, tip) {
			kept = append(kept, tip)
		}
	}
	return kept
}

// Named returns the tips of [Lexicon.TipsIn] without the words.
func Named(tips []fitcalc.TipSize, _ string) []fitcalc.TipSize { return tips }

// CutBrackets divides a text that ends in brackets into what stands before and in them; false for any other.
func CutBrackets(text string) (before, inside string, found bool) {
	text = strings.TrimSpace(text)
	for _, pair := range [...][2]string{{"(", ")"}, {"[", "]"}, {"（", "）"}} {
		if rest, closed := strings.CutSuffix(text, pair[1]); closed {
			if before, inside, found = strings.Cut(rest, pair[0]); found {
				return strings.TrimSpace(before), strings.TrimSpace(inside), before != ""
			}
		}
	}
	return "", "", false
}

// hashSize is a tip as builders call it, by the thousandths of an inch: #370.
var hashSize = pattern.Lazy(`#([345]\d\d)\b`)

// TipsIn finds the tips that a text names, and the words that do. Strictly read, something must say that the size is one of a tip: beside it a
// word such as "fits" or "for", a form, the word tip or shaft itself, or one for ferrules or a kind of club,
// "Wood ferrule .335". Three digits without a point are one only beside a form or the word tip: "370 parallel".
// What is said of one holds for those listed with it.
func (l *Lexicon) TipsIn(text string, strictly bool) (tips []fitcalc.TipSize, saying string) {
	question := "tips"
	if strictly {
		question = "tips, strictly"
	}
	named := Recall(l, question, text, func() tipsNamed {
		tips, saying := l.findTips(text, strictly)
		return tipsNamed{tips, saying}
	})
	return slices.Clip(named.tips), named.saying
}

// tipsNamed are the tips that a text names, and the words that do.
type tipsNamed struct {
	tips   []fitcalc.TipSize
	saying string
}

func (l *Lexicon) findTips(text string, strictly bool) (tips []fitcalc.TipSize, saying string) {
	if strings.Contains(text, "#") {
		text = hashSize().ReplaceAllString(text, ".$1")
	}
	if len(text) > LongestNote || !strings.Contains(text, "3") && !strings.ContainsAny(text, ".,") {
		return nil, ""
	}
	var found []mention
	behind := 0 // what stands before it belongs to the mention before
	for _, at := range sizesOfTips(text, len(text)) {
		written := strings.Replace(text[at[0]:at[1]], ",", ".", 1)
		bare := !strings.Contains(written, ".")
		if bare {
			written = "." + written
		}
		size, err := fitcalc.ParseTipSize(written)
		if _, standard := fitcalc.TipNamed(size.Diameter); err != nil || !standard || !isWhole(text, at) {
			continue
		}
		before, after := l.aheadOfTip(text[behind:at[0]]), l.aboutTip(text[at[1]:])
		if bare && (!before.named && !after.named || !beginsFree(text, at[0])) {
			continue
		}
		if before.form != fitcalc.TipUnknown && after.form != fitcalc.TipUnknown && before.form != after.form {
			after = beside{} // "taper .355 parallel .370"
		}
		if form := cmp.Or(after.form, before.form); form != fitcalc.TipUnknown {
			size.Form = form
		}
		said := !strictly || before.named || before.length+after.length > 0 || l.ferruleBeside(text[:at[0]], text[at[1]:]) || l.standsBehindKind(text, at)
		found = append(found, mention{size, at[0] - before.length, at[1] + after.length, said})
		behind = at[1] + after.length
	}
	for i := 1; i < len(found); i++ {
		found[i].said = found[i].said || found[i-1].said && l.links(text[found[i-1].to:found[i].from])
	}
	for i := len(found) - 2; i >= 0; i-- {
		found[i].said = found[i].said || found[i+1].said && l.links(text[found[i].to:found[i+1].from])
	}
	found = slices.DeleteFunc(found, func(m mention) bool { return !m.said })
	if len(found) == 0 {
		return nil, ""
	}
	for _, m := range found {
		tips = append(tips, m.tip)
	}
	return Distinct(tips), strings.TrimSpace(text[found[0].from:found[len(found)-1].to])
}

// mention is a size of a tip within a text, with the words about it; said is set where something says that it is one.
type mention struct {
	tip      fitcalc.TipSize
	from, to int
	said     bool
}

// ferruleBeside reports whether the word at the end of one text or that at the beginning of another means ferrules.
func (l *Lexicon) ferruleBeside(before, after string) bool {
	before, after = strings.TrimRight(before, " "), strings.TrimLeft(after, " ")
	last := before[strings.LastIndexFunc(before, notLetter)+1:]
	first := after
	if end := strings.IndexFunc(after, notLetter); end >= 0 {
		first = after[:end]
	}
	return last != "" && l.Words.Means("ferrule", last) || first != "" && l.Words.Means("ferrule", first)
}

func notLetter(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsMark(r) }

// links reports whether a text only joins what stands before it with what follows.
func (l *Lexicon) links(text string) bool {
	text = strings.TrimSpace(text)
	_, or := l.Words.Mark(text, "or")
	return or || text == "/" || text == "," || text == "+"
}

// sizesOfTips returns where what may be the sizes of tips stands in a text, so many at most: three decimals of an inch, with their point or without, or
// millimetres with their unit.
func sizesOfTips(text string, most int) (all [][]int) {
	for at := 0; at < len(text) && len(all) < most; {
		if end := sizeOfTipEnd(text, at); end > 0 {
			all = append(all, []int{at, end})
			at = end
		} else {
			at++
		}
	}
	return all
}

// sizeOfTipEnd returns where the size of a tip ends that begins at a place of a text, 0 where none does.
func sizeOfTipEnd(text string, at int) int {
	hundreds := func(at int) int {
		if at+3 <= len(text) && text[at] == '3' && digitsAt(text, at+1, 2) == 2 {
			return at + 3
		}
		return 0
	}
	if text[at] == '.' || text[at] == ',' {
		return hundreds(at + 1)
	}
	whole := digitsAt(text, at, 3)
	if whole == 0 {
		return 0
	}
	for _, n := range [...]int{1, 2} { // 0.335, 9.02 mm, 10.2mm
		point := at + n
		if whole != n || point == len(text) || text[point] != '.' && text[point] != ',' {
			continue
		}
		if end := hundreds(point + 1); end > 0 && text[at:point] == "0" {
			return end
		}
		if decimals := digitsAt(text, point+1, 4); decimals > 0 && decimals < 4 {
			end := point + 1 + decimals
			if unit := strings.TrimPrefix(text[end:], " "); strings.HasPrefix(unit, "mm") {
				return len(text) - len(unit) + len("mm")
			}
		}
	}
	return hundreds(at)
}

// digitsAt counts the digits at a place of a text, as far as they are looked at.
func digitsAt(text string, at, most int) (n int) {
	for n < most && at+n < len(text) && text[at+n] >= '0' && text[at+n] <= '9' {
		n++
	}
	return n
}

// standsBehindKind reports whether a size with its point and no 0 before it, as only the trade writes names of tips, and a kind of club before it are
// all that is said between two commas: "hybrid .370, black".
func (l *Lexicon) standsBehindKind(text string, at []int) bool {
	if text[at[0]] != '.' {
		return false
	}
	before, after := strings.TrimRight(text[:at[0]], " "), strings.TrimLeft(text[at[1]:], " ")
	if first, _ := utf8.DecodeRuneInString(after); after != "" && !strings.ContainsRune(",;)，、；）", first) {
		return false
	}
	before = strings.TrimSpace(before[strings.LastIndexAny(before, ",;(，、；（")+1:])
	if named := l.Match(before); len(named) > 0 && named[0].Score >= Understood && named[0].Role != string(catalog.Category) {
		return false
	}
	kind, found := l.Category(before)
	return before != "" && found && kind.Score >= leastKindBeside
}

// leastKindBeside is how much of what stands before the size of a tip has to mean a kind of club.
const leastKindBeside = 0.2

// beginsFree reports whether what begins at a place is not the end of a number of calls, or of a price.
func beginsFree(text string, at int) bool {
	before, _ := utf8.DecodeLastRuneInString(text[:at])
	return at == 0 || before >= utf8.RuneSelf || before == ' ' || before == '('
}

// isWhole reports whether a number is no part of a longer one, or of a code.
func isWhole(text string, at []int) bool {
	before, _ := utf8.DecodeLastRuneInString(text[:at[0]])
	after, _ := utf8.DecodeRuneInString(text[at[1]:])
	return !(before < utf8.RuneSelf && (unicode.IsLetter(before) || unicode.IsDigit(before))) && !unicode.IsDigit(after)
}

// fitsBefore returns the length of a word such as "fits" at the end of a text.
func (l *Lexicon) fitsBefore(text string) int {
	end := len(strings.TrimRight(text, " \u3000:"))
	far := max(0, end-words.LongestMark*utf8.UTFMax)
	for far > 0 && !utf8.RuneStart(text[far]) {
		far++
	}
	for start := range text[far:end] {
		start += far
		if end-start > words.LongestMark && utf8.RuneCountInString(text[start:end]) > words.LongestMark {
			continue
		}
		last, _ := utf8.DecodeLastRuneInString(text[:start])
		if start > 0 && unicode.IsLetter(last) && last < firstWide { // words of East Asian writing have no spaces between them
			continue
		}
		if _, length := l.Words.LeadingMark(text[start:end], "fits"); length > 0 && start+length == end {
			return len(text) - start
		}
	}
	return 0
}

// TipForAll returns the words by which a note says that parts are for a tip: "for .355 taper tip", "all accept .370 parallel". It is empty for one
// that names several, or speaks of other goods, of which nobody knows which part they are for.
func (l *Lexicon) TipForAll(text string) string {
	tips, saying := l.TipsIn(text, true)
	if len(tips) != 1 || l.Words.Mentions("adapter", text) || l.Words.Mentions("part", text) {
		return ""
	}
	if _, other := l.Words.OtherGoods(text); other {
		return ""
	}
	figures := sizesOfTips(text, 1)
	if len(figures) == 0 || !strings.Contains(text, saying) || !l.aheadOfTip(text[:figures[0][0]]).isFor && !l.labelsTip(text[:figures[0][0]]) {
		return ""
	}
	return saying
}

// labelsTip reports whether a text is a label of tips with its colon: "Tip:".
func (l *Lexicon) labelsTip(text string) bool {
	label, found := strings.CutSuffix(strings.TrimRight(text, " "), ":")
	kind, known := l.Ask("kind", label, l.Words.Kind)
	return found && known && kind.Value == catalog.Tips.String() && kind.Score >= Understood
}

// beside is what stands beside a size: how many bytes of it speak of the tip, which form they name, and whether they name one or the tip. Before
// a size the words that only name the tip are no part of the length.
type beside struct {
	length int
	form   fitcalc.TipForm
	named  bool
	// isFor is set where a word such as "fits" or "for" stands before all of them.
	isFor bool
}

// aheadOfTip reads up to three words before a size, a form, the word tip or shaft, and one for "for" before them.
func (l *Lexicon) aheadOfTip(text string) (b beside) {
	end := len(text)
	for range 3 {
		end = len(strings.TrimRight(text[:end], " \u3000-–:"))
		form := b.form
		start := l.lastTipWord(text[:end], &b)
		if start == end {
			break
		}
		if end = start; b.form != form {
			b.length = len(text) - start
		}
	}
	if fits := l.fitsBefore(text[:end]); fits > 0 {
		b.length, b.isFor = len(text)-end+fits, true
	}
	return b
}

// lastTipWord returns where the last word of a text begins if it may stand before the size of a tip, and the end of the text otherwise. Words of East
// Asian writing have no blanks before them.
func (l *Lexicon) lastTipWord(text string, b *beside) int {
	from := strings.LastIndexFunc(text, notLetter)
	if from >= 0 {
		_, size := utf8.DecodeRuneInString(text[from:])
		from += size
	}
	from = max(from, 0)
	for start := range text[from:] {
		if first, _ := utf8.DecodeRuneInString(text[from+start:]); start > 0 && first < firstWide {
			break
		}
		if l.namesTip(text[from+start:], b) {
			return from + start
		}
	}
	return len(text)
}

// aboutTip reads up to three words behind a size: its unit, a form, the word tip or shaft, or one for "for". A letter for a form has to stand at
// the digits: .370P.
func (l *Lexicon) aboutTip(text string) (b beside) {
	at := 0
	if letter := leadingLetters(text); utf8.RuneCountInString(letter) == 1 {
		if form, found := l.Ask("bore form", letter, l.Words.BoreForm); found && formNames[form.Value] != fitcalc.TipUnknown {
			return beside{length: len(letter), form: formNames[form.Value], named: true}
		}
	}
	for range 3 {
		at = len(text) - len(strings.TrimLeft(text[at:], " \u3000-–\"'″”(（"))
		word := l.tipWord(leadingLetters(text[at:]), &b)
		if word == "" {
			return b
		}
		at += len(word)
		if b.form != fitcalc.TipUnknown || !l.isInch(word) {
			b.length = at
		}
	}
	return b
}

// tipWord returns the word of a tip at the beginning of a run of letters: all of it, or in writing without blanks the most that is one.
func (l *Lexicon) tipWord(run string, b *beside) string {
	for run != "" {
		if l.saysTip(run, b) {
			return run
		}
		last, size := utf8.DecodeLastRuneInString(run)
		if !WithoutBlanks(last) {
			break
		}
		run = run[:len(run)-size]
	}
	return ""
}

// saysTip reports whether a word may stand behind the size of a tip, and takes the form that it names.
func (l *Lexicon) saysTip(word string, b *beside) bool {
	if l.namesTip(word, b) {
		return true
	}
	_, isFor := l.Words.Mark(word, "fits")
	return isFor || l.isInch(word)
}

// namesTip reports whether a word is that for a tip or names its form, and takes it.
func (l *Lexicon) namesTip(word string, b *beside) bool {
	if form, found := l.Ask("bore form", word, l.Words.BoreForm); found && form.Score >= Understood {
		b.form, b.named = formNames[form.Value], true
		return true
	}
	if kind, found := l.Ask("kind", word, l.Words.Kind); found && kind.Value == catalog.Tips.String() && kind.Score >= Understood || l.Words.Means("tip", word) {
		b.named = true
		return true
	}
	return false
}

var formNames = map[string]fitcalc.TipForm{"parallel": fitcalc.TipParallel, "taper": fitcalc.TipTapered}

func (l *Lexicon) isInch(word string) bool {
	unit, found := l.Ask("unit", word, l.Words.Unit)
	return found && unit.Value == "in"
}
