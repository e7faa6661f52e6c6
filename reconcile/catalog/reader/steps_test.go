package reader_test

import (
	"strings"
	"testing"
)

// TestSteps adds up the steps of a column where a note says from where they count, and leaves them open where none does.
func TestSteps(t *testing.T) {
	const table = "\nPart No | Hosel OD (mm) | Bore (mm) | Hosel length (mm)\nK-4 | 13.5 | 9.5 | 60\nK-5 | 13.5 | 9.5 | +1\nK-6 | 13.5 | 9.5 | +1.5\nK-7 | 13.5 | 9.5 | 0\nK-8 | 13.5 | 9.5 | -0.5"
	const missing = "\nPart No | Hosel OD (mm) | Bore (mm) | Hosel length (mm)\nK-4 | 13.5 | 9.5 | 60\nK-5 | 13.5 | 9.5 | +1\nK-6 | 13.5 | 9.5 | \nK-7 | 13.5 | 9.5 | +1\nK-8 | 13.5 | 9.5 | +1"
	for name, test := range map[string]struct {
		sheet string
		parts map[string]string
	}{
		"en":             {"Heads | | |\nHosel length: first figure in mm, after that the step in mm from the club above | | |" + table, map[string]string{"K-4": "hosel_length=60", "K-5": "hosel_length=61", "K-6": "hosel_length=62.5", "K-7": "hosel_length=62.5", "K-8": "hosel_length=62"}},
		"de":             {"Köpfe | | |\nHosellänge: erster Wert in mm, danach der Schritt zum Kopf darüber | | |" + table, map[string]string{"K-5": "hosel_length=61", "K-8": "hosel_length=62"}},
		"fr":             {"Têtes | | |\nLongueur du hosel : la première en mm, puis le pas par rapport à la ligne ci-dessus | | |" + table, map[string]string{"K-5": "hosel_length=61", "K-8": "hosel_length=62"}},
		"no note":        {"Heads | | |" + table, map[string]string{"K-4": "hosel_length=60", "K-5": "{open hosel_length}", "K-8": "{open hosel_length}"}},
		"one is missing": {"Heads | | |\nHosel length: steps from the club above | | |" + missing, map[string]string{"K-5": "hosel_length=61", "K-7": "{open hosel_length}", "K-8": "{open hosel_length}"}},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Heads", test.sheet))
			defer show(t, c)
			for part, want := range test.parts {
				if got := rowOf(t, c, part); !strings.Contains(got+" ", want+" ") && !strings.HasSuffix(got, want) {
					t.Errorf("%s, want %s", got, want)
				}
			}
		})
	}
}

// TestBlankAsAboveOfSeveral knows which sizes a note on blank cells lists.
func TestBlankAsAboveOfSeveral(t *testing.T) {
	c := read(t, grid("Heads", "OD, bore and depth: where nothing is written it is the same as for the club above. | | | |\nCode | Hosel OD mm | Bore mm | Bore depth mm | Hosel length mm\nK-4 | 13.5 | 9.5 | 32 | 60\nK-5 | | | | 61\nK-6 | | | 30 | "))
	defer show(t, c)
	for part, want := range map[string]string{"K-5": "bore=9.5 bore_depth=32 hosel_length=61 hosel_od=13.5", "K-6": "bore=9.5 bore_depth=30 hosel_od=13.5"} {
		if got := rowOf(t, c, part); !strings.Contains(got, want) {
			t.Errorf("%s, want %s", got, want)
		}
	}
}
