package reader_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
)

// TestWhatABuyerPays takes of several columns of money that one which a buyer pays for one piece, by what their headings say together, and says
// upon the prices where they do not say it.
func TestWhatABuyerPays(t *testing.T) {
	for name, c := range map[string]struct {
		// headings of the columns of money, the cells of three rows below them, and the heading line above
		above, headings string
		cells           [3]string
		want            string
		warned          bool
	}{
		"dealers and lists":                      {"", "List | Dealer", [3]string{"59.00 | 34.50", "42.00 | 24.00", "98.00 | 61.00"}, "34.5 24 61", false},
		"dealers first":                          {"", "Händler-EK | UVP", [3]string{"34,50 | 59,00", "24,00 | 42,00", "61,00 | 98,00"}, "34.5 24 61", false},
		"headings in two lines":                  {"MRP | Dealer", "incl. GST | rate", [3]string{"Rs. 2,100/- | Rs. 1,250/-", "Rs. 2,600/- | Rs. 1,575/-", "Rs. 8,400/- | Rs. 5,150/-"}, "1250 1575 5150", false},
		"members, by words alone":                {"", "Público | Sócios", [3]string{"1,20 | 0,85", "1,05 | 0,75", "1,35 | 0,95"}, "0.85 0.75 0.95", false},
		"members pay":                            {"", "Members pay | Public", [3]string{"0.85 | 1.20", "0.75 | 1.05", "0.95 | 1.35"}, "0.85 0.75 0.95", false},
		"thousands alone":                        {"", "上代 | 下代", [3]string{"9,800 | 5,400", "9,800 | 5,400", "11,000 | 6,050"}, "5400 5400 6050", false},
		"dealers, distributors, the public":      {"", "Distributor | Dealer | Consumer", [3]string{"0.80 | 1.00 | 1.80", "1.00 | 1.20 | 2.20", "1.20 | 1.50 | 2.70"}, "1 1.2 1.5", false},
		"what the firm pays":                     {"", "Our cost | Price", [3]string{"21.00 | 58.00", "14.00 | 39.00", "11.00 | 33.00"}, "58 39 33", false},
		"tax":                                    {"", "KDV dahil | KDV hariç", [3]string{"1,20 | 1,00", "1,44 | 1,20", "1,80 | 1,50"}, "1 1.2 1.5", false},
		"a discount":                             {"", "Tarifa | Dto. % | Neto", [3]string{"1,67 | 40 | 1,00", "2,00 | 40 | 1,20", "2,50 | 40 | 1,50"}, "1 1.2 1.5", false},
		"one piece and a bag":                    {"", "Prijs per zak | Stuksprijs", [3]string{"10,80 | 1,00", "12,96 | 1,20", "16,20 | 1,50"}, "1 1.2 1.5", false},
		"quantities":                             {"", "ab 1.000 St. | ab 100 St.", [3]string{"33,50 | 38,00", "31,50 | 36,00", "68,00 | 74,00"}, "38 36 74", false},
		"quantities and lists":                   {"", "Retail | Dlr 12-35 | Dlr 1-11", [3]string{"1.80 | 0.92 | 1.00", "2.20 | 1.10 | 1.20", "2.70 | 1.35 | 1.50"}, "1 1.2 1.5", false},
		"an offer":                               {"", "Ord. ÅF-pris | Kampanjpris", [3]string{"1,15 | 1,00", "1,40 | 1,20", "1,70 | 1,50"}, "1 1.2 1.5", false},
		"years":                                  {"", "2026 dealer | 2027 dealer", [3]string{"0.95 | 1.00", "1.10 | 1.20", "1.40 | 1.50"}, "1 1.2 1.5", false},
		"old and new of two":                     {"", "Old RRP | New RRP | Old trade | New trade", [3]string{"1.70 | 1.80 | 0.95 | 1.00", "2.00 | 2.10 | 1.10 | 1.20", "2.60 | 2.70 | 1.40 | 1.50"}, "1 1.2 1.5", false},
		"freight":                                {"", "Frakt | Ert pris | Ca-pris", [3]string{"4,50 | 1,00 | 1,80", "4,50 | 1,20 | 2,20", "4,50 | 1,50 | 2,70"}, "1 1.2 1.5", false},
		"for how many pieces":                    {"", "PRC_NET | PRC_PER", [3]string{"31.50 | 100", "6.60 | 12", "1.35 | 1"}, "0.315 0.55 1.35", false},
		"nothing decides":                        {"", "Price A | Price B", [3]string{"1.00 | 1.80", "1.20 | 2.20", "1.50 | 2.70"}, "1 1.2 1.5", true},
		"currencies":                             {"", "Cena EUR | Cena PLN", [3]string{"0,23 | 1,00", "0,28 | 1,20", "0,35 | 1,50"}, "0.23 0.28 0.35", true},
		"money that is not understood":           {"", "Price | Blurb", [3]string{"1.00 | 1.80", "1.20 | 2.20", "1.50 | 2.70"}, "1 1.2 1.5", true},
		"numbers that are no money":              {"", "Price | Blurb", [3]string{"1.00 | 12.5", "1.20 | 11.9", "1.50 | 12.1"}, "1 1.2 1.5", false},
		"French beside what may be any language": {"", "Public TTC | Atelier HT", [3]string{"1,80 | 1,00", "2,20 | 1,20", "2,70 | 1,50"}, "1 1.2 1.5", false},
		"ages alone":                             {"", "Was | Now", [3]string{"1.15 | 1.00", "1.40 | 1.20", "1.70 | 1.50"}, "1 1.2 1.5", true},
		"a closeout":                             {"", "Reg. price | Closeout", [3]string{"1.15 | 1.00", "1.40 | 1.20", "1.70 | 1.50"}, "1 1.2 1.5", false},
		"what it costs now only":                 {"", "Preis | jetzt nur", [3]string{"1,15 | 1,00", "1,40 | 1,20", "1,70 | 1,50"}, "1 1.2 1.5", false},
		"sales":                                  {"", "Prix normal | Soldes", [3]string{"1,15 | 1,00", "1,40 | 1,20", "1,70 | 1,50"}, "1 1.2 1.5", false},
		"a full price and sales":                 {"", "Saldi | Prezzo pieno", [3]string{"1,00 | 1,15", "1,20 | 1,40", "1,50 | 1,70"}, "1 1.2 1.5", false},
		"clearing the stock":                     {"", "价格 | 清仓价", [3]string{"1.15 | 1.00", "1.40 | 1.20", "1.70 | 1.50"}, "1 1.2 1.5", false},
	} {
		t.Run(name, func(t *testing.T) {
			headings := "Part no | Base OD mm | Bore mm | " + c.headings
			if c.above != "" {
				headings = "Item | Base | Bore | " + c.above + "\ncode | OD mm | mm | " + c.headings
			}
			got, prices := readPriced(t, headings, c.cells)
			warned := slices.ContainsFunc(got.Findings, func(f finding.Finding) bool {
				return f.Severity >= finding.Warning && f.Code == "layout.column" && f.Place.Cell == priceColumn(got)+"1"
			})
			if diff := cmp.Diff(c.want, prices); diff != "" || warned != c.warned {
				defer show(t, got)
				t.Errorf("warned %v, want %v; prices (-want +got):\n%s", warned, c.warned, diff)
			}
		})
	}
}

