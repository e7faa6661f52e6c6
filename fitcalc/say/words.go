package say

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2"
)

//go:embed data/*.toml
var files embed.FS

// Words are texts by section and key: verdict.flush.
type Words map[string]string

// Fill returns a text with its blanks filled: pairs of a name and a text.
func (w Words) Fill(key string, pairs ...string) string {
	filled := make([]string, len(pairs))
	for i, text := range pairs {
		if filled[i] = text; i%2 == 0 {
			filled[i] = "{" + text + "}"
		}
	}
	return strings.NewReplacer(filled...).Replace(w[key])
}

// WordsError reports a file of words that cannot be used.
type WordsError struct {
	// Key is the word in question, such as verdict.flush; it is empty when the file as a whole is meant.
	Key string
	// Err says what is wrong with it.
	Err error
}

func (e *WordsError) Error() string {
	if e.Key == "" {
		return "file of words: " + e.Err.Error()
	}
	return "file of words: " + e.Key + ": " + e.Err.Error()
}

func (e *WordsError) Unwrap() error { return e.Err }

// LanguageError reports a language that is not built in.
type LanguageError struct {
	// Tag is what was asked for.
	Tag string
}

func (e *LanguageError) Error() string {
	return fmt.Sprintf("language %q is not built in; those that are: %s; a file of words adds another", e.Tag, strings.Join(Languages(), ", "))
}

// Languages returns the languages that are built in, as the tags that [In] takes.
func Languages() []string {
	entries, _ := files.ReadDir("data") // it is embedded
	var tags []string
	for _, e := range entries {
		tags = append(tags, strings.TrimSuffix(e.Name(), ".toml"))
	}
	return tags
}

// ParseWords reads a file of words.
func ParseWords(content []byte) (Words, error) {
	var tree map[string]any
	if err := toml.Unmarshal(content, &tree); err != nil {
		return nil, &WordsError{"", err}
	}
	all := Words{}
	for key, value := range tree {
		switch v := value.(type) {
		case string:
			all[key] = v
		case map[string]any:
			for inner, text := range v {
				s, isText := text.(string)
				if !isText {
					return nil, &WordsError{key + "." + inner, errors.New("a word is a text in quotes")}
				}
				all[key+"."+inner] = s
			}
		default:
			return nil, &WordsError{key, errors.New("a word is a text in quotes")}
		}
	}
	return all, nil
}

// builtIn reads the words of a language from the files of this package and those of another, each named by the language's tag.
func builtIn(tag string, more fs.FS) (Words, error) {
	own, err := fs.Sub(files, "data")
	if err != nil {
		return nil, &WordsError{"", err}
	}
	all := Words{}
	for _, from := range []fs.FS{own, more} {
		if from == nil {
			continue
		}
		content, err := fs.ReadFile(from, tag+".toml")
		if err != nil {
			return nil, &WordsError{"", err}
		}
		words, err := ParseWords(content)
		if err != nil {
			return nil, err
		}
		for key, text := range words {
			all[key] = text
		}
	}
	return all, nil
}

// overlay puts the words of a file in the place of those that there are.
func (w Words) overlay(own Words, strict bool) error {
	sections := map[string]bool{}
	for key := range w {
		sections[sectionOf(key)] = true
	}
	for key, text := range own {
		was, known := w[key]
		switch {
		case sentences(key) && known: // their blanks are looked at when they are read
		case !known && !strict && !sections[sectionOf(key)]:
			continue // for who else has words
		case !known && !sentences(key):
			return &WordsError{key, errors.New("there is no such word; the built-in files list them all")}
		case known:
			if err := sameBlanks(was, text); err != nil {
				return &WordsError{key, err}
			}
		}
		w[key] = text
	}
	return nil
}

func sectionOf(key string) string {
	section, _, _ := strings.Cut(key, ".")
	return section
}

// sentences reports whether a key is one of the sentences or phrases, of which a language has the variants that it needs.
func sentences(key string) bool {
	section := sectionOf(key)
	return section == "sentence" || section == "phrase"
}

// sameBlanks demands that a text leaves room for no more than what is filled in: a slip there would show as {limt}.
func sameBlanks(model, text string) error {
	allowed := Blanks(model)
	for _, blank := range Blanks(text) {
		if !slices.Contains(allowed, blank) {
			return fmt.Errorf("nothing is filled in for %s; there are %s", blank, strings.Join(allowed, " "))
		}
	}
	return nil
}

// Blanks returns the blanks of a text with their braces.
func Blanks(text string) []string {
	var all []string
	for {
		_, rest, found := strings.Cut(text, "{")
		if !found {
			return all
		}
		name, after, closed := strings.Cut(rest, "}")
		if !closed {
			return append(all, "{"+rest)
		}
		all, text = append(all, "{"+name+"}"), after
	}
}
