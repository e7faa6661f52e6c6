package words

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func TestFold(t *testing.T) {
	for text, want := range map[string]string{
		"Hosel OD":                       "hosel od",
		"  Hosel\u00a0\tOD. ":            "hosel od",
		"Außen-Ø":                        "aussen ø",
		"AUẞEN":                          "aussen",
		"Diamètre d'alésage":             "diametre d alesage",
		"Ｈｏｓｅｌ　ＯＤ":                       "hosel od",
		"ﾎｰｾﾞﾙ":                          "ホーゼル",
		"ガ":                              "ガ",
		"호젤":                             "호젤",
		"\u1112\u1169\u110c\u1166\u11af": "호젤", // in jamo
		"zero\u200bwidth\u00ad":          "zerowidth",
		"e\u0301":                        "e",
		"№ 5":                            "# 5",
		"φ13":                            "ø 13",
		"⌀":                              "ø",
		"ﬁnish":                          "finish",
		"±0.05":                          "± 0 05",
		"":                               "",
	} {
		if got := Fold(text); got != want {
			t.Errorf("Fold(%q) is %q, want %q", text, got, want)
		}
	}
}

func TestFoldIsStable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		once := Fold(text)
		if twice := Fold(once); twice != once {
			t.Fatalf("%q folds to %q and then to %q", text, once, twice)
		}
	})
}

func FuzzFold(f *testing.F) {
	for _, seed := range []string{"Außen-Ø", "ﾎｰｾﾞﾙ", "e\u0301", "\u0130", "\xff", "ǅ", "ﷺ"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		once := Fold(text)
		if !utf8.ValidString(once) || strings.Contains(once, "  ") || strings.TrimSpace(once) != once {
			t.Fatalf("%q folds to %q", text, once)
		}
		if twice := Fold(once); twice != once {
			t.Fatalf("%q folds to %q and then to %q", text, once, twice)
		}
	})
}

// FuzzVocabulary asks every question of every text: none may panic, and scores stay between 0 and 1.
func FuzzVocabulary(f *testing.F) {
	for _, row := range rowsOf(f, "headings.txt", 4) {
		f.Add(row[1])
	}
	for _, seed := range []string{"4-PW", "#5-#9", "Note: all", "(mm", "[]", "（", "-", "4-PW,", "\xff\xfe", "in mm in"} {
		f.Add(seed)
	}
	v := Load()
	f.Fuzz(func(t *testing.T, text string) {
		for _, m := range v.Match(text, text) {
			if m.Score < leastScore || m.Score > 1 {
				t.Fatalf("%q: %+v", text, m)
			}
		}
		for _, ask := range []func(string) (Hit, bool){v.Category, v.TopForm, v.Style, v.Material, v.BoreForm, v.Kind, v.Unit, v.IsNotApplicable, v.IsMissing, v.IsDitto, v.IsTotal, v.IsNote} {
			if hit, found := ask(text); found != (hit.Value != "") || hit.Score < 0 || hit.Score > 1 {
				t.Fatalf("%q: %+v %v", text, hit, found)
			}
		}
		if _, n := v.LeadingMark(text, "approximate", "to", "or"); n > len(text) {
			t.Fatalf("%q: a mark of %d bytes", text, n)
		}
		v.Hints(text)
		v.Units(text)
		v.FindClubs(text)
		if clubs, ok := v.Clubs(text); ok != (len(clubs) > 0) {
			t.Fatalf("%q: %v %v", text, clubs, ok)
		}
	})
}

func ExampleVocabulary_MatchIn() {
	for _, heading := range []string{"Hoselaußendurchmesser (mm)", "OD", "挿入深さ"} {
		best := Load().MatchIn("heads", heading)[0]
		fmt.Printf("%s: %s, from %q (%s)\n", heading, best.Role, best.Words, best.Language)
	}
	// Output:
	// Hoselaußendurchmesser (mm): hosel_od, from "hosel außendurchmesser" (de)
	// OD: hosel_od, from "od" (en)
	// 挿入深さ: bore_depth, from "挿入 深さ" (ja)
}
