package reader_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
)

// crossCase is a sheet with what its parts have, each as rowText writes it without what is assumed; a part that has nothing is not read.
type crossCase struct {
	sheet string
	parts map[string]string
	// finding is the code of one that has to be there.
	finding string
}

func (test crossCase) check(t *testing.T) {
	t.Helper()
	c := reader.Read([]reader.Input{{Book: book("orrin.xlsx", grid("Sheet1", test.sheet))}}, reader.Options{})
	defer show(t, c)
	read := map[string]string{}
	for _, table := range c.Tables {
		for _, row := range table.Rows {
			if row.Part != "" && (row.Outcome == catalog.Used || row.Outcome == catalog.Assumed) {
				text, _, _ := strings.Cut(rowText(row), " {")
				_, text, _ = strings.Cut(text, row.Part)
				read[row.Part] = strings.TrimSpace(text)
			}
		}
	}
	for part, want := range test.parts {
		if got := read[part]; got != want {
			t.Errorf("%s is %s, want %s", part, got, want)
		}
		delete(read, part)
	}
	for part, got := range read {
		t.Errorf("%s is read as %s, and is no part", part, got)
	}
	if test.finding != "" && !slices.ContainsFunc(c.Findings, func(f finding.Finding) bool { return f.Code == test.finding }) {
		t.Errorf("no finding %s", test.finding)
	}
}

