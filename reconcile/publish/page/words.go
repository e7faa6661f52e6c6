package page

import (
	"embed"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2"
)

//go:embed words/*.toml
var wordFiles embed.FS

// words are the labels of a page by section and key: find.head.
type words map[string]string

// Languages returns the languages that are built in, as the tags that [Options.Language] takes.
func Languages() []string {
	entries, _ := wordFiles.ReadDir("words") // it is embedded
	var tags []string
	for _, e := range entries {
		tags = append(tags, strings.TrimSuffix(e.Name(), ".toml"))
	}
	return tags
}

// WordsError reports a file of words that cannot be used.
type WordsError struct {
	// Key is the word in question, such as find.head; it is empty when the file as a whole is meant.
	Key string
	Err error
}

func (e *WordsError) Error() string {
	if e.Key == "" {
		return "words of the page: " + e.Err.Error()
	}
	return "words of the page: " + e.Key + ": " + e.Err.Error()
}

func (e *WordsError) Unwrap() error { return e.Err }

// language returns the words of a language, with those of an additional file in their place. The words that neither has are
// English.
func language(tag string, more []byte) (words, string, error) {
	if tag == "" {
		tag = "en"
	}
	base := tag
	var own words
	if more != nil {
		var err error
		if own, err = parseWords(more); err != nil {
			return nil, "", err
		}
		if own["language"] != "" {
			tag = own["language"]
		}
		if base = tag; !slices.Contains(Languages(), base) {
			base = "en"
		}
	}
	if !slices.Contains(Languages(), base) {
		return nil, "", &OptionError{"language", tag, "is not built in; those that are: " + strings.Join(Languages(), ", ") +
			"; a file of words adds another"}
	}
	all, err := builtIn(base)
	if err != nil {
		return nil, "", err
	}
	for key, text := range own {
		was, known := all[key]
		if !known {
			return nil, "", &WordsError{key, errors.New("there is no such word; the built-in files list them all")}
		}
		if err := sameBlanks(was, text); err != nil {
			return nil, "", &WordsError{key, err}
		}
		all[key] = text
	}
	return all, tag, nil
}

func builtIn(tag string) (words, error) {
	content, err := wordFiles.ReadFile("words/" + tag + ".toml")
	if err != nil {
		return nil, &WordsError{"", err}
	}
	return parseWords(content)
}

func parseWords(content []byte) (words, error) {
	var tree map[string]any
	if err := toml.Unmarshal(content, &tree); err != nil {
		return nil, &WordsError{"", err}
	}
	all := words{}
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

// sameBlanks demands that a text leaves room for no more than what is filled in: a slip there would show as {limt} on the page.
func sameBlanks(model, text string) error {
	allowed := blanks(model)
	for _, blank := range blanks(text) {
		if !slices.Contains(allowed, blank) {
			return fmt.Errorf("nothing is filled in for %s; there are %s", blank, strings.Join(allowed, " "))
		}
	}
	return nil
}

func blanks(text string) []string {
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

// fill returns a word with its blanks filled: pairs of a name and a text.
func (w words) fill(key string, pairs ...string) string {
	filled := make([]string, len(pairs))
	for i, text := range pairs {
		if filled[i] = text; i%2 == 0 {
			filled[i] = "{" + text + "}"
		}
	}
	return strings.NewReplacer(filled...).Replace(w[key])
}

// tooSmall finds a length that package fitcalc does not write out for being too small.
var tooSmall = regexp.MustCompile(`under ([.\d]+ (?:mm|in))`)

// length puts a length as package fitcalc writes it in the reader's language.
func (w words) length(text string) string {
	return tooSmall.ReplaceAllStringFunc(text, func(found string) string {
		return w.fill("length.under", "size", tooSmall.FindStringSubmatch(found)[1])
	})
}
