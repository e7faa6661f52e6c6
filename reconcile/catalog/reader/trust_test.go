package reader_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
)

// Each of these is the least of the made-up sheets (reconcile/internal/mill) that were read wrong without a word, by its cause.

// Counts in the last column look like part numbers where no heading is understood; a row of totals spoils the true ones.
func TestCountsAreNoPartNumbers(t *testing.T) {
	c := read(t, grid("Árlista ferruli", `
Cikkszám | Magasság (mm) | Ø külső mm | Ø belső (mm) | Készlet
TR 2492 | 19 | 11.8 | 8.8 | 607
TR 2494 | 25 | 13 | 8.85 | 866
TR 2497 | 20 | 12.7 | 8.85 | 41
TR 2501 | 19 | 12.7 | 8.45 | 656
Összesen | | | | 1834
`))
	defer show(t, c)
	for _, part := range []string{"607", "866", "41", "656"} {
		for _, row := range c.Tables[0].Rows {
			if row.Part == part {
				t.Errorf("%s is a count and no part number", part)
			}
		}
	}
	wantFinding(t, c, "layout.part", "A1", "by its values")
}

// A word that nobody knows over sizes that can be nothing but the outer diameter is taken for it, with a word, beside bores and nothing else
// that could be it.
func TestKeySizeByItsValues(t *testing.T) {
	for _, test := range []struct {
		name, sheet string
		taken       bool
	}{
		{"in mm", "Part | Zork | Bore (mm) | Length (mm)\nQ-1 | 13.6 | 9.35 | 25.4\nQ-2 | 13.5 | 9.35 | 20\nQ-3 | 13.6 | 8.95 | 25.4", true},
		{"in inches", "Part | Zork | Bore (in) | Length (in)\nQ-1 | .535 | .368 | 1\nQ-2 | .540 | .368 | .75\nQ-3 | .535 | .352 | 1", true},
		{"beside another end that nobody knows", "Part | Zork | Blip | Bore (mm)\nQ-1 | 13.6 | 10.8 | 9.35\nQ-2 | 13.5 | 10.5 | 9.35\nQ-3 | 13.6 | 10.2 | 8.95", true},
		{"no bore: a list of prices perhaps", "Part | Zork | Length (mm)\nQ-1 | 13.6 | 25.4\nQ-2 | 13.5 | 20\nQ-3 | 13.6 | 25.4", false},
		{"another could be it", "Part | Zork | Bore (mm) | Blip\nQ-1 | 13.6 | 9.35 | 14.1\nQ-2 | 13.5 | 9.35 | 14.0\nQ-3 | 13.6 | 8.95 | 14.1", false},
		{"whole numbers", "Part | Zork | Bore (mm) | Length (mm)\nQ-1 | 13 | 9.35 | 25.4\nQ-2 | 14 | 9.35 | 20\nQ-3 | 13 | 8.95 | 25.4", false},
		{"one of another size", "Part | Zork | Bore (mm) | Length (mm)\nQ-1 | 13.6 | 9.35 | 25.4\nQ-2 | 19.5 | 9.35 | 20\nQ-3 | 13.6 | 8.95 | 25.4", false},
		{"the word means something else", "Part | Price | Bore (mm) | Length (mm)\nQ-1 | 13.6 | 9.35 | 25.4\nQ-2 | 13.5 | 9.35 | 20\nQ-3 | 13.6 | 8.95 | 25.4", false},
	} {
		t.Run(test.name, func(t *testing.T) {
			c := read(t, grid("Ferrules", "\n"+test.sheet+"\n"))
			defer show(t, c)
			given := 0
			for _, f := range c.Ferrules {
				if f.Ferrule.BaseOD.Given() {
					given++
				}
			}
			if want := map[bool]int{true: 3}[test.taken]; given != want {
				t.Errorf("%d base ODs, want %d", given, want)
			}
			for _, row := range c.Tables[0].Rows {
				if test.taken && row.Part != "" && row.Outcome != catalog.Assumed {
					t.Errorf("row %d is %v", row.Row, row.Outcome)
				}
			}
			if test.taken {
				wantFinding(t, c, "layout.role", "B1", "by its values")
			}
		})
	}
}

