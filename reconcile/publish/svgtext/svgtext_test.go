package svgtext

import (
	"encoding/xml"
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"
)

func TestNumber(t *testing.T) {
	for v, want := range map[float64]string{12: "12", 1.005: "1", 2.345678: "2.35", -0.001: "0", math.Copysign(0, -1): "0", -7.5: "-7.5", 1e6: "1000000"} {
		if got := Number(v); got != want {
			t.Errorf("Number(%v) = %q, want %q", v, got, want)
		}
	}
}

// TestNumberIsNear: what is written is within half of the last decimal.
func TestNumberIsNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-1e5, 1e5).Draw(t, "v")
		back, err := strconv.ParseFloat(Number(v), 64)
		if err != nil || math.Abs(back-v) > 0.005+1e-9 {
			t.Fatalf("Number(%v) = %q", v, Number(v))
		}
	})
}

// TestEscapeIsText: the reader of XML of the standard library finds one element, with the text as it was but for control characters.
func TestEscapeIsText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.OneOf(rapid.SampledFrom([]rune("<>&'\"\t\n\r\x00\x1b]-")), rapid.Rune())).Draw(t, "text")
		var read struct {
			Title string `xml:"title,attr"`
			Text  string `xml:",chardata"`
			Inner []struct {
				XMLName xml.Name
			} `xml:",any"`
		}
		if err := xml.Unmarshal([]byte(`<text title="`+Escape(text)+`">`+Escape(text)+"</text>"), &read); err != nil {
			t.Fatal(err)
		}
		want := strings.Map(func(r rune) rune {
			switch {
			case unicode.IsControl(r):
				return ' '
			case r == 0xfffe || r == 0xffff: // no characters of XML 1.0, section 2.2
				return unicode.ReplacementChar
			}
			return r
		}, text)
		if read.Text != want || read.Title != want || len(read.Inner) > 0 {
			t.Fatalf("%q came back as %q and %q", text, read.Text, read.Title)
		}
	})
}
