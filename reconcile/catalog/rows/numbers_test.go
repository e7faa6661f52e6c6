package rows

import (
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// TestPlacesOfNumbers holds where the numbers of a text are found against the expression for one, sought everywhere.
func TestPlacesOfNumbers(t *testing.T) {
	anywhere := regexp.MustCompile(strings.TrimPrefix(numberInText().String(), "^"))
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`(?:[a1 ½/.,"-]{0,4}(?:mm|''|″|é)?){0,6}`).Draw(t, "text")
		if diff := cmp.Diff(anywhere.FindAllStringSubmatchIndex(text, -1), placesOfNumbers(text)); diff != "" {
			t.Errorf("%q (-want +got):\n%s", text, diff)
		}
	})
}
