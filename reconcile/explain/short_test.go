package explain_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/explain"
)

// TestShortStaysShort holds the short answer to the lines of a screen however much there is to say, with a word of what was left out.
func TestShortStaysShort(t *testing.T) {
	long := strings.Repeat("a sentence of some words. ", 12)
	for _, sizes := range []int{0, 1, 9, 40} {
		t.Run(fmt.Sprint(sizes), func(t *testing.T) {
			e := &explain.Explanation{Title: "head H with ferrule F", Fit: fitcalc.Fit{Verdict: fitcalc.Turn}, Meaning: "fits after turning down", Do: []string{long, long}}
			for i := range sizes {
				e.Inputs = append(e.Inputs, explain.Input{Name: fmt.Sprint("size ", i), Value: "12.70 mm (.500 in)", Kind: explain.Cell, Place: fmt.Sprintf("heads.csv!B%d", i+2), Size: true})
			}
			e.Inputs = append(e.Inputs, explain.Input{Name: "category", Value: "iron", Kind: explain.Cell, Place: "heads.csv!A2"})
			var out strings.Builder
			if err := explain.WriteShort(&out, e, []string{long}); err != nil {
				t.Fatal(err)
			}
			text := out.String()
			if lines := strings.Count(text, "\n"); lines > 14 {
				t.Errorf("%d lines:\n%s", lines, text)
			}
			if got, want := strings.Contains(text, "heads.csv!B2"), sizes > 0; got != want {
				t.Errorf("names the first cell: %v, want %v:\n%s", got, want, text)
			}
			if strings.Contains(text, "category") {
				t.Errorf("what is no size stands among the sizes:\n%s", text)
			}
			if got := strings.Count(text, "and more: --how"); sizes == 40 && got != 2 {
				t.Errorf("says %d times that there is more, want for the sentences and for the cells:\n%s", got, text)
			}
		})
	}
}
