package reader_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// madeTable is a table of heads that a property test makes and disturbs.
type madeTable struct {
	headings []string
	rows     [][]string
}

func headTable(t *rapid.T) madeTable {
	table := madeTable{headings: []string{"Part No", "Description", "Hosel OD (mm)", "Bore (mm)", "Bore depth (mm)", "Price"}}
	n := rapid.IntRange(2, 12).Draw(t, "rows")
	for i := range n {
		table.rows = append(table.rows, []string{
			fmt.Sprintf("KR-%d", 200+i),
			rapid.SampledFrom([]string{"Forged iron", "Cast wedge", "Driver, hollow"}).Draw(t, "description"),
			fmt.Sprintf("%.2f", float64(rapid.IntRange(1250, 1450).Draw(t, "od"))/100),
			fmt.Sprintf("%.2f", float64(rapid.IntRange(948, 956).Draw(t, "bore"))/100),
			fmt.Sprint(rapid.IntRange(25, 40).Draw(t, "depth")),
			fmt.Sprintf("%d.50", rapid.IntRange(10, 90).Draw(t, "price")),
		})
	}
	return table
}

// sheet writes the table with its columns in an order.
func (m madeTable) sheet(order []int) *sheet.Sheet {
	var lines []string
	line := func(cells []string) {
		var ordered []string
		for _, at := range order {
			ordered = append(ordered, cells[at])
		}
		lines = append(lines, strings.Join(ordered, " | "))
	}
	line(m.headings)
	for _, row := range m.rows {
		line(row)
	}
	return grid("Heads", strings.Join(lines, "\n"))
}

// partSizes is what a catalogue says of its heads: the sizes in micrometres.
func partSizes(c *catalog.Catalogue) map[string]string {
	sizes := map[string]string{}
	for _, h := range c.Heads {
		sizes[h.Part] = fmt.Sprintf("%d %d %d", h.Head.HoselOD.Nominal().Picometres()/1e6, h.Head.Bore.Nominal().Picometres()/1e6, h.Head.BoreDepth.Nominal().Picometres()/1e6)
	}
	return sizes
}

func readQuietly(t *rapid.T, s *sheet.Sheet) *catalog.Catalogue {
	c := reader.Read([]reader.Input{{Book: book("orrin.xlsx", s)}}, reader.Options{})
	for _, table := range c.Tables {
		if l := table.Ledger; l.Rows != l.Used+l.Assumed+l.Held+l.SetAside {
			t.Fatalf("the ledger does not add up: %+v", l)
		}
	}
	rows := 0
	for _, table := range c.Tables {
		rows += table.Ledger.Rows
	}
	if rows != lastRow(s) {
		t.Fatalf("%d rows in the ledgers of a sheet of %d\n%s", rows, lastRow(s), explain(c))
	}
	return c
}

func TestColumnOrderDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		table := headTable(t)
		plain := readQuietly(t, table.sheet([]int{0, 1, 2, 3, 4, 5}))
		order := rapid.Permutation([]int{0, 1, 2, 3, 4, 5}).Draw(t, "order")
		shuffled := readQuietly(t, table.sheet(order))
		if diff := cmp.Diff(partSizes(plain), partSizes(shuffled)); diff != "" {
			t.Fatalf("order %v (-plain +shuffled):\n%s\n%s", order, diff, explain(shuffled))
		}
	})
}

// TestUnitsDoNotMatter writes the same table in inches, to four decimals: the sizes are the same to half a
// ten-thousandth of an inch.
func TestUnitsDoNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		table := headTable(t)
		inches := madeTable{headings: slices.Clone(table.headings)}
		for i := range inches.headings {
			inches.headings[i] = strings.Replace(inches.headings[i], "(mm)", rapid.SampledFrom([]string{"(in)", "", "[inch]"}).Draw(t, "unit"), 1)
		}
		for _, row := range table.rows {
			row = slices.Clone(row)
			for _, at := range []int{2, 3, 4} {
				var mm float64
				if _, err := fmt.Sscan(row[at], &mm); err != nil {
					t.Fatal(err)
				}
				row[at] = fmt.Sprintf("%.4f", mm/25.4)
			}
			inches.rows = append(inches.rows, row)
		}
		order := []int{0, 1, 2, 3, 4, 5}
		plain, other := readQuietly(t, table.sheet(order)), readQuietly(t, inches.sheet(order))
		if len(plain.Heads) != len(other.Heads) {
			t.Fatalf("%d heads in mm, %d in inches\n%s", len(plain.Heads), len(other.Heads), explain(other))
		}
		for i, h := range plain.Heads {
			got, want := other.Heads[i].Head.HoselOD, h.Head.HoselOD
			if !got.Given() || absolute(got.Nominal().Sub(want.Nominal()).Millimetres()) > 0.00127+1e-9 {
				t.Fatalf("%s: hosel OD %v in mm, %v in inches\n%s", h.Part, want, got, explain(other))
			}
		}
	})
}

// TestNoiseDoesNotMatter puts titles, blanks, repeated headings, totals and notes about and between the rows.
func TestNoiseDoesNotMatter(t *testing.T) {
	noise := []string{"", "Orrin price list", "* all goods ex works", "Note: colours may differ", "Total | | | | | 120.50", "Page 2 of 3"}
	rapid.Check(t, func(t *rapid.T) {
		table := headTable(t)
		order := []int{0, 1, 2, 3, 4, 5}
		plain := readQuietly(t, table.sheet(order))
		var lines []string
		for range rapid.IntRange(0, 3).Draw(t, "titles") {
			lines = append(lines, rapid.SampledFrom(noise[:2]).Draw(t, "title"))
		}
		lines = append(lines, strings.Join(table.headings, " | "))
		for _, row := range table.rows {
			lines = append(lines, strings.Join(row, " | "))
			if rapid.IntRange(0, 4).Draw(t, "noisy") == 0 {
				lines = append(lines, rapid.SampledFrom(append(noise, strings.Join(table.headings, " | "))).Draw(t, "noise"))
			}
		}
		noisy := readQuietly(t, grid("Heads", strings.Join(lines, "\n")))
		if diff := cmp.Diff(partSizes(plain), partSizes(noisy)); diff != "" && !hasErrors(noisy) {
			t.Fatalf("(-plain +noisy):\n%s\n%s", diff, explain(noisy))
		}
	})
}

