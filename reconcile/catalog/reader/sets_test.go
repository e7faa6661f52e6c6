package reader_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc/measure"
)

// Prices by the number of a set are those of each of its clubs.
func TestPricesOfSetsOnAnotherSheet(t *testing.T) {
	heads := grid("Heads", "Head | Clubs | Hosel OD (mm) | Bore (mm)\nKG-A1 | 5-7 | 13.4 | 9.5\nKG-A2 | 8, 9, PW | 13.4 | 9.5\nKG-W52 | GW | 13.6 | 9.5")
	prices := grid("Prices", "Head | Price per head (GBP) | In stock\nKG-A1 | 19.5 | 180\nKG-A2 | 21 | 96\nKG-W52 | 24 | 33\nKG-X9 | 30 | 2")
	got := read(t, heads, prices)
	want := map[string]float64{"KG-A1 5": 19.5, "KG-A1 6": 19.5, "KG-A1 7": 19.5, "KG-A2 8": 21, "KG-A2 9": 21, "KG-A2 PW": 21, "KG-W52": 24}
	for _, h := range got.Heads {
		if price, known := want[h.Part]; !known || !h.HasPrice || h.Price != price {
			t.Errorf("%s costs %g, want %g", h.Part, h.Price, price)
		}
	}
	if len(got.Heads) != len(want) {
		t.Errorf("%d heads, want %d", len(got.Heads), len(want))
	}
}

// A column of money is one of prices even where its heading names heads or sets, and where few cells have an amount: what is not sold as a set has no
// price of one. Patterns are descriptions of heads.
func TestPricesOfHeadsAndOfSets(t *testing.T) {
	for headings, prices := range map[string][3]string{
		"Pattern | Single head £ | Complete set £":     {"16.50 | 105.00", "9.00 | -", "8.00 | -"},
		"Muster | Satz € | Einzelkopf €":               {"105,00 | 16,50", "– | 9,00", "– | 8,00"},
		"Motif | Tête seule € | Série complète €":      {"16,50 | 105,00", "9,00 | n.c.", "8,00 | n.c."},
		"Disegno | Testa singola € | Serie completa €": {"16,50 | 105,00", "9,00 |", "8,00 |"},
		"Design | Set of heads $ | Odd head $":         {"105.00 | 16.50", "n/a | 9.00", "n/a | 8.00"},
	} {
		text := "Ref | Club | Hosel OD mm | Bore mm | " + headings + "\n"
		for i, club := range []string{"4-PW", "7", "8"} {
			text += []string{"OH20", "OH31", "OH32"}[i] + " | " + club + " | 13.4 | 9.5 | Bowland forged | " + prices[i] + "\n"
		}
		got := read(t, grid("Heads", text))
		if len(got.Heads) != 9 {
			t.Errorf("%s: %d heads", headings, len(got.Heads))
			continue
		}
		for i, want := range map[int]float64{0: 16.5, 7: 9, 8: 8} {
			if h := got.Heads[i]; h.Price != want || h.Description != "Bowland forged" {
				t.Errorf("%s: %s %q costs %g, want %g", headings, h.Part, h.Description, h.Price, want)
			}
		}
	}
}

// TestPriceOfSeries divides the price of a set under the word by which it goes in French and Italian.
func TestPriceOfSeries(t *testing.T) {
	for _, heading := range []string{"Série complète €", "Prix de la série", "Serie completa €", "Prezzo serie"} {
		got := read(t, grid("Heads", "Ref | Club | Hosel OD mm | Bore mm | "+heading+"\nOH20 | 4-PW | 13.4 | 9.5 | 105,00\nOH21 | 3-PW | 13.4 | 9.5 | 120,00"))
		if len(got.Heads) != 15 || got.Heads[0].Price != 15 {
			t.Errorf("%s: the first of %d heads costs %g, want 15", heading, len(got.Heads), got.Heads[0].Price)
		}
	}
}

