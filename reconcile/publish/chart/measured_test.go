package chart_test

import (
	"strings"
	"testing"

	"example.com/seatline/reconcile/publish/chart"
	"example.com/seatline/reconcile/publish/tell/telltest"
)

// The page says which sizes readings gave: in its table without a script, and in the answer for a head, a ferrule and a pair.
func TestMeasured(t *testing.T) {
	content := write(t, telltest.Measured(t), chart.Options{})
	measured, others := 0, 0
	for _, row := range within(parse(t, content).id("all"), "tr") {
		switch line := text(row); {
		case strings.HasPrefix(line, "TF-610") && strings.Contains(line, "12.687 mm (.4995 in) measured"):
			measured++
		case strings.Contains(line, "measured"):
			others++
		}
	}
	if measured != 1 || others != 0 {
		t.Errorf("%d rows say that TF-610 was measured, and %d others", measured, others)
	}
	// The hosel; and the ferrule's base, with the hosel of the one head among those it fits.
	for fragment, times := range map[string]int{"#head=TF-610": 1, "#ferrule=HM-20": 2} {
		b := openTab(t, content, fragment)
		b.Wait(`document.querySelector("#answer .facts") !== null`)
		if got := b.Text("#answer"); strings.Count(got, "measured") != times {
			t.Errorf("%s: says %d times that something was measured, want %d:\n%s", fragment, strings.Count(got, "measured"), times, got)
		}
	}
}