// TestCrossTablesOfThreeSizes reads sizes in two lines across, or in two columns down.
func TestCrossTablesOfThreeSizes(t *testing.T) {
	for name, test := range map[string]crossCase{
		"tips above lengths, English": {`
Ferrules, all sizes in inches
 | for .355 taper tips | | for .370 parallel tips |
Base OD | 3/4 long | 1 long | 3/4 long | 1 long
.500 | A-1 | A-2 | A-3 | A-4
.520 | A-5 | not made | A-7 | A-8
`, map[string]string{
			"A-1": "base_od=12.7 length=19.05 tip=9.017", "A-2": "base_od=12.7 length=25.4 tip=9.017",
			"A-3": "base_od=12.7 length=19.05 tip=9.398", "A-4": "base_od=12.7 length=25.4 tip=9.398",
			"A-5": "base_od=13.208 length=19.05 tip=9.017",
			"A-7": "base_od=13.208 length=19.05 tip=9.398", "A-8": "base_od=13.208 length=25.4 tip=9.398",
		}, ""},
		"bores above lengths, merged, with a column behind, German": {`
Zierringe, Maße in mm
Bohrung | 8,95 | < | 9,35 | < |
Außen-Ø \ Länge | 12 | 18 | 12 | 18 | Preis EUR
12,7 | A-1 | A-2 | A-3 | A-4 | 0,40
13,0 | A-5 | – | entfällt | A-8 | 0,45
`, map[string]string{
			"A-1": "base_od=12.7 bore=8.95 length=12 price=\"0,40\"", "A-2": "base_od=12.7 bore=8.95 length=18 price=\"0,40\"",
			"A-3": "base_od=12.7 bore=9.35 length=12 price=\"0,40\"", "A-4": "base_od=12.7 bore=9.35 length=18 price=\"0,40\"",
			"A-5": "base_od=13 bore=8.95 length=12 price=\"0,45\"", "A-8": "base_od=13 bore=9.35 length=18 price=\"0,45\"",
		}, ""},
		"two sizes down, of which the first is blank below, French": {`
Viroles, cotes en mm
Ø bas | Longueur | Alésage 8,95 | Alésage 9,35
13,0 | 12 | A-1 | A-2
 | 18 | A-3 | non fabriqué
13,5 | 12 | A-5 | A-6
 | 18 | A-7 | A-8
`, map[string]string{
			"A-1": "base_od=13 bore=8.95 length=12", "A-2": "base_od=13 bore=9.35 length=12", "A-3": "base_od=13 bore=8.95 length=18",
			"A-5": "base_od=13.5 bore=8.95 length=12", "A-6": "base_od=13.5 bore=9.35 length=12",
			"A-7": "base_od=13.5 bore=8.95 length=18", "A-8": "base_od=13.5 bore=9.35 length=18",
		}, "layout.sizes"},
		"columns behind, and a corner with a wide stroke, Japanese": {`
フェルール品番表（単位mm）
外径＼内径 | 8.95 | 9.35 | 長さ | 価格(円)
12.7 | A-1 | A-2 | 18 | 120
13.0 | A-3 | 設定なし | 18 | 130
`, map[string]string{
			"A-1": "base_od=12.7 bore=8.95 length=18 price=\"120\"", "A-2": "base_od=12.7 bore=9.35 length=18 price=\"120\"",
			"A-3": "base_od=13 bore=8.95 length=18 price=\"130\"",
		}, ""},
		"the name of what goes down between the field and the sizes across, the length and the price for a dozen in sentences": {`
QUICK PICK, black ferrules, all 1.00 in. long
Find your shaft across the top and your hosel down the side. All sizes in inches.
Shaft tip | .335 | .355 | .370
Ferrule bore | .332 | .530 | .366
Hosel / ferrule base OD | | |
.480 | PJ-B48A | PJ-B48C | PJ-B48D
.500 | PJ-B50A | PJ-B50C | PJ-B50D
.520 | n/a | PJ-B52C | PJ-B52D
Any box: $6.00 per dozen, same part number on the bag. | | |
`, map[string]string{
			"PJ-B48A": "base_od=12.192 bore=8.4328 length=25.4 price=\"$6.00\" tip=8.509", "PJ-B50A": "base_od=12.7 bore=8.4328 length=25.4 price=\"$6.00\" tip=8.509",
			"PJ-B48C": "base_od=12.192 bore=\".530\" length=25.4 price=\"$6.00\" tip=9.017", "PJ-B50C": "base_od=12.7 bore=\".530\" length=25.4 price=\"$6.00\" tip=9.017",
			"PJ-B52C": "base_od=13.208 bore=\".530\" length=25.4 price=\"$6.00\" tip=9.017",
			"PJ-B48D": "base_od=12.192 bore=9.2964 length=25.4 price=\"$6.00\" tip=9.398", "PJ-B50D": "base_od=12.7 bore=9.2964 length=25.4 price=\"$6.00\" tip=9.398",
			"PJ-B52D": "base_od=13.208 bore=9.2964 length=25.4 price=\"$6.00\" tip=9.398",
		}, "data.implausible"},
		"the same with one line across, German": {`
Zierringe, Maße in mm, Länge 25
Bohrung | 8,95 | 9,35
Außen-Ø unten | |
12,7 | A-1 | A-2
13,0 | A-3 | A-4
`, map[string]string{
			"A-1": "base_od=12.7 bore=8.95 length=25", "A-2": "base_od=12.7 bore=9.35 length=25",
			"A-3": "base_od=13 bore=8.95 length=25", "A-4": "base_od=13 bore=9.35 length=25",
		}, ""},
		"and merged over the whole table, Japanese": {`
フェルール（単位mm）
長さ | 18 | 25
外径 | < | <
12.7 | A-1 | A-2
13.0 | A-3 | A-4
`, map[string]string{
			"A-1": "base_od=12.7 length=18", "A-2": "base_od=12.7 length=25", "A-3": "base_od=13 length=18", "A-4": "base_od=13 length=25",
		}, ""},
		"titles within the field": {`
Ferrules mm
Base OD \ Length | 12 | 18
For .355 taper tips | |
12.7 | A-1 | A-2
For .370 parallel tips | |
12.7 | A-3 | A-4
`, map[string]string{
			"A-1": "base_od=12.7 length=12 tip=\"For .355 taper tips\"", "A-2": "base_od=12.7 length=18 tip=\"For .355 taper tips\"",
			"A-3": "base_od=12.7 length=12 tip=\"For .370 parallel tips\"", "A-4": "base_od=12.7 length=18 tip=\"For .370 parallel tips\"",
		}, ""},
		"colours across, named above": {`
Ferrules for .370 tips, length 18 mm
 | Colour | |
Base OD mm | black | white | ivory
12.7 | A-1 | A-2 | A-3
13.0 | A-4 | | A-6
`, map[string]string{
			"A-1": "base_od=12.7 colour=\"black\" length=18 tip=9.398", "A-2": "base_od=12.7 colour=\"white\" length=18 tip=9.398",
			"A-3": "base_od=12.7 colour=\"ivory\" length=18 tip=9.398", "A-4": "base_od=13 colour=\"black\" length=18 tip=9.398",
			"A-6": "base_od=13 colour=\"ivory\" length=18 tip=9.398",
		}, ""},
		"heads by club and tip": {`
Iron heads
Club | Hosel OD mm | .355 taper | .370 parallel
4 | 13.4 | A-1 | A-2
6 | 13.5 | – | A-4
`, map[string]string{
			"A-1": "club=\"4\" hosel_od=13.4 tip=9.017", "A-2": "club=\"4\" hosel_od=13.4 tip=9.398", "A-4": "club=\"6\" hosel_od=13.5 tip=9.398",
		}, ""},
	} {
		t.Run(name, test.check)
	}
}

