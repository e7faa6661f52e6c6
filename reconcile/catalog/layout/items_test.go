package layout

import (
	"fmt"
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// spokenParts are the parts that a letter lists, with what it says of each; its cells stand between strokes.
func spokenParts(lines ...string) string {
	var rows [][]string
	for _, line := range lines {
		rows = append(rows, strings.Split(line, "|"))
	}
	var parts []string
	for _, r := range items(grid.New(sheettest.Texts("letter", rows, false)), lexicon.New(nil)) {
		for line := r.Body; line <= r.To; line++ {
			if part := said(&r, line); part != "" {
				parts = append(parts, part)
			}
		}
	}
	return strings.Join(parts, "; ")
}

// TestItems looks at which lines of a letter become parts, and with what.
func TestItems(t *testing.T) {
	for name, c := range map[string]struct {
		lines []string
		want  string
	}{
		"a list": {
			[]string{"Hi,", "- X-1: black, OD 13.6, bore 9.5", "- X-2: bore 9.5, OD 13.7", "- X-3: base  OD 13.8, bore 9.5, price 2.10", "Regards"},
			"X-1: base_od=13.6 bore=9.5 description=black; X-2: base_od=13.7 bore=9.5; X-3: base_od=13.8 bore=9.5 price=2.10",
		},
		"names behind, behind blanks and a count": {
			[]string{"BK-10  .540 base, .366 hole, 1\" long, 140 in stock", "BK-11  .530 base, .366 hole, 1\" long, 60 in stock", "BK-12  .520 base, .350 hole, 3/4\" long"},
			"BK-10: base_od=.540 bore=.366 length=1\" stock=140; BK-11: base_od=.530 bore=.366 length=1\" stock=60; BK-12: base_od=.520 bore=.350 length=3/4\"",
		},
		"names behind": {
			[]string{"- X-1: 13.6 mm OD, 9.5 mm bore", "- X-2: 13.7 mm OD, 9.5 mm bore", "- X-3: 13.8 mm OD, 9.5 mm bore"},
			"X-1: base_od=13.6 mm bore=9.5 mm; X-2: base_od=13.7 mm bore=9.5 mm; X-3: base_od=13.8 mm bore=9.5 mm",
		},
		"a mouth above a base is the thin end": {
			[]string{"X-1: negra|base 13,5 mm|boca 10,6 mm|agujero 9,3 mm", "X-2: negra|base 13,5 mm|boca 10,6 mm|agujero 9,3 mm", "X-3: roja|base 13,8 mm|boca 1,06 mm|agujero 9,3 mm"},
			"X-1: description=negra base_od=13,5 mm top_od=10,6 mm bore=9,3 mm; X-2: description=negra base_od=13,5 mm top_od=10,6 mm bore=9,3 mm; " +
				"X-3: description=roja base_od=13,8 mm top_od=1,06 mm bore=9,3 mm",
		},
		"a mouth in a hosel is that of a countersink": {
			[]string{"X-1: hosel OD 13.5 mm, mouth 10.6 mm, bore 9.4 mm", "X-2: hosel OD 13.5 mm, mouth 10.6 mm, bore 9.4 mm", "X-3: hosel OD 13.8 mm, mouth 10.6 mm, bore 9.4 mm"},
			"X-1: hosel_od=13.5 mm countersink_mouth=10.6 mm bore=9.4 mm; X-2: hosel_od=13.5 mm countersink_mouth=10.6 mm bore=9.4 mm; " +
				"X-3: hosel_od=13.8 mm countersink_mouth=10.6 mm bore=9.4 mm",
		},
		"one that is said with fewer sizes stays, to be asked for": {
			[]string{"- X-1: OD 13.6, bore 9.5", "- X-2: as X-1 but OD 13.7", "- X-3: OD 13.8, bore 9.5", "- X-4: OD 13.9, bore 9.5", "- X-9 comes in May, OD 14"},
			"X-1: base_od=13.6 bore=9.5; X-2: base_od=13.7 description=as X-1 but; X-3: base_od=13.8 bore=9.5; X-4: base_od=13.9 bore=9.5",
		},
		"two of one name": {
			[]string{"- X-1: OD 13.6 or 13.8, bore 9.5", "- X-2: OD 13.7, bore 9.5", "- X-3: OD 13.8, bore 9.5"},
			"X-1: base_od=13.6 or 13.8 bore=9.5; X-2: base_od=13.7 bore=9.5; X-3: base_od=13.8 bore=9.5",
		},
		"an order said above": {
			[]string{"stock (hosel OD x bore x depth, all mm):", "X-1 blade 13.4 x 9.5 x 32 - 40 pcs", "X-2 13.4 x 9.5 x 32", "X-3 13.6 x 9.5"},
			"",
		},
		"an order said above three": {
			[]string{"stock (hosel OD x bore x depth, all mm):", "X-1 blade 13.4 x 9.5 x 32 - 40 pcs", "X-2 13.4 x 9.5 x 32", "X-3 13.6 x 9.5 x 30 mm"},
			"X-1: hosel_od=13.4 bore=9.5 bore_depth=32 description=blade; X-2: hosel_od=13.4 bore=9.5 bore_depth=32; X-3: hosel_od=13.6 mm bore=9.5 mm bore_depth=30 mm",
		},
		"a list with prices below a heading": {
			[]string{"Item|Price", "X-1 black ID 9.35 OD 13.6|0.42", "X-2 black ID 9.35 OD 13.6|0.45", "X-3 white ID 9.35 OD 13.8|0.52"},
			"",
		},
		"several cells": {
			[]string{"X-1 black ID 9.35|OD 13.6", "X-2 black ID 9.35|OD 13.6", "X-3 white ID 9.35|OD 13.8"},
			"X-1: bore=9.35 description=black base_od=13.6; X-2: bore=9.35 description=black base_od=13.6; X-3: bore=9.35 description=white base_od=13.8",
		},
		"names behind the numbers, and prices without a name": {
			[]string{"TQ-8  Iron 5: OD 13.6, bore 9.5, 18,40 EUR/pc", "TQ-9  PW: OD 13.6, bore 9.5, $0.42", "TQ-10  SW: OD 13.6, bore 9.5, 20 EUR tooling", "TQ-11 GW: OD 13.6, bore 9.5, 0,42 €"},
			"TQ-8: base_od=13.6 bore=9.5 description=Iron 5 price=18,40 EUR/pc; TQ-9: base_od=13.6 bore=9.5 description=PW price=$0.42; " +
				"TQ-10: base_od=13.6 bore=9.5 description=SW; TQ-11: base_od=13.6 bore=9.5 description=GW price=0,42 €",
		},
		"wide signs, numbers in a cell of their own": {
			[]string{"TQ8|黑色：内径9.35mm，外径13.6mm，单价0.38美元", "TQ9|白色：内径9.35mm，外径13.8mm", "TQ10|透明：内径9.35mm、外径13.8mm"},
			"TQ8: bore=9.35mm base_od=13.6mm description=黑色 price=0.38美元; TQ9: bore=9.35mm base_od=13.8mm description=白色; TQ10: bore=9.35mm base_od=13.8mm description=透明",
		},
		"a table with descriptions": {
			[]string{"Part|Description", "TQ8|black: ID 9.35 mm OD 13.6 mm", "TQ9|white: ID 9.35 mm OD 13.6 mm", "TQ10|clear: ID 9.35 mm OD 13.6 mm"},
			"",
		},
		"numbers that share a line": {
			[]string{"X-1: OD 13.6, bore 9.5", "X-2|X-3: OD 13.7, bore 9.5", "X-4|X-5 and X-6: OD 13.8|bore 9.5", "X-7 and X-8, OD 13.8, bore 9.5"},
			"X-1: base_od=13.6 bore=9.5; X-2, X-3: base_od=13.7 bore=9.5; X-4, X-5 and X-6: base_od=13.8 bore=9.5; X-7 and X-8: base_od=13.8 bore=9.5",
		},
		"ends": {
			[]string{"X-1   bore 9.25   base 13.6   top 10.2", "X-2   Loch 9,25   unten 13,6   oben 10,2", "X-3   foro 9,25   base 13,6   cima 10,2"},
			"X-1: bore=9.25 base_od=13.6 top=10.2; X-2: bore=9,25 base_od=13,6 top=10,2; X-3: bore=9,25 base_od=13,6 top=10,2",
		},
		"two items":   {[]string{"- X-1: OD 13.6, bore 9.5", "- X-2: OD 13.7, bore 9.5"}, ""},
		"mostly text": {[]string{"- X-1: OD 13.6, bore 9.5", "a", "b", "c", "- X-2: OD 13.7, bore 9.5", "d", "e", "- X-3: OD 13.8, bore 9.5"}, ""},
	} {
		if got := spokenParts(c.lines...); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", name, got, c.want)
		}
	}
}

