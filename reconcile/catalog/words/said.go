package words

import (
	"slices"
	"strconv"
	"strings"
)

// How people speak of parts in letters and talks: the words by which they put right what they have just said, and by which they say how many
// there are. The keys of the class that are numbers hold the words for these.
const (
	saidCorrects = "correction"
	saidLeads    = "leads"
	saidBeside   = "beside"
	saidCounts   = "counts"
	saidHave     = "have"
	saidHaving   = "having"
	saidSame     = "same"
	saidSameAs   = "same_as"
	saidSizes    = "sizes"
	saidBut      = "but"
	saidCents    = "cents"
	saidOther    = "other"
	saidCost     = "cost"
	saidAsked    = "asked"
	saidWanted   = "wanted"
	saidBecomes  = "becomes"
	saidCoin     = "coin"
	saidLasting  = "lasting"
)

// saysElse reports whether words say what is about no number of pieces.
func saysElse(said map[string]bool) bool {
	return slices.ContainsFunc([]string{saidCorrects, saidLeads, saidCents, saidOther, saidCost, saidAsked, saidWanted, saidBecomes, saidHaving, saidSame,
		saidSameAs, saidSizes, saidBut, saidCoin}, func(key string) bool { return said[key] })
}

// Corrects reports whether a text is made of words by which somebody puts right what was said before: "no, sorry", "anzi". "No" alone is as
// often short for a number.
func (v *Vocabulary) Corrects(text string) bool {
	said, count, all := v.said(text)
	delete(said, saidLeads)
	return all && count == 0 && len(said) == 1 && said[saidCorrects]
}

// MayCorrect reports whether a text is made of words by which somebody may put right what was said before, "no" and "nie" alone, too.
func (v *Vocabulary) MayCorrect(text string) bool {
	said, count, all := v.said(text)
	delete(said, saidLeads)
	delete(said, saidCorrects)
	return all && count == 0 && len(said) == 0
}

// Becomes reports whether a text is made of words between what a size was and what it was made: "corrected to", "rettet til", "改为".
func (v *Vocabulary) Becomes(text string) bool {
	said, count, all := v.said(text)
	return all && count == 0 && len(said) == 1 && said[saidBecomes]
}

// HoldsNow reports whether a text is made of words by which something has a size now: "is now", "is corrected to".
func (v *Vocabulary) HoldsNow(text string) bool {
	said, count, all := v.said(text)
	becomes := said[saidBecomes]
	for _, key := range []string{saidBecomes, saidHaving, saidBeside} {
		delete(said, key)
	}
	return all && count == 0 && becomes && len(said) == 0
}

// PutsRightOther reports whether some words of a text say that it is about another part than the last, or about several: "the first one", "both".
func (v *Vocabulary) PutsRightOther(text string) bool {
	return v.someSay(text, saidOther)
}

// AsksForCount reports whether some words of a text ask how many there are, or say that these were counted, and none how many somebody wants.
func (v *Vocabulary) AsksForCount(text string) bool {
	return v.someSay(text, saidAsked) && !v.someSay(text, saidWanted)
}

// someSay reports whether some words of a text say what a key is for.
func (v *Vocabulary) someSay(text, key string) bool {
	return slices.ContainsFunc(v.segmentsOf(classSaid, text), func(s segment) bool {
		return slices.ContainsFunc(s.options, func(e entry) bool { return e.value == key && e.weight >= sureWord })
	})
}

// LeadsToPrice reports whether a text is made of words that stand beside a price and say that it is one: "it costs", "you can have it at".
func (v *Vocabulary) LeadsToPrice(text string) bool {
	said, count, all := v.said(text)
	return all && count == 0 && len(said) == 1 && said[saidCost]
}

// SaidBeside reports whether a text is made of words that may stand beside a number of pieces and say no more of it: "of them", "just the".
func (v *Vocabulary) SaidBeside(text string) bool {
	said, count, all := v.said(text)
	return all && count == 0 && !saysElse(said)
}

// LeadsToSizes reports whether a text is made of words by which a sentence comes to the sizes of a part: "has a", "tiene un".
func (v *Vocabulary) LeadsToSizes(text string) bool {
	said, count, all := v.said(text)
	delete(said, saidBeside)
	delete(said, saidCounts)
	return all && count == 0 && len(said) == 1 && said[saidHaving]
}