// TestCrossTablesNamedInSentences takes the names of the sides from a sentence above where only one way is possible, and none otherwise.
func TestCrossTablesNamedInSentences(t *testing.T) {
	const field = "\n | 12 | 18 | 25\n12.7 | A-1 | A-2 | A-3\n13.0 | A-4 | A-5 | A-6\n"
	parts := map[string]string{
		"A-1": "base_od=12.7 length=12 tip=9.398", "A-2": "base_od=12.7 length=18 tip=9.398", "A-3": "base_od=12.7 length=25 tip=9.398",
		"A-4": "base_od=13 length=12 tip=9.398", "A-5": "base_od=13 length=18 tip=9.398", "A-6": "base_od=13 length=25 tip=9.398",
	}
	for name, test := range map[string]crossCase{
		"English":               {"Ferrules for .370 tips, in mm. Base OD down, length across." + field, parts, "layout.sizes"},
		"English, exchanged":    {"Ferrules for .370 tips, in mm. Length across, base OD down." + field, parts, "layout.sizes"},
		"German":                {"Zierringe für .370, Maße in mm\nLänge waagrecht, Außendurchmesser senkrecht" + field, parts, "layout.sizes"},
		"one name for two":      {"Ferrules for .370 tips, in mm. Lengths across." + field, nil, "layout.no-table"},
		"nothing says anything": {"Ferrules for .370 tips, in mm" + field, nil, "layout.no-table"},
	} {
		t.Run(name, test.check)
	}
}

