package reader_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
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

// TestReadingsBelowOneHeading takes what a line counts below one heading for readings of one size, in whatever way and language it does; two are
// enough where more than bare numbers count them, or their mean stands beside them. What only looks like it is none.
func TestReadingsBelowOneHeading(t *testing.T) {
	for counted, want := range map[string]int{
		"#1 | #2 | #3":                         3,
		"#1 | #2 | #3 | mean":                  3,
		"1 | 2 | 3":                            3,
		"1 | 2 | Avg":                          2,
		"1. | 2. | Ø":                          0, // a mean, or a diameter
		"No.1 | No.2 | No.3":                   3,
		"1st | 2nd | 3rd | Average":            3,
		"0 deg | 60 deg | 120 deg | mean":      3,
		"0° | 90° | avg":                       2,
		"0° | 90°":                             2,
		"pin 1 | pin 2":                        2,
		"X1 | X2 | X3":                         3,
		"x1 | x2 | x̄":                         2,
		"sample A | sample B | sample C":       3,
		"sample A | B | C":                     3,
		"Piece 1 | Piece 2 | Min | Max":        2,
		"Min | Max | Mean | R1 | R2 | R3":      3,
		"reading 1 | reading 2 | range | mean": 2,
		"top | mid | bottom":                   3,
		"Mess. 1 | Mess. 2 | Mittel":           2,
		"Muster 1 | Muster 2 | Ø-Wert":         2,
		"oben | Mitte | unten":                 3,
		"Mesure 1 | Mesure 2 | Moy.":           2,
		"haut | milieu | bas":                  3,
		"Muestra 1 | Muestra 2 | Promedio":     2,
		"Misura 1 | Misura 2 | Media":          2,
		"Leitura 1 | Leitura 2 | Média":        2,
		"Meting 1 | Meting 2 | Gem.":           2,
		"Prov 1 | Prov 2 | Medel":              2,
		"Måling 1 | Måling 2 | Gns.":           2,
		"Mittaus 1 | Mittaus 2 | Keskiarvo":    2,
		"Pomiar 1 | Pomiar 2 | Średnia":        2,
		"Měření 1 | Měření 2 | Průměr":         2,
		"Ölçüm 1 | Ölçüm 2 | Ort.":             2,
		"Lần 1 | Lần 2 | TB":                   2,
		"ครั้งที่ 1 | ครั้งที่ 2 | เฉลี่ย": 2,
		"1回目 | 2回目 | 3回目 | 平均":             3,
		"サンプル1 | サンプル2 | 平均値":              2,
		"①|②|③":           3,
		"1차 | 2차 | 평균":    2,
		"第1次 | 第2次 | 平均":  2,
		"样品1 | 样品2 | 均值":  2,
		"1 | 2":           0, // its two ends, perhaps
		"A | B | C":       0, // letters of a drawing
		"top | bottom":    0,
		"30° | 60°":       0, // no turn begins at 30°
		"type 1 | type 2": 0,
		"D1 | D2":         0, // two diameters
		"2 | 3 | 4":       0, // clubs
		"1 | 2 | 3 | PW":  0, // clubs
	} {
		t.Run(counted, func(t *testing.T) {
			columns := strings.Count(counted, "|") + 1
			blanks := strings.Repeat("| ", columns-1)
			text := "All in mm\nPart No. | Description | Hosel OD | " + blanks + " Bore depth | Remarks\n | | " + counted + " | | \n"
			for i, part := range []string{"TW-1", "TW-2", "TW-3", "TW-4"} {
				text += part + " | Iron head | "
				for head := range strings.SplitSeq(counted, "|") {
					text += map[bool]string{true: "13.5" + string(rune('0'+i)), false: "0.00"}[!strings.Contains(head, "range")] + " | "
				}
				text += "32 | \n"
			}
			c := read(t, grid("Heads", text))
			defer show(t, c)
			got := 0
			for _, row := range c.Tables[0].Rows {
				if m := row.Fields.Measured(catalog.HoselOD); strings.HasPrefix(row.Part, "TW-2") && m != nil {
					got = len(m.Readings)
				}
			}
			if got != want {
				t.Errorf("%d readings, want %d", got, want)
			}
		})
	}
}

