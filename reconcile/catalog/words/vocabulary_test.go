package words

import (
	"strings"
	"testing"
	"testing/fstest"

	"example.com/seatline/reconcile/catalog/words/data"
)

func TestDamagedVocabularies(t *testing.T) {
	for name, test := range map[string]struct{ file, text, want string }{
		"no language":        {"xx.toml", `[unit]` + "\n" + `mm = ["mm"]`, "no language"},
		"weight":             {"xx.toml", "language = \"xx\"\n[unit]\nmm = [\"mm@2\"]", "no weight"},
		"no list":            {"xx.toml", "language = \"xx\"\n[unit]\nmm = 3", "is no list"},
		"no text":            {"xx.toml", "language = \"xx\"\n[unit]\nmm = [3]", "no text"},
		"not toml":           {"xx.toml", "[[[", "xx.toml"},
		"form without score": {"grammar.toml", "[[role]]\nname = \"x\"\nforms = [\"hosel\"]", "no score"},
	} {
		_, err := read(fstest.MapFS{test.file: {Data: []byte(test.text)}})
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: error %v, want %q in it", name, err, test.want)
		}
	}
}

// TestGrammarUsesKnownConcepts finds concepts of the grammar that no language has a word for: such a form never matches.
func TestGrammarUsesKnownConcepts(t *testing.T) {
	v := Load()
	var known concepts
	for _, entries := range v.classes[classConcept].words {
		for _, e := range entries {
			known = known.and(e.concepts)
		}
	}
	for name, bit := range v.concepts {
		if !known.has(bit) {
			t.Errorf("no language has a word for the concept %q", name)
		}
	}
}

// TestEveryLanguageHasTheMainWords finds gaps in a language file.
func TestEveryLanguageHasTheMainWords(t *testing.T) {
	v := Load()
	languages := []string{"en", "de", "fr", "es", "it", "ja", "ko", "zh-Hans", "zh-Hant", "pt", "nl", "sv", "pl", "cs", "vi", "th"}
	has := map[string]concepts{}
	for _, entries := range v.classes[classConcept].words {
		for _, e := range entries {
			has[e.language] = has[e.language].and(e.concepts)
		}
	}
	for _, concept := range strings.Fields("hosel head ferrule shaft tip adapter bore outer inner diameter radius length depth angle top base countersink counterbore collar step ring " +
		"count number insertion form category part description price stock pack tolerance material colour taper parallel fits note unit size") {
		for _, language := range languages {
			if !has[language].has(v.concepts[concept]) {
				t.Errorf("%s has no word for %s", language, concept)
			}
		}
	}
	for _, class := range []string{classCategory, classTop, classStyle, classMaterial, classForm, classUnit, classKind, classMark} {
		values := map[string]map[string]bool{}
		for _, lexicon := range []map[string][]entry{v.classes[class].words, v.classes[class].signs} {
			for _, entries := range lexicon {
				for _, e := range entries {
					if values[e.language] == nil {
						values[e.language] = map[string]bool{}
					}
					values[e.language][e.value] = true
				}
			}
		}
		for value := range values["en"] {
			for _, language := range languages {
				if !values[language][value] && !IsCurrency(value) && !strings.Contains("abs rad nylon", value) {
					t.Errorf("%s has no word for %s %s", language, class, value)
				}
			}
		}
	}
}

// BenchmarkLoad measures what the first sheet waits for once the files are parsed: making the vocabulary of all languages.
func BenchmarkLoad(b *testing.B) {
	files, err := data.Files()
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := build(files); err != nil {
			b.Fatal(err)
		}
	}
}
