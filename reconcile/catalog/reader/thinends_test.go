package reader_test

import (
	"testing"

	"example.com/seatline/reconcile/catalog"
)

// TestThinEndsByValues takes sizes between bore and base for the thin ends of ferrules, with a word, where their heading speaks of what ferrules do
// not have, and where nobody knows it.
func TestThinEndsByValues(t *testing.T) {
	const thin, wide = " | 10.5", " | 12.9"
	for name, c := range map[string]struct {
		heading, size string
		want          catalog.Role
	}{
		"head, German":          {"Kopf-Ø mm", thin, catalog.TopOD},
		"mouth, Spanish":        {"Ø boca mm", thin, catalog.TopOD},
		"mouth, English":        {"Mouth dia mm", thin, catalog.TopOD},
		"mouth, Dutch":          {"mond-Ø mm", thin, catalog.TopOD},
		"a word nobody knows":   {"Ø zurp mm", thin, catalog.TopOD},
		"a hosel":               {"Hosel dia mm", thin, catalog.TopOD},
		"a hosel near the base": {"Hosel dia mm", wide, ""},
		"head alone, Italian":   {"Testa", thin, catalog.TopOD},
		"head alone, English":   {"Head mm", thin, catalog.TopOD},
		"head alone, Dutch":     {"Ø kop", thin, catalog.TopOD},
		"a head near the base":  {"Testa", wide, ""},
	} {
		t.Run(name, func(t *testing.T) {
			rows := "Code | Base OD mm | Bore mm | Length mm | " + c.heading + " | Price"
			for _, row := range []string{"F-1 | 13.5 | 9.3 | 25", "F-2 | 13.6 | 9.3 | 19", "F-3 | 13.4 | 9.3 | 25", "F-4 | 13.5 | 9.3 | 22"} {
				rows += "\n" + row + c.size + " | 0.42"
			}
			got := read(t, grid("Ferrules", rows))
			column := got.Tables[0].Columns[4]
			if column.Role != c.want {
				defer show(t, got)
				t.Errorf("the column is %q, want %q", column.Role, c.want)
			}
		})
	}
}

// TestSerialNumbersOfLines takes numbers that only count the lines for no stock, where the heading hardly says such.
func TestSerialNumbersOfLines(t *testing.T) {
	for name, c := range map[string]struct {
		heading string
		numbers [4]string
		want    catalog.Role
	}{
		"serial numbers of India":   {"Sl.", [4]string{"1", "2", "3", "4"}, ""},
		"anew in a section":         {"Sl.", [4]string{"1", "2", "1", "2"}, ""},
		"Vietnamese for quantities": {"SL", [4]string{"40", "2", "31", "4"}, catalog.Stock},
		"a stock that runs so":      {"Stock", [4]string{"1", "2", "3", "4"}, catalog.Stock},
	} {
		t.Run(name, func(t *testing.T) {
			rows := c.heading + " | Art. No. | Base OD mm | Bore mm | Length mm"
			for i, row := range []string{"F-1 | 13.5 | 9.3 | 25", "F-2 | 13.6 | 9.3 | 19", "F-3 | 13.4 | 9.3 | 25", "F-4 | 13.5 | 9.3 | 22"} {
				rows += "\n" + c.numbers[i] + " | " + row
			}
			got := read(t, grid("Ferrules", rows))
			if role := got.Tables[0].Columns[0].Role; role != c.want {
				defer show(t, got)
				t.Errorf("the column is %q, want %q", role, c.want)
			}
		})
	}
}

// TestPricesOfOnePart reads prices whose heading says no more than that they are for one head or ferrule.
func TestPricesOfOnePart(t *testing.T) {
	for _, heading := range []string{"Per kop ex btw", "per ferrule", "je Kopf", "pro Zierring netto", "par tête HT", "per head ex VAT", "por cabeza sin IVA", "per huvud exkl. moms", "za hlavu bez DPH"} {
		t.Run(heading, func(t *testing.T) {
			got := read(t, grid("Heads", "Code | Hosel OD mm | Bore mm | "+heading+"\nH-1 | 13.5 | 9.5 | 14.95\nH-2 | 13.7 | 9.5 | 14.95\nH-3 | 13.3 | 9.1 | 41.50"))
			if role := got.Tables[0].Columns[3].Role; role != catalog.Price {
				defer show(t, got)
				t.Errorf("the column is %q", role)
			}
		})
	}
}

// TestSidesOfFerrules takes the diameters of ferrules that are named by the head and by the shaft or its tip for base and top.
func TestSidesOfFerrules(t *testing.T) {
	for _, headings := range []string{
		"Dia. base | Dia. tip end", "Ø head end | Ø tip side", "Durchm. Basis | Durchm. Spitze", "Ø kant van de kop | Ø kant van de shaft", "Ø zijde van de hosel | Ø zijde van de schacht",
		"Ø du côté de la tête | Ø du côté du shaft", "diam. lato testa | diam. lato canna", "Ø dal lato della testa | Ø dal lato della canna", "Ø base | Ø punta", "Ø bund | Ø spids", "根元径 | 先端径",
	} {
		c := read(t, grid("Ferrules", "Item | "+headings+" | Bore mm | Length mm\nF-1 | 13.5 mm | 10.7 mm | 9.3 | 19\nF-2 | 13.5 mm | 10.7 mm | 9.3 | 25\nF-3 | 13.2 mm | 10.3 mm | 8.9 | 19"))
		f := ferruleOf(t, c, "F-1").Ferrule
		if got := f.BaseOD.Nominal().String() + ", " + f.TopOD.Nominal().String(); got != "13.5 mm, 10.7 mm" {
			t.Errorf("%s: %s", headings, got)
		}
	}
}
