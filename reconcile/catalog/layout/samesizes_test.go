package layout

import (
	"strings"
	"testing"
)

// TestSameSizes looks at parts of which a letter says that they have the sizes of another one, in several languages.
func TestSameSizes(t *testing.T) {
	source := []string{"X-1|hosel 13.5|bore 9.5|32 deep|£40 each", "X-2|hosel 13.6|bore 9.5|32 deep|£40 each", "X-3|hosel 13.6|bore 9.4|33 deep|£40 each"}
	const first = "X-1: hosel_od=13.5 bore=9.5 bore_depth=32 price=£40 each; X-2: hosel_od=13.6 bore=9.5 bore_depth=32 price=£40 each; " +
		"X-3: hosel_od=13.6 bore=9.4 bore_depth=33 price=£40 each; "
	const all = "X-4: hosel_od=13.6 bore=9.4 bore_depth=33 price=£42 each"
	for line, want := range map[string]string{
		"X-4|same sizes as X-3|£42 each":                              all,
		"X-4|same sizes as the X-3|£42 each":                          all,
		"The X-4 has the same dimensions as the X-3|£42 each":         all,
		"X-4|las mismas medidas que la X-3|£42 each":                  all,
		"X-4|as mesmas medidas da X-3|£42 each":                       all,
		"A X-4 tem as mesmas medidas que a X-3|£42 each":              all,
		"X-4|stesse misure della X-3|£42 each":                        all,
		"X-4|mêmes cotes que la X-3|£42 each":                         all,
		"X-4|die gleichen Maße wie der X-3|£42 each":                  all,
		"Der X-4 hat dieselben Maße wie der X-3|£42 each":             all,
		"X-4|dezelfde maten als de X-3|£42 each":                      all,
		"X-4|samma mått som X-3|£42 each":                             all,
		"X-4|samme mål som X-3|£42 each":                              all,
		"X-4|te same wymiary co X-3|£42 each":                         all,
		"X-4|same sizes as X-3|but bore 9.5|£42 each":                 "X-4: hosel_od=13.6 bore=9.5 bore_depth=33 price=£42 each description=but",
		"X-4|same sizes as X-3|but a little longer|£42 each":          "",
		"X-4|same sizes as X-3 but a little longer|£42 each":          "",
		"X-4|same sizes as X-9|£42 each":                              "",
		"X-4|same price as X-3|£42 each":                              "",
		"X-4|same sizes as X-3 and 12.4 at the widest point|£42 each": "",
	} {
		got := spokenParts(append(source, line)...)
		if want == "" {
			if strings.Count(got, "bore_depth=33") != 1 {
				t.Errorf("%q: %s, want no sizes of another part", line, got)
			}
		} else if got != first+want {
			t.Errorf("%q:\n got %s\nwant %s", line, got, first+want)
		}
	}
}
