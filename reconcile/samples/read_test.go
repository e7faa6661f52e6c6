package samples_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/samples"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/sheettest"
)

func book(lines ...string) *sheet.Book { return sheettest.Book("m.csv", "S", lines...) }

// all takes every part for one of some kinds.
func all(kinds ...catalog.Kind) samples.Finder {
	return func(string, string) ([]catalog.Kind, string) { return kinds, "" }
}

func told(r samples.Readings) []string {
	var all []string
	for _, x := range r.Readings {
		all = append(all, fmt.Sprintf("%s %s %s %s", x.Part, x.Role, x.Size, x.Place.Cell))
	}
	for _, f := range r.Findings {
		all = append(all, fmt.Sprintf("%s %s", f.Code, f.Place.Cell))
	}
	return append(all, fmt.Sprint(r.Ledger))
}

func TestReadReadings(t *testing.T) {
	for name, test := range map[string]struct {
		kind catalog.Kind
		book *sheet.Book
		want []string
	}{
		"one row for each part": {catalog.Ferrules, book("Samples of spring", "", "Part | Colour | Reading 1 (mm) | Reading 2 (mm) | Note", "F-1 | black | 13,02 | 13.05 | fine", "", "checked by the bench"),
			[]string{"F-1 base_od 13.02 mm C4", "F-1 base_od 13.05 mm D4", "{6 1 0 5}"}},
		"headings say what": {catalog.Ferrules, book("Part No. | Base OD 1 (in) | Base OD 2 (in) | Bore 1 (mm)", "F-1 | .512 | .513 | 9.35"),
			[]string{"F-1 base_od 13.0048 mm B2", "F-1 base_od 13.0302 mm C2", "F-1 bore 9.35 mm D2", "{2 1 0 1}"}},
		"a column says what": {catalog.Ferrules, book("Part | Measured | Unit | Reading", "F-1 | base OD | mm | 13.0", "F-1 | bore | in | .368", "F-1 | bore | in | .369"),
			[]string{"F-1 base_od 13 mm D2", "F-1 bore 9.3472 mm D3", "F-1 bore 9.3726 mm D4", "{4 3 0 1}"}},
		"heads": {catalog.Heads, book("All sizes in mm", "Part | 1 | 2 | 3", "H-1 | 13.0 | 13.1 | 12.9"),
			[]string{"H-1 hosel_od 13 mm B3", "H-1 hosel_od 13.1 mm C3", "H-1 hosel_od 12.9 mm D3", "{3 1 0 2}"}},
		"what cannot be used": {catalog.Heads, book("Part | Reading 1 | Reading 2 (mm)", "H-1 | 13.0 | 13.1", "H-2 | 13.0 | ", " | 13 mm | 13", "H-3 | R6.5 mm | 13.0 ±0.1", "H-4 | good | 13.0"),
			[]string{"H-1 hosel_od 13.1 mm C2", "H-4 hosel_od 13 mm C6", "data.unit B2", "data.missing ", "data.unit B3", "data.missing A4", "data.missing ", "data.implausible B5", "data.unreadable C5", "data.unreadable B6", "{6 2 3 1}"}},
		"a column says what it cannot be": {catalog.Ferrules, book("Part | Measured | Reading (mm)", "F-1 | hosel OD | 13.0", "F-1 | base OD | 13.0", "F-1 | sheen | 13.0", "F-1 |  | 13.1"),
			[]string{"F-1 base_od 13 mm C3", "F-1 base_od 13.1 mm C5", "data.missing ", "data.conflict C2", "data.missing ", "data.unreadable C4", "{5 2 2 1}"}},
		"several readings in a cell": {catalog.Heads, book("Part | Readings (mm)", "H-1 | 13.58; 13.62; 13.60", "H-2 | 13,58; 13,62", "H-3 | 13.58 / 13.62", "H-4 | 13.5-13.7"),
			[]string{"H-1 hosel_od 13.58 mm B2", "H-1 hosel_od 13.62 mm B2", "H-1 hosel_od 13.6 mm B2", "H-2 hosel_od 13.58 mm B3", "H-2 hosel_od 13.62 mm B3",
				"H-3 hosel_od 13.58 mm B4", "H-3 hosel_od 13.62 mm B4", "data.missing ", "data.unreadable B5", "{5 3 1 1}"}},
		"sizes that cannot be": {catalog.Heads, book("Part | Reading 1 (mm) | Reading 2 (mm)", "H-1 | 136 | 13.6"),
			[]string{"H-1 hosel_od 13.6 mm C2", "data.implausible B2", "{2 1 0 1}"}},
		"of tips":        {catalog.Tips, book("Part | Reading 1 (in) | Reading 2 (in)", "T-1 | .3695 | .3700"), []string{"T-1 tip_od 9.3853 mm B2", "T-1 tip_od 9.398 mm C2", "{2 1 0 1}"}},
		"German":         {catalog.Ferrules, book("Artikel-Nr.;", "Artikel-Nr. | Messwert 1 (mm) | Messwert 2 (mm)", "F-1 | 13,02 | 13,05"), []string{"F-1 base_od 13.02 mm B3", "F-1 base_od 13.05 mm C3", "{3 1 0 2}"}},
		"no table":       {catalog.Heads, book("Dear colleague", "nothing here"), []string{"layout.no-table ", "{2 0 0 2}"}},
		"nothing at all": {catalog.Heads, &sheet.Book{File: "m.csv"}, []string{"layout.no-table ", "{0 0 0 0}"}},
	} {
		t.Run(name, func(t *testing.T) {
			if diff := cmp.Diff(test.want, told(samples.Read(test.book, all(test.kind)))); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

func FuzzReadings(f *testing.F) {
	f.Add("Part | Reading 1 (mm)\nF-1 | 13.0")
	f.Add("Teil | 1 | 2\n | 3")
	f.Fuzz(func(t *testing.T, text string) {
		b := book(strings.Split(text, "\n")...)
		for _, kind := range []catalog.Kind{catalog.Heads, catalog.Ferrules, catalog.Tips} {
			l := samples.Read(b, all(kind)).Ledger
			if l.Rows != l.Used+l.Held+l.SetAside {
				t.Errorf("ledger %+v", l)
			}
		}
	})
}

// What a part is settles what was measured; where the number is that of a head and of a ferrule, the heading does.
func TestReadFindsTheKind(t *testing.T) {
	find := func(part, supplier string) ([]catalog.Kind, string) {
		switch part {
		case "H":
			return []catalog.Kind{catalog.Heads}, ""
		case "F":
			return []catalog.Kind{catalog.Ferrules}, ""
		case "B":
			return []catalog.Kind{catalog.Heads, catalog.Ferrules}, ""
		}
		return nil, "is unknown to " + supplier
	}
	b := book("Part | Supplier | Hosel OD (mm) | Base OD (mm) | Bore (mm)",
		"H | Orrin | 13.6 |  | 9.5", "F | Orrin |  | 13.7 | 9.35", "B | Orrin | 13.6 | 13.7 | 9.4", "X | Orrin | 13.6 |  | ")
	want := []string{
		"H hosel_od 13.6 mm C2", "H bore 9.5 mm E2", "F base_od 13.7 mm D3", "F bore 9.35 mm E3", "B hosel_od 13.6 mm C4", "B base_od 13.7 mm D4",
		"data.conflict E4", "data.missing A5", "{5 3 1 1}",
	}
	r := samples.Read(b, find)
	if diff := cmp.Diff(want, told(r)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	for _, x := range r.Readings {
		if want := map[string]catalog.Kind{"hosel_od": catalog.Heads, "base_od": catalog.Ferrules}[string(x.Role)]; want != 0 && x.Kind != want || x.Supplier != "Orrin" {
			t.Errorf("%+v", x)
		}
	}
	if last := r.Findings[len(r.Findings)-1]; last.Message != "X is unknown to Orrin; its readings are not used" {
		t.Errorf("%q", last.Message)
	}
}