// TestAmountsInCrossTables reads what stands behind the part numbers of a cross table, in their cells or in columns of their own.
func TestAmountsInCrossTables(t *testing.T) {
	for name, test := range map[string]crossCase{
		"prices with their sign": {`
Ferrules
Base OD mm \ Bore mm | 8.95 | 9.35
12.7 | A-1 / 0.45 € | A-2 / 0.47 €
13.0 | – | A-4 / 0.49 €
`, map[string]string{"A-1": "base_od=12.7 bore=8.95 price=\"0.45 €\"", "A-2": "base_od=12.7 bore=9.35 price=\"0.47 €\"", "A-4": "base_od=13 bore=9.35 price=\"0.49 €\""}, ""},
		"stock with its word": {`
Zierringe
Außen-Ø mm \ Bohrung mm | 8,95 | 9,35
12,7 | A-1 (120 auf Lager) | A-2 (8 auf Lager)
13,0 | A-3 (0 auf Lager) | A-4 (7 auf Lager)
`, map[string]string{
			"A-1": "base_od=12.7 bore=8.95 stock=\"120\"", "A-2": "base_od=12.7 bore=9.35 stock=\"8\"", "A-3": "base_od=13 bore=8.95 stock=\"0\"", "A-4": "base_od=13 bore=9.35 stock=\"7\"",
		}, ""},
		"pieces that may be stock or a pack": {`
Ferrules
Base OD mm \ Bore mm | 8.95 | 9.35
12.7 | A-1 (120 pcs) | A-2 (44 pcs)
13.0 | A-3 (12 pcs) | A-4 (7 pcs)
`, map[string]string{"A-1": "base_od=12.7 bore=8.95", "A-2": "base_od=12.7 bore=9.35", "A-3": "base_od=13 bore=8.95", "A-4": "base_od=13 bore=9.35"}, "data.unreadable"},
		"columns of prices of which a title speaks": {`
Ferrules, part number and price in EUR
Base OD mm \ Bore mm | 8.95 | | 9.35 |
12.7 | A-1 | 0.45 | A-2 | 0.47
13.0 | – | | A-4 | 0.49
`, map[string]string{"A-1": "base_od=12.7 bore=8.95 price=\"0.45\"", "A-2": "base_od=12.7 bore=9.35 price=\"0.47\"", "A-4": "base_od=13 bore=9.35 price=\"0.49\""}, "layout.sizes"},
		"columns of which nothing speaks": {`
Ferrules
Base OD mm \ Bore mm | 8.95 | | 9.35 |
12.7 | A-1 | 45 | A-2 | 47
13.0 | – | | A-4 | 49
`, map[string]string{"A-1": "base_od=12.7 bore=8.95", "A-2": "base_od=12.7 bore=9.35", "A-4": "base_od=13 bore=9.35"}, "data.unreadable"},
		"a cell and a line that say something else": {`
Ferrules
Base OD mm \ Bore mm | 8.95 | 9.35
12.7 | A-1 | A-2
13.0 | on request | A-4
13.5 | A-5 | A-6
larger | A-7 | A-8
`, map[string]string{
			"A-1": "base_od=12.7 bore=8.95", "A-2": "base_od=12.7 bore=9.35", "A-4": "base_od=13 bore=9.35", "A-5": "base_od=13.5 bore=8.95", "A-6": "base_od=13.5 bore=9.35",
		}, "data.unreadable"},
	} {
		t.Run(name, test.check)
	}
}