// TestMeanOfReadings holds what a sheet says is the mean of readings against them: it has to be theirs but for its rounding, and stands for
// them where they are missing.
func TestMeanOfReadings(t *testing.T) {
	for name, heading := range map[string]string{
		"below one heading":        "Part No. | Hosel OD (mm) | | | Bore depth (mm)\n | #1 | #2 | mean | \n",
		"in headings of their own": "Part No. | Hosel OD 1 (mm) | Hosel OD 2 (mm) | Hosel OD mean (mm) | Bore depth (mm)\n",
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Heads", heading+`TW-1 | 13.50 | 13.52 | 13.51 | 32
TW-2 | 13.50 | 13.53 | 13.52 | 32
TW-3 | 13.50 | 13.52 | 13.56 | 32
TW-4 | | | 13.51 | 32
TW-5 | 13.50 | 13.52 | | 32
TW-6 | 13.50 | 13.51 | 13.505 | 32
`))
			defer show(t, c)
			for part, mean := range map[string]float64{"TW-1": 13.51, "TW-2": 13.515, "TW-4": 13.51, "TW-5": 13.51, "TW-6": 13.505} {
				f := fieldOf(t, c, part, catalog.HoselOD)
				if math.Abs(f.Dim.Nominal().Millimetres()-mean) > 1e-9 || (f.Measured == nil) != (part == "TW-4") {
					t.Errorf("%s: %v, %+v; want %g", part, f.Dim, f.Measured, mean)
				}
			}
			wantRow(t, c, "TW-3", catalog.Held, sizes{catalog.HoselOD: 0})
			wantFinding(t, c, "data.conflict", fmt.Sprintf("D%d", strings.Count(heading, "\n")+3), "mean of the readings")
		})
	}
}

// TestLimitsBesideReadings takes the least and greatest of readings for no tolerance, and takes for one what the readings do not reach.
func TestLimitsBesideReadings(t *testing.T) {
	for limits, want := range map[string]string{"13.50 | 13.52": "not given", "13.40 | 13.60": "13.5 ±0.1 mm"} {
		c := read(t, grid("Heads", "All in mm\nPart No. | Hosel OD | | | | Bore depth\n | min | max | #1 | #2 | \n"+
			"TW-1 | "+limits+" | 13.50 | 13.52 | 32\nTW-2 | "+limits+" | 13.52 | 13.50 | 32\nTW-3 | "+limits+" | 13.50 | 13.52 | 32\n"))
		defer show(t, c)
		f := fieldOf(t, c, "TW-1", catalog.HoselOD)
		if f.Measured == nil || f.Measured.Stated.String() != want {
			t.Errorf("%s: %v, %+v", limits, f.Dim, f.Measured)
		}
	}
}

// TestOddReading says which of several readings cannot be one of the size, and which lies farther off than those of the other parts do.
func TestOddReading(t *testing.T) {
	for name, tt := range map[string]struct {
		readings, cell, code, says string
		used                       bool
	}{
		"digits exchanged, impossible": {"13.52 | 31.51 | 13.50", "C7", "data.implausible", "beyond", false},
		"the first":                    {"15.32 | 13.51 | 13.50", "B7", "data.conflict", "that of 15.32 mm lies too far", false},
		"two that agree with no other": {"13.52 | 12.51 | 15.60", "B7", "data.conflict", "too far apart", false},
		"digits exchanged, possible":   {"13.52 | 13.51 | 13.25", "D7", "data.implausible", "13.25 mm may be a slip", true},
		"as the others":                {"13.52 | 13.51 | 13.49", "", "", "", true},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Heads", `
All in mm
Part No. | Hosel OD | | | Bore depth
 | #1 | #2 | #3 |
TW-1 | 13.50 | 13.52 | 13.51 | 32
TW-2 | 13.50 | 13.53 | 13.52 | 32
TW-3 | 13.50 | 13.52 | 13.50 | 32
TW-4 | `+tt.readings+` | 32
TW-5 | 13.51 | 13.52 | 13.50 | 32
TW-6 | 13.49 | 13.51 | 13.505 | 32
`))
			defer show(t, c)
			if got := fieldOf(t, c, "TW-4", catalog.HoselOD).Dim.Given(); got != tt.used {
				t.Errorf("used: %v", got)
			}
			if tt.code != "" {
				wantFinding(t, c, tt.code, tt.cell, tt.says)
				return
			}
			for _, f := range c.Findings {
				if f.Severity != finding.Note {
					t.Errorf("said for nothing: %+v", f)
				}
			}
		})
	}
}
