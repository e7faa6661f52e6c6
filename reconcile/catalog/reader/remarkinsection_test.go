package reader_test

import (
	"strings"
	"testing"
)

// TestRemarkInSection keeps the tip of a section behind a remark among its rows, and ends it at the next title.
func TestRemarkInSection(t *testing.T) {
	for line, keeps := range map[string]bool{
		"Next two are to order only":            true,
		"Die folgenden zwei nur auf Bestellung": true,
		"Les deux suivants sur commande":        true,
		"Los dos siguientes sólo bajo pedido":   true,
		"次の2つは受注生産":                             true,
		"以下两款为双色，请提前一周订货":                       true,
		"WOODS":                              false,
		"Hölzer":                             false,
		"Maderas y todo lo demás del taller": false,
		"Series B":                           false,
		"For woods, the next two, to order":  false,
		"木杆用":                                false,
	} {
		t.Run(line, func(t *testing.T) {
			c := read(t, grid("Ferrules", "Part | Base OD mm | Length mm\nIrons .370\nFR-1 | 13.5 | 20\nFR-2 | 13.6 | 20\n"+line+"\nFR-3 | 13.6 | 25\nFR-4 | 13.8 | 25"))
			defer show(t, c)
			if got := rowOf(t, c, "FR-3"); strings.Contains(got, "tip") != keeps {
				t.Errorf("%s, keeps the tip: %v", got, keeps)
			}
			said := false
			for _, f := range c.Findings {
				said = said || f.Code == "layout.section"
			}
			if (keeps || line == "Series B") != said {
				t.Errorf("said %v", said)
			}
		})
	}
}
