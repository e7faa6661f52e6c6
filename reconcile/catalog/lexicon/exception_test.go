package lexicon

import "testing"

// Notes as drawings and lists have them; common practice.
func TestWithoutException(t *testing.T) {
	l := New(nil)
	for note, want := range map[string]string{
		"hosel and hole are in thou unless mm is wrote next to it":      "hosel and hole are in thou",
		"Alle Maße in mm, sofern nicht in Zoll angegeben":               "Alle Maße in mm,",
		"Cotes en mm sauf mention contraire":                            "Cotes en mm",
		"Misure in mm salvo dove indicato pollici":                      "Misure in mm",
		"单位mm，除非注明英寸":                                                   "单位mm",
		"UNLESS OTHERWISE SPECIFIED DIMENSIONS ARE IN INCHES":           "UNLESS OTHERWISE SPECIFIED DIMENSIONS ARE IN INCHES",
		"Sauf indication contraire, cotes en mm":                        "Sauf indication contraire, cotes en mm",
		"Dimensions in mm except where the bore is in inches":           "Dimensions in mm except where the bore is in inches",
		"All dimensions in mm":                                          "All dimensions in mm",
		"Sizes in mm; where the maker wrote an inch mark it is inches.": "Sizes in mm; ",
		"All sizes mm (those marked \" are inches)":                     "All sizes mm (",
		"Cotes en mm ; en pouces si le signe \" est indiqué":            "Cotes en mm ; ",
		"寸法はmm、\"印はインチ":                                                 "寸法はmm、",
		"Sizes in mm, bores marked * in inches":                         "Sizes in mm, bores marked * in inches",
		"":                                                              "",
	} {
		if got := l.WithoutException(note); got != want {
			t.Errorf("%q became %q, want %q", note, got, want)
		}
	}
}
