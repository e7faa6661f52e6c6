package lexicon

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
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

// TipsIn finds the tips that a text names, and the words that do. Strictly read, something beside the size must say that it is one of a
// tip: a word such as "fits" or "for", a form, the word tip or shaft itself, before or behind, or one for ferrules, "Wood ferrule .335". What is said of one holds for those listed with it.
func (l *Lexicon) TipsIn(text string, strictly bool) (tips []fitcalc.TipSize, saying string) {
	if strings.Contains(text, "#") {
		text = hashSize().ReplaceAllString(text, ".$1")
	}
	if len(text) > LongestNote || !strings.ContainsAny(text, ".,") {
		return nil, ""
	}
	var found []mention
	for _, at := range sizeOfTip.FindAllStringIndex(text, -1) {
		size, err := fitcalc.ParseTipSize(strings.Replace(text[at[0]:at[1]], ",", ".", 1))
		if _, standard := fitcalc.TipNamed(size.Diameter); err != nil || !standard || !isWhole(text, at) {
			continue
		}
		before, after := l.fitsBefore(text[:at[0]]), l.aboutTip(text[at[1]:])
		if after.form != fitcalc.TipUnknown {
			size.Form = after.form
		}
		found = append(found, mention{size, at[0] - before, at[1] + after.length, !strictly || before+after.length > 0 || l.tipBefore(text[:at[0]]) || l.ferruleBeside(text[:at[0]], text[at[1]:])})
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

func notLetter(r rune) bool { return !unicode.IsLetter(r) }

// links reports whether a text only joins what stands before it with what follows.
func (l *Lexicon) links(text string) bool {
	text = strings.TrimSpace(text)
	_, or := l.Words.Mark(text, "or")
	return or || text == "/" || text == "," || text == "+"
}

// sizeOfTip is what may be the size of a tip within a text: three decimals of an inch, or millimetres with their unit.
var sizeOfTip = regexp.MustCompile(`0?[.,]3\d\d|\d{1,2}[.,]\d{1,3} ?mm`)

// isWhole reports whether a number is no part of a longer one, or of a code.
func isWhole(text string, at []int) bool {
	before, _ := utf8.DecodeLastRuneInString(text[:at[0]])
	after, _ := utf8.DecodeRuneInString(text[at[1]:])
	return !(before < utf8.RuneSelf && (unicode.IsLetter(before) || unicode.IsDigit(before))) && !unicode.IsDigit(after)
}

// fitsBefore returns the length of a word such as "fits" at the end of a text.
func (l *Lexicon) fitsBefore(text string) int {
	end := len(strings.TrimRight(text, " \u3000:"))
	for start := range text[:end] {
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

// tipBefore reports whether a text ends with words for tips or shafts: "shaft .335", "Schaftmaß .335".
func (l *Lexicon) tipBefore(text string) bool {
	end := len(strings.TrimRight(text, " \u3000:("))
	for start := end; start > max(0, end-longestTipWord); {
		first, size := utf8.DecodeLastRuneInString(text[:start])
		start -= size
		last, _ := utf8.DecodeLastRuneInString(text[:start])
		switch {
		case !unicode.IsLetter(first) && first != ' ' && first != '-':
			return false
		case !unicode.IsLetter(first) || unicode.IsLetter(last) && last < firstWide:
		case l.namesTips(text[start:end]):
			return true
		}
	}
	return false
}

// longestTipWord is how many bytes the words before the size of a tip have at most.
const longestTipWord = 30

// namesTips reports whether a text is words for tips or for the shafts that have them.
func (l *Lexicon) namesTips(text string) bool {
	if l.Words.Means("shaft", text) || l.Words.Means("tip", text) {
		return true
	}
	found := l.Match(text)
	return len(found) > 0 && found[0].Role == string(catalog.TipTaken) && found[0].Score >= Understood
}

// beside is what stands behind a size: how many bytes of it speak of the tip, and which form they name.
type beside struct {
	length int
	form   fitcalc.TipForm
}

// aboutTip reads up to three words behind a size: its unit, a form, the word tip or shaft, or one for "for".
func (l *Lexicon) aboutTip(text string) (b beside) {
	at := 0
	for range 3 {
		at = len(text) - len(strings.TrimLeft(text[at:], " \u3000-–\"'″”"))
		word := text[at:]
		if end := strings.IndexFunc(word, func(r rune) bool { return !unicode.IsLetter(r) }); end >= 0 {
			word = word[:end]
		}
		if word == "" || !l.saysTip(word, &b) {
			return b
		}
		at += len(word)
		if b.form != fitcalc.TipUnknown || !l.isInch(word) {
			b.length = at
		}
	}
	return b
}

// saysTip reports whether a word may stand behind the size of a tip, and takes the form that it names.
func (l *Lexicon) saysTip(word string, b *beside) bool {
	if form, found := l.Ask("bore form", word, l.Words.BoreForm); found && form.Score >= Understood {
		b.form = formNames[form.Value]
		return true
	}
	if kind, found := l.Ask("kind", word, l.Words.Kind); found && kind.Value == catalog.Tips.String() && kind.Score >= Understood {
		return true
	}
	_, isFor := l.Words.Mark(word, "fits")
	return isFor || l.isInch(word)
}

var formNames = map[string]fitcalc.TipForm{"parallel": fitcalc.TipParallel, "taper": fitcalc.TipTapered}

func (l *Lexicon) isInch(word string) bool {
	unit, found := l.Ask("unit", word, l.Words.Unit)
	return found && unit.Value == "in"
}
