package rows

import (
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog/lexicon"
)

// Descriptions are searched as far as there is room for them; one that repeats the one above costs nothing, and a long one what is searched of it.
func TestSearched(t *testing.T) {
	text, long := "hosel 13.5, bore 9.4", strings.Repeat("bore ", lexicon.LongestNote)
	s := Searched{bytes: mostDescribed - len(text) - lexicon.LongestNote}
	for i, one := range []struct {
		text string
		want bool
	}{{text, true}, {text, true}, {long, true}, {text, false}, {text, false}} {
		if got := s.search(one.text); got != one.want {
			t.Errorf("text %d is searched: %v, want %v", i, got, one.want)
		}
	}
}
