package spoken

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// TestPlacesBetween holds what stands between two clauses against the expression for it.
func TestPlacesBetween(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`(?:[a ]{0,2}[,;:.!?()（，。 \t–-]{0,3}){0,6}`).Draw(t, "text")
		if diff := cmp.Diff(betweenClauses().FindAllStringIndex(text, -1), placesBetween(text)); diff != "" {
			t.Errorf("%q (-want +got):\n%s", text, diff)
		}
	})
}
