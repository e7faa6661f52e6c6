package workbook

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/publish/picture"
	"example.com/seatline/reconcile/publish/tell/telltest"
)

// chartXML is what the test reads of a graph as the format has it (ECMA-376, part 1, 21.2).
type chartXML struct {
	Series []struct {
		Name       string `xml:"tx>strRef>f"`
		Fill       rgb    `xml:"spPr>solidFill>srgbClr"`
		Categories string `xml:"cat>strRef>f"`
		Values     string `xml:"val>numRef>f"`
	} `xml:"chart>plotArea>barChart>ser"`
}

type rgb struct {
	Value string `xml:"val,attr"`
}

func member(t *testing.T, text []byte, name string) []byte {
	t.Helper()
	archive, err := zip.NewReader(bytes.NewReader(text), int64(len(text)))
	if err != nil {
		t.Fatal(err)
	}
	at := slices.IndexFunc(archive.File, func(f *zip.File) bool { return f.Name == name })
	if at < 0 {
		t.Fatalf("there is no %s", name)
	}
	in, err := archive.File[at].Open()
	if err != nil {
		t.Fatal(err)
	}
	content, err := io.ReadAll(in)
	if err != nil {
		t.Fatal(err)
	}
	if err := in.Close(); err != nil {
		t.Fatal(err)
	}
	return content
}

// TestGraphsShowTheirTables follows every series of the graphs to its cells.
func TestGraphsShowTheirTables(t *testing.T) {
	r := telltest.Small(t)
	for _, units := range []fitcalc.Units{fitcalc.Metric, fitcalc.Imperial} {
		text := bytesOf(t, r, Options{Units: units}, standardLimits)
		f := open(t, text)
		for i, want := range picture.All(r, units) {
			var chart chartXML
			if err := xml.Unmarshal(member(t, text, fmt.Sprintf("xl/charts/chart%d.xml", i+1)), &chart); err != nil {
				t.Fatal(err)
			}
			if len(chart.Series) != len(want.Series) {
				t.Fatalf("%s has %d series, want %d", want.ID, len(chart.Series), len(want.Series))
			}
			for k, s := range want.Series {
				got := chart.Series[k]
				values := make([]string, len(s.Values))
				for n, v := range s.Values {
					if want.Kind == picture.Opposed && k == len(want.Series)-1 {
						v = -v // drawn downward
					}
					values[n] = strconv.Itoa(v)
				}
				name := got.Name + ":" + got.Name[strings.Index(got.Name, "!")+1:]
				if diff := cmp.Diff([]string{s.Name}, listed(t, f, name)); diff != "" {
					t.Errorf("%s: name of series %d (-want +got):\n%s", want.ID, k, diff)
				}
				if diff := cmp.Diff(want.Labels, listed(t, f, got.Categories)); diff != "" {
					t.Errorf("%s: labels (-want +got):\n%s", want.ID, diff)
				}
				if diff := cmp.Diff(values, rawListed(t, f, got.Values)); diff != "" {
					t.Errorf("%s, %s (-want +got):\n%s", want.ID, s.Name, diff)
				}
				if got.Fill.Value != s.Fill {
					t.Errorf("%s, %s: fill %s, want %s", want.ID, s.Name, got.Fill.Value, s.Fill)
				}
			}
		}
	}
}

func TestVerdictsHaveTheSameFillsInPictures(t *testing.T) {
	for _, v := range fitcalc.Verdicts() {
		if got := picture.VerdictFills[v]; got != verdictLook(v).fill {
			t.Errorf("%v is %s in pictures and %s in cells", v, got, verdictLook(v).fill)
		}
	}
}

func TestNoPictures(t *testing.T) {
	f := written(t, telltest.Empty(), Options{})
	nothing := 0
	for _, row := range rows(t, f, sheetPictures) {
		if len(row) > 0 && row[0] == "Nothing to show." {
			nothing++
		}
	}
	if nothing != 3 {
		t.Errorf("%d of 3 graphs say that there is nothing to show", nothing)
	}
}

// relationships are what a sheet refers to outside itself.
type relationships struct {
	All []struct {
		ID     string `xml:"Id,attr"`
		Target string `xml:"Target,attr"`
		Mode   string `xml:"TargetMode,attr"`
	} `xml:"Relationship"`
}