// TestGroupsOfParts reads rows with a part of each of several groups of columns, which share others.
func TestGroupsOfParts(t *testing.T) {
	for name, test := range map[string]crossCase{
		"three lines of headings, merged, Korean": {`
아이언 헤드 (치수 단위 mm)
번호 | 호젤 외경 | 샤프트 팁 규격별 | < | < | < | < | <
^ | ^ | .355 테이퍼 | < | < | .370 패럴렐 | < | <
^ | ^ | 품번 | 호젤 내경 | 공급가(원) | 품번 | 호젤 내경 | 공급가(원)
5번 | 13.4 | A-1 | 9.1 | 42000 | A-2 | 9.5 | 40000
6번 | 13.5 | 미제작 | | | A-4 | 9.5 | 40000
`, map[string]string{
			"A-1": "bore=9.1 club=\"5번\" hosel_od=13.4 price=\"42000\" tip=9.017", "A-2": "bore=9.5 club=\"5번\" hosel_od=13.4 price=\"40000\" tip=9.398",
			"A-4": "bore=9.5 club=\"6번\" hosel_od=13.5 price=\"40000\" tip=9.398",
		}, ""},
		"not merged, with a column behind, a line of units and titles, German": {`
Zierringe
 | Für .355 | | | Für .370 | | |
Länge | Art.-Nr. | Außen-Ø | Preis | Art.-Nr. | Außen-Ø | Preis | VE
mm | | mm | EUR | | mm | EUR | Stück
Schwarz | | | | | | |
12 | A-1 | 13,0 | 0,40 | A-2 | 13,5 | 0,42 | 50
Weiß | | | | | | |
12 | A-3 | 13,0 | 0,40 | A-4 | 13,5 | 0,42 | 25
`, map[string]string{
			"A-1": "base_od=13 length=12 pack=\"50\" price=\"0,40\" tip=\"Für .355\"", "A-2": "base_od=13.5 length=12 pack=\"50\" price=\"0,42\" tip=\"Für .370\"",
			"A-3": "base_od=13 length=12 pack=\"25\" price=\"0,40\" tip=\"Für .355\"", "A-4": "base_od=13.5 length=12 pack=\"25\" price=\"0,42\" tip=\"Für .370\"",
		}, ""},
		"three groups, the part number last, French": {`
Viroles
Longueur mm | Ø bas mm | Pour .335 | < | Pour .355 | < | Pour .370 | <
 | | Stock | Réf. | Stock | Réf. | Stock | Réf.
12 | 12.7 | 40 | A-1 | 10 | A-2 | 0 | A-3
18 | 13.0 | 41 | A-4 | – | non fabriqué | 1 | A-6
`, map[string]string{
			"A-1": "base_od=12.7 length=12 stock=\"40\" tip=\"Pour .335\"", "A-2": "base_od=12.7 length=12 stock=\"10\" tip=\"Pour .355\"", "A-3": "base_od=12.7 length=12 stock=\"0\" tip=\"Pour .370\"",
			"A-4": "base_od=13 length=18 stock=\"41\" tip=\"Pour .335\"", "A-6": "base_od=13 length=18 stock=\"1\" tip=\"Pour .370\"",
		}, ""},
		"bores above the groups, Chinese": {`
套环 单位:mm
外径 | 内径 8.95 | < | 内径 9.35 | <
^ | 货号 | 单价(元) | 货号 | 单价(元)
12.7 | A-1 | 3 | A-2 | 4
13.0 | 不生产 | – | A-4 | 4
`, map[string]string{"A-1": "base_od=12.7 bore=8.95 price=\"3\"", "A-2": "base_od=12.7 bore=9.35 price=\"4\"", "A-4": "base_od=13 bore=9.35 price=\"4\""}, ""},
		"right and left hand": {`
Iron heads, mm
Club | Hosel OD | Bore | Right hand | | Left hand |
 | | | Part | Price | Part | Price
5 | 13.4 | 9.5 | A-1 | 40 | A-2 | 41
6 | 13.4 | 9.5 | A-3 | 40 | – | –
`, map[string]string{
			"A-1": "bore=9.5 club=\"5\" hosel_od=13.4 price=\"40\"", "A-2": "bore=9.5 club=\"5\" hosel_od=13.4 price=\"41\"", "A-3": "bore=9.5 club=\"6\" hosel_od=13.4 price=\"40\"",
		}, ""},
		"heads and ferrules that share a model": {`
Model | Head | < | < | Ferrule | < | <
^ | Part no. | Hosel OD mm | Bore mm | Part no. | Base OD mm | Bore mm
Vale 5 | A-1 | 13.4 | 9.5 | A-2 | 13.5 | 9.3
Vale 6 | A-3 | 13.5 | 9.5 | A-4 | 13.6 | 9.3
`, map[string]string{
			"A-1": "bore=9.5 description=\"Vale 5\" hosel_od=13.4", "A-2": "base_od=13.5 bore=9.3 description=\"Vale 5\"",
			"A-3": "bore=9.5 description=\"Vale 6\" hosel_od=13.5", "A-4": "base_od=13.6 bore=9.3 description=\"Vale 6\"",
		}, ""},
		"the tips in the headings of the part numbers": {`
Ferrules, mm
Base OD | Length | Part no. .355 | Part no. .370
13.0 | 18 | A-1 | A-2
13.5 | 18 | A-3 | A-4
`, map[string]string{
			"A-1": "base_od=13 length=18 tip=9.017", "A-2": "base_od=13 length=18 tip=9.398", "A-3": "base_od=13.5 length=18 tip=9.017", "A-4": "base_od=13.5 length=18 tip=9.398",
		}, "layout.sizes"},
		"another table below": {`
Heads mm
Club | Hosel OD | .355 taper | < | .370 parallel | <
^ | ^ | Part | Bore | Part | Bore
5 | 13.4 | A-1 | 9.1 | A-2 | 9.5
6 | 13.4 | A-3 | 9.1 | A-4 | 9.5

Ferrules mm
Part | Base OD | Bore | Length
A-5 | 13.5 | 9.35 | 18
A-6 | 13.5 | 8.95 | 18
`, map[string]string{
			"A-1": "bore=9.1 club=\"5\" hosel_od=13.4 tip=9.017", "A-2": "bore=9.5 club=\"5\" hosel_od=13.4 tip=9.398", "A-3": "bore=9.1 club=\"6\" hosel_od=13.4 tip=9.017",
			"A-4": "bore=9.5 club=\"6\" hosel_od=13.4 tip=9.398", "A-5": "base_od=13.5 bore=9.35 length=18", "A-6": "base_od=13.5 bore=8.95 length=18",
		}, ""},
		"two numbers of one part": {`
Heads mm
Club | Part no. | Part no. | Hosel OD | Bore
5 | A-1 | X-1 | 13.4 | 9.5
6 | A-2 | X-2 | 13.4 | 9.5
`, map[string]string{"A-1": "bore=9.5 club=\"5\" hosel_od=13.4", "A-2": "bore=9.5 club=\"6\" hosel_od=13.4"}, ""},
		"series above the groups that nothing explains": {`
Heads mm
Club | Hosel OD | Series 100 | < | Series 200 | <
^ | ^ | Part | Bore | Part | Bore
5 | 13.4 | A-1 | 9.1 | A-2 | 9.5
6 | 13.4 | A-3 | 9.1 | A-4 | 9.5
`, map[string]string{
			"A-1": "bore=9.1 club=\"5\" hosel_od=13.4", "A-2": "bore=9.5 club=\"5\" hosel_od=13.4", "A-3": "bore=9.1 club=\"6\" hosel_od=13.4", "A-4": "bore=9.5 club=\"6\" hosel_od=13.4",
		}, "data.unreadable"},
		"two tables side by side, of which one has a column more": {`
Heads mm
Model | Part | Hosel OD | Bore | | Part | Base OD | Bore
Vale | A-1 | 13.4 | 9.5 | | A-2 | 13.5 | 9.3
Vale | A-3 | 13.5 | 9.5 | | A-4 | 13.6 | 9.3
`, map[string]string{
			"A-1": "bore=9.5 description=\"Vale\" hosel_od=13.4", "A-2": "base_od=13.5 bore=9.3", "A-3": "bore=9.5 description=\"Vale\" hosel_od=13.5", "A-4": "base_od=13.6 bore=9.3",
		}, ""},
	} {
		t.Run(name, test.check)
	}
}

