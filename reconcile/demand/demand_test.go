package demand_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/demand"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/open"
	"example.com/seatline/reconcile/sheet/workbook/workbooktest"
)

// heads are of two invented foundries: single heads, a set of three clubs, and a number that both use.
func heads() *catalog.Catalogue {
	c := &catalog.Catalogue{}
	add := func(file string, row int, part, set string) {
		c.Heads = append(c.Heads, catalog.Head{Item: catalog.Item{
			Part: part, Source: catalog.Source{File: file, Row: row},
			Fields: catalog.FieldsOf(map[catalog.Role]catalog.Field{catalog.Part: {Text: set}}),
		}})
	}
	add("dunmarrow.csv", 2, "DM-707", "DM-707")
	add("dunmarrow.csv", 3, "DM-708", "DM-708")
	add("dunmarrow.csv", 4, "00512 4", "00512")
	add("dunmarrow.csv", 4, "00512 5", "00512")
	add("dunmarrow.csv", 4, "00512 PW", "00512")
	add("dunmarrow.csv", 5, "HX-1", "HX-1")
	add("orsett.csv", 2, "HX-1", "HX-1")
	add("orsett.csv", 3, "00077", "00077")
	c.Ferrules = []catalog.Ferrule{{Item: catalog.Item{Part: "FR-12"}}}
	return c
}

const (
	dm707, dm708, set4, set5, setPW, lone77 = 0, 1, 2, 3, 4, 7
)

