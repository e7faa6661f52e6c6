package lexicon

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestPartsOf(t *testing.T) {
	for text, want := range map[string][]string{
		"QB-101…QB-104": {"QB-101", "QB-102", "QB-103", "QB-104"},
		"T7 to T9":      {"T7", "T8", "T9"},
		"1001–1003":     {"1001", "1002", "1003"},
		"A-09 - A-11":   {"A-09", "A-10", "A-11"},
		"T9 to T12":     {"T9", "T10", "T11", "T12"},

		"X-5 and X-6":        {"X-5", "X-6"},
		"X-5, X-6, and X-10": {"X-5", "X-6", "X-10"},
		"X-5/X-6":            {"X-5", "X-6"},
		"RL 100 und RL 101":  {"RL 100", "RL 101"},
		"X-5 y X-6":          {"X-5", "X-6"},
		"X-5和X-6":            {"X-5", "X-6"},
		"X-1, X-3 to X-5":    {"X-1", "X-3", "X-4", "X-5"},
		"X5B & X6B":          {"X5B", "X6B"},
		"X-5 and X-5":        nil, // the same again
		"X-5 and Y-6":        nil,
		"X-5 and a half":     nil,
		"X-5B and X-6":       nil,
		"9.35 / 9.5":         nil, // sizes
		"100, 101":           nil,
		"X-5 and":            nil,
		"black and white":    nil,
		"HX-4/5":             nil,
		"X-5 and X-6 follow": nil,

		"QB-101": nil, "101-104": nil, "T9 to T7": nil, "T7 to U9": nil, "T7 to T107": nil, "T07 to T110": nil, "7 to 10": nil, "1–1000": nil, "": nil,
	} {
		if diff := cmp.Diff(want, PartsOf(text)); diff != "" {
			t.Errorf("%q (-want +got):\n%s", text, diff)
		}
	}
	if PartsOf(strings.Repeat(" 1–", 10_000)) != nil {
		t.Error("a long text is a run of parts")
	}
}
