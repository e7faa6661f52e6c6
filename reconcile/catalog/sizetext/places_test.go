package sizetext

import (
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

// TestPlaces holds the places of numbers against those that the standard library finds with the same expression anywhere in a text.
func TestPlaces(t *testing.T) {
	anywhere := regexp.MustCompile(strings.Replace(measure().String(), "^", "", 1))
	piece := rapid.SampledFrom([]string{"13", ".5", ",", ".", "1/2", "-", " ", "mm", "in", "\"", "±", "+/-", "0.1", "x", "Ø", "毫米", "\xff", "٣", "m", "inch", "7"})
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
