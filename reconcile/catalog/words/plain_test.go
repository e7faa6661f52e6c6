package words

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// texts draws texts as cells hold them: words of the vocabulary whole and cut short, numbers, signs and anything else.
func texts(v *Vocabulary) *rapid.Generator[string] {
	var phrases []string
	for _, lex := range v.classes {
		for _, entries := range lex.words {
			for _, e := range entries {
				phrases = append(phrases, e.words)
			}
		}
		phrases = append(phrases, lex.signKeys...)
	}
	slices.Sort(phrases)
	phrases = slices.Compact(phrases)
	piece := rapid.OneOf(
		rapid.SampledFrom(phrases),
		rapid.Custom(func(t *rapid.T) string {
			phrase := rapid.SampledFrom(phrases).Draw(t, "phrase")
			return phrase[:rapid.IntRange(0, len(phrase)).Draw(t, "cut")]
		}),
		rapid.SampledFrom([]string{" ", "  ", ".", ",", "'", "''", `"`, "(", ")", "[", "]", "<", ">", "{", "}", "-", "–", "/", ":", "=", "：", "#", "%", "$", "°", "±0.05", "+/- .002", "\t", "\n", "\x00",
			"1", "13.6", "0.370", "HoselOD", "BoreDepth", "ABC", "é", "ß", "Ø", "㎜", "½", "外径", "(mm)", "Länge", "Außen-Ø", "têtes", "ĳ", "ŀ", "İ", "ı", "ſ", "Œuvre", "ガ", "か\u3099", "ー", "각인", "々", "×", "ÿ", "Ƶ", "ǆ", "（毫米）", "in/mm", "\u00ad", "\u0301", "\xff"}),
		rapid.StringN(0, 6, 12),
	)
	return rapid.Custom(func(t *rapid.T) string { return strings.Join(rapid.SliceOfN(piece, 0, 6).Draw(t, "pieces"), "") })
}

// TestPlainForms holds the forms of plain texts against those of texts of any characters.
func TestPlainForms(t *testing.T) {
	text := texts(Load())
	rapid.Check(t, func(t *rapid.T) {
		s := text.Draw(t, "text")
		for _, form := range []struct{ name, got, want string }{
			{"Fold", Fold(s), foldAny(s)},
			{"keyOf", keyOf(s), strings.Join(tokens(foldAny(s)), " ")},
			{"tokensOf", strings.Join(tokensOf(s), "|"), strings.Join(tokens(foldAny(s)), "|")},
			{"signForm", signForm(s), signAny(s)},
			{"splitCamel", splitCamel(s), splitAnyCamel(s)},
		} {
			if form.got != form.want {
				t.Errorf("%s of %q is %q, want %q", form.name, s, form.got, form.want)
			}
		}
	})
}

// TestLookups holds the look-up of plain texts against that of texts of any characters.
func TestLookups(t *testing.T) {
	v := Load()
	text := texts(v)
	classes := []string{classMark, classUnit, classConcept, classForm}
	marks := []string{"not_applicable", "not_made", "missing", "ditto", "approximate", "reference", "at_most", "at_least", "total", "note", "diameter", "radius", "per_side", "included", "half_angle",
		"fits", "or", "to", "per", "all"}
	rapid.Check(t, func(t *rapid.T) {
		s := text.Draw(t, "text")
		lex := v.classes[rapid.SampledFrom(classes).Draw(t, "class")]
		everything := cmp.AllowUnexported(entry{}, concepts{})
		if diff := cmp.Diff(lex.words[strings.Join(tokens(foldAny(s)), " ")], lex.words[keyOf(s)], everything); diff != "" {
			t.Errorf("words of %q (-want +got)\n%s", s, diff)
		}
		if diff := cmp.Diff(v.lookup(lex, strings.Join(tokens(foldAny(s)), " ")), v.word(lex, s), everything); diff != "" {
			t.Errorf("word %q (-want +got)\n%s", s, diff)
		}
		if diff := cmp.Diff(lex.signs[signAny(s)], lex.sign(s), everything); diff != "" {
			t.Errorf("sign %q (-want +got)\n%s", s, diff)
		}
		some := marks[:rapid.IntRange(1, len(marks)).Draw(t, "marks")]
		wantHit, wantLength := v.leadingAny(v.classes[classMark], s, some)
		gotHit, gotLength := v.LeadingMark(s, some...)
		if gotHit != wantHit || gotLength != wantLength {
			t.Errorf("LeadingMark of %q is %v, %d, want %v, %d", s, gotHit, gotLength, wantHit, wantLength)
		}
	})
}

// TestGoesOn holds the short cut of segments: a key that no word goes on from begins none.
func TestGoesOn(t *testing.T) {
	v := Load()
	text := texts(v)
	rapid.Check(t, func(t *rapid.T) {
		lex := v.classes[rapid.SampledFrom([]string{classMark, classUnit, classConcept}).Draw(t, "class")]
		list := tokensOf(text.Draw(t, "text"))
		for n := 1; n <= len(list); n++ {
			if len(v.lookup(lex, strings.Join(list[:n], " "))) == 0 {
				continue
			}
			for k := 1; k <= n; k++ {
				if key := strings.Join(list[:k], " "); !v.goesOn(lex, key) {
					t.Errorf("%q is a word and does not go on from %q", list[:n], key)
				}
			}
		}
	})
}

// TestStretches holds the groups in brackets and the stretches between separators against the expressions that define them.
func TestStretches(t *testing.T) {
	group := regexp.MustCompile(`[(\[{（［【〔〈<][^()\[\]{}（）［］【】〔〕〈〉<>]*[)\]}）］】〕〉>]`)
	chunk := regexp.MustCompile(`[^\s,;:/|_、，；：／・\-–—]+`)
	spans := func(found [][]int) []span {
		var list []span
		for _, at := range found {
			list = append(list, span{at[0], at[1]})
		}
		return list
	}
	text := texts(Load())
	rapid.Check(t, func(t *rapid.T) {
		s := text.Draw(t, "text")
		if diff := cmp.Diff(spans(group.FindAllStringIndex(s, -1)), brackets(s)); diff != "" {
			t.Errorf("brackets of %q (-want +got)\n%s", s, diff)
		}
		if diff := cmp.Diff(spans(chunk.FindAllStringIndex(s, -1)), chunks(s)); diff != "" {
			t.Errorf("chunks of %q (-want +got)\n%s", s, diff)
		}
		at := group.FindStringIndex(s)
		if _, whole := bracketed(s); whole != (at != nil && at[0] == 0 && at[1] == len(s)) {
			t.Errorf("%q is one group: %v", s, whole)
		}
		if !mayRefer(s) && reference().MatchString(s) {
			t.Errorf("%q begins with a reference", s)
		}
	})
}

// TestEveryCharacter holds the short ways against the general one for every character of the first two planes, alone and beside others.
func TestEveryCharacter(t *testing.T) {
	for r := rune(0); r < 0x20000; r++ {
		for _, s := range []string{string(r), "a" + string(r) + "b", string(r) + "が1", "é" + string(r)} {
			if got, want := Fold(s), foldAny(s); got != want {
				t.Errorf("Fold(%q) is %q, want %q", s, got, want)
			}
			if got, want := signForm(s), signAny(s); got != want {
				t.Errorf("signForm(%q) is %q, want %q", s, got, want)
			}
		}
	}
}
