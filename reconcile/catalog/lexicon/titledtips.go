package lexicon

import (
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/internal/pattern"
)

// TitledTips are the tips that a title names, and the words that do.
type TitledTips struct {
	Tips   []fitcalc.TipSize
	Saying string
	// Sure is set where it names them as those of all ferrules below it.
	Sure bool
}

// betweenPhrases is what sets phrases of a title off from each other.
var betweenPhrases = pattern.Lazy(`\s*(?:[,;:!?|()\[\]（）、，；：–—]|\.(?:\s|$)|\s-|-\s)\s*`)

// TipsOfFerrules finds the tips that the title of ferrules names. They are theirs where [Lexicon.TipsIn] finds them strictly and heads are not spoken of in
// the same phrase, "heads for .370 shafts: see below". A size with its point and no 0 before it is a tip, too, where it is a phrase of its own with one
// for ferrules before it or right behind it: "Ferrules, .370 - will go straight on the above".
func (l *Lexicon) TipsOfFerrules(title string) TitledTips {
	return Recall(l, "tips of ferrules", title, func() TitledTips {
		if tips, saying := l.TipsIn(title, true); len(tips) > 0 {
			return TitledTips{tips, saying, !l.saysOfHeads(title, saying)}
		}
		tips, saying := l.TipsIn(title, false)
		if _, decimals, point := strings.Cut(saying, "."); !point || strings.TrimLeft(saying, "0") != "."+decimals {
			return TitledTips{} // three digits alone, or millimetres
		}
		return TitledTips{tips, saying, saying[0] == '.' && l.standsBesideFerrules(title, saying)}
	})
}

// saysOfHeads reports whether the phrase of a text in which some words stand speaks of heads before them, and not of ferrules.
func (l *Lexicon) saysOfHeads(text, saying string) bool {
	before, behind, _ := strings.Cut(text, saying)
	phrases := betweenPhrases().Split(before, -1)
	before = phrases[len(phrases)-1]
	behind = betweenPhrases().Split(behind, 2)[0]
	return l.Words.Mentions("head", before) && !l.Words.Mentions("ferrule", before) && !l.Words.Mentions("ferrule", behind)
}

// standsBesideFerrules reports whether some words are a phrase of their own in a text, and the last phrase before them that speaks of heads or ferrules
// speaks of the latter, or there is none before them, and the next one does.
func (l *Lexicon) standsBesideFerrules(text, saying string) bool {
	before, own := "", false
	for _, phrase := range betweenPhrases().Split(text, -1) {
		switch {
		case own:
			return before == "" && l.Words.Mentions("ferrule", phrase)
		case strings.Trim(phrase, " \"″”'′") == saying:
			if before == "ferrule" {
				return true
			}
			own = true
		case l.Words.Mentions("ferrule", phrase):
			before = "ferrule"
		case l.Words.Mentions("head", phrase):
			before = "head"
		}
	}
	return false
}
