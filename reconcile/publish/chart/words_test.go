package chart

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"example.com/seatline/fitcalc/say"
)

func wordsOf(t *testing.T, tag string) words {
	t.Helper()
	l, err := language(tag, nil)
	if err != nil {
		t.Fatal(err)
	}
	return shown(l)
}

// Every language says everything that the page says besides what package say has, and fills in the same.
func TestLanguagesAreComplete(t *testing.T) {
	english := wordsOf(t, "en")
	for _, tag := range Languages() {
		w := wordsOf(t, tag)
		for key, text := range english {
			if strings.TrimSpace(w[key]) == "" {
				t.Errorf("%s has no word for %s", tag, key)
			}
			want, got := say.Blanks(text), say.Blanks(w[key])
			slices.Sort(want)
			slices.Sort(got)
			if !slices.Equal(want, got) {
				t.Errorf("%s: %s fills in %v, want %v", tag, key, got, want)
			}
		}
		for key := range w {
			if _, known := english[key]; !known {
				t.Errorf("%s has %s, which nothing uses", tag, key)
			}
		}
	}
}

// No line of French begins with a mark: the spaces before them are narrow ones that do not break.
func TestFrenchSpaces(t *testing.T) {
	for key, text := range wordsOf(t, "fr") {
		for _, broken := range []string{" ;", " :", " !", " ?", " »", "« "} {
			if strings.Contains(text, broken) {
				t.Errorf("%s has %q: %q", key, broken, text)
			}
		}
	}
}

func TestOwnWords(t *testing.T) {
	l, err := language("fr", []byte("language = \"it\"\n[verdict]\nflush = \"a filo\"\n[find]\nhead = \"Cerca\"\n"))
	if err != nil || l.Tag() != "it" {
		t.Fatalf("Italian over English: %v", err)
	}
	if w := shown(l); w["verdict.flush"] != "a filo" || w["find.head"] != "Cerca" || w["verdict.turn"] != "turn" {
		t.Errorf("Italian over English: %q, %q, %q", w["verdict.flush"], w["find.head"], w["verdict.turn"])
	}
	l, err = language("fr", []byte("[page]\ntitle = \"Nos viroles\"\n"))
	if err != nil || l.Tag() != "fr" {
		t.Fatalf("another title for French: %v", err)
	}
	if w := shown(l); w["page.title"] != "Nos viroles" || w["verdict.turn"] != wordsOf(t, "fr")["verdict.turn"] {
		t.Errorf("another title for French: %q, %q", w["page.title"], w["verdict.turn"])
	}
	for content, key := range map[string]string{
		"[verdict]\nflushed = \"x\"\n":                    "verdict.flushed",
		"[finds]\nmore = \"x\"\n":                         "finds.more",
		"[find]\nmore = \"{m} more\"\n":                   "find.more",
		"[find]\nmore = \"{n more\"\n":                    "find.more",
		"[find]\nmore = 3\n":                              "find.more",
		"find = 3\n":                                      "find",
		"[find\n":                                         "",
		"[reason]\n\"flush.undersize\" = \"by {most}\"\n": "reason.flush.undersize",
	} {
		_, err := language("en", []byte(content))
		var problem *WordsError
		if !errors.As(err, &problem) || problem.Key != key {
			t.Errorf("%q: got %v, want a *WordsError of %q", content, err, key)
		}
	}
	var option *OptionError
	if _, err := language("xx", nil); !errors.As(err, &option) || option.Value != "xx" {
		t.Errorf("a language that is not built in: %v", err)
	}
}

// The words of the answers fill their blanks, and there is a word for every reason on a chart.
func TestWordsForEveryReason(t *testing.T) {
	w := wordsOf(t, "en")
	for _, code := range everyCode() {
		if w["reason."+code] == "" && code != "flush.as-supplied" && code != "flush.turn" {
			t.Errorf("no word for the reason %s", code)
		}
	}
	if got := w.Fill("find.more", "n", "7"); got != "7 more; type more of the name to see them" {
		t.Errorf("filled: %q", got)
	}
}

// Whatever stands in a file of words, it is read or refused with a reason.
func FuzzWords(f *testing.F) {
	f.Add([]byte("language = \"it\"\n[verdict]\nflush = \"a filo\"\n"))
	f.Add([]byte("[find]\nmore = \"{n more\"\n"))
	f.Add([]byte("[find]\nmore = {a = [1]}\n"))
	f.Add([]byte("find.more = \"}{n}{\"\n"))
	f.Fuzz(func(t *testing.T, content []byte) {
		l, err := language("en", content)
		var problem *WordsError
		if err != nil && !errors.As(err, &problem) {
			t.Errorf("an error of another kind: %v", err)
		}
		if err == nil && (l.Tag() == "" || l.Words()["page.title"] == "" && len(content) == 0) {
			t.Errorf("language %q, title %q", l.Tag(), l.Words()["page.title"])
		}
	})
}