func book(t testing.TB, name, content string) *sheet.Book {
	t.Helper()
	b, err := open.Bytes(name, []byte(content))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func read(t testing.TB, content string) *demand.Demand {
	t.Helper()
	d, err := demand.Read(book(t, "demand.csv", content), heads())
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// TestHeadings has the usual headings of the nine languages, and which column of several is meant.
func TestHeadings(t *testing.T) {
	tests := []struct {
		headings string
		column   string
		times    float64
		assumed  bool
	}{
		{"Part,Per year", "B", 1, false},
		{"Part no.,Annual demand", "B", 1, false},
		{"SKU,Qty p.a.", "B", 1, false},
		{"Part,Qty", "B", 1, true},
		{"Part,Pieces a year", "B", 1, false},
		{"Part,Qty per month", "B", 12, true},
		{"Part,Units sold per quarter", "B", 4, true},
		{"Part,Weekly usage", "B", 52, true},
		{"Part,2026", "B", 1, false},
		{"Artikel,Jahresbedarf", "B", 1, false},
		{"Artikelnummer,Stück pro Jahr", "B", 1, false},
		{"Artikel-Nr.,Menge", "B", 1, true},
		{"Artikel,Monatsbedarf Menge", "B", 12, true},
		{"Référence,Besoin annuel", "B", 1, false},
		{"Référence,Quantité par an", "B", 1, false},
		{"Référence,Quantité par mois", "B", 12, true},
		{"Referencia,Demanda anual", "B", 1, false},
		{"Referencia,Cantidad", "B", 1, true},
		{"Codice,Fabbisogno annuo", "B", 1, false},
		{"Codice,Quantità", "B", 1, true},
		{"品番,年間数量", "B", 1, false},
		{"品番,数量", "B", 1, true},
		{"品番,月間数量", "B", 12, true},
		{"품번,연간 수요", "B", 1, false},
		{"품번,수량", "B", 1, true},
		{"编号,年间数量", "B", 1, false},
		{"编号,年需求量", "B", 1, false},
		{"编号,月销量", "B", 12, true},
		{"編號,年銷量", "B", 1, false},
		{"編號,數量", "B", 1, true},
		{"Part,Price,Per year", "C", 1, false},
		{"Part,In stock,Qty", "C", 1, true},
		{"Part,Qty per month,Qty per year", "C", 1, false},
		{"Number of heads,Part,Annual qty", "C", 1, false},
	}
	for _, tt := range tests {
		t.Run(tt.headings, func(t *testing.T) {
			columns := strings.Split(tt.headings, ",")
			row := func(part string, number int) string {
				cells := make([]string, len(columns))
				for i, h := range columns {
					cells[i] = fmt.Sprint(3)
					if i == int(tt.column[0]-'A') {
						cells[i] = fmt.Sprint(number)
					} else if !slices.Contains([]string{"Price", "In stock", "Qty per month", "Number of heads"}, h) {
						cells[i] = part
					}
				}
				return strings.Join(cells, ",") + "\n"
			}
			d := read(t, "Plan of the shop,\n"+tt.headings+"\n"+row("DM-707", 30)+row("DM-708", 12))
			if len(d.Tables) != 1 || d.Tables[0].NumberColumn != tt.column || d.Tables[0].Times != tt.times {
				t.Fatalf("read as %+v", d.Tables)
			}
			if d.Yearly[dm707] != 30*tt.times || d.Yearly[dm708] != 12*tt.times {
				t.Errorf("numbers %v", d.Yearly)
			}
			if got := d.Ledger.Assumed == 2; got != tt.assumed {
				t.Errorf("assumed is %v: %+v", got, d.Findings)
			}
			if d.Ledger.SetAside != 2 {
				t.Errorf("ledger %+v", d.Ledger)
			}
		})
	}
}

// TestRows has what can stand in a row, and what should become of it.
func TestRows(t *testing.T) {
	tests := []struct {
		name, row string
		outcome   catalog.Outcome
		code      string // of a finding at the row
		cell      string
		heads     []int
		number    float64
	}{
		{"plain", "DM-707,40", catalog.Used, "", "", []int{dm707}, 40},
		{"other letters", "dm 707,40", catalog.Used, "", "", []int{dm707}, 40},
		{"nothing made", "DM-707,0", catalog.Used, "", "", []int{dm707}, 0},
		{"a mean", "DM-707,12.5", catalog.Used, "", "", []int{dm707}, 12.5},
		{"thousands", `DM-707,"1,250"`, catalog.Assumed, "data.leniency", "B3", []int{dm707}, 1250},
		{"about", "DM-707,ca. 40", catalog.Assumed, "data.leniency", "B3", []int{dm707}, 40},
		{"a club of a set", "00512 5,7", catalog.Used, "", "", []int{set5}, 7},
		{"a whole set", "00512,7", catalog.Assumed, "data.leniency", "A3", []int{set4, set5, setPW}, 7},
		{"a set without zeros", "512,7", catalog.Assumed, "data.leniency", "A3", []int{set4, set5, setPW}, 7},
		{"no zeros", "77,7", catalog.Assumed, "data.leniency", "A3", []int{lone77}, 7},
		{"unknown, near", "DM-770,7", catalog.Held, "data.unknown-part", "A3", nil, 0},
		{"unknown, far", "ZZ-99-42,7", catalog.Held, "data.unknown-part", "A3", nil, 0},
		{"a ferrule", "FR-12,7", catalog.Held, "data.unknown-part", "A3", nil, 0},
		{"two of one number", "HX-1,7", catalog.Held, "data.several", "A3", nil, 0},
		{"negative", "DM-707,-4", catalog.Held, "data.implausible", "B3", nil, 0},
		{"negative, another sign", "DM-707,−4", catalog.Held, "data.implausible", "B3", nil, 0},
		{"beyond measure", "DM-707,99999999999", catalog.Held, "data.implausible", "B3", nil, 0},
		{"text", "DM-707,plenty", catalog.Held, "data.unreadable", "B3", nil, 0},
		{"on request", "DM-707,TBD", catalog.Held, "data.unreadable", "B3", nil, 0},
		{"an error", "DM-707,#N/A", catalog.Held, "data.unreadable", "B3", nil, 0},
		{"no number", "DM-707,", catalog.Held, "data.missing", "B3", nil, 0},
		{"no part", ",7", catalog.Held, "data.missing", "A3", nil, 0},
		{"total", "Total,400", catalog.SetAside, "", "", nil, 0},
		{"a note", "Note: numbers of last year,", catalog.SetAside, "", "", nil, 0},
		{"headings again", "Part,Per year", catalog.SetAside, "", "", nil, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := read(t, "Part,Per year\nDM-708,5\n"+tt.row+"\nDM-708,\n")
			r := d.Rows[2]
			if r.Outcome != tt.outcome || r.Number != tt.number || !slices.Equal(r.Heads, tt.heads) {
				t.Errorf("%v %v of %v, because %q %q", r.Outcome, r.Number, r.Heads, r.Why, r.Assumptions)
			}
			if (r.Outcome == catalog.Held || r.Outcome == catalog.SetAside) != (r.Why != "") {
				t.Errorf("%v because %q", r.Outcome, r.Why)
			}
			found := slices.IndexFunc(d.Findings, func(f finding.Finding) bool { return f.Place.Row == 3 })
			switch {
			case tt.code == "" && found >= 0:
				t.Errorf("found %+v", d.Findings[found])
			case tt.code != "" && (found < 0 || d.Findings[found].Code != tt.code || d.Findings[found].Place.Cell != tt.cell):
				t.Errorf("no %s at %s: %+v", tt.code, tt.cell, d.Findings)
			}
		})
	}
}

func TestNearParts(t *testing.T) {
	d := read(t, "Part,Per year\nDM-770,5\nDM-7O7,6\n512 PW,4\n")
	for i, want := range []string{"near it are DM-707", "near it are DM-707", ""} {
		if got := d.Rows[i+1].Why; !strings.Contains(got, want) {
			t.Errorf("row %d: %q, want %q", i+2, got, want)
		}
	}
	if r := d.Rows[3]; !slices.Equal(r.Heads, []int{setPW}) {
		t.Errorf("512 PW is %+v", r)
	}
}

func TestRepeatedIsAddedUp(t *testing.T) {
	d := read(t, "Part,Per year\nDM-707,5\nDM-708,1\ndm707,6\nDM-707,2\n")
	if want := (catalog.Ledger{Rows: 5, Used: 1, Assumed: 3, SetAside: 1}); d.Yearly[dm707] != 13 || d.Ledger != want {
		t.Errorf("numbers %v, ledger %+v, want %+v", d.Yearly, d.Ledger, want)
	}
	if at := slices.IndexFunc(d.Findings, func(f finding.Finding) bool { return f.Code == "data.repeated" }); at < 0 || d.Findings[at].Place.Cell != "B4" ||
		d.Findings[at].Related[0].Cell != "B2" {
		t.Errorf("findings %+v", d.Findings)
	}
}

func TestClubColumn(t *testing.T) {
	d := read(t, "Part,Club,Per year\n00512,4,9\n00512,PW,8\n")
	if d.Yearly[set4] != 9 || d.Yearly[setPW] != 8 || d.Stated[set5] {
		t.Errorf("numbers %v", d.Yearly)
	}
}

func TestWithoutHeadings(t *testing.T) {
	d := read(t, "DM-707,5\nDM-708,7\n")
	if d.Yearly[dm707] != 5 || d.Yearly[dm708] != 7 || d.Ledger.Assumed != 2 {
		t.Errorf("numbers %v, ledger %+v", d.Yearly, d.Ledger)
	}
	d = read(t, "Which,How many we need\nDM-707,5\nDM-708,7\n")
	if d.Yearly[dm708] != 7 || d.Ledger.Assumed != 2 {
		t.Errorf("numbers %v, ledger %+v", d.Yearly, d.Ledger)
	}
}

func TestNoTable(t *testing.T) {
	var none *demand.NoTableError
	for _, content := range []string{"Part,Remark\nDM-707,red\n", "Name,Per year\nsomeone,5\n", "DM-707\n"} {
		if _, err := demand.Read(book(t, "demand.csv", content), heads()); !errors.As(err, &none) {
			t.Errorf("%q: %v", content, err)
		}
	}
	var ambiguous *demand.AmbiguousError
	_, err := demand.Read(book(t, "demand.csv", "Part,2025,2026\nDM-707,5,6\n"), heads())
	if !errors.As(err, &ambiguous) || len(ambiguous.Headings) != 2 || ambiguous.Place.Row != 1 {
		t.Errorf("%v", err)
	}
}

// TestWorkbook has what only a workbook can hold: numbers that are formulas, dates and errors, hidden rows, and a second sheet.
func TestWorkbook(t *testing.T) {
	content, err := workbooktest.Build(`sheet Plan
hide rows 4
| 'Yearly plan |
| 'Part | 'Per year |
| 'DM-707 | =6*7 -> 42 |
| 'DM-708 | 12 |
| 'HX-1 | 3 |
| 77 | 5 |
| '00512 4 | 2026-03-08 {d-mmm} |
sheet Remarks
| 'made up |
`)
	if err != nil {
		t.Fatal(err)
	}
	d, err := demand.Read(book(t, "plan.xlsx", string(content)), heads())
	if err != nil {
		t.Fatal(err)
	}
	if d.Yearly[dm707] != 42 || d.Yearly[dm708] != 12 || d.Yearly[lone77] != 5 {
		t.Errorf("numbers %v; %+v", d.Yearly, d.Rows)
	}
	if want := (catalog.Ledger{Rows: 8, Used: 2, Assumed: 1, Held: 2, SetAside: 3}); d.Ledger != want {
		t.Errorf("ledger %+v, want %+v", d.Ledger, want)
	}
	var codes []string
	for _, f := range d.Findings {
		codes = append(codes, f.Code+" "+f.Place.Cell)
	}
	want := []string{"data.unlisted ", "layout.hidden ", "data.several A5", "data.leniency A6", "data.damaged B7", "layout.no-table "}
	if diff := cmp.Diff(want, codes); diff != "" {
		t.Errorf("findings (-want +got):\n%s", diff)
	}
}

// TestConservation: whatever a sheet holds, every row ends as exactly one thing, and what the heads get is what the rows say.
func TestConservation(t *testing.T) {
	cells := []string{"DM-707", "DM-708", "00512", "00512 4", "512", "HX-1", "77", "FR-12", "DM-770", "", "Total", "Note: x y", "Part"}
	numbers := []string{"1", "12.5", "0", "-3", "", "many", "1,250", "#N/A", "ca. 9", "Per year", "1e400", "99999999999"}
	rapid.Check(t, func(t *rapid.T) {
		content := "Part;Per year\nDM-707;1\nDM-707;1\n"
		rows := rapid.IntRange(0, 12).Draw(t, "rows")
		for range rows {
			content += rapid.SampledFrom(cells).Draw(t, "part") + ";" + rapid.SampledFrom(numbers).Draw(t, "number") + "\n"
		}
		b, err := open.Bytes("demand.csv", []byte(content))
		if err != nil {
			t.Fatal(err)
		}
		d, err := demand.Read(b, heads())
		if err != nil {
			var none *demand.NoTableError // where more than half of the numbers are none
			if !errors.As(err, &none) {
				t.Fatal(err)
			}
			return
		}
		l := d.Ledger
		if l.Rows != len(b.Sheets[0].Rows) || l.Rows != l.Used+l.Assumed+l.Held+l.SetAside || l.Rows != len(d.Rows) {
			t.Fatalf("ledger %+v of %d rows", l, len(b.Sheets[0].Rows))
		}
		sum := 0.0
		for _, r := range d.Rows {
			if taken := r.Outcome == catalog.Used || r.Outcome == catalog.Assumed; taken != (len(r.Heads) > 0) || (r.Outcome == catalog.Assumed) != (len(r.Assumptions) > 0) {
				t.Fatalf("row %+v", r)
			}
			sum += r.Number * float64(len(r.Heads))
		}
		total := 0.0
		for h, y := range d.Yearly {
			total += y
			if d.Stated[h] != (len(d.RowsOf(h)) > 0) || y < 0 {
				t.Fatalf("head %d: stated %v, %v a year", h, d.Stated[h], y)
			}
		}
		if math.Abs(total-sum) > 1e-6*(1+sum) {
			t.Fatalf("the heads get %v, the rows say %v", total, sum)
		}
	})
}

func FuzzRead(f *testing.F) {
	f.Add([]byte("Part,Per year\nDM-707,5\n"))
	f.Add([]byte("编号;年间数量\nDM-707;5\n"))
	f.Add([]byte("DM-707\t5\r\n\x00"))
	f.Fuzz(func(t *testing.T, content []byte) {
		b, err := open.Bytes("demand.csv", content)
		if err != nil {
			return
		}
		d, err := demand.Read(b, heads())
		if err != nil {
			return
		}
		if l := d.Ledger; l.Rows != l.Used+l.Assumed+l.Held+l.SetAside {
			t.Errorf("%+v", l)
		}
	})
}

func BenchmarkRead(b *testing.B) {
	var content bytes.Buffer
	content.WriteString("Part,Per year\n")
	c := &catalog.Catalogue{}
	for i := range 20_000 {
		part := fmt.Sprintf("LH-%05d", i)
		c.Heads = append(c.Heads, catalog.Head{Item: catalog.Item{Part: part}})
		fmt.Fprintf(&content, "%s,%d\n", part, i%40)
	}
	in := book(b, "demand.csv", content.String())
	for b.Loop() {
		if _, err := demand.Read(in, c); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleRead() {
	b, err := open.Bytes("plan.csv", []byte("Artikel;Jahresbedarf\nDM-707;40\nDM-77;12\n"))
	if err != nil {
		fmt.Println(err)
		return
	}
	d, err := demand.Read(b, heads()) // heads is a catalogue
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(d.Yearly[0], "a year of DM-707")
	for _, r := range d.Rows {
		if r.Outcome == catalog.Held {
			fmt.Println(r.Place, "is held:", r.Why)
		}
	}
	// Output:
	// 40 a year of DM-707
	// plan.csv!A3 is held: no head is called DM-77; near it are DM-707
}
