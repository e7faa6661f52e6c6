package reader_test

import (
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
)

// TestLimitsBesideEachOther reads the least and the greatest of a size in columns of their own as limits of one, where the words could mean two
// sizes as well, and asks where the two stand in the wrong order.
func TestLimitsBesideEachOther(t *testing.T) {
	const rows = "\nLB-1 | 13.45 | 13.55 | 9.48 | 9.54 | 33\nLB-2 | 13.45 | 13.55 | 9.48 | 9.54 | 33\nLB-3 | 13.5 | 13.6 | 9.54 | 9.48 | 34\nLB-4 | 13.5 | 13.6 | 9.5 | 9.56 | 34"
	for name, heading := range map[string]string{
		"nested, German":   "Sach-Nr. | Hosel | < | Schaftbohrung | < | <\n^ | Außen-Ø | < | Ø | < | Tiefe\n^ | min. | max. | min. | max. | mm",
		"in one, German":   "Sach-Nr. | Hosel Außen-Ø min. | Hosel Außen-Ø max. | Schaftbohrung Ø min. | Schaftbohrung Ø max. | Bohrtiefe",
		"nested, English":  "Part no. | Hosel OD | < | Shaft hole dia | < | Bore depth\n^ | min | max | min | max | mm",
		"nested, French":   "Référence | Ø extérieur du col | < | Ø trou du manche | < | Profondeur de perçage\n^ | mini | maxi | mini | maxi | mm",
		"in one, Italian":  "Codice | Ø esterno hosel min | Ø esterno hosel max | Foro canna Ø min | Foro canna Ø max | Profondità foro",
		"in one, Spanish":  "Referencia | Ø exterior hosel mín. | Ø exterior hosel máx. | Taladro varilla Ø mín. | Taladro varilla Ø máx. | Profundidad taladro",
		"in one, Japanese": "品番 | ホーゼル外径 最小 | ホーゼル外径 最大 | シャフト穴径 最小 | シャフト穴径 最大 | 穴深さ",
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Heads", "Iron heads, mm | | | | |\n"+heading+rows))
			defer show(t, c)
			if got := rowOf(t, c, "LB-4"); !strings.Contains(got, "bore=9.53[9.5..9.56] bore_depth=34 hosel_od=13.55[13.5..13.6]") || strings.Contains(got, "tip=") {
				t.Errorf("%s, want limits of hosel OD and bore", got)
			}
			wantOpen(t, c, "LB-3", catalog.Bore)
		})
	}
}

// TestLimitsBesideTheNominal reads limits in columns behind that of the size itself.
func TestLimitsBesideTheNominal(t *testing.T) {
	c := read(t, grid("Heads", "Codice | Ø esterno hosel (mm) | < | < | Foro (mm)\n^ | nominale | min | max |\nLB-1 | 12.9 | 12.85 | 12.98 | 9.5\nLB-2 | 12.9 | 12.85 | 12.98 | 9.5\nLB-3 | 13 | 12.95 | 13.08 | 9.5"))
	if got := rowOf(t, c, "LB-3"); !strings.Contains(got, "hosel_od=13[12.95..13.08]") {
		t.Errorf("%s, want the nominal size with its limits", got)
	}
}
