package reader_test

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/reconcile/catalog"
)

// fieldOf returns a field of the first row of a part.
func fieldOf(t *testing.T, c *catalog.Catalogue, part string, role catalog.Role) catalog.Field {
	t.Helper()
	for _, table := range c.Tables {
		for _, row := range table.Rows {
			if row.Part == part {
				return row.Fields.Get(role)
			}
		}
	}
	t.Fatalf("no row for %s", part)
	return catalog.Field{}
}

// Three sizes in a cell, or two under a heading that says that they were measured, are readings of pieces of the part: their mean,
// with limits, and no size is lost. Whatever they are parted by, and in any language.
func TestCellsOfReadings(t *testing.T) {
	for name, tt := range map[string]struct {
		heading, cell string
		want          []string
	}{
		"commas":                    {"Hosel OD (mm)", "13.58, 13.62, 13.60", []string{"13.58", "13.62", "13.6"}},
		"semicolons, and its unit":  {"Hosel OD", "13.58; 13.62; 13.60 mm", []string{"13.58", "13.62", "13.6"}},
		"decimal commas":            {"Hosel-Ø (mm)", "13,58; 13,62; 13,60", []string{"13.58", "13.62", "13.6"}},
		"slashes":                   {"Hosel OD (mm)", "13.58 / 13.62 / 13.60", []string{"13.58", "13.62", "13.6"}},
		"Japanese commas":           {"ホーゼル外径 (mm)", "13.58、13.62、13.60", []string{"13.58", "13.62", "13.6"}},
		"inches":                    {"Hosel OD (in)", ".535, .536, .5355", []string{"13.589", "13.6144", "13.6017"}},
		"two that were measured":    {"Hosel OD measured (mm)", "13.58 / 13.62", []string{"13.58", "13.62"}},
		"two, in German":            {"Hosel-Ø gemessen (mm)", "13,58; 13,62", []string{"13.58", "13.62"}},
		"two, in Japanese":          {"ホーゼル外径（実測） (mm)", "13.58、13.62", []string{"13.58", "13.62"}},
		"two, in Chinese":           {"杆颈外径实测 (mm)", "13.58、13.62", []string{"13.58", "13.62"}},
		"two, and nobody measured":  {"Hosel OD (mm)", "13.58, 13.62", nil},
		"one, measured":             {"Hosel OD measured (mm)", "13.58", nil},
		"too far apart":             {"Hosel OD (mm)", "13.0, 13.6, 13.6", nil},
		"one of them with limits":   {"Hosel OD (mm)", "13.58, 13.62 ±0.1, 13.60", nil},
		"tips that the part is for": {"Bore (in)", ".335/.350/.355", nil},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Heads", "\nPart No | "+tt.heading+" | Bore depth (mm)\nTW-1 | "+tt.cell+" | 32\nTW-2 | 13.6 mm | 32\nTW-3 | 13.5 mm | 32\n"))
			defer show(t, c)
			f := fieldOf(t, c, "TW-1", catalog.HoselOD)
			if tt.want == nil {
				if f.Measured != nil {
					t.Errorf("read as readings: %+v", f.Measured)
				}
				return
			}
			if f.Measured == nil {
				t.Fatalf("no readings: %+v", f)
			}
			var got []string
			for _, r := range f.Measured.Readings {
				got = append(got, strings.TrimSuffix(r.String(), " mm"))
			}
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
			if f.Dim.Origin() != measure.Measured || !f.Dim.HasLimits() || f.Measured.Size.Of != sample.SeveralPieces || f.Measured.Stated.Given() {
				t.Errorf("%v: %+v", f.Dim, f.Measured)
			}
			if c.Heads[0].Head.HoselOD != f.Dim || len(f.Measured.Places) != 1 || f.Measured.Places[0].Cell != f.Cell {
				t.Errorf("the head has %v; %v", c.Heads[0].Head.HoselOD, f.Measured.Places)
			}
			wantFinding(t, c, "data.leniency", f.Cell, "readings of pieces")
		})
	}
}

