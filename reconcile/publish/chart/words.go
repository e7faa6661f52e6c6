package chart

import (
	"embed"
	"errors"
	"io/fs"
	"strings"

	"example.com/seatline/fitcalc/say"
)

// The words of the page alone. Those of verdicts, reasons, fields, assumptions and cautions are package say's.
//
//go:embed words/*.toml
var wordFiles embed.FS

// words are the labels of a page by section and key: find.head.
type words = say.Words

// Languages returns the languages that are built in, as the tags that [Options.Language] takes.
func Languages() []string { return say.Languages() }

// WordsError reports a file of words that cannot be used.
type WordsError = say.WordsError

// language returns a language with the words of the page, and those of an additional file in their place. The words that neither has are
// English.
func language(tag string, more []byte) (*say.Language, error) {
	own, err := fs.Sub(wordFiles, "words")
	if err != nil {
		return nil, err
	}
	l, err := say.With(tag, more, own)
	var unknown *say.LanguageError
	if errors.As(err, &unknown) {
		return nil, &OptionError{"language", unknown.Tag, "is not built in; those that are: " + strings.Join(Languages(), ", ") +
			"; a file of words adds another"}
	}
	return l, err
}

// shown are the words that the page shows, without those of sentences for the bench.
func shown(l *say.Language) words {
	all := words{}
	for key, text := range l.Words() {
		switch section, _, _ := strings.Cut(key, "."); section {
		case "sentence", "phrase", "carrier", "share":
		default:
			all[key] = text
		}
	}
	return all
}
