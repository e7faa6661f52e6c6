package sizetext

import (
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

// TestPlaces holds the places of numbers against those that the standard library finds by an expression.
func TestPlaces(t *testing.T) {
	unit := anyUnit()
	anywhere := regexp.MustCompile(`(?i)(?:\d+[- ]\d+/\d+|\d+/\d+|\d*[.,]\d+|\d+)` + unit + `(?: ?(?:±|\+/-) ?\d*[.,]?\d+` + unit + `)?`)
	piece := rapid.SampledFrom([]string{"13", ".5", ",", ".", "1/2", "-", " ", "mm", "in", "\"", "±", "+/-", "0.1", "x", "Ø", "毫米", "\xff", "٣", "m", "inch", "7", "MM", "In.", "mmx", "Zoll", "″", "inches", "/"})
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(piece, 0, 12).Draw(t, "pieces"), "")
		most := rapid.IntRange(0, 5).Draw(t, "most")
		var want [][]int
		if most > 0 {
			want = anywhere.FindAllStringIndex(text, most)
		}
		if diff := cmp.Diff(want, Places(text, most), cmpopts.EquateEmpty()); diff != "" {
			t.Errorf("%q:\n%s", text, diff)
		}
	})
}
