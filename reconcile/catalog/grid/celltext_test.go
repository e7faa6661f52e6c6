package grid

import "testing"

func TestCleanText(t *testing.T) {
	for text, want := range map[string]string{
		"plain":                     "plain",
		" two  spaces ":             "two spaces",
		"13.6\u00a0mm":              "13.6 mm",
		"KR\u200b-20\ufeff":         "KR-20",
		"Hosel\r\nOD":               "Hosel OD",
		"\u3000全角\u3000":            "全角",
		"soft\u00adhyphen\u0007":    "softhyphen",
		"\u202bright to left\u202c": "right to left",
	} {
		if got := cleanText(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

func TestNumberText(t *testing.T) {
	for raw, want := range map[string]string{
		"0.33500000000000002": "0.335",
		"13.6":                "13.6",
		"1.2E+05":             "120000",
		"9.3469999999999995":  "9.347",
		"1234567890123":       "1234567890123",
	} {
		if got := numberText(raw); got != want {
			t.Errorf("%s: %s, want %s", raw, got, want)
		}
	}
}