func hasErrors(c *catalog.Catalogue) bool {
	return slices.ContainsFunc(c.Findings, func(f finding.Finding) bool { return f.Severity == finding.Error })
}

// TestAnythingIsRead throws grids of anything at the reader: it neither panics nor loses a row.
func TestAnythingIsRead(t *testing.T) {
	words := []string{"", "", "Part No", "Hosel OD (mm)", "Bore", "OD", "mm", "13.6", ".535", "KR-20", "KR-21", "Iron", "4-PW", "Total", "* note", "#REF!", "ditto", "Ferrules", "9.5 mm", "1/2\"", "<", "^"}
	rapid.Check(t, func(t *rapid.T) {
		var lines []string
		for range rapid.IntRange(0, 14).Draw(t, "lines") {
			cells := rapid.SliceOfN(rapid.SampledFrom(words), 0, 7).Draw(t, "cells")
			lines = append(lines, strings.Join(cells, " | "))
		}
		s := grid("Sheet1", strings.Join(lines, "\n"))
		c := reader.Read([]reader.Input{{Book: book("orrin.xlsx", s)}}, reader.Options{})
		covered := map[int]bool{}
		for _, table := range c.Tables {
			if l := table.Ledger; l.Rows != l.Used+l.Assumed+l.Held+l.SetAside {
				t.Fatalf("the ledger does not add up: %+v", l)
			}
			area := sheet.Range{From: sheet.Ref{Row: 1, Col: 1}, To: sheet.Ref{Row: lastRow(s), Col: 1}}
			if table.Range != "" {
				var err error
				if area, err = sheet.ParseRange(table.Range); err != nil {
					t.Fatal(err)
				}
			} else if table.Kind == catalog.UnknownKind {
				area = sheet.Range{From: sheet.Ref{Row: 1, Col: 1}, To: sheet.Ref{Row: 0, Col: 1}}
				for _, row := range table.Rows {
					covered[row.Row] = true
				}
			}
			for row := area.From.Row; row <= area.To.Row; row++ {
				covered[row] = true
			}
		}
		for row := 1; row <= lastRow(s); row++ {
			if !covered[row] {
				t.Fatalf("row %d is in no ledger\n%s", row, explain(c))
			}
		}
	})
}

// FuzzRead reads any text as a grid: it neither panics nor loses count.
func FuzzRead(f *testing.F) {
	for _, seed := range []string{plainHeads, plainFerrules, headsWithFerrules, "Part | 1 | <\n^ | 2", "Size (ID x OD) | Part\n1x2 | A-1\n3x4 | A-2", "Part No | A\nHosel OD (mm) | 13.6\nBore (mm) | 9.5"} {
		f.Add(seed, "Heads", byte(1))
	}
	f.Fuzz(func(t *testing.T, text, name string, kind byte) {
		if len(text) > 4000 {
			t.Skip("long")
		}
		s := grid(name, text)
		input := reader.Input{Book: book("orrin.xlsx", s), Kind: catalog.Kind(kind % 4)}
		c := reader.Read([]reader.Input{input}, reader.Options{})
		checkLedger(t, c, []reader.Input{input})
		for _, h := range c.Heads {
			if h.Part == "" {
				t.Error("a head without a part number")
			}
		}
		catalog.JSON(c)
	})
}

// BenchmarkReadWords reads a sheet of mostly words, every one of them another.
func BenchmarkReadWords(b *testing.B) {
	const n = 100_000
	var text strings.Builder
	text.WriteString("Part No | Description | Category | Top | Material | Colour | Notes | Hosel OD (mm) | Bore (mm)\n")
	for i := range n {
		fmt.Fprintf(&text, "KR-%d | Forged head number %d of the series | iron | flat | steel %d | raw %d | see page %d | %.2f | 9.5\n", i, i, i, i, i, 13+float64(i%150)/100)
	}
	s := grid("Heads", text.String())
	b.ReportAllocs()
	for b.Loop() {
		c := reader.Read([]reader.Input{{Book: book("orrin.xlsx", s)}}, reader.Options{})
		if len(c.Heads) != n {
			b.Fatalf("%d heads", len(c.Heads))
		}
	}
}

func BenchmarkRead(b *testing.B) {
	for _, n := range []int{1_000, 100_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			var text strings.Builder
			text.WriteString("Part No | Description | Hosel OD (mm) | Bore (mm) | Bore depth (mm) | Top | Price\n")
			for i := range n {
				fmt.Fprintf(&text, "KR-%d | Forged iron %d | %.2f | 9.5 | %d | flat | %d.50\n", i, i%7, 13+float64(i%150)/100, 28+i%9, i%90)
			}
			s := grid("Heads", text.String())
			b.ReportAllocs()
			for b.Loop() {
				c := reader.Read([]reader.Input{{Book: book("orrin.xlsx", s)}}, reader.Options{})
				if len(c.Heads) != n {
					b.Fatalf("%d heads", len(c.Heads))
				}
			}
		})
	}
}