// TestCrossTablesWithFeet gives the parts of a column what a line below the field says of it.
func TestCrossTablesWithFeet(t *testing.T) {
	for name, test := range map[string]crossCase{
		"prices per length, Italian": {`
Ghiere nere, misure in mm, foro 9,3 per tutte
Ø base | Lunghezza |
 | 12,7 | 19
13,0 | A-1 | A-2
13,4 | A-3 | –
13,6 | A-5 | A-6
Prezzo al pezzo € | 0,36 | 0,42
`, map[string]string{
			"A-1": `base_od=13 bore=9.3 length=12.7 price="0,36"`, "A-2": `base_od=13 bore=9.3 length=19 price="0,42"`, "A-3": `base_od=13.4 bore=9.3 length=12.7 price="0,36"`,
			"A-5": `base_od=13.6 bore=9.3 length=12.7 price="0,36"`, "A-6": `base_od=13.6 bore=9.3 length=19 price="0,42"`,
		}, ""},
		"prices and bags below a blank line, English": {`
Ferrules, bore .368 in
Base OD (in) | Length (in) |
 | .75 | 1.00
.500 | A-1 | A-2
.520 | A-3 | A-4
 | |
Price each | $0.36 | $0.42
Per bag | 25 | 10
`, map[string]string{
			"A-1": `base_od=12.7 bore=9.3472 length=19.05 pack="25" price="$0.36"`, "A-2": `base_od=12.7 bore=9.3472 length=25.4 pack="10" price="$0.42"`,
			"A-3": `base_od=13.208 bore=9.3472 length=19.05 pack="25" price="$0.36"`, "A-4": `base_od=13.208 bore=9.3472 length=25.4 pack="10" price="$0.42"`,
		}, ""},
		"prices below and beside, German": {`
Zierringe, Maße in mm, Bohrung 9,35
Außen-Ø | Länge | |
 | 12 | 18 | Preis EUR
13,0 | A-1 | A-2 | 0,40
13,4 | A-3 | A-4 | 0,44
Preis | 0,36 | 0,42 |
`, map[string]string{
			"A-1": `base_od=13 bore=9.35 length=12 price="0,40"`, "A-2": `base_od=13 bore=9.35 length=18 price="0,40"`,
			"A-3": `base_od=13.4 bore=9.35 length=12 price="0,44"`, "A-4": `base_od=13.4 bore=9.35 length=18 price="0,44"`,
		}, "data.unreadable"},
	} {
		t.Run(name, func(t *testing.T) { test.check(t) })
	}
}