// The hosels that ferrules are for are taken for their outer diameters, with a word.
func TestHoselsOfFerrules(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part | For hosel OD (in) | Bore (in) | Length (in)
Y-1 | .530-.535 | .366 | 1
Y-2 | .540-.545 | .366 | 1
`))
	defer show(t, c)
	wantFinding(t, c, "layout.role", "B1", "speaks of hosel OD")
	wantRow(t, c, "Y-1", catalog.Assumed, sizes{catalog.Bore: 9.2964})
}

// The greatest and the least outer diameter of a ferrule are those of its ends, and no limits of one.
func TestLimitsOfTwoEnds(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part no | OD max mm | OD min mm | ID mm | L mm
F-1 | 13.6 | 10.4 | 9.35 | 25
F-2 | 13.45 | 13.35 | 9.35 | 25
`))
	defer show(t, c)
	wantFinding(t, c, "data.implausible", "B2", "two ends")
	wantRow(t, c, "F-2", catalog.Used, sizes{catalog.BaseOD: 13.4})
}

// The same headings again in another unit state the sizes again; one row that differs is held, and not the list.
func TestSlipBetweenUnits(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part | Base OD | Bore | Length | Base OD | Bore | Length
 | mm | mm | mm | in | in | in
Q-1 | 13.6 | 9.35 | 25.4 | 0.535 | 0.368 | 1.000
Q-2 | 13.5 | 9.35 | 25.4 | 0.531 | 0.368 | 1.000
Q-3 | 13.7 | 9.35 | 19 | 0.593 | 0.368 | 0.750
`))
	defer show(t, c)
	for part, held := range map[string]bool{"Q-1": false, "Q-2": false, "Q-3": true} {
		for _, row := range c.Tables[0].Rows {
			if row.Part == part && (row.Outcome == catalog.Held) != held {
				t.Errorf("%s is %v", part, row.Outcome)
			}
		}
	}
	wantFinding(t, c, "data.conflict", "B5", "")
}

// A size in another column whose role is known by its values only is a rival, too.
func TestRivalByItsValuesOnly(t *testing.T) {
	c := read(t, grid("Árlista ferruli", `
Jel | Hossz (in) | Ø felső, mm | Külső átmérő [mm]
ZF-3332 | 0.875 | 10 | 14 +0/-0.08
ZF-3337 | 0.75 | 10.4 | 12.9 +0/-0.08
ZF-3338 | 0.625 | 10.2 | 13.5 +0/-0.05
ZF-3341 | 0.875 | 10.5 | 13 +0/-0.05
`))
	defer show(t, c)
	for _, f := range c.Ferrules {
		if f.Ferrule.BaseOD.Given() {
			t.Errorf("%s has base OD %v, though two columns could be it", f.Part, f.Ferrule.BaseOD)
		}
	}
}

// A unit that stands here and there in a column without a heading was cut off the size to its left, and is for no other.
func TestUnitCutOffASize(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Countersink depth | Bore | Hosel OD | | Countersink dia.
KH2233 | 0.060 | 0.372 | 0.535 | | 0.425
KH2235 | 0.050 | 0.373 | 0.510 | | 0.415
KH2238 | 0.030 | 0.375 | 0.550 | | 0.425
KH2245 | 0.050 | 0.372 | 13.5 | mm | 0.415
KH2247 | 0.030 | 0.374 | 0.535 | | 0.425
`))
	defer show(t, c)
	for _, h := range c.Heads {
		if depth := h.Head.Countersink.Depth; depth.Given() && depth.Nominal().Millimetres() < 0.5 {
			t.Errorf("%s has a countersink of %v", h.Part, depth)
		}
	}
}

