package lexicon

import (
	"regexp"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// TestSizesOfTips holds what may be the sizes of tips against an expression for them.
func TestSizesOfTips(t *testing.T) {
	expression := regexp.MustCompile(`0?[.,]3\d\d|\d{1,2}[.,]\d{1,3} ?mm|3\d\d`)
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`(?:[03579]{0,3}[.,]{0,2}[03]{0,5} ?(?:mm)?[ x]?){0,5}`).Draw(t, "text")
		if diff := cmp.Diff(expression.FindAllStringIndex(text, -1), sizesOfTips(text, len(text))); diff != "" {
			t.Errorf("%q (-want +got):\n%s", text, diff)
		}
	})
}
