package say

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// Every language has every word, and the words of a chart fill in the same in each. Of sentences and phrases each has the variants that
// it needs.
func TestLanguagesAreComplete(t *testing.T) {
	english := English().Words()
	for _, tag := range []string{"de", "en", "es", "fr", "ja", "zh"} {
		l, err := In(tag, nil)
		if err != nil {
			t.Errorf("%s: %v", tag, err)
			continue
		}
		w := l.Words()
		if l.Tag() != tag || w["language"] != tag {
			t.Errorf("%s calls itself %s and %s", tag, l.Tag(), w["language"])
		}
		for key, text := range english {
			if sentences(key) {
				continue
			}
			if strings.TrimSpace(w[key]) == "" {
				t.Errorf("%s has no word for %s", tag, key)
			}
			want, got := Blanks(text), Blanks(w[key])
			slices.Sort(want)
			slices.Sort(got)
			if !slices.Equal(want, got) {
				t.Errorf("%s: %s fills in %v, want %v", tag, key, got, want)
			}
		}
		for key := range w {
			if _, known := english[key]; !known && !sentences(key) {
				t.Errorf("%s has %s, which nothing uses", tag, key)
			}
		}
	}
}

// Every language has a word for everything that package fitcalc has a code for.
func TestWordsForEverythingThatIsComputed(t *testing.T) {
	for _, tag := range Languages() {
		l, err := In(tag, nil)
		if err != nil {
			t.Fatal(err)
		}
		seen := map[string]string{}
		word := func(of, text string) {
			if text == "" || seen[text] != "" {
				t.Errorf("%s: the word of %s is %q, and so is that of %s", tag, of, text, seen[text])
			}
			seen[text] = of
		}
		for _, v := range fitcalc.Verdicts() {
			word("the meaning of "+v.String(), l.Meaning(v))
			if l.Verdict(v) == "" {
				t.Errorf("%s has no word for %v", tag, v)
			}
		}
		for f := fitcalc.NoField + 1; f.String() != ""; f++ {
			word(f.String(), l.Field(f))
		}
		for a := fitcalc.Assumption(0); a.Code() != ""; a++ {
			word(a.Code(), l.Assumption(a))
		}
		for _, c := range l.Cautions() {
			word("a caution", c.Title)
			word("a caution", c.Text)
		}
		for code := range fitcalc.Codes() {
			if l.reasons[code] == nil {
				t.Errorf("%s has no sentence for %v", tag, code)
			}
		}
		for c := fitcalc.AnyCategory; c <= fitcalc.Chipper; c++ {
			if l.Category(c) == "" {
				t.Errorf("%s has no word for %v", tag, c)
			}
		}
		for f := fitcalc.TopUnknown; f <= fitcalc.TopCounterbored; f++ {
			if l.Top(f) == "" {
				t.Errorf("%s has no word for a top %v", tag, f)
			}
		}
		for f := fitcalc.TipUnknown; f <= fitcalc.TipProfiled; f++ {
			if l.TipForm(f) == "" {
				t.Errorf("%s has no word for a tip %v", tag, f)
			}
		}
	}
}

// Cautions name what can hurt.
func TestCautions(t *testing.T) {
	all := ""
	for _, c := range English().Cautions() {
		if c.Title == "" || !strings.HasSuffix(c.Text, ".") {
			t.Errorf("%+v lacks something", c)
		}
		all += c.Text + "\n"
	}
	for _, word := range []string{"eyes", "guards", "never cut into the shaft", "flammable", "Epoxy", "gloves", "no proof of a bond", "local rules", "qualified builder", "governing body"} {
		if !strings.Contains(all, word) {
			t.Errorf("no caution speaks of %q", word)
		}
	}
}