// What differs from a size in every row does not state it again, and does not stand in for it: which of the two is the size is a question,
// unless a heading has its very name.
func TestOtherSizesAreNoRepeat(t *testing.T) {
	c := read(t, grid("Ferrules", `
Código | Diámetro exterior (mm) | Ø cuello (mm) | Ø interior (mm)
TR 7485 | - | 10.5 | 9.32
TR 7487 | 13.3 | 10.2 | 9.32
TR 7490 | 13.6 | 10.4 | 8.97
TR 7493 | 13.5 | 10.2 | 8.97
`))
	defer show(t, c)
	for _, f := range c.Ferrules {
		if f.Ferrule.BaseOD.Given() {
			t.Errorf("%s has base OD %v, though two columns could be it", f.Part, f.Ferrule.BaseOD)
		}
	}
	wantFinding(t, c, "layout.role", "C1", "could be that as well")
}

func TestOtherSizesBesideTheVeryName(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part No | Base OD (mm) | OD (mm) | Bore (mm)
TR 7485 | - | 10.5 | 9.32
TR 7487 | 13.3 | 10.2 | 9.32
TR 7490 | 13.6 | 10.4 | 8.97
TR 7493 | 13.5 | 10.2 | 8.97
`))
	defer show(t, c)
	wantRow(t, c, "TR 7490", catalog.Used, sizes{catalog.BaseOD: 13.6})
	wantRow(t, c, "TR 7485", catalog.Used, sizes{catalog.BaseOD: 0})
	wantFinding(t, c, "layout.column", "C1", "its sizes are others")
}

// What no hosel is as wide as is no rival of its diameter, whatever its heading says.
func TestLengthsUnderTheSameHeading(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel (mm) | Bore (mm) | Hosel (mm)
KT-21 | 13.4 | 9.48 | 66
KT-22 | 13.4 | 9.48 | 66
KT-23 | 13.6 | 9.48 | 64
`))
	defer show(t, c)
	wantRow(t, c, "KT-23", catalog.Used, sizes{catalog.HoselOD: 13.6, catalog.Bore: 9.48})
	wantFinding(t, c, "layout.column", "D1", "its sizes are others")
}

// A cell that is no bore at all says nothing of whether the others are names of tips.
func TestNamesOfTipsBesideAnImpossibleBore(t *testing.T) {
	c := read(t, grid("Ferrules", `
Model | Base OD in. | Length in | Bore, in.
Q-4141 | 0.540 | 0.5 | 0.355
Q-4144 | 0.355 | 0.625 | 0.520
Q-4147 | 0.500 | 0.875 | 0.355
Q-4151 | 0.530 | 0.625 | 0.370
`))
	defer show(t, c)
	wantFinding(t, c, "data.tip-name", "D1", "names of tips")
	for _, f := range c.Ferrules {
		if f.Ferrule.Bore.Given() {
			t.Errorf("%s has the bore %v, which is the name of a tip", f.Part, f.Ferrule.Bore)
		}
	}
}

// Headings that are like those of heads, over the holes and lengths of ferrules, are a question.
func TestSizesAgainstHeadings(t *testing.T) {
	c := read(t, grid("List", `
货号 | 长度 | 内孔 | 头处外径
7672-06 | 12.7mm | 9.33mm | 13.7mm
7672-07 | 12.7mm | 9.3mm | 12.5mm
7672-08 | 25mm | 9.3mm | 13.4mm
`))
	defer show(t, c)
	wantFinding(t, c, "layout.kind", "", "its sizes are those of ferrules")
}

// A hole beyond what parts commonly have stands out among few that are within it.
func TestRareAmongUsual(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Bore (mm)
TR 7117 | 11.8 | 8.95
TR 7118 | 13.4 | 12.5
TR 7122 | 11.5 | 8.57
TR 7125 | 11.5 | 8.57
`))
	defer show(t, c)
	wantFinding(t, c, "data.implausible", "C3", "12.5 mm, far from the other sizes, which are 8.57 mm to 8.95 mm")
}

// A base OD is compared with those for the same tip, and several that stand out are one finding with all cells.
func TestOutliersOfOneTip(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part No | Base OD (mm) | Bore (mm)
F-1 | 13.6 | 9.35
F-2 | 13.7 | 9.35
F-3 | 12.9 | 9.35
F-4 | 16.3 | 9.35
F-5 | 13.2 | 9.35
F-6 | 11.9 | 9.35
F-7 | 13.0 | 9.35
F-8 | 13.8 | 9.35
F-9 | 16.4 | 9.35
F-10 | 13.1 | 9.35
F-11 | 13.5 | 9.35
F-12 | 13.4 | 9.35
F-13 | 13.3 | 9.35
F-14 | 12.7 | 9.35
F-15 | 12.8 | 8.46
`))
	defer show(t, c)
	wantFinding(t, c, "data.implausible", "B5", "16.3 mm, far from the other sizes for 0.370 in tips, which are 11.9 mm to 13.8 mm; it is used as it stands; 2 in all")
	count := 0
	for _, f := range c.Tables[0].Findings {
		if f.Code == "data.implausible" && f.Severity == finding.Warning {
			count++
			if len(f.Related) != 1 || f.Related[0].Cell != "B10" {
				t.Errorf("the other cells are %v", f.Related)
			}
		}
	}
	if count != 1 {
		t.Errorf("%d findings, want 1", count)
	}
}

