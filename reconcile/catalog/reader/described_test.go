package reader_test

import (
	"strings"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/sheet"
)

// besides makes a list of four ferrules or heads of which the second has the description.
func besides(kind, columns, description, sizes string) *sheet.Sheet {
	row := func(part, description string) string { return part + " | " + description + " | " + sizes }
	return grid(kind, strings.Join([]string{"Part No | Description | " + columns, row("D-1", "Plain"), row("D-2", description), row("D-3", "Black"), row("D-4", "White")}, "\n"))
}

// TestDescriptionAgainstColumn reads descriptions of single rows that give another size than a column, and such as give the same.
func TestDescriptionAgainstColumn(t *testing.T) {
	const ferrules, heads = "Base OD (mm) | Bore (mm) | Length (mm)", "Hosel OD (mm) | Bore (mm) | Bore depth (mm)"
	for _, one := range []struct{ kind, columns, description, sizes, cell, says string }{
		{"Ferrules", ferrules, "Base 13.8, bore 9.3, black", "13.5 | 9.3 | 25", "C3", "says 13.8"},
		{"Ferrules", ferrules, "13.8 x 9.3 x 25, black", "13.5 | 9.3 | 25", "C3", "says 13.8"},
		{"Ferrules", ferrules, "13,8/9,3 x 25 schwarz", "13.5 | 9.3 | 25", "C3", "says 13,8"},
		{"Ferrules", ferrules, "noire, lg. 20 mm", "13.5 | 9.3 | 25", "E3", "says 20 mm"},
		{"Ferrules", ferrules, "Short type, 12 mm, black", "13.5 | 9.3 | 25", "E3", "says 12 mm"},
		{"Ferrules", ferrules, "長さ20mm 黒", "13.5 | 9.3 | 25", "E3", "says 20mm"},
		{"Ferrules", ferrules, "for .335 drivers", "13.5 | 9.3 | 25", "D3", "says for .335"},
		{"Heads", heads, "Bohrung 9,8 mm", "13.5 | 9.5 | 32", "D3", "says 9,8 mm"},
		{"Heads", heads, "hosel 13.5 OD, 28 deep", "13.5 | 9.5 | 32", "E3", "says 28"},
		{"Heads", heads, ".335 parallel", "13.5 | 9.5 | 32", "D3", "says .335 parallel"},
		{"Ferrules", ferrules, "Base .535\", 1\" long", "13.6 | 9.3 | 25", "", ""}, // names of the same sizes
		{"Ferrules", ferrules, "25 x 13.5 x 9.3 mm", "13.5 | 9.3 | 25", "", ""},
		{"Ferrules", ferrules, "black, 2 mm silver ring", "13.5 | 9.3 | 25", "", ""},
		{"Ferrules", ferrules, "3 x 4 x 5.5 cm box", "13.5 | 9.3 | 25", "", ""},
		{"Ferrules", ferrules, ".355 taper", "13.5 | 9.3 | 25", "", ""},
		{"Heads", heads, "Face height 58 mm, loft 34°", "13.5 | 9.5 | 32", "", ""},
		{"Heads", heads, "Modell 335, 9.5 oder 10.5 Loft", "13.5 | 9.5 | 32", "", ""},
	} {
		c := read(t, besides(one.kind, one.columns, one.description, one.sizes))
		if one.cell != "" {
			wantFinding(t, c, "data.conflict", one.cell, one.says)
			continue
		}
		for _, cell := range []string{"C3", "D3", "E3"} {
			wantNoFinding(t, c, "data.conflict", cell)
		}
	}
}

