package reader_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// TestLimitsOfNotes gives the limits that notes state to the sizes that they mean, and to no others.
func TestLimitsOfNotes(t *testing.T) {
	for note, want := range map[string]string{
		"Bore +0.05 / -0.02 mm":                                "bore -0.02 0.05",
		"Base OD +0 / -0.1 mm":                                 "base_od -0.1 0",
		"OD ±0.05 base, ±0.1 top":                              "base_od -0.05 0.05; top_od -0.1 0.1",
		"OD ±0.05 top and bottom":                              "base_od -0.05 0.05; top_od -0.05 0.05",
		"Outer diameter at the bottom (base) ±0.05":            "base_od -0.05 0.05",
		"OD ±0.05":                                             "base_od -0.05 0.05; top_od -0.05 0.05",
		"Bores run under, never over: +0/-0.03":                "bore -0.03 0",
		"Alesaggio più cinque centesimi, meno zero":            "bore 0 0.05",
		"Bohrung: oberes Abmaß +0,05, unteres -0,02":           "bore -0.02 0.05",
		"Longueur plus ou moins 3 dixièmes de mm":              "length -0.3 0.3",
		"Top OD, base OD and bore each ±0.02":                  "base_od -0.02 0.02; bore -0.02 0.02; top_od -0.02 0.02",
		"Bore ±0.02, weight ±2 g":                              "bore -0.02 0.02",
		"Lie ±2°, gold ring +0,30 €, weights ±3 g":             "",
		"Tolerance ±0.08, sizes in mm":                         "base_od -0.08 0.08; bore -0.08 0.08; length -0.08 0.08; top_od -0.08 0.08",
		"Fat ends are turned to plus or minus 0.05.":           "base_od -0.05 0.05",
		"Turned to within .05 on the thin end":                 "top_od -0.05 0.05",
		"Fat ends held to 2 thou, holes good to a thou":        "base_od -0.0508 0.0508; bore -0.0254 0.0254",
		"Lengths within half a mm":                             "length -0.5 0.5",
		"Alésages à deux centièmes près":                       "bore -0.02 0.02",
		"Bohrung innerhalb 0,02 mm":                            "bore -0.02 0.02",
		"Foro entro 0,02 mm":                                   "bore -0.02 0.02",
		"内径误差不超过0.02":                                          "bore -0.02 0.02",
		"Prices good to 31.12, delivery within 14 days":        "",
		"Fat ends held to .530, carriage within 0.20 £":        "",
		"Steel shafts 41 in., graphite 46 in., cut at no cost": "",
	} {
		lines := []string{"Part | Base OD | Top OD | Bore | Length", "QV-1 | 13.6 | 10.2 | 9.25 | 25.4", "QV-2 | 13.5 | 10.4 | 9.3 | 19", "QV-3 | 13.9 | 10.1 | 9.2 | 22", "", note}
		cat := reader.Read([]reader.Input{{Book: &sheet.Book{File: "list.csv", Sheets: []*sheet.Sheet{sheettest.Sheet("list", lines...)}}}}, reader.Options{})
		var got []string
		for _, role := range []catalog.Role{catalog.BaseOD, catalog.Bore, catalog.Length, catalog.TopOD} {
			dim := cat.Ferrules[0].Fields.Dim(role)
			if !dim.Given() {
				t.Errorf("%q: no %s", note, role)
			}
			if dim.HasLimits() {
				got = append(got, fmt.Sprintf("%s %v %v", role, dim.Lower().Sub(dim.Nominal()).Millimetres(), dim.Upper().Sub(dim.Nominal()).Millimetres()))
			}
		}
		if diff := cmp.Diff(want, strings.Join(got, "; ")); diff != "" {
			t.Errorf("%q (-want +got):\n%s%v", note, diff, cat.Tables[0].Findings)
		}
	}
}

// TestUnitsOfNotes takes the unit that a note states for the sizes that it speaks of.
func TestUnitsOfNotes(t *testing.T) {
	for note, want := range map[string]string{
		"Length column is in inches":               "length",
		"Attention, longueur en pouces !":          "length",
		"Sizes in mm except the length, in inches": "base_od bore length top_od",
		"All sizes in mm; length in inches":        "base_od bore length top_od",
	} {
		lines := []string{"Part | Base OD | Top OD | Bore | Length", "QV-1 | 13.6 | 10.2 | 9.25 | 1", "QV-2 | 13.5 | 10.4 | 9.3 | 0.75", "QV-3 | 13.9 | 10.1 | 9.2 | 0.875", "", note}
		cat := reader.Read([]reader.Input{{Book: &sheet.Book{File: "list.csv", Sheets: []*sheet.Sheet{sheettest.Sheet("list", lines...)}}}}, reader.Options{})
		var stated []string
		for _, role := range []catalog.Role{catalog.BaseOD, catalog.Bore, catalog.Length, catalog.TopOD} {
			for _, c := range cat.Tables[0].Columns {
				if c.Role == role && c.Weighed.UnitTaken == "" {
					stated = append(stated, string(role))
				}
			}
			if !cat.Ferrules[0].Fields.Dim(role).Given() {
				t.Errorf("%q: no %s", note, role)
			}
		}
		if diff := cmp.Diff(want, strings.Join(stated, " ")); diff != "" {
			t.Errorf("%q (-want +got):\n%s%v", note, diff, cat.Tables[0].Findings)
		}
	}
}