// The same heading twice with other sizes is two lists side by side, not one size stated twice: neither is used without asking.
func TestSameHeadingOtherSizes(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part No | Base OD (mm) | Bore (mm) | | Model | Base OD (mm) | Bore (mm)
KH2961 | 13 | 8.82 | | KH2977 | 13 | 8.45
KH2963 | TBA | 8.8 | | KH2980 | 11.6 | 8.82
KH2966 | 11.6 | 8.85 | | KH2981 | 12.7 | 8.46
KH2969 | 13 | 8.8 | | KH2986 | 13 | 8.85
`))
	defer show(t, c)
	for _, f := range c.Ferrules {
		if f.Part == "KH2963" && f.Ferrule.BaseOD.Given() {
			t.Errorf("%s has the base OD %v of its neighbour", f.Part, f.Ferrule.BaseOD)
		}
	}
}

// A letter that stands for a digit is no class of limits.
func TestLetterAmongDigits(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part No | Base OD (in) | Bore (in)
Q-1626 | .4S5 | .368
Q-1627 | .455 | .368
`))
	defer show(t, c)
	wantFinding(t, c, "data.unreadable", "B2", "a 5 misread as S")
	wantRow(t, c, "Q-1626", catalog.Held, sizes{catalog.BaseOD: 0})
}