// said is what a line of items says: the number, then the roles in the order of the columns.
func said(r *Region, line int) string {
	part := r.Grid.At(line, 1)
	if part == "" {
		return ""
	}
	var all []string
	for _, h := range r.Columns[1:] {
		if text := r.Grid.At(line, h.Col); text != "" {
			all = append(all, fmt.Sprintf("%s=%s", sizeRole(h.Text), text))
		}
	}
	return part + ": " + strings.Join(all, " ")
}

// sizeRole is the role that a heading of items names.
func sizeRole(text string) catalog.Role {
	role, _ := lexicon.New(nil).RoleOfLabel(text)
	return role
}

// TestSentencesOfItems looks at letters and talks in which sentences say what parts are, over one line or several.
func TestSentencesOfItems(t *testing.T) {
	for name, c := range map[string]struct {
		lines []string
		want  string
	}{
		"cut at commas": {
			[]string{"FR-19 black|fits .370|13.5 mm base|19 mm tall - 0.42 each|1200 on hand", "FR-25 black|fits .370|13.5 mm base|25 mm tall - 0.46 each|800 on hand",
				"FR-26|the white one|is 13.8 mm at the base|25 mm tall - 0.58 each"},
			"FR-19: description=black tip=.370 base_od=13.5 mm length=19 mm price=0.42 each stock=1200; FR-25: description=black tip=.370 base_od=13.5 mm length=25 mm price=0.46 each stock=800; " +
				"FR-26: description=the white one base_od=13.8 mm length=25 mm price=0.58 each",
		},
		"a comma behind the number, and one without sizes": {
			[]string{"FM-30 is a sand wedge, 13.8 across the hosel, hole 9.1", "FM-31, the lob wedge, is 13.7 across the hosel, hole 9.1 again", "FM-08: hosel 13.2, hole 9.55, 35 deep",
				"FM-40 is the chipper. There are five, £6.00 each", "FM-50 comes later"},
			"FM-30: description=is a sand wedge hosel_od=13.8 bore=9.1; FM-31: description=the lob wedge hosel_od=13.7 bore=9.1; FM-08: hosel_od=13.2 bore=9.55 bore_depth=35; " +
				"FM-40: description=is the chipper stock=5 price=£6.00 each",
		},
		"a talk with what others say between": {
			[]string{"[12/03, 09:32] Anna: GH-11 fuori 13,5 foro 9,3 lunga 25", "[12/03, 09:33] Ugo: ok", "[12/03, 09:33] Ugo: bene", "[12/03, 09:34] Anna: GH-12 fuori 13,6 anzi no 13,8, foro 9,3",
				"[12/03, 09:33] Ugo: e poi?", "[12/03, 09:33] Ugo: altre?", "[12/03, 09:33] Ugo: nere?", "[12/03, 09:35] Anna: GH-14 foro 9,3", "lunga 19"},
			"GH-11: hosel_od=13,5 bore=9,3 length=25; GH-12: hosel_od=13,6 anzi no 13,8 bore=9,3; GH-14: bore=9,3 length=19",
		},
		"a paragraph each": {
			[]string{"TM-14 is the iron: the hosel is 13.4 across and the", "hole 9.5 and 32 deep. Four left.", "", "TM-15 is the eight. Hosel 13.5, hole 9.5.", "It is 31 deep.", "", "TM-19: 13.8 across the hosel, bore 9.1,", "34 deep. Two left.", "", "Ring me on 12.5, 9 deep."},
			"TM-14: description=is the iron hosel_od=13.4 bore=9.5 bore_depth=32 stock=4; TM-15: description=is the eight hosel_od=13.5 bore=9.5 bore_depth=31; TM-19: hosel_od=13.8 bore=9.1 bore_depth=34 stock=2",
		},
		"one whose other size was not measured, as the last paragraph": {
			[]string{"EL-41 is a blade: the neck is 13.5 mm across, the hole 9.10 mm", "EL-42, neck 13.5 mm, hole 9.10 mm", "EL-45, neck 13.6 mm (not 13.2 mm as I wrote), hole 9.10 mm", "",
				"The neck of EL-63 I could not measure; the hole is 9.10 mm and you may have it for £10.00.", "", "Of EL-42 there is one with a hole of 9.3, £9.00."},
			"EL-41: description=is a blade hosel_od=13.5 mm bore=9.10 mm; EL-42: hosel_od=13.5 mm bore=9.10 mm; EL-45: hosel_od=13.6 mm bore=9.10 mm; " +
				"EL-63: description=I could not measure bore=9.10 mm price=£10.00",
		},
		"a size that does not hold": {
			[]string{"EL-41: außen 13,5, Bohrung 9,1", "EL-42: außen 13,6 (nicht 13,2 wie im Februar), Bohrung 9,1", "EL-43: collo 13,6 (non 13,2 come scritto), foro 9,1", "EL-44: cuello 13,6 (y no 13,2 como puse), agujero 9,1",
				"EL-45: hals 13,6 (niet 13,2 zoals ik schreef), gat 9,1", "EL-46: hosel 13,6, nie 13,2, otwór 9,1", "EL-47: hosel 13.6 (not 13.2 but 13.8), bore 9.1"},
			"EL-41: hosel_od=13,5 bore=9,1; EL-42: hosel_od=13,6 bore=9,1; EL-43: hosel_od=13,6 bore=9,1 description=non 13,2 come scritto; EL-44: hosel_od=13,6 bore=9,1; " +
				"EL-45: hosel_od=13,6 bore=9,1; EL-46: hosel_od=13,6, nie 13,2 bore=9,1; EL-47: hosel_od=13.6 (not 13.2 but 13.8 bore=9.1", // the last two are for a person to say
		},
		"broken lines": {
			[]string{"- X-1: black, fits .370, 13.6 at the base, 19", "tall, 0.42 each", "- X-2: white, fits .370, 13.6 at the base, 25 tall", "- X-3: white, fits .370, 13.8 at the base, 25 tall", "Prices hold until 9.5."},
			"X-1: description=black tip=.370 base_od=13.6 length=19 price=0.42 each; X-2: description=white tip=.370 base_od=13.6 length=25; X-3: description=white tip=.370 base_od=13.8 length=25",
		},
	} {
		if got := spokenParts(c.lines...); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", name, got, c.want)
		}
	}
}

// TestUnsaid: numbers that may be sizes of a part are told where they have no name, and one behind a size of which it may be another value is
// put beside it.
func TestUnsaid(t *testing.T) {
	lines := []string{"- TK-1: hosel 13.6, or was it 13.8, hole 9.5", "- TK-2: hosel 13.4, hole 9.5, 12.9 somewhere", "- TK-3: hosel 13.4, hole 9.5, ready in 2.5 weeks"}
	var rows [][]string
	for _, line := range lines {
		rows = append(rows, []string{line})
	}
	found := items(grid.New(sheettest.Texts("letter", rows, false)), lexicon.New(nil))
	if len(found) != 1 {
		t.Fatalf("%d tables, want one", len(found))
	}
	r := &found[0]
	if got, want := said(r, 1), "TK-1: hosel_od=13.6, or was it 13.8 bore=9.5 description=or was it 13.8"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if got, want := fmt.Sprint(r.Unsaid()), "[{12.9 TK-2 A2}]"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}
