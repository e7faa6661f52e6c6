package chart

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Ratios: WCAG 2.2 gives 21:1 for black on white as the largest; W3C's "Understanding Success Criterion 1.4.3" gives 4.54:1
// for #767676 on white.
func TestContrast(t *testing.T) {
	for _, tt := range []struct {
		a, b string
		want float64
	}{{"#000000", "#ffffff", 21}, {"#767676", "#ffffff", 4.54}, {"#abcdef", "#abcdef", 1}} {
		a, errA := parseColour(tt.a)
		b, errB := parseColour(tt.b)
		if got := contrast(a, b); errA != nil || errB != nil || math.Abs(got-tt.want) > 0.005 || got != contrast(b, a) {
			t.Errorf("%s on %s: %.3f, want %.2f", tt.a, tt.b, got, tt.want)
		}
	}
}

func TestEverySellersColourIsReadable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, err := parseColour(rapid.StringMatching(`#[0-9a-f]{6}`).Draw(t, "colour"))
		if err != nil {
			t.Fatal(err)
		}
		for _, ground := range []colour{lightGround, darkGround} {
			for _, ratio := range []float64{3, 4.5} {
				written, err := parseColour(c.readable(ground, ratio).String())
				if err != nil || contrast(written, ground) < ratio {
					t.Fatalf("%v became %v: %.2f to 1 on %v", c, written, contrast(written, ground), ground)
				}
			}
		}
		if got := c.readable(c.mix(colour{1, 1, 1}, 1), 1); got != c {
			t.Fatalf("%v was changed to %v without need", c, got)
		}
	})
}