// A letter between the digits of a size and its unit is one of its digits as well: it is not set aside as a word beside them.
func TestLetterBeforeTheUnit(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD | Bore
Q-1647 | .47S" | .352in
Q-1649 | .490in | .337"
Q-1651 | .50B in | .337"
Q-1655 | .500" | .339in
Q-1659 | 12.8 mm | 9.1mm
Q-1661 | .46Sin | .339in
`))
	defer show(t, c)
	wantFinding(t, c, "data.unreadable", "B2", "a 5 misread as S")
	wantFinding(t, c, "data.unreadable", "B4", "a 8 misread as B")
	wantFinding(t, c, "data.unreadable", "B7", "a 5 misread as S")
	wantRow(t, c, "Q-1647", catalog.Held, sizes{catalog.HoselOD: 0})
	wantRow(t, c, "Q-1651", catalog.Held, sizes{catalog.HoselOD: 0})
	wantRow(t, c, "Q-1659", catalog.Used, sizes{catalog.HoselOD: 12.8})
}

// Some sizes of a column are none that ferrules have, and the others none that they commonly have: the headings are exchanged, though what
// the other column holds cannot be judged by the names of tips alone.
func TestExchangedHalfPossible(t *testing.T) {
	for name, heading := range map[string]string{"no unit": "Ø int. | Ø ext.", "the units stated": "Ferrule ID (mm) | Bottom OD (mm)"} {
		c := read(t, grid("Viroles", "\nPart No | "+heading+" | Length (mm)\nKH6135 | 13.4 | 9.35 | 22\nKH6139 | 13.2 | 8.95 | 20\nKH6140 | 13.4 | 9.3 | 20\nKH6145 | 12.7 | 8.92 | 20\n"))
		for _, f := range c.Ferrules {
			if f.Ferrule.BaseOD.Given() || f.Ferrule.Bore.Given() {
				t.Errorf("%s: %s has base OD %v and bore %v", name, f.Part, f.Ferrule.BaseOD, f.Ferrule.Bore)
			}
		}
		if t.Failed() {
			show(t, c)
		}
	}
}

// Exchanged headings are seen whether the unit stands in a heading, beside each row, or nowhere.
func TestExchangedWithoutUnitOfTheColumn(t *testing.T) {
	for name, table := range map[string]string{
		"beside each row": "Part No | Hosel OD | Bore depth | Bore | Unit\nKH338 | 0.352 | 1.125 | 0.465 | inch\nKH341 | 0.337 | 1.375 | 0.460 | in\nKH345 | 0.352 | 1.5 | 0.470 | inch\nKH348 | 0.338 | 1.375 | 0.490 | in\n",
		"nowhere":         "Part No | Outer diameter of hosel | Bore depth | Hosel ID\nQ-7403 | 8.95 | 25.4 | 12.2\nQ-7406 | 8.57 | 30 | 12.2\nQ-7409 | 8.57 | 33.5 | 11.6\nQ-7412 | 8.57 | 35 | 12.5\n",
	} {
		c := read(t, grid("Heads", "\n"+table))
		exchanged := 0
		for _, f := range c.Findings {
			if f.Code == "layout.exchanged" {
				exchanged++
			}
		}
		if exchanged != 2 {
			t.Errorf("%s: %d columns are said to be exchanged, want 2", name, exchanged)
		}
		for _, h := range c.Heads {
			if h.Head.HoselOD.Given() || h.Head.Bore.Given() {
				t.Errorf("%s: %s has OD %v and bore %v", name, h.Part, h.Head.HoselOD, h.Head.Bore)
			}
		}
		if t.Failed() {
			show(t, c)
		}
	}
}

// One slip does not throw doubt upon a column of few sizes that are all unusual.
func TestOneSlipOfRareSizes(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part No | Base OD (mm) | Bore (mm) | Length (mm)
KH1 | 9.9 | 8.95 | 22
KH2 | 10 | 8.95 | 22
KH3 | 101 | 8.95 | 22
`))
	defer show(t, c)
	wantRow(t, c, "KH1", catalog.Used, sizes{catalog.BaseOD: 9.9})
	wantRow(t, c, "KH3", catalog.Held, sizes{catalog.BaseOD: 0})
}

// Columns whose headings are exchanged, where the sizes of one are still possible and none of them is usual.
func TestExchangedThoughPossible(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Bore (mm) | Hosel OD (mm)
N7659 | 11.94 | 8.59
N7663 | 12.45 | 8.56
N7665 | 12.1 | 8.57
`))
	defer show(t, c)
	wantFinding(t, c, "layout.exchanged", "B1", "exchanged")
	wantRow(t, c, "N7659", catalog.Held, sizes{catalog.HoselOD: 0, catalog.Bore: 0})
}

// Two headings that are as vague as each other are rivals, though each by itself would mean something that such tables do not have.
func TestHeadingsAlikeAreRivals(t *testing.T) {
	c := read(t, grid("Ferrules", `
货号 | 内径, mm | 甲头外径 英寸 | 高度 (mm) | 乙头外径 inch
AL/8060 | 8.42 | .410 | 25 | .465
AL/8064 | 8.45 | .405 | 12.7 | .510
AL/8067 | 8.85 | .415 | 25 | .485
`))
	defer show(t, c)
	for _, f := range c.Ferrules {
		if f.Ferrule.BaseOD.Given() {
			t.Errorf("%s has base OD %v, though two columns could be it", f.Part, f.Ferrule.BaseOD)
		}
	}
}

// What is said of a column at its heading names the cells where that is repeated, too.
func TestRepeatedHeadingsAreNamed(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part No | Base OD (mm) | Bore (mm) | Rallo
Q-1 | 12.7 | 8.95 | 10.5
Q-2 | 12.5 | 8.97 | 10.4
Part No | Base OD (mm) | Bore (mm) | Rallo
Q-3 | 12.9 | 8.95 | 10.5
`))
	defer show(t, c)
	for _, f := range c.Findings {
		if f.Place.Cell == "D1" && len(f.Related) == 1 && f.Related[0].Cell == "D4" {
			return
		}
	}
	t.Error("no finding at D1 names D4")
}

