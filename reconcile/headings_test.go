package reconcile_test

import (
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/sheettest"
)

var everyHeading = flag.Bool("headings", false, "try all headings of testdata/headings, and list those that are missed; otherwise one of twenty is tried")

// TestHeadings looks at headings by many hands, each above a column of a small list. Of those that are sure 92.9 % were taken for what they
// are at first, on 29 November 2026; three times as many others had then been used to widen the vocabulary, and 97.1 % of these were right.
// Of 1,250 by two hands more 96.6 % were at first, on 30 November.
func TestHeadings(t *testing.T) {
	plain := plainHeadings(t)
	sure, right := 0, 0
	for _, language := range slices.Sorted(maps.Keys(plain)) {
		of, hits := 0, 0
		for i, h := range headingsIn(t, language) {
			if !h.sure || !*everyHeading && i%20 != 0 {
				continue
			}
			of++
			if got := h.takenFor(plain[language]); h.is(got) {
				hits++
			} else if *everyHeading {
				t.Logf("%s, %s: %q is %s and was taken for %q", language, h.kind, h.text, h.field, got)
			}
		}
		if *everyHeading {
			t.Logf("%s: %d of %d", language, hits, of)
		}
		sure, right = sure+of, right+hits
	}
	t.Logf("%d of %d, %.1f %%", right, sure, 100*float64(right)/float64(sure))
	if sure < 250 || float64(right) < leastHeadings*float64(sure) {
		t.Errorf("%d of %d headings are taken for what they are, want %g %%", right, sure, 100*leastHeadings)
	}
}

// leastHeadings is the share of the headings that have to be right.
const leastHeadings = 0.96

// oneHeading is a heading and what the column below it is.
type oneHeading struct {
	field, text string
	kind        catalog.Kind
	sure        bool
}

// headingsIn returns the headings of a language, those for both kinds of list twice.
func headingsIn(t *testing.T, language string) (all []oneHeading) {
	for _, f := range tabbed(t, language+".tsv") {
		for _, kind := range []catalog.Kind{catalog.Heads, catalog.Ferrules} {
			if f[2] != kind.String() && f[2] != "both" {
				continue
			}
			h := oneHeading{f[0], strings.ReplaceAll(f[1], `\n`, "\n"), kind, f[3] == "sure"}
			if len(h.values()) > 0 && (kind == catalog.Heads || h.field != string(catalog.HoselOD)) { // hosels that ferrules are for
				all = append(all, h)
			}
		}
	}
	return all
}

// plainHeadings returns the plain headings of each language, by field.
func plainHeadings(t *testing.T) map[string]map[string]string {
	rows := tabbed(t, "plain.tsv")
	all := map[string]map[string]string{}
	for _, row := range rows[1:] {
		all[row[0]] = map[string]string{}
		for i, field := range rows[0] {
			all[row[0]][field] = row[i]
		}
	}
	return all
}

// tabbed reads a file of testdata/headings.
func tabbed(t *testing.T, name string) [][]string {
	return tabbedIn(t, filepath.Join("headings", name))
}

// headingsFor are the plain headings of a language, for Norwegian those of Danish.
func headingsFor(plain map[string]map[string]string, language string) map[string]string {
	if language == "no" {
		language = "da"
	}
	return plain[language]
}

// tabbedIn reads a file of testdata with tabs between fields.
func tabbedIn(t *testing.T, name string) [][]string {
	return tabbedFile(t, filepath.Join("../testdata", name))
}

// tabbedFile reads a file with tabs between fields.
func tabbedFile(t *testing.T, name string) (rows [][]string) {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(text)) {
		rows = append(rows, strings.Split(strings.TrimRight(line, "\r\n"), "\t"))
	}
	return rows
}

// takenFor puts the heading above a column of a small list and returns the role that the column gets, or why the list was not read.
func (h oneHeading) takenFor(plain map[string]string) string {
	fields := []string{"part", "description", "bore", "base_od", "top_od", "length", "price"}
	if h.kind == catalog.Heads {
		fields = []string{"part", "description", "hosel_od", "bore", "hosel_length", "bore_depth", "price"}
	}
	if !slices.Contains(fields, h.field) {
		fields = slices.Insert(fields, len(fields)-1, h.field)
	}
	rows := make([][]string, 1+len(h.values()))
	for _, field := range fields {
		one := oneHeading{field: field, text: plain[field], kind: h.kind}
		if field == "bore" {
			one.text = plain[field+"."+h.kind.String()]
		}
		if field == h.field {
			one = h
		}
		for i, text := range append([]string{one.text}, one.values()...) {
			rows[i] = append(rows[i], text)
		}
	}
	book := &sheet.Book{File: h.kind.String() + ".csv", Sheets: []*sheet.Sheet{sheettest.Texts("list", rows, true)}}
	cat := reader.Read([]reader.Input{{Book: book}}, reader.Options{})
	if len(cat.Tables) != 1 || cat.Tables[0].Kind != h.kind {
		return "no list of " + h.kind.String()
	}
	name := sheet.ColumnName(1 + slices.Index(fields, h.field))
	for _, c := range cat.Tables[0].Columns {
		if c.Column == name {
			return string(c.Role)
		}
	}
	return ""
}