// What is worked out over the rows of a column is no part; what is worked out over the readings of a row is.
func TestRowsOfStatistics(t *testing.T) {
	s := grid("Heads", "Part | Hosel OD (mm) | Bore (mm)\nKG-1 | 13.4 | 9.5\nKG-2 | 13.6 | 9.5\ncheck mean | 13.5 | 9.5\nKG-3 | 13.5 | 9.5")
	formulas := func(row int, list ...string) {
		for i, formula := range list {
			cell := *s.Rows[row][i+1]
			cell.Formula = formula
			s.Rows[row][i+1] = &cell
		}
	}
	formulas(3, "AVERAGE(B2:B3)", "ROUND(AVERAGE(C2:C3),2)")
	formulas(4, "AVERAGE(F5:H5)", "MAX(I5:K5)")
	got := read(t, s)
	var parts []string
	for _, h := range got.Heads {
		parts = append(parts, h.Part)
	}
	if len(parts) != 3 || parts[2] != "KG-3" {
		t.Errorf("heads %v, want KG-1, KG-2 and KG-3", parts)
	}
}

// Whatever they stand under, codes of their own in each line are part numbers where nothing else is.
func TestPartNumbersUnderOtherHeadings(t *testing.T) {
	for heading, codes := range map[string][3]string{
		"Style": {"4050", "4052", "4054"}, "Drawing": {"2-0117", "2-0118", "2-0124"}, "Pattern": {"KF-11", "KF-12", "KF-14"},
	} {
		text := heading + " | Name | Loft | Hosel OD (mm) | Bore (mm)\n"
		for _, code := range codes {
			text += code + " | Tidewater wedge | 50 | 13.4 | 9.5\n"
		}
		got := read(t, grid("Heads", text))
		if len(got.Heads) != 3 || got.Heads[0].Part != codes[0] {
			t.Errorf("%s: %d heads", heading, len(got.Heads))
		}
	}
	none := read(t, grid("Heads", "Hosel OD (mm) | Bore (mm) | Weight\n13.4 | 9.5 | 2951\n13.5 | 9.5 | 2962\n13.6 | 9.5 | 2973"))
	if len(none.Heads) != 0 {
		t.Errorf("weights are taken for part numbers: %q", none.Heads[0].Part)
	}
}

// The word for an end is the tip where the sizes are those of tips, and the top of the ferrule where they are not.
func TestTipsOrTops(t *testing.T) {
	const head = "Codice | Ø base (mm) | Ø punta (mm) | Foro (mm) | Lunghezza (mm)\n"
	tops := read(t, grid("Ghiere", head+"F-1 | 13.6 | 10.2 | 9.3 | 20\nF-2 | 13.4 | 10.4 | 9.3 | 25\nF-3 | 13.4 | 10.3 | 8.95 | 25"))
	if len(tops.Ferrules) != 3 || tops.Ferrules[0].Ferrule.TopOD.Nominal() != measure.Micrometres(10_200) {
		t.Errorf("%d ferrules, the top of the first %v", len(tops.Ferrules), tops.Ferrules[0].Ferrule.TopOD)
	}
	tips := read(t, grid("Ghiere", head+"F-1 | 13.6 | 9.4 | 9.3 | 20\nF-2 | 13.4 | 9.4 | 9.3 | 25\nF-3 | 13.4 | 9.02 | 8.95 | 25"))
	if len(tips.Ferrules) != 3 || tips.Ferrules[0].Ferrule.TopOD.Given() {
		t.Errorf("%d ferrules, the top of the first %v", len(tips.Ferrules), tips.Ferrules[0].Ferrule.TopOD)
	}
}

// Prices by numbers under a heading of the supplier's own are those of the parts that have them on another sheet.
func TestPricesUnderOtherNumbers(t *testing.T) {
	for _, heading := range []string{"Casting no.", "Entry"} {
		dims := grid("Dims", "Part no. | Hosel OD (mm) | Bore (mm)\nB-701 | 13.4 | 9.5\nB-702 | 13.4 | 9.5\nB-702L | 13.6 | 9.5")
		prices := grid("Prices", heading+" | Price USD | In stock\nB-701 | 14.2 | 50\nB-702 | 14.2 | 50\nB-702L | 15.1 | 10")
		if got := read(t, dims, prices); len(got.Heads) != 3 || got.Heads[2].Price != 15.1 {
			t.Errorf("%s: %d heads, the last for %g", heading, len(got.Heads), got.Heads[2].Price)
		}
	}
}

