package reader_test

import "testing"

// TestPartsOfSeveralLines reads lists that give each part several lines, below as many lines of headings.
func TestPartsOfSeveralLines(t *testing.T) {
	for name, test := range map[string]crossCase{
		"German, blank lines between, a total below": {`
Köpfe, Maße in mm
Pos. | Artikelnr. | Bezeichnung | Preis EUR
 | Hosel-Außen-Ø | Bohrung | Bohrtiefe
1 | A-1 | Eisen 7 | 12,50
 | 13,5 | 9,5 | 32

2 | A-2 | Eisen 8 | 12,50
 | 13,6 | 9,55 | 30

 | | Summe | 25,00
`, map[string]string{
			"A-1": `bore=9.5 bore_depth=32 description="Eisen 7" hosel_od=13.5 price="12,50"`, "A-2": `bore=9.55 bore_depth=30 description="Eisen 8" hosel_od=13.6 price="12,50"`,
		}, ""},
		"English, three lines, sizes above the number": {`
Ferrules
Base OD in | Bore in | Length in
Part no. | Colour | Pack
Stock | Price |
.500 | .368 | 1.00
B-11 | black | 12
140 | 0.42 |
.520 | .353 | .75
B-12 | ivory | 12
96 | 0.45 |
.540 | .368 | .75
B-13 | black | 12
12 | 0.45 |
`, map[string]string{
			"B-11": `base_od=12.7 bore=9.3472 colour="black" length=25.4 pack="12" price="0.42" stock="140"`,
			"B-12": `base_od=13.208 bore=8.9662 colour="ivory" length=19.05 pack="12" price="0.45" stock="96"`,
			"B-13": `base_od=13.716 bore=9.3472 colour="black" length=19.05 pack="12" price="0.45" stock="12"`,
		}, ""},
		"Japanese, a line of units below the sizes, the headings again on the next page": {`
ヘッド一覧
品番 | 品名 | 在庫数
ホーゼル外径 | 内径 | 穴の深さ
mm | mm | mm
H-701 | アイアン 7番 | 12
13.5 | 9.5 | 32
H-702 | アイアン 8番 | 9
13.5 | 9.5 | 30
品番 | 品名 | 在庫数
ホーゼル外径 | 内径 | 穴の深さ
mm | mm | mm
H-703 | アイアン 9番 | 7
13.6 | 9.55 | 30
`, map[string]string{
			"H-701": `bore=9.5 bore_depth=32 description="アイアン 7番" hosel_od=13.5 stock="12"`, "H-702": `bore=9.5 bore_depth=30 description="アイアン 8番" hosel_od=13.5 stock="9"`,
			"H-703": `bore=9.55 bore_depth=30 description="アイアン 9番" hosel_od=13.6 stock="7"`,
		}, ""},
		"French, the second line further right, numbers of digits": {`
Viroles, cotes en mm
Référence | Désignation | | |
 | | Ø bas | Alésage | Longueur
40-1101 | virole noire | | |
 | | 13,5 | 9,35 | 25
40-1102 | virole blanche | | |
 | | 13,0 | 8,95 | 19
`, map[string]string{"40-1101": `base_od=13.5 bore=9.35 description="virole noire" length=25`, "40-1102": `base_od=13 bore=8.95 description="virole blanche" length=19`}, ""},
		"Chinese, titles between, numbered lines, one line of units for both": {`
球头清单
No. | 货号 | 外径 | 颈长
 | 名称 | 孔径 | 孔深
 | | mm | mm
铁杆
1 | F-1 | 13.5 | 65
 | 七号铁 | 9.5 | 32
2 | F-2 | 13.6 | 66
 | 八号铁 | 9.5 | 30
木杆
3 | F-3 | 12.1 | 40
 | 一号木 | 8.6 | 28
`, map[string]string{
			"F-1": `bore=9.5 bore_depth=32 description="七号铁" hosel_length=65 hosel_od=13.5`,
			"F-2": `bore=9.5 bore_depth=30 description="八号铁" hosel_length=66 hosel_od=13.6`,
			"F-3": `bore=8.6 bore_depth=28 description="一号木" hosel_length=40 hosel_od=12.1`,
		}, ""},
		"a part without its second line": {`
Heads, mm
Part no. | Name | Price
Hosel OD | Bore | Bore depth
C-1 | Iron 6 | 10.00
13.5 | 9.5 | 32
C-2 | Iron 7 | 10.00
C-3 | Iron 8 | 10.00
13.6 | 9.5 | 30
C-4 | Iron 9 | 10.00
13.6 | 9.55 | 30
`, map[string]string{
			"C-1": `bore=9.5 bore_depth=32 description="Iron 6" hosel_od=13.5 price="10.00"`,
			"C-3": `bore=9.5 bore_depth=30 description="Iron 8" hosel_od=13.6 price="10.00"`, "C-4": `bore=9.55 bore_depth=30 description="Iron 9" hosel_od=13.6 price="10.00"`,
		}, "data.unreadable"},
		"headings in two languages are no two lines of a part": {`
Part no. | Hosel OD | Bore | Bore depth
品番 | ホーゼル外径 | 内径 | 穴の深さ
D-1 | 13.5 | 9.5 | 32
D-2 | 13.6 | 9.5 | 30
D-3 | 13.6 | 9.55 | 30
D-4 | 13.5 | 9.55 | 30
`, map[string]string{
			"D-1": "bore=9.5 bore_depth=32 hosel_od=13.5", "D-2": "bore=9.5 bore_depth=30 hosel_od=13.6",
			"D-3": "bore=9.55 bore_depth=30 hosel_od=13.6", "D-4": "bore=9.55 bore_depth=30 hosel_od=13.5",
		}, ""},
		"nor are headings with more of them below": {`
Part no. | Hosel | Hosel | Price
Model | OD mm | bore mm | EUR
E-1 | 13.5 | 9.5 | 32
E-2 | 13.6 | 9.5 | 30
E-3 | 13.6 | 9.55 | 30
E-4 | 13.5 | 9.55 | 30
`, map[string]string{
			"E-1": `bore=9.5 hosel_od=13.5 price="32"`, "E-2": `bore=9.5 hosel_od=13.6 price="30"`,
			"E-3": `bore=9.55 hosel_od=13.6 price="30"`, "E-4": `bore=9.55 hosel_od=13.5 price="30"`,
		}, ""},
	} {
		t.Run(name, test.check)
	}
}