// Readings in columns of their own are readings too; what is stated beside them stays known.
func TestColumnsOfReadings(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Hosel OD measured 1 (mm) | Hosel OD measured 2 (mm) | Bore depth (mm)
TW-1 | 13.6 | 13.52 | 13.56 | 32
TW-2 | 13.6 ±0.1 | 13.58 |  | 32
TW-3 | 13.6 | 13.57 |  | 32
TW-4 | 13.6 |  |  | 32
TW-5 |  | 13.5 | 13.5 | 32
TW-6 | 13.6 | 12.5 | 13.5 | 32
`))
	defer show(t, c)
	for part, want := range map[string]struct {
		stated string
		mean   float64
		n      int
	}{"TW-1": {"13.6 mm", 13.54, 2}, "TW-2": {"13.6 ±0.1 mm", 13.58, 1}, "TW-3": {"13.6 mm", 13.57, 1}, "TW-5": {"not given", 13.5, 2}} {
		f := fieldOf(t, c, part, catalog.HoselOD)
		if f.Measured == nil || f.Measured.Stated.String() != want.stated || f.Measured.Size.N != want.n || math.Abs(f.Dim.Nominal().Millimetres()-want.mean) > 1e-9 ||
			f.Dim.Origin() != measure.Measured || len(f.Measured.Places) != want.n {
			t.Errorf("%s: %v, %+v", part, f.Dim, f.Measured)
		}
	}
	// ±.1 mm are stated for TW-2, and ±.003 in are usual for TW-3
	if wide, usual := fieldOf(t, c, "TW-2", catalog.HoselOD), fieldOf(t, c, "TW-3", catalog.HoselOD); !usual.Dim.Width().Less(wide.Dim.Width()) {
		t.Errorf("one reading: %v where ±.1 mm is stated, %v where nothing is", wide.Dim, usual.Dim)
	}
	if f := fieldOf(t, c, "TW-4", catalog.HoselOD); f.Measured != nil || f.Dim.String() != "13.6 mm" {
		t.Errorf("no reading: %v, %+v", f.Dim, f.Measured)
	}
	if f := fieldOf(t, c, "TW-6", catalog.HoselOD); f.Dim.Given() {
		t.Errorf("readings a millimetre apart: %v", f.Dim)
	}
	wantFinding(t, c, "data.conflict", "B7", "too far apart")
}

// The same part stated in one sheet and measured in another is one part: what was measured counts, and the other stays beside it, as
// long as it is not too far off.
func TestReadingsMerge(t *testing.T) {
	for stated, agrees := range map[string]bool{"13.6": true, "13.0": false} {
		c := read(t, grid("Stated", "\nPart No | Hosel OD (mm) | Bore depth (mm)\nTW-1 | "+stated+" | 32\n"),
			grid("Measured", "\nPart No | Hosel OD measured (mm) | Bore depth (mm)\nTW-1 | 13.55; 13.57 | 32\n"))
		h := c.Heads[0]
		if agrees {
			m := h.Fields.Get(catalog.HoselOD).Measured
			if len(c.Heads) != 1 || m == nil || m.Stated.String() != "13.6 mm" || h.Head.HoselOD.Origin() != measure.Measured {
				t.Errorf("%s: %d heads, %v, %+v", stated, len(c.Heads), h.Head.HoselOD, m)
			}
			continue
		}
		if h.Head.HoselOD.Given() || h.Fields.Get(catalog.HoselOD).Measured != nil {
			t.Errorf("%s: %v, %+v", stated, h.Head.HoselOD, h.Fields.Get(catalog.HoselOD))
		}
	}
}

// TestCountedReadings takes sizes under headings that are alike but for a number for readings of one size, where there are three or more.
func TestCountedReadings(t *testing.T) {
	c := read(t, grid("Heads", `
All in mm
Part | Hosel OD 1 | Hosel OD 2 | Hosel OD 3 | Bore
ZL-4 | 13.48 | 13.50 | 13.52 | 9.5
ZL-5 | 13.49 | 13.50 | 13.51 | 9.5
`))
	defer show(t, c)
	wantRow(t, c, "ZL-4", catalog.Used, sizes{catalog.HoselOD: 13.5, catalog.Bore: 9.5})
	c = read(t, grid("Heads", `
All in mm
Part | Hosel OD 1 | Hosel OD 2 | Bore
ZL-4 | 13.48 | 13.60 | 9.5
ZL-5 | 13.49 | 13.70 | 9.5
`))
	defer show(t, c)
	wantRow(t, c, "ZL-4", catalog.Held, sizes{catalog.HoselOD: 0})
}