// TestDescriptionsBesideUnitsInCells compares the bare sizes of descriptions with columns whose cells, or sections, each have a unit of their own.
func TestDescriptionsBesideUnitsInCells(t *testing.T) {
	for name, one := range map[string]struct{ list, cell, says string }{
		"units in cells": {`Stock no | Item | Base | Tip end | Hole | Length
QB-1 | 13.5 x 25 blk | 13.5mm | 10.4mm | 9.3mm | 25mm
QB-2 | 13.2 x 25 blk | 13.8mm | 10.4mm | 9.3mm | 25mm
QB-3 | 13.8 x 32 blk | 13.8mm | 10.6mm | 9.3mm | 3.2cm
QB-4 | .530 x 1 blk | .530in | .410in | .366in | 1in
QB-5 | .530 x 3/4 blk | .530" | .410" | .366" | .75"`, "C3", "says 13.2"},
		"of a length": {`Art.-Nr. | Bezeichnung | Ø unten | Ø oben | Bohrung | Länge
QB-1 | 13,5 x 25 schwarz | 13,5 mm | 10,4 mm | 9,3 mm | 25 mm
QB-2 | 13,8 x 19 schwarz | 13,8 mm | 10,4 mm | 9,3 mm | 25 mm
QB-3 | 13,8 x 32 schwarz | 13,8 mm | 10,6 mm | 9,3 mm | 32 mm
QB-4 | .530 x 1 weiß | .530 in | .410 in | .366 in | 1 in
QB-5 | .540 x 3/4 weiß | .540 in | .410 in | .366 in | .75 in`, "F3", "says 19"},
		"sections": {`Part no | Description | Base OD | Bore | Length
Sizes in mm | | | |
QB-1 | 13.5 plain | 13.5 | 9.3 | 25
QB-2 | 13.8 plain | 13.8 | 9.3 | 25
QB-3 | 13.6 plain | 13.6 | 9.3 | 32
Sizes in inches | | | |
QB-4 | .530 plain | .530 | .366 | 1
QB-5 | .550 plain | .540 | .366 | .75`, "C8", "says .550"},
		"all agree": {`Stock no | Item | Base | Hole | Length
QB-1 | 13.5 x 25 blk | 13.5mm | 9.3mm | 25mm
QB-2 | 13.8 x 25 blk | 13.8mm | 9.3mm | 2.5cm
QB-3 | 13.6 x 25 blk | .535in | 9.3mm | 25mm
QB-4 | .530 x 1 blk | .530in | .366in | 1in`, "", ""},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Ferrules", one.list))
			if one.cell != "" {
				wantFinding(t, c, "data.conflict", one.cell, one.says)
				return
			}
			for _, cell := range []string{"C2", "C3", "C4", "C5", "E2", "E3", "E4", "E5"} {
				wantNoFinding(t, c, "data.conflict", cell)
			}
		})
	}
}

// TestSizeOnlyInDescription takes sizes of descriptions that no column has, each as an assumption.
func TestSizeOnlyInDescription(t *testing.T) {
	for _, one := range []struct {
		kind, columns, description, sizes string
		role                              catalog.Role
		want                              float64
	}{
		{"Ferrules", "Base OD (mm) | Bore (mm)", "black, 22 mm long", "13.5 | 9.3", catalog.Length, 22},
		{"Ferrules", "Base OD (mm) | Bore (mm)", "nera, lungh. 22 mm", "13.5 | 9.3", catalog.Length, 22},
		{"Ferrules", "Base OD (mm) | Bore (mm)", "1/2\" black", "13.5 | 9.3", catalog.Length, 12.7},
		{"Ferrules", "Base OD (mm) | Bore (mm)", "13.5 x 9.3 x 22", "13.5 | 9.3", catalog.Length, 22},
		{"Ferrules", "Base OD (mm) | Bore (mm)", "black, 2 mm silver ring", "13.5 | 9.3", catalog.Length, 0},
		{"Ferrules", "Base OD (mm) | Bore (mm)", "black, 12.2 mm", "13.5 | 9.3", catalog.Length, 0}, // of what?
		{"Heads", "Hosel OD (mm) | Bore (mm)", "Eisen 9, Bohrtiefe 30 mm", "13.5 | 9.5", catalog.BoreDepth, 30},
		{"Heads", "Hosel OD (mm) | Bore (mm)", "孔深33mm", "13.5 | 9.5", catalog.BoreDepth, 33},
		{"Heads", "Hosel OD (mm) | Bore (mm)", "Face height 58 mm", "13.5 | 9.5", catalog.HoselLength, 0},
	} {
		c := read(t, besides(one.kind, one.columns, one.description, one.sizes))
		if one.want == 0 {
			wantRow(t, c, "D-2", catalog.Used, sizes{one.role: 0})
			continue
		}
		wantRow(t, c, "D-2", catalog.Assumed, sizes{one.role: one.want})
	}
}

// TestClubFirstInDescription takes the kind of a head from the club that its description begins with.
func TestClubFirstInDescription(t *testing.T) {
	for description, want := range map[string]fitcalc.Category{
		"3W, 15 deg, RH": fitcalc.Fairway, "4H 22 deg": fitcalc.Hybrid, "PW 47 deg RH": fitcalc.Wedge, "9i, 431 SS": fitcalc.Iron, "D3, plain": fitcalc.AnyCategory,
	} {
		c := read(t, besides("Heads", "Hosel OD (mm) | Bore (mm)", description, "13.5 | 9.5"))
		for _, h := range c.Heads {
			if h.Part == "D-2" && h.Category != want {
				t.Errorf("%q is of %v, want %v", description, h.Category, want)
			}
		}
	}
}