// readPriced reads three ferrules with prices in the cells behind their sizes.
func readPriced(t *testing.T, headings string, cells [3]string) (c *catalog.Catalogue, prices string) {
	t.Helper()
	c = read(t, grid("Ferrules", strings.Join(pricedLines(headings, cells), "\n")))
	return c, pricesOf(c)
}

// pricedLines are the lines of a list of three ferrules with cells behind their sizes.
func pricedLines(headings string, cells [3]string) []string {
	lines := []string{headings}
	for i, size := range []string{"13.6 | 9.3", "13.5 | 9.25", "13.8 | 8.95"} {
		lines = append(lines, []string{"QV-1", "QV-2", "QV-3"}[i]+" | "+size+" | "+cells[i])
	}
	return lines
}

// pricesOf returns the prices of all ferrules, with blanks between.
func pricesOf(c *catalog.Catalogue) string {
	var all []string
	for _, f := range c.Ferrules {
		all = append(all, strconv.FormatFloat(f.Price, 'g', 6, 64))
	}
	return strings.Join(all, " ")
}

// priceColumn is the column of the prices of the first table.
func priceColumn(c *catalog.Catalogue) string {
	for _, column := range c.Tables[0].Columns {
		if column.Role == catalog.Price {
			return column.Column
		}
	}
	return ""
}