// Most sizes of a column are none of its role: it is another one's, and the few that are possible are not used either.
func TestFewPossibleOfMany(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part No | Length (in) | Bore (in)
HB.3516 | 0.75 | 0.510
HB.3521 | 0.5 | 0.500
HB.3529 | 1.25 | 0.450
`))
	defer show(t, c)
	wantFinding(t, c, "data.implausible", "C1", "2 of 3 sizes of Bore (in) are none that parts have as bore of the ferrule")
	for _, f := range c.Ferrules {
		if f.Ferrule.Bore.Given() {
			t.Errorf("%s has the bore %v", f.Part, f.Ferrule.Bore)
		}
	}
}

// Lists side by side are told by their codes, where the headings above these are not understood as part numbers.
func TestSideBySideByCodes(t *testing.T) {
	c := read(t, grid("Heads", `
Model name | Hosel OD | Bore | | Part No | Hosel OD | Bore
KH7184 | 12.2 mm | 0.357" | | KH7199 | 13.2 mm | 9.07 mm
KH7190 | 12.9 mm | 0.373" | | KH7205 | 13.8 mm | 9.48 mm
`))
	defer show(t, c)
	wantRow(t, c, "KH7184", catalog.Used, sizes{catalog.HoselOD: 12.2, catalog.Bore: 9.0678})
	wantRow(t, c, "KH7199", catalog.Used, sizes{catalog.HoselOD: 13.2, catalog.Bore: 9.07})
}

// A part that one list states twice, with 12.5 and 13, has two sizes: the 13 is no rounding of the other.
func TestOneHandRoundsAlike(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Bore (mm)
TR 2531 | Ø12.5 | 9.07
TR 2531 | Ø13 | 9.07
`))
	defer show(t, c)
	wantFinding(t, c, "data.conflict", "B2", "12.5 mm")
	wantRow(t, c, "TR 2531", catalog.Held, sizes{catalog.HoselOD: 12.5})
}

// A column of sizes that is not used says so, whatever its heading is like.
func TestUnusedSizesAreSaid(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part No | Bore (mm) | Base OD (mm) | Colour | Colour
AL/8060 | 8.42 | 12.5 | black | 10.4
AL/8064 | 8.45 | 12.7 | black | 10.2
AL/8067 | 8.85 | 12.9 | navy | 10.5
`))
	defer show(t, c)
	wantFinding(t, c, "layout.column", "E1", "is not used")
}

// Sizes that one heading lists make a heading of it, with nothing but part numbers beside it and no word of what the table lists.
func TestListedSizesAreAHeading(t *testing.T) {
	c := read(t, grid("List", `
Part No | Bore x OD x Length (mm)
AL/1549 | 9.35 x 12.9 x 19
AL/1551 | 8.95 x 13.2 x 16
AL/1556 | 9.35 x 13 x 15
`))
	defer show(t, c)
	wantRow(t, c, "AL/1551", catalog.Assumed, sizes{catalog.Bore: 8.95, catalog.BaseOD: 13.2, catalog.Length: 16})
}

// Who wrote a sheet rounds alike in all its tables: 13 beside 12.7 is no rounding of it.
func TestRoundingOfOneSheet(t *testing.T) {
	c := read(t, grid("Sizes of heads in mm", `
Head | A-12 | A-14
Hosel OD | 12.7 | 12.5
Bore | 9.5 | 9.5

Part no | Hosel OD | Bore
A-12 | 13 | 9.5
A-15 | 13 | 9.5
A-16 | 12 | 9.5
A-17 | 14 | 9.5
`))
	defer show(t, c)
	wantFinding(t, c, "data.conflict", "B2", "13 mm")
	wantFinding(t, c, "data.conflict", "B6", "12.7 mm")
}

// The end of a ferrule at the shaft is never the wider one: it is left open, and the other too where the two look exchanged.
func TestWiderTops(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part | Base (mm) | Top (mm) | Bore (mm) | Length (mm)
F-1 | 13.6 | 10.4 | 9.3 | 19
F-2 | 14.0 | 15.5 | 9.3 | 19
F-3 | 10.4 | 13.6 | 9.3 | 19
F-4 | 13.6 | 10.4 | 9.3 | 19
F-5 | 13.5 | 13.6 | 9.3 | 19
F-6 | 13.6 | 10.6 | 9.3 | 19
F-7 | 13.8 | 10.6 | 9.3 | 19
`))
	defer show(t, c)
	type ends struct{ base, top bool }
	got := map[string]ends{}
	for _, f := range c.Ferrules {
		got[f.Part] = ends{f.Ferrule.BaseOD.Given(), f.Ferrule.TopOD.Given()}
	}
	want := map[string]ends{"F-1": {true, true}, "F-2": {true, false}, "F-3": {false, false}, "F-4": {true, true}, "F-5": {true, true}, "F-6": {true, true}, "F-7": {true, true}}
	if diff := cmp.Diff(want, got, cmp.AllowUnexported(ends{})); diff != "" {
		t.Errorf("ends that are read (-want +got)\n%s", diff)
	}
	wantFinding(t, c, "data.implausible", "C3", "never the wider one")
	wantFinding(t, c, "data.implausible", "B4", "never the wider one")
}

