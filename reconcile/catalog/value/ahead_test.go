package value

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// scraps are the pieces that cells are made of, as far as one of the expressions looks at them.
var scraps = []string{"0", "1", "2", "7", "13", "64", "335", "0000000000000", "99999999999999", ".", ",", "..", "-", "+", "±", "/", " ", "  ", "*", "(", ")", "[", "]", "{", "'", `"`, "“", "=", `="`, "#",
	"#N/A", "½", "⅒", "†", "§", "¹", "²⁾", "⁰", "⁾", "a", "b)", "(a)", "(1)", "(0)", "t", "T", "P", "-P", "h", "H7", "IT", "it6", "iT 12", "d", "D", "d = .", "Ø", "e", "E", "E+05", "mm", "in", "_", "é", "ſ",
	"Mar", "mars", "7月", "8日", "2026", "\n", "\r", "\t", "\v", "\u00a0", "\u200b", "ISO 2768-m", "\xff"}

// TestAhead holds what is found byte by byte against the expressions that define it.
func TestAhead(t *testing.T) {
	matches := func(find func(string) bool) func(string) int {
		return func(s string) int {
			if find(s) {
				return 1
			}
			return 0
		}
	}
	fractionLength := func(s string) int {
		m, found := fractionAhead(s)
		if !found {
			return 0
		}
		return len(m.all)
	}
	tests := []struct {
		name, expression string
		find             func(string) int
		whole            bool // find gives the length of what is found
	}{
		{"numberAhead", `^(\.?\d|[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⅐⅑⅒])`, matches(numberAhead), false},
		{"commaAhead", `^,\d`, matches(commaAhead), false},
		{"plusMinusAhead", `^(±|\+ ?/ ?-|\+-|-/\+)`, plusMinusAhead, true},
		{"footnoteAhead", `^(\*+|[†‡※§]|[¹²³⁴⁵⁶⁷⁸⁹⁰]+⁾?\)?|\([a-zA-Z1-9]\)|[a-z]\))`, footnoteAhead, true},
		{"starTimesAhead", `^\* ?[.,]?\d`, matches(starTimesAhead), false},
		{"formAhead", `^[tTpP]\b`, matches(formAhead), false},
		{"fractionAhead", `^(\d+[ -])?(\d+) ?/ ?(\d+)`, fractionLength, true},
		{"gradeAhead", `^(?i:IT) ?\d{1,2}\b`, gradeAhead, true},
		{"classAhead", `^[a-zA-Z]{1,2}\d{1,2}\b`, classAhead, true},
		{"diameterAhead", `^[dD] ?=? ?\.?\d`, matches(diameterAhead), false},
		{"footnoteNumberAhead", `^[ .:]*\d{1,2}\b`, footnoteNumberAhead, true},
		{"plainNumber", `^[+-]?(\d+([.,]\d*)?|[.,]\d+)$`, matches(plainNumber), false},
		{"storedNoise", `^-?\d*\.\d{13,}$`, matches(storedNoise), false},
		{"exponent", `^-?\d+([.,]\d+)?[eE][+-]?\d+$`, matches(exponent), false},
		{"shorthand", `^[1-9]\d{2}$`, matches(shorthand), false},
	}
	fraction := regexp.MustCompile(tests[6].expression)
	var expressions []*regexp.Regexp
	for _, test := range tests {
		expressions = append(expressions, regexp.MustCompile(test.expression))
	}
	rapid.Check(t, func(t *rapid.T) {
		s := strings.Join(rapid.SliceOfN(rapid.SampledFrom(scraps), 0, 7).Draw(t, "scraps"), "")
		for i, test := range tests {
			at := expressions[i].FindStringIndex(s)
			want := 0
			switch {
			case at != nil && test.whole:
				want = at[1]
			case at != nil:
				want = 1
			}
			if got := test.find(s); got != want {
				t.Errorf("%s finds %d in %q, want %d", test.name, got, s, want)
			}
		}
		if m := fraction.FindStringSubmatch(s); m != nil {
			if got, _ := fractionAhead(s); !slices.Equal(m, []string{got.all, got.whole, got.numerator, got.denominator}) {
				t.Errorf("fractionAhead finds %q in %q, want %q", got, s, m)
			}
		}
		if isPlain(s) {
			want, notes := normaliseAny(s)
			got, plainNotes := normalise(s)
			if diff := cmp.Diff(notes, plainNotes); got != want || diff != "" {
				t.Errorf("normalise makes %q of %q, want %q\n%s", got, s, want, diff)
			}
		}
		named, parted := mayBeDate(s)
		if !named && (dayMonthName().MatchString(s) || monthNameDay().MatchString(s)) || !parted && (markedDate().MatchString(s) || isoDate().MatchString(s) || threeParts().MatchString(s)) {
			t.Errorf("%q is a date and cannot be one", s)
		}
	})
}