func TestOwnWords(t *testing.T) {
	l, err := In("fr", []byte("language = \"it\"\n[verdict]\nflush = \"a filo\"\n[find]\nhead = \"Cerca\"\n"))
	if err != nil || l.Tag() != "it" || l.Verdict(fitcalc.Flush) != "a filo" || l.Verdict(fitcalc.Turn) != "turn" || l.Words()["find.head"] != "" {
		t.Fatalf("Italian over English: %v %v", l, err)
	}
	l, err = In("en", []byte("[sentence]\n\"length.short\" = \"only {length}!\"\n\"length.short.zero\" = \"gone\"\n[phrase]\nodd = \"odd\"\n"))
	if err != nil {
		t.Fatal(err)
	}
	short := fitcalc.Reason{Code: fitcalc.LengthShort, Size: measure.Millimetres(5)}
	if got := l.Reason(short, fitcalc.Metric); got != "only 5.00 mm (.1969 in)!" {
		t.Errorf("%q", got)
	}
	if got := l.Reason(fitcalc.Reason{Code: fitcalc.LengthShort}, fitcalc.Metric); got != "gone" {
		t.Errorf("%q", got)
	}
	for content, key := range map[string]string{
		"[verdict]\nflushed = \"x\"\n":                      "verdict.flushed",
		"[share]\nunder = \"{m}\"\n":                        "share.under",
		"[share]\nunder = \"{share\"\n":                     "share.under",
		"[share]\nunder = 3\n":                              "share.under",
		"share = 3\n":                                       "share",
		"[share\n":                                          "",
		"[sentence]\n\"length.short\" = \"{most}\"\n":       "sentence.length.short",
		"[sentence]\n\"length.short\" = \"{length.ten}\"\n": "sentence.length.short",
		"[sentence]\n\"length.short\" = \"{@nothing}\"\n":   "sentence.length.short",
		"[sentence]\n\"length.short.odd\" = \"x\"\n":        "sentence.length.short.odd",
		"[sentence]\n\"length.shorter\" = \"x\"\n":          "sentence.length.shorter",
		"[sentence]\n\"length.short\" = \"a [b [c] d]\"\n":  "sentence.length.short",
		"[sentence]\n\"length.short\" = \"a [b\"\n":         "sentence.length.short",
		"[sentence]\n\"length.short\" = \"a ] b\"\n":        "sentence.length.short",
		"[sentence]\n\"length.short\" = \"a {length b\"\n":  "sentence.length.short",
		"[phrase]\nbase = \"{@base}\"\n":                    "phrase.base",
	} {
		_, err := In("en", []byte(content))
		var problem *WordsError
		if !errors.As(err, &problem) || problem.Key != key {
			t.Errorf("%q: got %v, want a *WordsError of %q", content, err, key)
		}
	}
	var unknown *LanguageError
	if _, err := In("xx", nil); !errors.As(err, &unknown) || unknown.Tag != "xx" {
		t.Errorf("%v", err)
	}
}

// Of two keys that apply the one with more cases is taken, and of two such the one whose cases decide.
func TestVariants(t *testing.T) {
	all := []template{{traits: 0}, {traits: blocks}, {traits: zero}, {traits: blocks | adapter}, {traits: zero | adapter}}
	order(all)
	for given, want := range map[traits]traits{
		0: 0, blocks: blocks, blocks | zero: zero, blocks | adapter: blocks | adapter, blocks | zero | adapter: zero | adapter, measures: 0,
	} {
		if got := choose(all, given); got.traits != want {
			t.Errorf("%b: %b, want %b", given, got.traits, want)
		}
	}
}

// Numbers have the language's mark.
func TestNotation(t *testing.T) {
	german, _ := In("de", nil)
	short := fitcalc.Reason{Code: fitcalc.LengthShort, Size: measure.Millimetres(5), Limit: measure.Micrometres(6350)}
	want := "ist kurz: 5,00 mm (0,1969 in); üblich sind mindestens 6,35 mm (0,250 in)"
	if got := german.Reason(short, fitcalc.Metric); got != want {
		t.Errorf("%q", got)
	}
	if got := german.Length(measure.Picometres(1), fitcalc.Metric); got != "unter 0,001 mm (unter 0,0001 in)" {
		t.Errorf("%q", got)
	}
	if got := german.Share(.0123); got != "1,2\u00a0%" {
		t.Errorf("%q", got)
	}
}

func TestShare(t *testing.T) {
	for share, want := range map[float64]string{
		0: "0%", -1: "0%", 1e-9: "under 0.1%", .00099: "under 0.1%", .001: "0.1%", .0123: "1.2%", .05: "5%", .0997: "10%",
		.104: "10%", .5: "50%", .989: "99%", .991: "99.1%", .9949: "99.5%", .9987: "99.9%", .9991: "over 99.9%", 1: "100%", 1.5: "150%",
	} {
		if got := English().Share(share); got != want {
			t.Errorf("%v is written %s, want %s", share, got, want)
		}
	}
	for strain, want := range map[float64]string{.02: "2%", .0204: "2.04%", .0196: "1.96%", .1: "10%", 0: "0%"} {
		if got := English().percent(100*strain, 2); got != want {
			t.Errorf("a strain of %v is written %s, want %s", strain, got, want)
		}
	}
}