// is reports whether a role is that of the column.
func (h oneHeading) is(role string) bool {
	if _, known := traits.Of[catalog.Role(h.field)]; known {
		return role == h.field
	}
	return slices.Contains([]string{"", "note", "description"}, role) || role == "category" && (h.field == "hand" || h.field == "status")
}

// values are such as stand in the column, in the unit that the heading names.
func (h oneHeading) values() []string {
	field := h.field
	if field == "bore" {
		field += "." + h.kind.String()
	}
	values := strings.Fields(columnValues[field])
	units := headingLexicon.LengthUnitsIn(strings.NewReplacer("_", " ", "\n", " ").Replace(h.text))
	inches, mm := slices.Contains(units, "in"), slices.Contains(units, "mm")
	for i, text := range values {
		x, err := strconv.ParseFloat(text, 64)
		switch {
		case err != nil || traits.Of[catalog.Role(h.field)].Want != traits.Length || inches == mm:
		case h.field == "tip" && mm:
			values[i] = fmt.Sprintf("%.2f", x*25.4)
		case h.field != "tip" && inches:
			values[i] = fmt.Sprintf("%.3f", x/25.4)
		}
	}
	return values
}

var headingLexicon = lexicon.New(nil)

// columnValues are six values for each field: sizes of such parts, and what stands in the other columns of lists.
var columnValues = map[string]string{
	"part":              "QV-4101 QV-4102 QV-4105 QV-4107 QV-4110 QV-4112",
	"oldpart":           "4101A 4102A 4105B 4107A 4110A 4112B",
	"customerpart":      "K-7701 K-7702 K-7705 K-7711 K-7712 K-7713",
	"supplierpart":      "L88-11 L88-12 L88-15 L88-19 L88-20 L88-21",
	"description":       "Blade Cavity Hollow Players Small Game",
	"category":          "Iron Iron Wood Wedge Iron Wood",
	"club":              "5 6 7 8 9 PW",
	"price":             "1.85 1.99 2.10 1.89 2.34 2.21",
	"stock":             "410 1250 0 75 330 18",
	"pack":              "10 10 25 10 50 25",
	"ordered":           "100 250 50 100 100 500",
	"unit":              "mm mm mm mm mm mm",
	"currency":          "EUR EUR EUR EUR EUR EUR",
	"material":          "ABS ABS POM ABS PA6 ABS",
	"colour":            "black white black red black blue",
	"style":             "plain ringed plain plain ringed plain",
	"rings":             "0 2 1 0 3 1",
	"tolerance":         "±0.05 ±0.05 ±0.05 ±0.1 ±0.05 ±0.05",
	"tip":               ".370 .355 .370 .370 .335 .370",
	"hosel_od":          "13.6 13.5 13.9 13.2 13.75 12.8",
	"bore.heads":        "9.45 9.5 9.1 9.52 8.65 9.48",
	"hosel_length":      "66 67.5 70 64.2 55 61",
	"bore_depth":        "32 31.5 33 30 35 34.2",
	"top":               "flat countersunk flat flat countersunk flat",
	"countersink_mouth": "10.4 10.6 10.4 10.5 10.8 10.4",
	"countersink_angle": "90 60 90 90 82 90",
	"countersink_depth": "0.8 0.9 1.2 0.8 1.0 0.8",
	"counterbore":       "10.2 10.4 10.2 10.3 10.4 10.2",
	"counterbore_depth": "1.5 2 1.5 1.8 2 1.5",
	"base_od":           "13.6 13.5 13.9 13.2 13.75 12.8",
	"top_od":            "10.2 10.4 10.1 9.9 10.3 10.5",
	"bore.ferrules":     "9.25 9.3 8.95 9.28 8.4 9.25",
	"length":            "25.4 19.05 22 12.7 25.4 31.8",
	"collar_od":         "10.0 10.2 10.0 10.1 10.0 10.2",
	"collar_length":     "1.5 2 1.5 1.8 2 1.5",
	"step_od":           "9.6 9.7 9.6 9.65 9.6 9.7",
	"step_length":       "3 4 3 3.5 4 3",
	"loft":              "24 27 31 35 39 44",
	"lie":               "61.5 62 62.5 63 63.5 64",
	"weight":            "245 252 259 266 273 281",
	"offset":            "3.5 3.2 2.9 2.5 2.2 2.0",
	"hand":              "RH RH LH RH RH/LH RH",
	"face":              "51 52 52 53 54 55",
	"date":              "2026-01-12 2026-01-12 2026-02-12 2026-03-01 2026-03-02 2026-03-09",
	"total":             "185.00 497.50 105.00 189.00 234.00 1105.00",
	"moq":               "100 100 50 100 200 100",
	"country":           "TW CN TW TW CN TW",
	"barcode":           "4012345000016 4012345000023 4012345000030 4012345000047 4012345000054 4012345000061",
	"picture":           "a1.jpg a2.jpg a3.jpg a4.jpg a5.jpg a6.jpg",
	"customs":           "95063900 95063900 95063900 95063900 95063900 95063900",
	"status":            "active active new active discontinued active",
	"shelf":             "A1 A2 B1 B2 C1 C4",
}