// TestCrossTablesThatNameTheirParts reads cross tables with a line between the sizes across and the field that names what goes down and, again and
// again or once, the part numbers.
func TestCrossTablesThatNameTheirParts(t *testing.T) {
	inches := map[string]string{
		"A-1": "base_od=12.7 bore=8.763 length=19.05 tip=8.89", "A-2": "base_od=12.7 bore=9.2456 length=25.4 tip=9.398",
		"A-3": "base_od=13.208 bore=8.763 length=19.05 tip=8.89", "A-4": "base_od=13.208 bore=9.2456 length=25.4 tip=9.398",
	}
	mm := map[string]string{
		"A-1": "base_od=12.7 bore=8.95 length=18", "A-2": "base_od=12.7 bore=9.35 length=25",
		"A-3": "base_od=13.2 bore=8.95 length=18", "A-4": "base_od=13.2 bore=9.35 length=25",
	}
	const german = "\n12,7 | A-1 | A-2\n13,2 | A-3 | A-4"
	for name, test := range map[string]crossCase{
		"English, three sizes": {"Ferrules, all sizes in inches\nFor tip | .350 | .370\nBore | .345 | .364\nLength | 3/4 | 1\nBase OD | Item | Item\n.500 | A-1 | A-2\n.520 | A-3 | A-4", inches, ""},
		"one length for both": {"Ferrules, all sizes in inches\nFor tip | .350 | .370\nBore | .345 | .364\nLength | 1 | 1\nBase OD | Item | Item\n.500 | A-1 | A-2\n.520 | A-3 | A-4", map[string]string{
			"A-1": "base_od=12.7 bore=8.763 length=25.4 tip=8.89", "A-2": "base_od=12.7 bore=9.2456 length=25.4 tip=9.398",
			"A-3": "base_od=13.208 bore=8.763 length=25.4 tip=8.89", "A-4": "base_od=13.208 bore=9.2456 length=25.4 tip=9.398",
		}, ""},
		"a column before and one behind": {"Ferrules, sizes in inches\n | Bore | .345 | .364 |\n | Length | 3/4 | 1 |\nColour | Base OD | Part no. | Part no. | Price USD\nblack | .500 | A-1 | A-2 | 0.45\nwhite | .520 | A-3 | A-4 | 0.50", map[string]string{
			"A-1": `base_od=12.7 bore=8.763 colour="black" length=19.05 price="0.45"`, "A-2": `base_od=12.7 bore=9.2456 colour="black" length=25.4 price="0.45"`,
			"A-3": `base_od=13.208 bore=8.763 colour="white" length=19.05 price="0.50"`, "A-4": `base_od=13.208 bore=9.2456 colour="white" length=25.4 price="0.50"`,
		}, ""},
		"German":         {"Zierringe, Maße in mm\nBohrung | 8,95 | 9,35\nLänge | 18 | 25\nAußen-Ø unten | Art.-Nr. | Art.-Nr." + german, mm, ""},
		"German, merged": {"Zierringe, Maße in mm\nBohrung | 8,95 | 9,35\nLänge | 18 | 25\nAußen-Ø unten | Bestellnummer | <" + german, mm, ""},
		"French":         {"Viroles, cotes en mm\nAlésage | 8,95 | 9,35\nLongueur | 18 | 25\nØ bas | Réf. | Réf." + german, mm, ""},
		"Spanish":        {"Férulas, medidas en mm\nTaladro | 8,95 | 9,35\nLongitud | 18 | 25\nØ exterior base | Código | Código" + german, mm, ""},
		"Italian":        {"Ferule, misure in mm\nForo | 8,95 | 9,35\nLunghezza | 18 | 25\nØ esterno base | Codice | Codice" + german, mm, ""},
		"Japanese":       {"フェルール 単位mm\n内径 | 8.95 | 9.35\n長さ | 18 | 25\n下端外径 | 品番 | 品番\n12.7 | A-1 | A-2\n13.2 | A-3 | A-4", mm, ""},
		"Chinese":        {"套环 单位：mm\n内径 | 8.95 | 9.35\n长度 | 18 | 25\n大端外径 | 货号 | 货号\n12.7 | A-1 | A-2\n13.2 | A-3 | A-4", mm, ""},
	} {
		t.Run(name, test.check)
	}
}

