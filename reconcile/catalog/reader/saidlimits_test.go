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

// limitsSaid reads a small list, and returns what limits its first part has, in mm, and whether there is a finding about limits.
func limitsSaid(lines ...string) string { return limitsOf(0, lines...) }

// limitsOf returns the same for one of the parts, counted from 0.
func limitsOf(part int, lines ...string) string {
	cat := reader.Read([]reader.Input{{Book: &sheet.Book{File: "list.csv", Sheets: []*sheet.Sheet{sheettest.Sheet("list", lines...)}}}}, reader.Options{})
	var fields catalog.Fields
	switch {
	case len(cat.Heads) > part:
		fields = cat.Heads[part].Fields
	case len(cat.Ferrules) > part:
		fields = cat.Ferrules[part].Fields
	}
	var got []string
	for _, role := range []catalog.Role{catalog.HoselOD, catalog.BaseOD, catalog.TopOD, catalog.Bore, catalog.Length, catalog.HoselLength} {
		if dim := fields.Dim(role); dim.HasLimits() {
			got = append(got, fmt.Sprintf("%s %v %v", role, dim.Lower().Sub(dim.Nominal()).Millimetres(), dim.Upper().Sub(dim.Nominal()).Millimetres()))
		}
	}
	for _, t := range cat.Tables {
		for _, f := range t.Findings {
			if f.Code == "data.tolerance" {
				got = append(got, f.Code)
			}
		}
	}
	return strings.Join(got, "; ")
}

// TestLimitsOfSentences gives the limits that notes state in words to the sizes that they name, in the words of the list first and in its unit.
func TestLimitsOfSentences(t *testing.T) {
	heads := []string{"Ref | Club | Hosel OD | Bore | Hosel length", "QV-1 | 5 | 13.6 | 9.5 | 66", "QV-2 | 6 | 13.5 | 9.5 | 67", "QV-3 | 7 | 13.9 | 9.5 | 68"}
	inches := []string{"All in inches", "", "Ref | Club | Hosel OD | Bore | Hosel length", "QV-1 | 5 | .530 | .374 | 2.6", "QV-2 | 6 | .535 | .374 | 2.625", "QV-3 | 7 | .54 | .374 | 2.7"}
	danish := []string{"Varenr. | Kølle | Hals udv. Ø | Hul | Halslængde", "QV-1 | 5 | 13.6 | 9.5 | 66", "QV-2 | 6 | 13.5 | 9.5 | 67", "QV-3 | 7 | 13.9 | 9.5 | 68"}
	rings := func(headings string) []string {
		return []string{headings, "QV-1 | 13.6 | 10.2 | 9.25 | 25.4", "QV-2 | 13.5 | 10.4 | 9.3 | 19", "QV-3 | 13.9 | 10.1 | 9.2 | 22"}
	}
	turkish, german, italian := rings("Kod | Alt çap | Üst çap | Delik | Boy"), rings("Art.-Nr. | Außen-Ø unten | Außen-Ø oben | Bohrung | Länge"), rings("Codice | Ø est. base | Ø est. punta | Foro | Lunghezza")
	for _, c := range []struct {
		list       []string
		note, want string
	}{
		{heads, "On the irons the hosel OD runs plus nothing, minus 0.1 and the bore plus 0.05, minus nothing.", "hosel_od -0.1 0; bore 0 0.05"},
		{heads, "Hosels are kept within five hundredths either way.", "hosel_od -0.05 0.05"},
		{heads, "Hosel OD plus or minus two thousandths.", "data.tolerance"},
		{heads, "Bores ±2 mm", "data.tolerance"},
		{inches, "Hosel OD plus or minus two thousandths.", "hosel_od -0.0508 0.0508"},
		{inches, "Bores plus a thousandth, minus nil; hosel OD .003 either way", "hosel_od -0.0762 0.0762; bore 0 0.0254"},
		{danish, "Halsens udv. Ø må afvige 0,05 til begge sider.", "hosel_od -0.05 0.05"},
		{turkish, "Alt çapta artı eksi 0,05 mm fark olabilir.", "base_od -0.05 0.05"},
		{turkish, "Deliklerde artı 0,03 eksi sıfır", "bore 0 0.03"},
		{german, "Bohrung plus drei Hundertstel, minus nichts; Länge zwei Zehntel nach beiden Seiten", "bore 0 0.03; length -0.2 0.2"},
		{italian, "Il foro va da meno zero a più due centesimi; lunghezza 0,2 in più o in meno", "bore 0 0.02; length -0.2 0.2"},
	} {
		if diff := cmp.Diff(c.want, limitsSaid(append(append([]string{}, c.list...), "", c.note)...)); diff != "" {
			t.Errorf("%q (-want +got):\n%s", c.note, diff)
		}
	}
}

