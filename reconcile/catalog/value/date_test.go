package value

import (
	"strconv"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/sheet"
)

func dateCell(year, month, day int, format string) sheet.Cell {
	days := time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC).Sub(time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)).Hours() / 24
	return sheet.Cell{Kind: sheet.Date, Raw: strconv.Itoa(int(days)), Shown: "a date", Format: format}
}

func TestDatesToFraction(t *testing.T) {
	// ECMA-376, part 1, 18.17.4.1: serial 41260 is 2012-12-17, and 61 is 1900-03-01.
	if cell := dateCell(2012, 12, 17, ""); cell.Raw != "41260" {
		t.Fatalf("the test's own serial is %s", cell.Raw)
	}
	for _, test := range []struct {
		cell sheet.Cell
		want []string
	}{
		{dateCell(2027, 3, 8, "d-mmm"), []string{"3/8"}},
		{dateCell(2027, 8, 3, "d-mmm"), []string{"3/8"}},
		{dateCell(2027, 1, 2, "d-mmm"), []string{"1/2"}},
		{dateCell(2027, 2, 1, "d-mmm"), []string{"1/2"}},
		{dateCell(2027, 5, 16, "d-mmm"), []string{"5/16"}},
		{dateCell(2027, 7, 16, "d-mmm"), []string{"7/16"}},
		{dateCell(1932, 9, 1, "mmm-yy"), []string{"9/32"}},
		{dateCell(1964, 11, 1, "mmm-yy"), []string{"11/64"}},
		{dateCell(2004, 1, 1, "m/d/yyyy"), []string{"1-1/4"}},
		{dateCell(2008, 1, 3, "m/d/yyyy"), []string{"1-3/8", "3-1/8"}},
		{dateCell(2027, 5, 20, "d-mmm"), nil},
		{dateCell(2027, 3, 6, "d-mmm"), nil},
		{sheet.Cell{Kind: sheet.Number, Raw: "45292"}, nil},
		{sheet.Cell{Kind: sheet.Text, Raw: "8-Mar"}, nil},
		{sheet.Cell{Kind: sheet.Date, Raw: "0.5"}, nil},
		{sheet.Cell{Kind: sheet.Date, Raw: "60"}, nil},
		{sheet.Cell{Kind: sheet.Date, Raw: "nonsense"}, nil},
		{sheet.Cell{Kind: sheet.Date, Raw: "1e99"}, nil},
	} {
		fraction, found := DatesToFraction(test.cell)
		var got []string
		if found {
			got = append([]string{fraction.Text}, fraction.Others...)
			if fraction.Message == "" {
				t.Errorf("%+v: no message", test.cell)
			}
		}
		if diff := cmp.Diff(test.want, got); diff != "" {
			t.Errorf("%+v (-want +got):\n%s", test.cell, diff)
		}
	}
}

// TestEveryFractionThatBecomesADate types every fraction of an inch as a program that expects month/day or day/month would
// take it, and asks for it back.
func TestEveryFractionThatBecomesADate(t *testing.T) {
	for den := 2; den <= 16; den *= 2 {
		for num := 1; num < den && num <= 12; num += 2 {
			want := strconv.Itoa(num) + "/" + strconv.Itoa(den)
			cells := []sheet.Cell{dateCell(2027, num, den, "d-mmm")}
			if den <= 12 {
				cells = append(cells, dateCell(2027, den, num, "d-mmm"))
			}
			for _, cell := range cells {
				if f, found := DatesToFraction(cell); !found || f.Text != want {
					t.Errorf("%s comes back as %+v", want, f)
				}
			}
		}
	}
}

func TestDateText(t *testing.T) {
	for text, want := range map[string]bool{
		"8-Mar": true, "08-Mar": true, "Mar-8": true, "8 Mar 2027": true, "8. März": true, "8-mrz": true, "8 août": true, "3 ago": true, "8-mag": true, "3月8日": true, "2027年3月8日": true, "3월 8일": true, "2027-03-08 00:00:00": true, "8.3.2027": true, "3/8/27": true, "1-1-04": true, "Sep-32": true, "8 March": true,
		"13.6 mm": false, "8 marks": false, "3/8": false, "1-1/4": false, "1-1/16": false, "12 h9": false, "13.5-13.7": false, "45-Mar": false, "3 jaw": false, ".355 taper": false, "10 set": true, "": false,
	} {
		if _, got := dateText(text); got != want {
			t.Errorf("%q is a date: %v, want %v", text, got, want)
		}
	}
}