// TestWordsForCurrencies takes "Rand" and "R" for money above it, beside a word for what prices are for or in an English list, and for a ring elsewhere.
func TestWordsForCurrencies(t *testing.T) {
	for headings, want := range map[string]float64{
		"Part | Bore mm | Base OD mm | Rand per 10":                5.5,
		"Part | Bore mm | Base OD mm | Rand each":                  55,
		"Part | Bore mm | Base OD mm | Rand incl. VAT":             55,
		"Part | Bore mm | Base OD mm | Rand":                       55,
		"Part | Bore mm | Base OD mm | Price (Rand)":               55,
		"Part | Bore mm | Base OD mm | R per 10":                   5.5,
		"Part | Bore mm | Base OD mm | R/each":                     55,
		"Part | Bore mm | Base OD mm | Baht per 10":                5.5,
		"货号 | 内径 mm | 外径 mm | 元/个":                                 55,
		"品番 | 内径 mm | 外径 mm | 円/10個":                               5.5,
		"Part | Bore mm | Base OD mm | R":                          0,
		"Artikelnummer | Boring mm | Buitendiameter mm | Rand":     0,
		"Artikelnummer | Hål mm | Ytterdiameter nedtill mm | Rand": 0,
	} {
		c := read(t, grid("Ferrules", headings+"\nF-1 | 9.3 | 13.6 | 55.00\nF-2 | 9.25 | 13.5 | 60.00"))
		if len(c.Ferrules) != 2 || c.Ferrules[0].Price != want {
			defer show(t, c)
			t.Errorf("%s: the first of %d ferrules costs %g, want %g", headings, len(c.Ferrules), c.Ferrules[0].Price, want)
		}
	}
}

// TestKroner takes kr for money in a list in a language of which it is one, and below a title that speaks of prices in it.
func TestKroner(t *testing.T) {
	const rows = "\nF-1 | 9.3 | 13.6 | 55.00\nF-2 | 9.25 | 13.5 | 60.00"
	for headings, want := range map[string]float64{
		"Artikelnummer | Hål mm | Ytterdiameter nedtill mm | Kr":       55,
		"Varenr | Hul mm | Yderdiameter ved bund mm | Kr.":             55,
		"Prices in kr each\n\nPart | Bore mm | Base OD mm | kr":        55,
		"Artikelnummer | Hål mm | Ytterdiameter nedtill mm | kr/10 st": 5.5,
		"Artikelnummer | Gat mm | Dikke kant mm | Kr":                  0,
		"Ateliers\n\nRéf. | Ø trou | Ø base | Atelier HT":              55,
	} {
		c := read(t, grid("Ferrules", headings+rows))
		if len(c.Ferrules) != 2 || c.Ferrules[0].Price != want {
			defer show(t, c)
			t.Errorf("%s: the first of %d ferrules costs %g, want %g", headings, len(c.Ferrules), c.Ferrules[0].Price, want)
		}
	}
}

