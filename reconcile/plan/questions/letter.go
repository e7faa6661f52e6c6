package questions

import (
	"embed"
	"io/fs"
	"strings"
	"sync"

	"example.com/seatline/fitcalc/say"
)

// The words of letters, in files named like those of package say.
//
//go:embed words/*.toml
var wordFiles embed.FS

// letterLanguages are the built-in languages with the words of letters, by tag.
var letterLanguages = sync.OnceValue(func() map[string]*say.Language {
	own, err := fs.Sub(wordFiles, "words")
	if err != nil {
		panic(err) // the folder is embedded
	}
	all := map[string]*say.Language{}
	for _, tag := range say.Languages() {
		l, err := say.With(tag, nil, own)
		if err != nil {
			panic(err) // the built-in files are tested
		}
		all[tag] = l
	}
	return all
})

// LetterLanguage returns the language of letters to a supplier by its tag, English where that is not built in.
func LetterLanguage(tag string) *say.Language {
	if l, known := letterLanguages()[tag]; known {
		return l
	}
	return letterLanguages()["en"]
}

// answerHeadings are the headings of the answers, parts and keys in all languages.
var answerHeadings = sync.OnceValue(func() map[string][]string {
	headings := map[string][]string{}
	for _, tag := range say.Languages() {
		l := LetterLanguage(tag)
		headings[HeadingAnswer] = append(headings[HeadingAnswer], l.Words()["letter.answer"])
		headings[HeadingPart] = append(headings[HeadingPart], l.Words()["letter.part"])
		headings[HeadingKey] = append(headings[HeadingKey], l.Words()["letter.key"])
	}
	return headings
})

// isHeading reports whether a text is a heading of a letter, in whichever language.
func isHeading(text, heading string) bool {
	text = strings.TrimSpace(text)
	if strings.EqualFold(text, heading) {
		return true
	}
	for _, other := range answerHeadings()[heading] {
		if strings.EqualFold(text, other) {
			return true
		}
	}
	return false
}