// Whole numbers under a word that nobody knows are a count and no rival of lengths whose heading states another unit.
func TestCountsAreNoLengths(t *testing.T) {
	c := read(t, grid("Ferrules", `
Nr | DI [mm] | DA [mm] | L [mm] | Qzxw
F-1 | 9.3 | 13.6 | 19.0 | 1350
F-2 | 9.3 | 13.6 | 25.4 | 400
F-3 | 9.3 | 13.8 | 25.4 | 2250
`))
	defer show(t, c)
	for _, f := range c.Ferrules {
		if !f.Ferrule.Length.Given() {
			t.Errorf("%s has no length", f.Part)
		}
	}
}

// A note that says what was measured asks, where that lies farther off than calipers and polished parts do.
func TestNotesOfReadings(t *testing.T) {
	for note, asks := range map[string]bool{
		"hole actually 9.1": true, "measured 13.9 last batch": true, "Bohrung nachgemessen 9,1": true, "en réalité 13,9": true, "実測13.9": true, "mätt 13,8": true,
		"measured 13.62": false, "OD checked 13.6": false, "measured by Jan, 12 May": false, "really nice": false, "gemessen mit Lehrdorn": false,
	} {
		c := read(t, grid("Ferrules", "Part | OD (mm) | ID (mm) | Length (mm) | Notes\nF-1 | 13.6 | 9.3 | 19 | "+note+"\nF-2 | 13.6 | 9.3 | 25 |\nF-3 | 13.6 | 9.3 | 25 | black"))
		asked := false
		for _, f := range c.Findings {
			asked = asked || f.Code == "data.remark" && f.Place.Row == 2
		}
		if asked != asks {
			t.Errorf("%q asks: %v, want %v", note, asked, asks)
			show(t, c)
		}
	}
}

// Of heads that were turned down one did not get wider.
func TestContraryChanges(t *testing.T) {
	for _, c := range []struct {
		fourth string
		said   bool
	}{{"14.40", true}, {"13.93", false}, {"13.50", false}} {
		got := read(t, grid("Irons", "Head | Hosel OD before (mm) | Hosel OD after (mm) | Bore (mm)\nJ-4 | 13.90 | 13.40 | 9.5\nJ-5 | 13.92 | 13.40 | 9.5\nJ-6 | 13.88 | 13.40 | 9.5\nJ-7 | 13.90 | "+
			c.fourth+" | 9.5\nJ-8 | 13.94 | 13.40 | 9.5"))
		said := false
		for _, f := range got.Findings {
			said = said || f.Code == "data.implausible" && f.Place.Cell == "C5"
		}
		if said != c.said {
			t.Errorf("13.90 that became %s is said: %v, want %v", c.fourth, said, c.said)
			show(t, got)
		}
	}
}