// TestLeastPrice divides no price by a number of pieces that would leave less than any part costs.
func TestLeastPrice(t *testing.T) {
	for name, c := range map[string]struct {
		heading string
		cells   [3]string
		want    string
		warned  bool
	}{
		"for a hundred":          {"Price per 100", [3]string{"62.00", "58.00", "74.00"}, "0.62 0.58 0.74", false},
		"for one, whatever said": {"Price per 100", [3]string{"0.62", "0.58", "0.74"}, "0.62 0.58 0.74", true},
		"one that is for one":    {"Price per 100", [3]string{"62.00", "0.58", "74.00"}, "0.62 0 0.74", true},
		"by the cell":            {"Price", [3]string{"0.62 per 100", "0.58", "0.74"}, "0 0.58 0.74", true},
		"a pack":                 {"Preis je Beutel (100 St.)", [3]string{"0,62", "0,58", "0,74"}, "0.62 0.58 0.74", true},
		"asked, but as said":     {"Price per 1000", [3]string{"6.20", "5.80", "7.40"}, "0.0062 0.0058 0.0074", true},
		"plain and cheap":        {"Preis je 1000", [3]string{"30,00", "35,00", "40,00"}, "0.03 0.035 0.04", false},
	} {
		got, prices := readPriced(t, "Part no | Base OD mm | Bore mm | "+c.heading, c.cells)
		warned := slices.ContainsFunc(got.Findings, func(f finding.Finding) bool {
			return f.Severity >= finding.Warning && (f.Code == "data.prices" || f.Code == "data.implausible")
		})
		if diff := cmp.Diff(c.want, prices); diff != "" || warned != c.warned {
			defer show(t, got)
			t.Errorf("%s: warned %v, want %v; prices (-want +got):\n%s", name, warned, c.warned, diff)
		}
	}
}

// TestPricesPutRight reads what a price was and is in words in its cell.
func TestPricesPutRight(t *testing.T) {
	for cell, want := range map[string]float64{
		"9.2 change to 8.8": 8.8, "9.20 (new rate 8.80)": 8.8, "now 8.80": 8.8, "was 9.20, now 8.80": 8.8, "9.2, sänkt till 8.8": 8.8, "9.2 (neuer Preis 8.8)": 8.8, "9.2 ramené à 8.8": 8.8,
		"9.2降为8.8": 8.8, "9.2 nuovo prezzo 8.8": 8.8, "8.80 (was 9.20)": 8.8, "9.20/8.80": 0, "9.20 less 10%": 0, "8.80 9.20": 0,
	} {
		c := read(t, grid("Ferrules", "Part | Bore mm | Base OD mm | Price\nF-1 | 9.3 | 13.6 | "+cell+"\nF-2 | 9.25 | 13.5 | 9.20\nF-3 | 9.25 | 13.5 | 9.40"))
		if len(c.Ferrules) != 3 || c.Ferrules[0].Price != want {
			defer show(t, c)
			t.Errorf("%s: the first of %d ferrules costs %g, want %g", cell, len(c.Ferrules), c.Ferrules[0].Price, want)
		}
	}
}

// TestSoldSingly keeps the price of the one part that is sold singly among packs.
func TestSoldSingly(t *testing.T) {
	c := read(t, grid("Ferrules", "Part | Bore mm | Base OD mm | Pk | $/Pk\nF-1 | 9.3 | 13.6 | 12 | 6.60\nF-2 | 9.25 | 13.5 | 12 | 7.20\nF-3 | 9.25 | 13.5 | 24 | 10.80\nF-4 | 9.25 | 13.5 | 12 | 9.00\nF-5 | 9.25 | 13.6 | 1 | 4.75"))
	if len(c.Ferrules) != 5 || c.Ferrules[4].Price != 4.75 {
		defer show(t, c)
		t.Errorf("the last of %d ferrules costs %g, want 4.75", len(c.Ferrules), c.Ferrules[4].Price)
	}
}