// TestCrossTablesWithASlip holds that one label that cannot be costs the parts beside it or below it and no others.
func TestCrossTablesWithASlip(t *testing.T) {
	for name, test := range map[string]crossCase{
		"an impossible size down and one across, named in the corner, German": {`
Zierringe, Maße in mm
Basis-Ø \ Bohrung | 8,45 | 8,95 | 93,5 | 9,55
12,0 | A-1 | A-2 | |
12,5 | A-3 | | A-4 | A-5
1,30 | A-6 | | | A-7
13,5 | | A-8 | A-9 |
`, map[string]string{
			"A-1": "base_od=12 bore=8.45", "A-2": "base_od=12 bore=8.95", "A-3": "base_od=12.5 bore=8.45", "A-4": "base_od=12.5 bore=\"93,5\"", "A-5": "base_od=12.5 bore=9.55",
			"A-8": "base_od=13.5 bore=8.95", "A-9": "base_od=13.5 bore=\"93,5\"",
		}, "data.implausible"},
		"no size down": {`
Ferrules, all sizes in mm
Base OD | 8.45 hole | 8.95 hole | 9.35 hole
12.0 | A-1 | A-2 |
? | A-3 | A-4 |
13.0 | | A-5 | A-6
13.5 | | A-7 | A-8
`, map[string]string{
			"A-1": "base_od=12 bore=8.45", "A-2": "base_od=12 bore=8.95", "A-5": "base_od=13 bore=8.95", "A-6": "base_od=13 bore=9.35", "A-7": "base_od=13.5 bore=8.95", "A-8": "base_od=13.5 bore=9.35",
		}, "data.unreadable"},
		"no size across, French": {`
Viroles, cotes en mm
Ø bas | Alésage 8,45 | à voir | Alésage 9,35
13,0 | A-1 | A-2 | A-3
13,5 | A-4 | A-5 | A-6
`, map[string]string{
			"A-1": "base_od=13 bore=8.45", "A-3": "base_od=13 bore=9.35", "A-4": "base_od=13.5 bore=8.45", "A-6": "base_od=13.5 bore=9.35",
		}, "data.unreadable"},
	} {
		t.Run(name, test.check)
	}
}
