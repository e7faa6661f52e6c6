package text

import (
	"strings"
	"sync"
	"unicode"
)

// script is what a text of an encoding is expected to be written in.
type script uint8

const (
	latin script = iota
	simplified
	traditional
	kana
	hangul
	thai
)

var scripts = map[string]script{"latin": latin, "simplified": simplified, "traditional": traditional, "kana": kana, "hangul": hangul, "thai": thai}

// The signs of sheets of parts.
var (
	westernSigns = set("°±µ½¼¾²³×÷–—‘’“”„•…€£™®©·«»§¡¿ºª\u00a0´")
	easternSigns = set("、。，．：；（）「」【】《》・ー～±×÷°φΦ∅№℃㎜㎝㎏％＃＋－／＝０１２３４５６７８９\u3000“”‘’→○●◎★△■□※〜")
)

// set returns a function that returns the set of characters of a text, which is made when it is first called: most files tell their
// encoding without it.
func set(characters string) func() map[rune]bool {
	return sync.OnceValue(func() map[rune]bool {
		all := map[rune]bool{}
		for _, r := range characters {
			all[r] = true
		}
		return all
	})
}

// plausibility is how much a decoded text is like one of an encoding: the mean over its characters beyond ASCII, from about
// 3 for ordinary text to far below 0 where characters are undefined. Telling is the part of it that whole words have.
func (c *candidate) plausibility(text string) (score, telling float64) {
	runes := []rune(text)
	sum, count := 0.0, 0
	for i, r := range runes {
		if r < 0x80 {
			continue
		}
		count++
		sum += c.weight(runes, i)
	}
	if count == 0 {
		return 0, 0
	}
	for _, word := range c.words {
		telling += 2 * float64(strings.Count(text, word)*len([]rune(word)))
	}
	return (sum + telling) / float64(count), telling / float64(count)
}

// weight is the part of one character.
func (c *candidate) weight(runes []rune, i int) float64 {
	r := runes[i]
	switch {
	case r == unicode.ReplacementChar:
		return -15
	case r >= 0x80 && r < 0xa0, unicode.Is(unicode.Co, r), !unicode.IsGraphic(r):
		return -10
	case c.script == latin:
		return c.latinWeight(runes, i)
	case easternSigns()[r]:
		return 1.5
	}
	switch c.script {
	case simplified, traditional:
		return c.chineseWeight(r)
	case kana:
		return c.japaneseWeight(r)
	case thai:
		return c.thaiWeight(runes, i)
	}
	return c.koreanWeight(r)
}

// thaiWeight: vowels and tones above and below a line follow a letter of Thai, and the vowels that are written before a letter have one
// behind them. Bytes of other encodings, nearly all of which are some letter of Thai, break that soon, and have its rare letters as often as others.
func (c *candidate) thaiWeight(runes []rune, i int) float64 {
	r := runes[i]
	at := func(i int) bool { return i >= 0 && i < len(runes) && unicode.Is(unicode.Thai, runes[i]) }
	switch {
	case !at(i), !at(i-1) && !at(i+1):
		return -1
	case unicode.Is(unicode.Mn, r) && !at(i-1), r >= 'เ' && r <= 'ไ' && !(at(i+1) && unicode.Is(unicode.Lo, runes[i+1])):
		return -5
	case unicode.Is(unicode.Nd, r):
		return -0.5
	case !c.letters[r]:
		return -3
	}
	return 2.5
}

// latinWeight: characters beyond ASCII stand alone in words of Latin letters, or in pairs of ordinary letters (Größe); a row of
// them is text in another encoding.
func (c *candidate) latinWeight(runes []rune, i int) float64 {
	r := runes[i]
	run := 1
	for j := i - 1; j >= 0 && runes[j] >= 0x80; j-- {
		run++
	}
	for j := i + 1; j < len(runes) && runes[j] >= 0x80; j++ {
		run++
	}
	known := c.letters[r] || westernSigns()[r]
	switch {
	case run > 2:
		return -2
	case run == 2 && known && unicode.IsLower(r):
		return 1.5
	case run == 2 && westernSigns()[r]:
		return 0.5
	case run == 2:
		return -1
	case c.letters[r]:
		return letterInWord(runes, i)
	case westernSigns()[r]:
		return 2
	}
	return -0.5
}

// letterInWord tells ö in a word from one between signs or after a capital in the middle of a word.
func letterInWord(runes []rune, i int) float64 {
	before, after := i > 0 && unicode.IsLetter(runes[i-1]), i+1 < len(runes) && unicode.IsLetter(runes[i+1])
	if unicode.IsUpper(runes[i]) && before && unicode.IsLower(runes[i-1]) {
		return -1
	}
	if before || after {
		return 3
	}
	return 1.5
}

func (c *candidate) chineseWeight(r rune) float64 {
	switch {
	case c.letters[r]:
		return 3
	case unicode.Is(unicode.Han, r):
		return 0.3
	case unicode.Is(unicode.Hiragana, r), unicode.Is(unicode.Katakana, r):
		return -0.5
	}
	return -1
}

func (c *candidate) japaneseWeight(r rune) float64 {
	switch {
	case r >= 0xff61 && r <= 0xff9f: // narrow katakana, which bytes of other encodings become
		return 0.2
	case unicode.Is(unicode.Hiragana, r), unicode.Is(unicode.Katakana, r):
		return 3
	case c.letters[r]:
		return 3
	case unicode.Is(unicode.Han, r):
		return 0.3
	}
	return -1
}

func (c *candidate) koreanWeight(r rune) float64 {
	switch {
	case c.letters[r]:
		return 3
	case unicode.Is(unicode.Hangul, r):
		return 1
	}
	return -1
}
