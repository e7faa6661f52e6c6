package workbook

import (
	"strings"
	"testing"
	"unicode/utf16"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

func TestClean(t *testing.T) {
	for text, want := range map[string]string{
		"":                      "",
		"HM-20":                 "HM-20",
		"=1+1":                  "=1+1", // a text cell, so there is nothing to neutralise
		"two\nlines":            "two\nlines",
		"a\tb\rc":               "a b c",
		"bell\arung\x00":        "bellrung",
		"bad \xff byte":         "bad \ufffd byte",
		"not a character\uffff": "not a character",
	} {
		if got := clean(text); got != want {
			t.Errorf("clean(%q) = %q, want %q", text, got, want)
		}
	}
}

// TestCleanCuts: Excel cuts the text of a cell at 32,767 characters, which are UTF-16 units (MS-OI29500, 2.1.660).
func TestCleanCuts(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		cut  bool
	}{
		"just fits":       {strings.Repeat("a", 32_767), false},
		"one too many":    {strings.Repeat("a", 32_768), true},
		"wide just fits":  {strings.Repeat("ä", 32_767), false},
		"pairs just fit":  {strings.Repeat("😀", 16_383), false},
		"a pair too many": {strings.Repeat("😀", 16_384), true},
	} {
		got := clean(c.text)
		if units := len(utf16.Encode([]rune(got))); units > 32_767 {
			t.Errorf("%s: %d units", name, units)
		}
		if c.cut != strings.HasSuffix(got, cutShort) || !c.cut && got != c.text {
			t.Errorf("%s: cut is %v, want %v", name, !c.cut, c.cut)
		}
	}
}

func TestAlong(t *testing.T) {
	half, odd := measure.Thou(500), measure.Thou(501)
	for _, c := range []struct {
		units  fitcalc.Units
		length measure.Length
		want   string
	}{
		{fitcalc.Metric, half, "0.00"}, {fitcalc.Imperial, half, "#.000"}, {fitcalc.Fractions, half, "# ??/64"},
		{fitcalc.Fractions, odd, "#.000"},
	} {
		if got := (reader{c.units}).along(c.length); got != c.want {
			t.Errorf("%v of %v: format %q, want %q", c.units, c.length, got, c.want)
		}
	}
}

func TestLinesIn(t *testing.T) {
	for _, c := range []struct {
		text  string
		width float64
		want  int
	}{
		{"", 10, 1}, {"short", 10, 1}, {"two\nlines", 10, 2}, {"twelve chars", 10, 1}, {"twelve chars and more", 10, 2},
		{strings.Repeat("x", 60), 10, 5},
	} {
		if got := linesIn(c.text, c.width); got != c.want {
			t.Errorf("linesIn(%q, %v) = %d, want %d", c.text, c.width, got, c.want)
		}
	}
}