// TestPricesAreNoRivals lets a column that nobody knows, the amounts of which rise and fall with the prices, put no base OD in doubt, and warns of it at the
// prices; where they do not, it may give the base OD.
func TestPricesAreNoRivals(t *testing.T) {
	for amounts, want := range map[[4]string]int{
		{".65 | .48", ".55 | .41", "1.30 | .98", ".60 | .45"}: 4,
		{".51 | .48", ".53 | .41", ".52 | .98", ".50 | .45"}:  0,
	} {
		text := "Part | Style | Base | Bore in | Length in | Onesy | Each\n"
		for i, size := range []string{".530 | .366 | 1.00", ".540 | .366 | .50", ".530 | .366 | 1.10", ".470 | .331 | .80"} {
			text += []string{"SB-1 | STRAIGHT BLACK", "SB-2 | SHORT BLACK", "SB-3 | BLACK, GOLD RING", "SB-4 | TAPERED BLACK"}[i] + " | " + size + " | " + amounts[i] + "\n"
		}
		got := read(t, grid("Ferrules", text))
		warned := slices.ContainsFunc(got.Findings, func(f finding.Finding) bool { return f.Severity >= finding.Warning && f.Place.Cell == "G1" })
		based := 0
		for _, f := range got.Ferrules {
			if f.Ferrule.BaseOD.Given() {
				based++
			}
		}
		if based != want || warned != (want > 0) {
			defer show(t, got)
			t.Errorf("%v: %d base ODs, want %d; warned at the prices: %v", amounts, based, want, warned)
		}
	}
}

// TestStylesAreDescriptions takes texts under a word for forms that say more than one for descriptions, and finds the form in them.
func TestStylesAreDescriptions(t *testing.T) {
	for heading, c := range map[string]struct {
		texts [3]string
		want  string
	}{
		"Style":      {[3]string{"STRAIGHT BLACK", "SHORT, COLLARED, RED", "BLACK/1 GOLD RING"}, "STRAIGHT BLACK"},
		"Ausführung": {[3]string{"gerade schwarz", "mit Bund, rot", "gerade, ein Goldring"}, "gerade schwarz"},
		"Design":     {[3]string{"straight", "collared", "tapered"}, ""},
	} {
		got := read(t, grid("Ferrules", "Part | Base OD mm | Bore mm | "+heading+"\nF-1 | 13.5 | 9.3 | "+c.texts[0]+"\nF-2 | 13.6 | 9.3 | "+c.texts[1]+"\nF-3 | 13.7 | 9.3 | "+c.texts[2]))
		if len(got.Ferrules) != 3 || got.Ferrules[0].Description != c.want || got.Ferrules[1].Ferrule.Style != fitcalc.Collared {
			defer show(t, got)
			t.Errorf("%s: %d ferrules, the first %q, the second %v", heading, len(got.Ferrules), got.Ferrules[0].Description, got.Ferrules[1].Ferrule.Style)
		}
	}
}

// TestCurrenciesPerPack takes a word for a currency beside one for packs for a price, although another column says how many are in these.
func TestCurrenciesPerPack(t *testing.T) {
	for _, headings := range []string{"Part | Bore mm | Base OD mm | Pkt of | R per pkt", "Part | Bore mm | Base OD mm | Pack | Baht/bag", "货号 | 内径 mm | 外径 mm | 每包数量 | 元/包", "品番 | 内径 mm | 外径 mm | 入数 | 円/袋"} {
		c := read(t, grid("Ferrules", headings+"\nF-1 | 9.3 | 13.6 | 50 | 210.00\nF-2 | 9.25 | 13.5 | 20 | 168.00"))
		if len(c.Ferrules) != 2 || c.Ferrules[0].Price != 4.2 || c.Ferrules[1].Price != 8.4 {
			defer show(t, c)
			t.Errorf("%s: not read by the pack", headings)
		}
	}
}