// Clubs make parts of a number where it is the habit of the list, or of the number, to come back. Elsewhere one that stands twice is wrong in one place.
func TestClubsOfNumbersThatComeBack(t *testing.T) {
	for name, c := range map[string]struct {
		headings    string
		rows, parts []string
		twice       bool
	}{
		"one of many": {"Item | Club", []string{"KG-05 | 5", "KG-06 | 6", "KG-07 | 7", "KG-08 | 8", "KG-09 | 9", "KG-08 | PW"},
			[]string{"KG-05", "KG-06", "KG-07", "KG-08", "KG-09"}, true},
		"one of many, in German": {"Art.-Nr. | Schläger", []string{"4405 | E5", "4406 | E6", "4406 | E7", "4408 | E8", "4409 | E9", "4410 | PW", "4411 | SW"},
			[]string{"4405", "4406", "4408", "4409", "4410", "4411"}, true},
		"one of many, in Japanese": {"品番 | 番手", []string{"Q-35 | 5", "Q-36 | 6", "Q-37 | 7", "Q-38 | 8", "Q-35 | 9"}, []string{"Q-35", "Q-36", "Q-37", "Q-38"}, true},
		"one club twice":           {"Item | Club", []string{"KG-05 | 5", "KG-06 | 6", "KG-06 | 6", "KG-08 | 8"}, []string{"KG-05", "KG-06", "KG-08"}, false},
		"families":                 {"Réf. | Club", []string{"OT-1 | 5", "OT-1 | 6", "OT-2 | 5", "OT-2 | 6", "OT-3 | SW"}, []string{"OT-1 5", "OT-1 6", "OT-2 5", "OT-2 6", "OT-3 SW"}, false},
		"a family among single heads": {"Item | Club", []string{"WG-9 | 52", "WG-9 | 56", "WG-9 | 60", "KG-05 | 5", "KG-06 | 6", "KG-07 | 7", "KG-08 | 8"},
			[]string{"WG-9 52", "WG-9 56", "WG-9 60", "KG-05", "KG-06", "KG-07", "KG-08"}, false},
		"a set and a head of its number": {"Item | Club", []string{"KG-20 | 8-PW", "KG-20 | GW", "KG-05 | 5", "KG-06 | 6", "KG-07 | 7"},
			[]string{"KG-20 8", "KG-20 9", "KG-20 PW", "KG-20 GW", "KG-05", "KG-06", "KG-07"}, false},
	} {
		text := c.headings + " | Hosel OD mm | Bore mm\n"
		for _, row := range c.rows {
			text += row + " | 13.4 | 9.5\n"
		}
		got := read(t, grid("Heads", text))
		var parts []string
		for _, h := range got.Heads {
			parts = append(parts, h.Part)
		}
		if diff := cmp.Diff(c.parts, parts); diff != "" {
			t.Errorf("%s: parts (-want +got):\n%s", name, diff)
		}
		twice := strings.Contains(fmt.Sprint(got.Tables[0].Findings), "stands twice with the clubs")
		if twice != c.twice {
			t.Errorf("%s: that a number stands twice is said: %v, want %v", name, twice, c.twice)
		}
	}
}

// What says how many heads a set has is no stock, whatever its words mean by themselves.
func TestPiecesPerSet(t *testing.T) {
	for _, heading := range []string{"Stk./Satz", "Stk. pro Satz", "stk. pr. sæt", "pcs/set", "pz/serie", "pièces/jeu", "本/セット"} {
		got := read(t, grid("Heads", "Ref | Club | "+heading+" | Hosel OD mm | Bore mm\nOH20 | 8-PW | 3 | 13.4 | 9.5\nOH21 | 7-PW | 4 | 13.4 | 9.5\nOH22 | 7-9 | 3 | 13.4 | 9.5"))
		for _, c := range got.Tables[0].Columns {
			if c.Heading == heading && c.Role != "" {
				t.Errorf("%s is taken for %s", heading, c.Role)
			}
		}
		if len(got.Heads) != 10 {
			t.Errorf("%s: %d heads", heading, len(got.Heads))
		}
	}
}

// A title that says that prices are for one head says so of those of sets too.
func TestPricesPerHeadOfSets(t *testing.T) {
	for _, title := range []string{"Mål i mm, pris per hode også når dere tar hele settet", "Prices per head, also in sets", "Preise je Kopf, auch im Satz", "prix par tête, même pour le jeu complet"} {
		got := read(t, grid("Heads", title+"\n\nRef | Club | Hosel OD mm | Bore mm | Price\nOH20 | 8-PW | 13.4 | 9.5 | 198\nOH21 | GW | 13.4 | 9.5 | 198"))
		if len(got.Heads) != 4 || got.Heads[0].Price != 198 || got.Heads[3].Price != 198 {
			t.Errorf("%s: the first of %d heads costs %g, want 198", title, len(got.Heads), got.Heads[0].Price)
		}
	}
}