// SaysSame reports whether the words about the number of another part say that a part has the same sizes: "same sizes as", "las mismas medidas que".
func (v *Vocabulary) SaysSame(text string) bool {
	same := false
	for _, s := range v.segmentsOf(classSaid, text) {
		says := func(keys ...string) bool {
			return slices.ContainsFunc(s.options, func(e entry) bool { return e.weight >= sureWord && slices.Contains(keys, e.value) })
		}
		if !says(saidSame, saidSameAs, saidSizes, saidBeside, saidCounts, saidHaving) {
			return false
		}
		same = same || says(saidSame)
	}
	return same
}

// SaysBut reports whether some words of a text take something out of what was said before: "but", "except".
func (v *Vocabulary) SaysBut(text string) bool { return v.someSay(text, saidBut) }

// Cents reports whether a word is one for hundredths of a currency: 45p, 80 Cent.
func (v *Vocabulary) Cents(word string) bool {
	said, count, all := v.said(word)
	return all && count == 0 && len(said) == 1 && said[saidCents]
}

// Coin reports whether a word is a short sign of a currency, which makes a price of a number only where that is said to be for a piece: R410 each.
func (v *Vocabulary) Coin(word string) bool {
	if len(word) == 1 && word != strings.ToUpper(word) {
		return false
	}
	said, count, all := v.said(word)
	return all && count == 0 && said[saidCoin] && (len(said) == 1 || len(said) == 2 && said[saidCents]) // P22 in Manila, 22p in London
}

// Times returns how many times the number before it a word right behind a number means: 1,000 for 2.5k, 10,000 for 1.2万. It is zero for any
// other word.
func (v *Vocabulary) Times(word string) int {
	for _, times := range []int{1000, 10000} {
		if slices.Contains(v.Written(classTimes, strconv.Itoa(times)), strings.ToLower(word)) {
			return times
		}
	}
	return 0
}

// CountSaid returns how many pieces a text says that there are: "four of them", "just the two", "we have 5", "only 3". A number in digits needs
// a word that says so. It is zero where the text says anything else.
func (v *Vocabulary) CountSaid(text string) int {
	said, count, all := v.said(text)
	if !all || saysElse(said) || said[inDigits] && !said[saidHave] && !said[saidCounts] && !said[saidLasting] {
		return 0
	}
	return count
}

// SaysLasting reports whether some words of a text lead to how many pieces are left: "while the remaining 40 last".
func (v *Vocabulary) SaysLasting(text string) bool { return v.someSay(text, saidLasting) }

// CountOf is [Vocabulary.CountSaid] where it was asked how many there are: words for pieces are enough then, "8 pcs", "eight of them".
func (v *Vocabulary) CountOf(text string) int {
	said, count, all := v.said(text)
	if !all || saysElse(said) || !said[saidBeside] && !said[saidHave] {
		return 0
	}
	return count
}

// inDigits is what the words of a text say where one of them is a number in digits.
const inDigits = "digits"

// mostSaid is the greatest number of pieces that is said in passing.
const mostSaid = 9999

// said returns what the words of a text say, and the one number that they give; all is false where a word is not known, or there are several
// numbers.
func (v *Vocabulary) said(text string) (said map[string]bool, count int, all bool) {
	said = map[string]bool{}
	for _, s := range v.segmentsOf(classSaid, text) {
		value := ""
		if isNumber(s.text) {
			said[inDigits], value = true, s.text
		} else if at := slices.IndexFunc(s.options, func(e entry) bool { return e.weight >= sureWord }); at >= 0 {
			value = s.options[at].value
		}
		n, err := strconv.Atoi(value)
		switch {
		case value == "", err == nil && (count > 0 || n < 1 || n > mostSaid):
			return nil, 0, false
		case err == nil:
			count = n
		default:
			said[value] = true
			if value == saidCounts {
				said[saidBeside] = true
			}
		}
	}
	return said, count, true
}

// JoinsNames reports whether a word stands between two names and is part of neither: "and". One that is so in one language and goes with names
// in another, as "of", does not tell.
func (v *Vocabulary) JoinsNames(word string) bool {
	joins := map[string]bool{}
	for _, e := range v.word(v.classes[classMark], word) {
		if e.value == "or" && e.weight >= sureWord {
			joins[e.language] = true
		}
	}
	return len(joins) > 0 && !slices.ContainsFunc(v.word(v.classes[classConcept], word), func(e entry) bool {
		return !joins[e.language]
	})
}