// TestCellsLeadToTheirSource: what says where a part comes from leads to that cell, by a path from the workbook's own folder.
func TestCellsLeadToTheirSource(t *testing.T) {
	r := telltest.Small(t)
	text := bytesOf(t, r, Options{Sources: func(file string) string {
		return map[string]string{"heads.xlsx": "../as sent/heads #1.xlsx", "ferrules.csv": "ferrules.csv"}[file]
	}}, standardLimits)
	f := open(t, text)
	followed := 0
	for sheet, columns := range map[string]map[int]string{
		sheetFits: {23: "head", 24: "ferrule"}, sheetBest: {13: "head", 14: "ferrule"}, sheetWithout: {10: "head"}, sheetUnused: {10: "ferrule"},
	} {
		for i, row := range rows(t, f, sheet) {
			for column, what := range columns {
				at := address(column, i+1)
				linked, target, err := f.GetCellHyperLink(sheet, at)
				if err != nil {
					t.Fatal(err)
				}
				if linked {
					target += locationOf(t, f, text, sheet, at)
				} else {
					if len(row) >= column && strings.Contains(row[column-1], ".") {
						t.Errorf("%s!%s, %q, leads nowhere", sheet, at, row[column-1])
					}
					continue
				}
				followed++
				want := "ferrules.csv" // of a text file no program knows cells
				if what == "head" {
					cell := sourceCell.FindString(row[column-1])
					if before, row, found := strings.Cut(row[column-1], "row "); found && before != "" {
						cell = "A" + row
					}
					want = "../as%20sent/heads%20%231.xlsx#'Heads 2026'!" + cell
				}
				if target != want {
					t.Errorf("%s!%s, %q, leads to %s, want %s", sheet, at, row[column-1], target, want)
				}
			}
		}
	}
	if want := 2*r.Listed + 20; followed < want {
		t.Errorf("%d links followed, want %d or more", followed, want)
	}
	for i, finding := range below(t, f, sheetFindings, "Severity") {
		at := address(5, len(rows(t, f, sheetFindings))-len(below(t, f, sheetFindings, "Severity"))+i+1)
		if linked, _, err := f.GetCellHyperLink(sheetFindings, at); err != nil || linked != (finding[4] != "") {
			t.Errorf("%s, %q, leads somewhere: %v (%v)", at, finding[4], linked, err)
		}
	}
}

// locationOf is the location of a link as the sheet has it, behind a #.
func locationOf(t *testing.T, f *excelize.File, text []byte, sheet, at string) string {
	t.Helper()
	index, err := f.GetSheetIndex(sheet)
	if err != nil {
		t.Fatal(err)
	}
	var links struct {
		All []struct {
			Ref      string `xml:"ref,attr"`
			Location string `xml:"location,attr"`
		} `xml:"hyperlinks>hyperlink"`
	}
	if err := xml.Unmarshal(member(t, text, fmt.Sprintf("xl/worksheets/sheet%d.xml", index+1)), &links); err != nil {
		t.Fatal(err)
	}
	for _, link := range links.All {
		if link.Ref == at && link.Location != "" {
			return "#" + link.Location
		}
	}
	return ""
}

var sourceCell = regexp.MustCompile(`[A-Z]+[0-9]+$`)

// TestNoSourcesNoLinks: a workbook says nothing of where files lie unless it is told to.
func TestNoSourcesNoLinks(t *testing.T) {
	text := bytesOf(t, telltest.Small(t), Options{}, standardLimits)
	archive, err := zip.NewReader(bytes.NewReader(text), int64(len(text)))
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range archive.File {
		if !strings.HasSuffix(file.Name, ".rels") {
			continue
		}
		var all relationships
		if err := xml.Unmarshal(member(t, text, file.Name), &all); err != nil {
			t.Fatal(err)
		}
		for _, one := range all.All {
			if one.Mode == "External" {
				t.Errorf("%s refers to %s", file.Name, one.Target)
			}
		}
	}
}

func TestEscaped(t *testing.T) {
	for text, want := range map[string]string{
		"a b/c.xlsx": "a%20b/c.xlsx", "100%#.csv": "100%25%23.csv", "头部.csv": "头部.csv", "a\"<>.csv": "a%22%3C%3E.csv",
	} {
		if got := escaped(text); got != want {
			t.Errorf("escaped(%q) = %q, want %q", text, got, want)
		}
	}
}

func TestTargets(t *testing.T) {
	p := &page{book: &book{opts: Options{Sources: func(string) string { return "x.xlsx" }}}}
	for _, test := range []struct {
		at   finding.Place
		want string
	}{
		{finding.Place{}, ""},
		{finding.Place{File: "x", Sheet: "It's", Cell: "B7"}, "x.xlsx#'It''s'!B7"},
		{finding.Place{File: "x", Sheet: "S", Row: 4}, "x.xlsx#'S'!A4"},
		{finding.Place{File: "x", Sheet: "S"}, "x.xlsx"},
		{finding.Place{File: "x", Row: 4}, "x.xlsx"},
	} {
		got, location := p.target(test.at)
		if location != "" {
			got += "#" + location
		}
		if got != test.want {
			t.Errorf("%+v leads to %q, want %q", test.at, got, test.want)
		}
	}
}
