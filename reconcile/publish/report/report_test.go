package report_test

import (
	"bytes"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/publish/report"
)

// made is a section with a cell of every kind, and one of every look.
func made() *report.Section {
	return &report.Section{
		Name: "Parts",
		Columns: []report.Column{
			report.Text("part", 10).Bold(), report.Diameter("od", 8), report.Fine("bore", 8), report.Along("length", 8), report.Count("heads", 8), report.Pieces("pieces", 8),
			report.Minutes("minutes", 8), report.Hours("hours", 8), report.Share("share", 8), report.Money("cost", 8), report.Price("price", 8), report.Verdict("verdict", 8),
			report.Word("is", 6), report.Sentence("why", 40), report.Source("from", 30),
		},
		Rows: [][]any{
			{
				report.Strong{Cell: report.Link{Text: "=A1", Section: "Parts"}}, report.Of(measure.Micrometres(13_600)), report.Of(measure.Micrometres(9_398)), report.Of(measure.Micrometres(12_700)), 3, 2.5,
				1.25, 0.5, .125, 1234.5, .4567, fitcalc.Turn, report.YesNo(true), report.Faint{Cell: "two\nlines"}, finding.Place{File: "a.csv", Row: 2},
			},
			{"b", report.Size{}, "none", nil, report.Marked{Cell: 0, Tone: report.Work}, nil, nil, nil, nil, nil, nil, nil, report.Answer{}, report.Begins{Cell: ""}, report.At{Place: finding.Place{Row: 7}}},
		},
	}
}

func TestCSV(t *testing.T) {
	for units, want := range map[fitcalc.Units]string{
		fitcalc.Metric: "part,od_mm,bore_mm,length_mm,heads,pieces,minutes,hours,share,cost,price,verdict,is,why,from\r\n" +
			"'=A1,13.6,9.398,12.7,3,2.5,1.25,0.5,0.125,1234.5,0.4567,turn,yes,\"two\nlines\",\"a.csv, row 2\"\r\n" +
			"b,,none,,0,,,,,,,,,,row 7\r\n",
		// 13.6/25.4 = .535433…
		fitcalc.Imperial: "part,od_in,bore_in,length_in,heads,pieces,minutes,hours,share,cost,price,verdict,is,why,from\r\n" +
			"'=A1,0.535433,0.37,0.5,3,2.5,1.25,0.5,0.125,1234.5,0.4567,turn,yes,\"two\nlines\",\"a.csv, row 2\"\r\n" +
			"b,,none,,0,,,,,,,,,,row 7\r\n",
	} {
		var out bytes.Buffer
		if err := report.WriteCSV(&out, made(), units); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want, out.String()); diff != "" {
			t.Errorf("%v (-want +got):\n%s", units, diff)
		}
	}
}

func TestCellText(t *testing.T) {
	s := made()
	want := []string{"=A1", ".535", ".3700", ".5000", "3", "2.5", "1.2", "0.5", "12.5 %", "1234.50", "0.46", "turn", "yes", "two\nlines"}
	for i := range want {
		if got := report.CellText(s.Rows[0][i], s.Columns[i].Kind, fitcalc.Imperial); got != want[i] {
			t.Errorf("%s: got %q, want %q", s.Columns[i].Heading, got, want[i])
		}
	}
	if got := report.CellText(s.Rows[0][1], report.KindDiameter, fitcalc.Metric); got != "13.60" {
		t.Errorf("in mm %q", got)
	}
}

// A terminal is not steered, and columns stand below each other also where letters are two places wide.
func TestText(t *testing.T) {
	table := report.Listing("part", "why")
	table.Add("シャフト", "a\x1b[31m")
	table.Add("b", "c")
	var out bytes.Buffer
	if err := report.WriteText(&out, table, fitcalc.Metric, "  "); err != nil {
		t.Fatal(err)
	}
	want := "  part      why\n  シャフト  a [31m\n  b         c\n"
	if diff := cmp.Diff(want, out.String()); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	out.Reset()
	files := report.Listing("", "")
	files.Add("my  folder/a.csv", "the counts")
	if err := report.WriteText(&out, files, fitcalc.Metric, ""); err != nil || out.String() != "my  folder/a.csv  the counts\n" {
		t.Errorf("%q (%v)", out.String(), err)
	}
}

func TestPrinted(t *testing.T) {
	s := made()
	if got := s.PrintedColumns(); got != 14 {
		t.Errorf("%d columns are printed, want those before the source", got)
	}
	s.Printed = 3
	if got := s.PrintedColumns(); got != 3 {
		t.Errorf("%d columns are printed, want 3", got)
	}
}
