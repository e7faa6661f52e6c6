package workbook

import (
	"math"
	"strconv"
	"testing"

	"example.com/seatline/fitcalc"
)

// luminance is the relative luminance of a colour by WCAG 2.1 (sRGB, IEC 61966-2-1).
func luminance(t *testing.T, rgb string) float64 {
	t.Helper()
	n, err := strconv.ParseUint(rgb, 16, 32)
	if err != nil {
		t.Fatal(err)
	}
	linear := func(v uint64) float64 {
		c := float64(v&0xFF) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(n>>16) + 0.7152*linear(n>>8) + 0.0722*linear(n)
}

// lightness is CIE L* (ISO/CIE 11664-4) for luminances above 0.008856.
func lightness(y float64) float64 { return 116*math.Cbrt(y) - 16 }

// TestVerdictsInGrey: what fits can be told apart in grey, and every letter can be read on its fill with the contrast of 4.5 to
// 1 that WCAG 2.1, success criterion 1.4.3, asks of text.
func TestVerdictsInGrey(t *testing.T) {
	fit := []fitcalc.Verdict{fitcalc.Flush, fitcalc.Turn, fitcalc.Prep, fitcalc.Measure, fitcalc.No}
	for i, v := range fit {
		for _, w := range fit[i+1:] {
			a, b := lightness(luminance(t, verdictLook(v).fill)), lightness(luminance(t, verdictLook(w).fill))
			if math.Abs(a-b) < 15 {
				t.Errorf("%v and %v have a lightness of %.0f and %.0f", v, w, a, b)
			}
		}
	}
	looks := []look{heading, turned, group}
	for _, v := range fitcalc.Verdicts() {
		looks = append(looks, verdictLook(v))
	}
	for _, l := range looks {
		color := l.color
		if color == "" {
			color = ink
		}
		a, b := luminance(t, l.fill), luminance(t, color)
		if ratio := (max(a, b) + 0.05) / (min(a, b) + 0.05); ratio < 4.5 {
			t.Errorf("%s on %s has a contrast of %.1f", color, l.fill, ratio)
		}
	}
}

func TestMarksDiffer(t *testing.T) {
	seen := map[string]fitcalc.Verdict{}
	for _, v := range fitcalc.Verdicts() {
		if other, taken := seen[marks[v]]; marks[v] == "" || taken {
			t.Errorf("the mark %q of %v is that of %v", marks[v], v, other)
		}
		seen[marks[v]] = v
	}
}
