package lexicon

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestInFigures puts amounts that notes say in words in figures, and leaves out what is of no length.
func TestInFigures(t *testing.T) {
	lex := New(nil)
	for text, want := range map[string]string{
		"within plus or minus two thou":                         "within ± 2 thou",
		"bore one thou either way":                              "bore ±1 thou",
		"Länge plus minus zwei Zehntel mm":                      "Länge ± 0.2 mm",
		"bohrung ± drei hundertstel":                            "bohrung ± 0.03",
		"tolleranza più o meno cinque centesimi":                "tolleranza ± 0.05",
		"plus five hundredths of a mm, minus zero":              "+0.05 mm/-0",
		"neck plus nothing, minus 0.1, hole minus nil plus .05": "neck +0/-0.1, hole -0/+.05",
		"held to five hundredths either way, or to 0.02 mm":     "± 0.05, or to 0.02 mm",
		"base dia held to 0.05 either way":                      "base dia ± 0.05",
		"hals 0,05 mm op eller ned":                             "hals ±0,05 mm",
		"boxes of 25 more or less":                              "boxes of 25 more or less",
		"górna odchyłka +0,05, dolna -0,02":                     "+0,05/-0,02",
		"horní úchylka +0,1 dolní úchylka -0":                   "+0,1/-0",
		"孔 +0.05、-0":                                            "孔 +0.05/-0",
		"外径±3丝":                                                 "外径±0.03 mm",
		"bore ±0.05, weight ±2 g, lie ±0,5°":                    "bore ±0.05, weight  , lie  ",
		"gold ring +0,30 €":                                     "gold ring  ",
		"sizes in mm":                                           "sizes in mm",
		"diamètres en mm, une longueur en pouces":               "diamètres en mm, une longueur en pouces",
		"the bore is an inch figure, plus a bag of screws":      "the bore is an inch figure, plus a bag of screws",
	} {
		if got := lex.InFigures(text); got != want {
			t.Errorf("%q in figures: %q, want %q", text, got, want)
		}
	}
}

// TestUnitsStated tells units of the sizes of a list from those of amounts that a text speaks of.
func TestUnitsStated(t *testing.T) {
	lex := New(nil)
	for text, want := range map[string][]string{
		"shafts 46 in. long, cut free":   nil,
		"tolérance ± 0,1 mm":             nil,
		"Graphitschäfte 46 Zoll":         nil,
		"grafit şaft 46 inç":             nil,
		"±0.1 mm, all sizes in inches":   {"in"},
		"Price list 2025 mm":             {"mm"},
		"Medidas en mm ±0,05":            {"mm"},
		"all within a thou either way":   nil,
		"genauigkeit ein zehntel mm":     nil,
		"tüm ölçüler milimetre":          {"mm"},
		"carton 45x35x25 cm, sizes inch": {"in"},
	} {
		if diff := cmp.Diff(want, lex.UnitsStated(text)); diff != "" {
			t.Errorf("units that %q states (-want +got):\n%s", text, diff)
		}
	}
}
