package lexicon

import "testing"

func TestCutLabel(t *testing.T) {
	for text, want := range map[string][2]string{
		"Hosel OD: 13.6 mm":                {"Hosel OD", "13.6 mm"},
		"内径：9.35 mm":                       {"内径", "9.35 mm"},
		"Bore .............. .368 in":      {"Bore", ".368 in"},
		"Referencia:":                      {"Referencia", ""},
		"Part no. .... KR-20: satin":       {"Part no.", "KR-20: satin"},
		"12:30":                            {"12:30", ""},
		"1.00: a size before a colon":      {"1.00: a size before a colon", ""},
		"Hosel OD":                         {"Hosel OD", ""},
		": a colon that nothing is before": {": a colon that nothing is before", ""},
	} {
		label, value, _ := CutLabel(text)
		if label != want[0] || value != want[1] {
			t.Errorf("%q: %q and %q, want %q", text, label, value, want)
		}
	}
}
