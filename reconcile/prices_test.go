package reconcile_test

import (
	"cmp"
	"flag"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/sheettest"
)

var everyPrice = flag.Bool("prices", false, "try all lists of testdata/prices, and name those that are not read right; otherwise the quarter of them that nothing was mended for")

// TestPrices reads the lists of testdata/prices: several columns of money of which a buyer pays one, and words that say, or do not say, for how
// many pieces prices are.
func TestPrices(t *testing.T) {
	for _, of := range []struct {
		file  string
		list  func(*testing.T, []string) pricedList
		least float64
	}{
		{"pairs", pairedList, leastPairs},
		{"packs", packedList, leastPacks},
	} {
		t.Run(of.file, func(t *testing.T) {
			files := []string{of.file + ".held.tsv"}
			if *everyPrice {
				files = append(files, of.file+".tsv")
			}
			for _, file := range files {
				count, all := map[readPrice]int{}, 0
				for _, fields := range tabbedIn(t, filepath.Join("prices", file)) {
					one := of.list(t, fields)
					got, what := one.judge()
					count[got]++
					all++
					if *everyPrice && got != priceRight {
						t.Logf("%s: %s: %s", got, strings.Join(fields, " · "), what)
					}
				}
				t.Logf("%s: %d lists, %d right, %d open with a word, %d wrong with a word, %d silent", file, all, count[priceRight], count[priceOpen], count[priceSaid], count[priceSilent])
				if !strings.Contains(file, "held") {
					continue
				}
				if all < 100 || float64(count[priceRight]) < of.least*float64(all) {
					t.Errorf("%d of %d lists are read right, want %g %%", count[priceRight], all, 100*of.least)
				}
			}
		})
	}
}

// leastPairs and leastPacks are the shares of the lists that nothing was mended for which have to be read right.
const leastPairs, leastPacks = 0.83, 0.87

// readPrice is how the prices of a list were read.
type readPrice uint8

const (
	priceRight readPrice = iota
	// priceOpen: some were not read, and a finding speaks of their column.
	priceOpen
	// priceSaid: some were read as others, and a warning or an error speaks of their column.
	priceSaid
	// priceSilent: without.
	priceSilent
)

func (r readPrice) String() string { return [...]string{"right", "open", "wrong", "SILENT"}[r] }

// pricedList is a small list with the prices that are meant, by row.
type pricedList struct {
	rows [][]string
	// from is the first row of parts, and column that of the prices, both from 1.
	from, column int
	want         []float64
}

// judge reads the list and returns how its prices were read, and the first that is wrong.
func (l pricedList) judge() (readPrice, string) {
	book := &sheet.Book{File: "ferrules.csv", Sheets: []*sheet.Sheet{sheettest.Texts("list", l.rows, true)}}
	cat := reader.Read([]reader.Input{{Book: book}}, reader.Options{})
	got := map[int]catalog.Field{}
	for _, table := range cat.Tables {
		for _, row := range table.Rows {
			if f, found := row.Fields.Lookup(catalog.Price); found {
				got[row.Row] = f
			}
		}
	}
	worst, what := priceRight, ""
	for i, want := range l.want {
		f, read := got[l.from+i]
		is := priceRight
		switch said := l.said(cat, l.from+i, f.Cell); {
		case read && f.IsNumber && math.Abs(f.Number-want) < 0.0001+want/1000:
		case read && f.IsNumber && said >= finding.Warning:
			is = priceSaid
		case read && f.IsNumber:
			is = priceSilent
		case said >= finding.Note:
			is = priceOpen
		default:
			is = priceSilent
		}
		if is > worst {
			worst, what = is, fmt.Sprintf("row %d: want %.4g, got %.4g of %s %q", l.from+i, want, f.Number, f.Cell, f.Text)
		}
	}
	return worst, what
}

// said is the severity of the worst finding upon the prices of a row: their cell, the cell that they were read from or the headings of either.
func (l pricedList) said(cat *catalog.Catalogue, row int, cell string) finding.Severity {
	places := []string{sheet.ColumnName(l.column) + strconv.Itoa(row), sheet.ColumnName(l.column) + strconv.Itoa(l.from-1)}
	if cell != "" {
		places = append(places, cell, strings.TrimRight(cell, "0123456789")+strconv.Itoa(l.from-1))
	}
	var worst finding.Severity
	for _, all := range cat.Findings {
		for _, f := range all.Each() {
			if slices.Contains(places, f.Place.Cell) || f.Place.Cell == "" && f.Place.Row == row {
				worst = max(worst, f.Severity)
			}
		}
	}
	return worst
}

// plainFerrules are the parts that the lists are of, and their sizes in mm: number, bore, base OD and length.
var plainFerrules = [][]string{
	{"QV-4101", "9.25", "13.6", "25.4"}, {"QV-4102", "9.3", "13.5", "19.05"}, {"QV-4105", "8.95", "13.9", "22.2"}, {"QV-4107", "9.28", "13.2", "12.7"},
	{"QV-4110", "8.4", "13.75", "25.4"}, {"QV-4112", "9.25", "12.8", "31.8"},
}

