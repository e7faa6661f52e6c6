package reader_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
)

// TestWhatBuyersSee reads small lists with a mistake each that a careful buyer sees, and such as look like one and are right: the cells, or the lines, of
// all warnings.
func TestWhatBuyersSee(t *testing.T) {
	for name, test := range map[string]struct {
		sheet string
		want  []string
	}{
		"a colour among stocks": {`
Item | Base OD mm | Length mm | Stock
F-1 | 13.5 | 12 | 40
F-2 | 13.5 | 18 | 25
F-3 | 13.5 | 24 | brown
F-4 | 13.5 | 30 | 12
F-5 | 13.5 | 36 | 60
`, []string{"D4"}},
		"words of stocks": {`
Art.-Nr. | Ø Basis mm | Länge mm | Bestand
F-1 | 13,5 | 12 | 40
F-2 | 13,5 | 18 | 25
F-3 | 13,5 | 24 | unterwegs
F-4 | 13,5 | 30 | 12
F-5 | 13,5 | 36 | 60
F-6 | 13,5 | 38 | 60
F-7 | 13,5 | 40 | 60
F-8 | 13,5 | 42 | auf Anfrage
`, nil},
		"a bore that is not there": {`
Réf. | Tête | Ø ext. hosel mm | Perçage mm
V-5 | Fer 5 | 13,4 | 9,5
V-6 | Fer 6 | 13,4 |
V-7 | Fer 7 | 13,4 | 9,5
V-8 | Fer 8 | 13,4 | 9,5
V-9 | Fer 9 | 13,4 | 9,5
`, []string{"D3"}},
		"a putter without a depth": {`
Code | Type | Hosel OD mm | Bore mm | Bore depth mm
A-5 | Iron | 13.4 | 9.5 | 32
A-6 | Iron | 13.4 | 9.5 | 32
A-7 | Iron | 13.4 | 9.5 | 32
A-8 | Iron | 13.4 | 9.5 | 32
P-1 | Putter | 13.0 | 9.5 |
`, nil},
		"a bore that a remark says is not there": {`
Code | Hosel OD mm | Bore mm | Remarks
A-5 | 13.4 | 9.5 |
A-6 | 13.4 | 9.5 |
A-7 | 13.4 |  | comes undrilled
A-8 | 13.4 | 9.5 |
A-9 | 13.4 | 9.5 |
`, nil},
		"a part again with another price": {`
Codice | Colore | Ø base mm | Lungh. mm | Prezzo €
G-1 | nero | 13,5 | 15 | 0,40
G-2 | bianco | 13,5 | 15 | 0,45
G-3 | rosso | 13,5 | 15 | 0,45
G-2 | bianco | 13,5 | 15 | 0,54
`, []string{"E3", "E5"}},
		"a part again with the price of a hundred of it": {`
Part | Base OD mm | Length mm | From | Price
G-1 | 13.5 | 15 | 1 | 0.40
G-1 | 13.5 | 15 | 100 | 0.30
G-2 | 13.5 | 20 | 1 | 0.45
G-2 | 13.5 | 20 | 100 | 0.35
`, nil},
		"a tip that is not that of the bore": {`
Model | Tip | Hosel OD mm | Bore mm
Bask 3W | .335 | 12.0 | 8.6
Bask 5W | .335 | 12.0 | 8.6
Bask 5 | .335 | 13.4 | 9.5
Bask 6 | .370 | 13.4 | 9.5
Bask 7 | .370 | 13.4 | 9.5
`, []string{"B4", "D4"}},
		"a price that fell where all others rose": {`
Part | Base OD mm | Length mm | Old price | New price
P-1 | 13.5 | 12 | 0.40 | 0.42
P-2 | 13.5 | 16 | 0.44 | 0.46
P-3 | 13.5 | 20 | 0.50 | 0.48
P-4 | 13.5 | 25 | 0.52 | 0.55
P-5 | 13.5 | 30 | 0.60 | 0.63
`, []string{"D1", "E4"}},
		"a comma among points": {`
Part No. | Base (in) | Length (in) | Price
E-1 | .540 | 0.750 | 0.41
E-2 | .540 | 1.000 | 0.44
E-3 | .540 | 1,250 | 0.48
E-4 | .540 | 1.500 | 0.52
`, []string{"C4"}},
		"an error in a column that is not used": {`
Item | Base mm | Length mm | Price ex GST | Price inc GST
N-1 | 13.5 | 12 | 0.50 | 0.55
N-2 | 13.5 | 18 | 0.60 | #N/A
N-3 | 13.5 | 24 | 0.70 | 0.77
`, []string{"E3"}},
		"a line that does not come to its total": {`
Pos | Kód | Ø základny mm | Ks | Cena/ks Kč | Celkem Kč
1 | K-1 | 13,5 | 10 | 40 | 400
2 | K-2 | 13,6 | 10 | 40 | 400
3 | K-3 | 13,7 | 10 | 40 | 40
4 | K-4 | 13,8 | 10 | 40 | 400
5 | K-5 | 13,9 | 20 | 40 | 800
`, []string{"F4"}},
		"one line of four, under a heading for sums": {`
품번 | 하단 mm | 길이 mm | 수량 | 단가 | 금액
F-1 | 13.5 | 12 | 100 | 400 | 40000
F-2 | 13.5 | 15 | 100 | 500 | 50000
F-3 | 13.5 | 18 | 20 | 500 | 12000
F-4 | 13.5 | 22 | 50 | 600 | 30000
`, []string{"F4"}},
		"a total that is not the sum": {`
Item | Base OD mm | Length mm | Qty | Price each | Amount
F-1 | 13.5 | 12 | 100 | 0.40 | 40.00
F-2 | 13.5 | 18 | 100 | 0.50 | 50.00
F-3 | 13.5 | 24 | 20 | 0.50 | 10.00
Total |  |  |  |  | 120.00
`, []string{"F5"}},
		"a sum with the freight": {`
Item | Base OD mm | Length mm | Qty | Price each | Amount
F-1 | 13.5 | 12 | 100 | 0.40 | 40.00
F-2 | 13.5 | 18 | 100 | 0.50 | 50.00
F-3 | 13.5 | 24 | 20 | 0.50 | 10.00
 | Glue |  |  |  | 8.00
Total |  |  |  |  | 108.00
`, nil},
		"a set with a club twice": {`
Set of 7 heads, 4-PW
Club | Hosel OD mm | Bore mm | Depth mm
4 | 13.4 | 9.5 | 32
6 | 13.4 | 9.5 | 32
6 | 13.4 | 9.5 | 32
7 | 13.4 | 9.5 | 32
8 | 13.4 | 9.5 | 32
9 | 13.4 | 9.5 | 32
PW | 13.4 | 9.5 | 32
`, []string{"A4", "A5"}},
		"a set without a club": {`
Jeu de fers 5-9, PW
Club | Ø ext. hosel mm | Perçage mm | Profondeur mm
5 | 13,4 | 9,5 | 32
6 | 13,4 | 9,5 | 32
8 | 13,4 | 9,5 | 32
9 | 13,4 | 9,5 | 32
PW | 13,4 | 9,5 | 32
`, []string{"A5"}},
		"woods of odd numbers": {`
Woods 3-7
Club | Hosel OD mm | Bore mm
3 | 12.0 | 8.6
5 | 12.0 | 8.6
7 | 12.0 | 8.6
`, nil},
		"another club than its name": {`
SKU | Name | Club | Hosel OD mm | Bore mm
R-5 | Fundy 5 Iron | 5 | 13.4 | 9.5
R-6 | Fundy 6 Iron | 6 | 13.4 | 9.5
R-7 | Fundy 7 Iron | 7 | 13.4 | 9.5
R-8 | Fundy 8 Iron | 8 | 13.4 | 9.5
R-9 | Fundy 9 Iron | 6 | 13.4 | 9.5
`, []string{"B6", "C6"}},
		"another club than its name, in wide letters": {`
货号 | 名称 | 号数 | 颈外径mm | 孔径mm
T-5 | 铁杆头5号 | 5 | 13.4 | 9.5
T-6 | 铁杆头6号 | 6 | 13.4 | 9.5
T-7 | 铁杆头7号 | 7 | 13.4 | 9.5
T-8 | 铁杆头8号 | 8 | 13.4 | 9.5
T-9 | 铁杆头9号 | 8 | 13.4 | 9.5
`, []string{"B6", "C6"}},
		"another base than the title says": {`
All ferrules on this page have a 13.5 mm base
Colour | Base mm | Length mm
Black | 13.5 | 15
White | 13.5 | 15
Navy | 12.5 | 15
Gold | 13.5 | 15
`, []string{"B5"}},
		"colours that name the parts": {`
Virolas, base 13,5 mm
Color | Base mm | Largo mm
Negro | 13,5 | 15
Blanco | 13,5 | 15
Rojo | 13,5 | 15
`, nil},
		"limits beside the size that are not about it": {`
料號 | 底徑mm | 下限 | 上限 | 長度mm
C-12 | 13.5 | 13.4 | 13.6 | 12
C-18 | 13.5 | 13.4 | 13.6 | 18
C-24 | 13.5 | 12.4 | 12.6 | 24
C-30 | 13.5 | 13.4 | 13.6 | 30
C-36 | 13.5 | 13.4 | 13.6 | 36
`, []string{"B4"}},
		"makers behind the part numbers": {`
Our no. | Supplier | Base mm | Length mm
1001 | Oakes Turning | 13.5 | 12
1002 | Penhale Plastics | 13.5 | 12
1003 | Oakes Turning | 13.5 | 18
`, nil},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Sheet1", test.sheet))
			if diff := cmp.Diff(test.want, warnedCells(c)); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
				show(t, c)
			}
		})
	}
}

// warnedCells are the cells of all warnings, or "row 3" where only the row is known, in order.
func warnedCells(c *catalog.Catalogue) (all []string) {
	for _, f := range c.Findings {
		if f.Severity < finding.Warning {
			continue
		}
		for _, p := range f.Places() {
			cell := p.Cell
			if cell == "" {
				cell = fmt.Sprintf("row %d", p.Row)
			}
			all = append(all, cell)
		}
	}
	slices.SortFunc(all, strings.Compare)
	return slices.Compact(all)
}
