package sizetext

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestSplitTimes(t *testing.T) {
	for text, want := range map[string][]string{
		"9.35 x 13.7 x 19":  {"9.35", "13.7", "19"},
		"9.35×13.7×19mm":    {"9.35", "13.7", "19mm"},
		`.368"x.540"x3/4"`:  {`.368"`, `.540"`, `3/4"`},
		"9.35*13.7":         {"9.35", "13.7"},
		"hex":               nil,
		"9.35 x":            {"9.35 x"},
		"9.35 x black x 19": nil,
	} {
		if diff := cmp.Diff(want, SplitTimes(text, false)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", text, diff)
		}
	}
}