// plainPrices are what the pieces cost.
var plainPrices = []float64{1.85, 1.99, 2.10, 1.89, 2.34, 2.21}

// plainCounts are quantities, each another one.
var plainCounts = []float64{410, 1250, 50, 75, 330, 18}

// moneyOf is by how much prices are greater in countries whose coin is small.
var moneyOf = map[string]float64{"ja": 100, "ko": 1000, "vi": 10000}

// pointed are the languages in which decimals stand behind a point.
var pointed = []string{"en", "ja", "ko", "th", "zh-Hans", "zh-Hant"}

// plainList returns a list with plain headings in a language, with others behind them and texts below these, by row.
func plainList(t *testing.T, language string, headings []string, texts func(row int) []string) pricedList {
	plain := headingsFor(plainHeadings(t), language)
	if plain == nil {
		t.Fatalf("no plain headings of %q", language)
	}
	l := pricedList{from: 2, rows: [][]string{append([]string{plain["part"], plain["bore.ferrules"], plain["base_od"], plain["length"]}, headings...)}}
	for i, part := range plainFerrules {
		row := slices.Clone(part)
		for k := range row[1:] {
			row[k+1] = inLanguage(language, row[k+1])
		}
		l.rows = append(l.rows, append(row, texts(i)...))
	}
	return l
}

// inLanguage writes a number with the decimal mark of a language.
func inLanguage(language, number string) string {
	if slices.Contains(pointed, language) {
		return number
	}
	return strings.ReplaceAll(number, ".", ",")
}

// pairedList is a list with the columns of a line of pairs.tsv: language, headings, the column that the buyer pays, and what stands below each:
// a number that the price of a piece is multiplied by, / and the number of pieces that all prices are for, = and the same text in all rows, q for
// quantities, t for these times the price.
func pairedList(t *testing.T, fields []string) pricedList {
	language, headings, below := fields[0], strings.Split(fields[1], " | "), strings.Split(fields[3], " | ")
	paid, err := strconv.Atoi(fields[2])
	if err != nil || len(headings) != len(below) || paid < 1 || paid > len(below) {
		t.Fatalf("%q does not say what stands below each heading", fields)
	}
	coin := cmp.Or(moneyOf[language], 1)
	write := func(x float64) string {
		if coin > 1 && x*coin > 20 {
			return strconv.FormatFloat(math.Round(x*coin), 'f', -1, 64)
		}
		return inLanguage(language, strconv.FormatFloat(x*coin, 'f', 2, 64))
	}
	l := plainList(t, language, headings, func(row int) (texts []string) {
		for _, what := range below {
			switch what[0] {
			case '/', '=':
				texts = append(texts, inLanguage(language, what[1:]))
			case 'q':
				texts = append(texts, strconv.FormatFloat(plainCounts[row], 'f', -1, 64))
			case 't':
				texts = append(texts, write(plainCounts[row]*plainPrices[row]))
			default:
				factor, err := strconv.ParseFloat(what, 64)
				if err != nil {
					t.Fatal(err)
				}
				texts = append(texts, write(factor*plainPrices[row]))
			}
		}
		return texts
	})
	l.column = len(l.rows[0]) - len(headings) + paid
	per := 1.0
	for _, what := range below {
		if count, found := strings.CutPrefix(what, "/"); found {
			per, _ = strconv.ParseFloat(count, 64)
		}
	}
	for _, row := range l.rows[1:] {
		x, err := strconv.ParseFloat(strings.ReplaceAll(row[l.column-1], ",", "."), 64)
		if err != nil {
			t.Fatal(err)
		}
		l.want = append(l.want, x/per)
	}
	return l
}

// packedList is a list with the text of a line of packs.tsv: language; whether it is a title, a note, the heading of the prices or the cell of
// one that costs 4.80; the text; and for how many pieces prices are.
func packedList(t *testing.T, fields []string) pricedList {
	language, place, text := fields[0], fields[1], fields[2]
	per, err := strconv.ParseFloat(fields[3], 64)
	if err != nil {
		t.Fatal(err)
	}
	heading := headingsFor(plainHeadings(t), language)["price"]
	if place == "heading" {
		heading = text
	}
	l := plainList(t, language, []string{heading}, func(row int) []string {
		price := strconv.FormatFloat(3*plainPrices[row], 'f', 2, 64)
		if place != "cell" {
			return []string{inLanguage(language, price)}
		}
		if !strings.Contains(text, "4.80") {
			price = strings.ReplaceAll(price, ".", ",")
		}
		return []string{strings.NewReplacer("4.80", price, "4,80", price).Replace(text)}
	})
	l.column = len(l.rows[0])
	for _, p := range plainPrices {
		l.want = append(l.want, math.Round(300*p)/100/per)
	}
	switch place {
	case "title":
		l.rows, l.from = slices.Insert(l.rows, 0, []string{text}), l.from+1
	case "note":
		l.rows = append(l.rows, nil, []string{text})
	case "heading", "cell":
	default:
		t.Fatalf("no place %q", place)
	}
	return l
}
