package sizetext

import (
	"slices"
	"testing"
)

// TestSizesWithMisreadDigits cuts a number with a letter in place of a digit out of a text whole, for the one who reads it to ask.
func TestSizesWithMisreadDigits(t *testing.T) {
	for text, want := range map[string][]string{
		"fits .355 tip, 13.O mm base x 25 mm long": {".355", "13.O mm", "25 mm"},
		"Hülse 13,O mm unten, 25 mm lang":          {"13,O mm", "25 mm"},
		"base 1O.5 mm, 25 mm long":                 {"1O.5 mm", "25 mm"},
		"base 13.5 mm. Long 25 mm":                 {"13.5 mm", "25 mm"},
		"base 13.5 mm, 10B":                        {"13.5 mm", "10"},
		"base 13.Black":                            {"13"},
	} {
		var got []string
		for _, at := range withMisread(text, Places(text, 24)) {
			got = append(got, text[at[0]:at[1]])
		}
		if !slices.Equal(got, want) {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
