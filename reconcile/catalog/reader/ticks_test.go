package reader_test

import (
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
)

// TestTicks reads for which tips heads are by the marks in a matrix of tips.
func TestTicks(t *testing.T) {
	const heading = "Code | Head | Hosel OD (mm) | .335 | .350 | .355 taper | .370 | Price\n"
	const rows = "TK-1 | Driver | 12.0 | x | | | | 64\nTK-2 | Fairway 3 | 12.2 | x | x | | | 48\nTK-3 | Hybrid 4 | 13.0 | | x | | x | 39\nTK-4 | Iron 5 | 13.5 | | | x | x | 22"
	for name, test := range map[string]struct{ sheet, tips, open string }{
		"under a heading":          {"x = we supply the head for that tip\n | | | Tip\n" + heading + rows, ".350, .370", ""},
		"under a merged one":       {" | | | Tip | < | < | <\n" + heading + rows, ".350, .370", ""},
		"without one":              {heading + rows, ".350, .370", ""},
		"named in each":            {"Code | Head | Hosel OD (mm) | Tip .335 | Tip .350 | Tip .355 taper | Tip .370 | Price\n" + rows, ".350, .370", ""},
		"with no":                  {heading + strings.ReplaceAll(rows, "| |", "| - |"), ".350, .370", ""},
		"other marks":              {heading + strings.ReplaceAll(rows, "x", "✓"), ".350, .370", ""},
		"circles and crosses":      {heading + "TK-1 | Driver | 12.0 | ○ | × | × | × | 64\nTK-2 | Fairway 3 | 12.2 | ○ | ○ | × | × | 48\nTK-3 | Hybrid 4 | 13.0 | × | ○ | × | ○ | 39", ".350, .370", ""},
		"Japanese":                 {"品番 | 名称 | ホーゼル外径 (mm) | シャフト先端径 | < | < | < | 価格\n | | | .335 | .350 | .355 | .370 |\n" + strings.ReplaceAll(rows, "x", "○"), ".350, .370", ""},
		"German":                   {"x = Kopf für diese Spitze lieferbar\n | | | Schaftspitze\nArtikelnr. | Kopf | Hosel-Ø außen (mm) | .335 | .350 | .355 konisch | .370 | Preis\n" + rows, ".350, .370", ""},
		"French":                   {" | | | Pointe\nRéférence | Tête | Ø extérieur du col (mm) | .335 | .350 | .355 conique | .370 | Prix\n" + rows, ".350, .370", ""},
		"two marks":                {heading + "TK-1 | Driver | 12.0 | ● | ○ | | | 64\nTK-2 | Fairway 3 | 12.2 | ○ | ● | | | 48\nTK-3 | Hybrid 4 | 13.0 | | ● | | ○ | 39", "", "TK-3"},
		"a mark that denies":       {"x = not available\n" + heading + rows, "", "TK-3"},
		"something else in a cell": {heading + strings.Replace(rows, "| | x | | x | 39", "| | x | | 2027 | 39", 1), "", "TK-3"},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Heads", "Heads and the tips that they take\n"+test.sheet))
			defer show(t, c)
			got := rowOf(t, c, "TK-3")
			if !strings.Contains(got, "hosel_od=13") || test.tips != "" && !strings.Contains(got, `tip="`+test.tips+`"`) {
				t.Errorf("%s, want the tips %s", got, test.tips)
			}
			if test.open != "" {
				wantOpen(t, c, test.open, catalog.TipTaken)
			}
		})
	}
}

// TestTicksOfSomethingElse leaves columns alone whose marks are no matter of tips.
func TestTicksOfSomethingElse(t *testing.T) {
	c := read(t, grid("Heads", "Code | Hosel OD (mm) | Bore (mm) | RH | LH\nTK-1 | 12.0 | 8.6 | x | x\nTK-2 | 12.2 | 8.6 | x |\nTK-3 | 13.0 | 9.5 | | x"))
	if got := rowOf(t, c, "TK-3"); strings.Contains(got, "tip=") || !strings.Contains(got, "bore=9.5 hosel_od=13") {
		t.Errorf("%s, want no tip", got)
	}
}