// TestLimitsInRemarks gives the limits that the remark of a row states to the size that it names, before those of a note.
func TestLimitsInRemarks(t *testing.T) {
	for remark, want := range map[string]string{
		"":                        "base_od -0.05 0.05",
		"base plus 0, minus 0.1":  "base_od -0.1 0",
		"bore min 9.2, max 9.3":   "base_od -0.05 0.05; bore -0.05 0.05",
		"length 25.2 mm at least": "base_od -0.05 0.05",
		"bore not less than 9.25 and not more than 9.35": "base_od -0.05 0.05; bore 0 0.1",
		"bore min 9.35 max 9.4":                          "base_od -0.05 0.05; data.tolerance",
		"±0.1":                                           "base_od -0.05 0.05; data.tolerance",
		"Bohrung mindestens 9,2 und höchstens 9,3":       "base_od -0.05 0.05; bore -0.05 0.05",
		"alésage de 9,2 au moins à 9,3 au plus":          "base_od -0.05 0.05; bore -0.05 0.05",
	} {
		got := limitsSaid("Base turned to plus or minus 0.05", "", "Ref | Base OD | Top OD | Bore | Length | Remarks", "QV-1 | 13.6 | 10.2 | 9.25 | 25.4 | "+remark, "QV-2 | 13.5 | 10.4 | 9.3 | 19 | new", "QV-3 | 13.9 | 10.1 | 9.2 | 22 | ")
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%q (-want +got):\n%s", remark, diff)
		}
	}
	// The rows beside it have the same sizes, and no remark.
	list := []string{"Ref | Base OD | Top OD | Bore | Length | Remarks", "QV-1 | 13.6 | 10.2 | 9.25 | 25.4 | ", "QV-2 | 13.6 | 10.2 | 9.25 | 25.4 | base +0/-0.1", "QV-3 | 13.6 | 10.2 | 9.25 | 25.4 | "}
	for part, want := range []string{"", "base_od -0.1 0", ""} {
		if diff := cmp.Diff(want, limitsOf(part, list...)); diff != "" {
			t.Errorf("part %d (-want +got):\n%s", part, diff)
		}
	}
}

// TestLimitsOfSomeClubs gives limits in a sentence that begins with kinds of club to these alone, each size that it names.
func TestLimitsOfSomeClubs(t *testing.T) {
	for note, want := range map[string][2]string{
		"On the irons the hosel OD runs plus nothing, minus 0.1 and the bore plus 0.05, minus nothing.": {"hosel_od -0.1 0; bore 0 0.05", ""},
		"For woods: bore ±0.05, hosel OD ±0.1":                                                          {"", "hosel_od -0.1 0.1; bore -0.05 0.05"},
		"Hosel OD of irons ±0.1, of woods ±0.05":                                                        {"hosel_od -0.1 0.1", "hosel_od -0.05 0.05"},
	} {
		list := []string{"Ref | Category | Hosel OD | Bore | Hosel length", "QV-1 | Iron | 13.6 | 9.5 | 66", "QV-2 | Wood | 12.5 | 8.6 | 67", "QV-3 | Iron | 13.9 | 9.5 | 68", "", note}
		if diff := cmp.Diff(want, [2]string{limitsOf(0, list...), limitsOf(1, list...)}); diff != "" {
			t.Errorf("%q (-want +got):\n%s", note, diff)
		}
	}
}

// TestLimitsSaidInCells gives sizes the limits that their cells say in words, and so those below that repeat them.
func TestLimitsSaidInCells(t *testing.T) {
	for _, c := range []struct {
		ditto, cell, want string
	}{
		{"as above", "13.5 plus or minus 0.05", "hosel_od -0.05 0.05"},
		{"wie oben", "zwischen 13,4 und 13,6", "hosel_od -0.1 0.1"},
		{"idem", "13,5 plus ou moins 0,05", "hosel_od -0.05 0.05"},
		{"同上", "13.4と13.6の間", "hosel_od -0.1 0.1"},
		{"id.", "13,5, più niente, meno 0,1", "hosel_od -0.1 0"},
	} {
		list := []string{"Part No | Club | Hosel OD (mm) | Bore (mm)", "QV-1 | 5 | " + c.cell + " | 9.5", "QV-2 | 6 | " + c.ditto + " | 9.5", "QV-3 | 7 | 13.5 | 9.5"}
		if got := limitsOf(1, list...); got != c.want {
			t.Errorf("%s, %s: want %q, got %q", c.cell, c.ditto, c.want, got)
		}
	}
}