// A decimal comma without quotation marks in a file of commas moves all behind it; that row is held, and no other.
func TestDecimalCommaThatMovesCells(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part | ID | OD | Length |
FR1 | 9.3 | 13.6 | 19 |
FR2 | 9.3 | 13.6 | 25 |
FR3 | 8.9 | 13 | 6 | 19
FR4 | 9.3 | 13.8 | 19 |
`))
	defer show(t, c)
	for _, table := range c.Tables {
		for _, row := range table.Rows {
			if held := row.Outcome == catalog.Held; held != (row.Part == "FR3") {
				t.Errorf("%s is held: %v", row.Part, held)
			}
		}
	}
	wantFinding(t, c, "data.unreadable", "C4", "a cell more than the headings")
}

// A size that is written like the price of its row, and that no other row has, was copied from there.
func TestPriceInAnotherCell(t *testing.T) {
	c := read(t, grid("Ferrules", `
Item | Base (mm) | Hole (mm) | Length (mm) | Price each
F-1 | 13.5 | 9.3 | 25 | 4.20
F-2 | 13.5 | 9.3 | 16.5 | 16.5
F-3 | 13.5 | 9.3 | 12.7 | 3.60
F-4 | 13.5 | 9.3 | 4.60 | 4.60
F-5 | 13.5 | 9.3 | 25 | 4.20
F-6 | 13.5 | 9.3 | 19 | 4.20
`))
	defer show(t, c)
	for _, f := range c.Ferrules {
		if given := f.Ferrule.Length.Given(); given == (f.Part == "F-4") {
			t.Errorf("%s has a length: %v", f.Part, given)
		}
	}
	wantFinding(t, c, "data.implausible", "D5", "is the price of the row")
}

// Words behind part numbers are no part of them where each has other words, or the same, and its own number.
func TestCodesBeforeWords(t *testing.T) {
	for name, c := range map[string]struct {
		heading string
		texts   [4]string
		want    string
	}{
		"colours behind":           {"Lot", [4]string{"KT-01 blk", "KT-02 blk/silver", "KT-03 blk short", "KT-04 white"}, "KT-01"},
		"names in two words":       {"Lot", [4]string{"Kestrel black", "Kestrel white", "Merlin black", "Merlin white"}, "Kestrel black"},
		"numbers with blanks":      {"Lot", [4]string{"TR 7485", "TR 7487", "TR 7490", "TR 7493"}, "TR 7485"},
		"one number several times": {"Lot", [4]string{"KT-01 blk", "KT-01 white", "KT-02 blk", "KT-02 white"}, "KT-01 blk"},
		"descriptions in a column": {"Description", [4]string{"KT-01 blk", "KT-02 blk", "KT-03 blk", "KT-04 blk"}, "KT-01 blk"},
		"digits behind":            {"Lot", [4]string{"KT-01 19 mm", "KT-02 25 mm", "KT-03 30 mm", "KT-04 35 mm"}, "KT-01 19 mm"},
	} {
		text := "Part no. | Base OD (mm) | Bore (mm) | " + c.heading
		for _, one := range c.texts {
			text += "\n" + one + " | 13.5 | 9.3 | x"
		}
		got := read(t, grid("Ferrules", text))
		if len(got.Ferrules) != 4 || got.Ferrules[0].Part != c.want {
			t.Errorf("%s: %d ferrules, want the first to be %q", name, len(got.Ferrules), c.want)
			show(t, got)
		}
	}
}

// A table on its side whose cells name their units is no card of its first part.
func TestTurnedTableIsNoCard(t *testing.T) {
	c := read(t, grid("Heads", `
Part No. | ZF-1362 | ZF-1365 | ZF-1369 | ZF-1372
Bore dia. | 353 thou | 339 thou | 339 thou | 337 thou
C'sink dia | 430 thou | 410 thou | 410 thou | 430 thou
Countersink depth | 60 thou | 30 thou | 50 thou | 40 thou
Outer diameter of hosel | 490 thou | 500 thou | 460 thou | 510 thou
`))
	defer show(t, c)
	if len(c.Heads) != 4 {
		t.Errorf("%d heads, want 4", len(c.Heads))
	}
}
