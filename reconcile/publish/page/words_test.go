package page

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
)

// Every language says everything, and fills in the same.
func TestLanguagesAreComplete(t *testing.T) {
	english, err := builtIn("en")
	if err != nil {
		t.Fatal(err)
	}
	for _, tag := range []string{"de", "en", "es", "fr", "ja", "zh"} {
		if !slices.Contains(Languages(), tag) {
			t.Errorf("%s is missing", tag)
			continue
		}
		w, err := builtIn(tag)
		if err != nil {
			t.Errorf("%s: %v", tag, err)
			continue
		}
		if w["language"] != tag {
			t.Errorf("%s calls itself %s", tag, w["language"])
		}
		for key, text := range english {
			if strings.TrimSpace(w[key]) == "" {
				t.Errorf("%s has no word for %s", tag, key)
			}
			want, got := blanks(text), blanks(w[key])
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

func TestOwnWords(t *testing.T) {
	w, tag, err := language("fr", []byte("language = \"it\"\n[verdict]\nflush = \"a filo\"\n"))
	if err != nil || tag != "it" || w["verdict.flush"] != "a filo" || w["verdict.turn"] != "turn" {
		t.Errorf("Italian over English: %q, %q, %q, %v", tag, w["verdict.flush"], w["verdict.turn"], err)
	}
	w, tag, err = language("fr", []byte("[page]\ntitle = \"Nos viroles\"\n"))
	french, _ := builtIn("fr")
	if err != nil || tag != "fr" || w["page.title"] != "Nos viroles" || w["verdict.turn"] != french["verdict.turn"] {
		t.Errorf("another title for French: %q, %q, %v", tag, w["page.title"], err)
	}
	for content, key := range map[string]string{
		"[verdict]\nflushed = \"x\"\n":                    "verdict.flushed",
		"[find]\nmore = \"{m} more\"\n":                   "find.more",
		"[find]\nmore = \"{n more\"\n":                    "find.more",
		"[find]\nmore = 3\n":                              "find.more",
		"find = 3\n":                                      "find",
		"[find\n":                                         "",
		"[reason]\n\"flush.undersize\" = \"by {most}\"\n": "reason.flush.undersize",
	} {
		_, _, err := language("en", []byte(content))
		var problem *WordsError
		if !errors.As(err, &problem) || problem.Key != key {
			t.Errorf("%q: got %v, want a *WordsError of %q", content, err, key)
		}
	}
}

// The words of reasons, assumptions and fields are those that the library has.
func TestWordsForEverythingTheLibrarySays(t *testing.T) {
	w, _ := builtIn("en")
	for _, code := range everyCode() {
		if w["reason."+code] == "" && code != "flush.as-supplied" && code != "flush.turn" {
			t.Errorf("no word for the reason %s", code)
		}
	}
	for _, code := range everyAssumption() {
		if w["assumed."+code] == "" {
			t.Errorf("no word for the assumption %s", code)
		}
	}
	if got := w.fill("find.more", "n", "7"); got != "7 more; type more of the name to see them" {
		t.Errorf("filled: %q", got)
	}
	if text := fmt.Sprint(w["reason.nothing"]); text != "" {
		t.Errorf("a word from nowhere: %q", text)
	}
}

// Whatever stands in a file of words, it is read or refused with a reason.
func FuzzWords(f *testing.F) {
	f.Add([]byte("language = \"it\"\n[verdict]\nflush = \"a filo\"\n"))
	f.Add([]byte("[find]\nmore = \"{n more\"\n"))
	f.Add([]byte("[find]\nmore = {a = [1]}\n"))
	f.Add([]byte("find.more = \"}{n}{\"\n"))
	f.Fuzz(func(t *testing.T, content []byte) {
		w, tag, err := language("en", content)
		var problem *WordsError
		if err != nil && !errors.As(err, &problem) {
			t.Errorf("an error of another kind: %v", err)
		}
		if err == nil && (tag == "" || w["page.title"] == "" && len(content) == 0) {
			t.Errorf("language %q, title %q", tag, w["page.title"])
		}
	})
}
