package reader_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
)

// TestPrintedPages reads a list that was printed on several pages as one table, and no title of a page as a heading or a part. What a title says of the
// parts of its page alone stays.
func TestPrintedPages(t *testing.T) {
	for name, test := range map[string]struct{ sheet, want string }{
		"titles that look like headings": {`
ORRIN TOOLS | STOCK | PRICE | LISTING | | PAGE 1 OF | 2
FERRULES (SIZES IN MM)

CODE | TYPE | BASE | BORE | LENGTH | EACH | BAL
 | | DIA | DIA | | | QTY
F-1 | PLAIN | 13.5 | 9.3 | 25 | 0.90 | 120
F-2 | PLAIN | 13.5 | 9.3 | 20 | 0.90 | 80
C/F NEXT PAGE

ORRIN TOOLS | STOCK | PRICE | LISTING | | PAGE 2 OF | 2
FERRULES (SIZES IN MM)

CODE | TYPE | BASE | BORE | LENGTH | EACH | BAL
 | | DIA | DIA | | | QTY
F-3 | PLAIN | 13.2 | 8.9 | 20 | 0.95 | 12
`, "F-1 F-2 F-3"},
		"right above the headings": {`
TOURNERIE ORRIN | STOCK | PRIX | | PAGE 1
REF | Ø BASE MM | Ø TROU MM | LONGUEUR MM | PRIX
V-1 | 13,5 | 9,3 | 25 | 0,90
V-2 | 13,5 | 9,3 | 20 | 0,85
 | | À REPORTER | | 1,75
TOURNERIE ORRIN | STOCK | PRIX | | PAGE 2
REF | Ø BASE MM | Ø TROU MM | LONGUEUR MM | PRIX
V-3 | 13,2 | 8,9 | 25 | 0,90
`, "V-1 V-2 V-3"},
		"without blanks between words": {`
折林ゴルフ部品 | | | 在庫 | 第1頁
品番 | 根元外径(mm) | 内径(mm) | 全長(mm) | 在庫
M-1 | 13.5 | 9.3 | 25 | 100
次頁へ繰越 | | | | 100
折林ゴルフ部品 | | | 在庫 | 第2頁
品番 | 根元外径(mm) | 内径(mm) | 全長(mm) | 在庫
M-2 | 13.2 | 8.9 | 25 | 100
`, "M-1 M-2"},
		"one page only": {`
ORRIN TOOLS | STOCK | PRICE | LENGTHS | PAGE 1
CODE | BASE OD MM | BORE MM | LENGTH MM | EACH
F-1 | 13.5 | 9.3 | 25 | 0.90
F-2 | 13.5 | 9.3 | 20 | 0.90
`, "F-1 F-2"},
		"pages with titles of their own": {`
Drechslerei Orrin
Zierringe .370 parallel, Seite 1
Artikel | Ø unten (mm) | Bohrung (mm) | Länge (mm)
D-1 | 13,5 | 9,3 | 25
D-2 | 13,5 | 9,3 | 20
Drechslerei Orrin
Zierringe .355 konisch, Seite 2
Artikel | Ø unten (mm) | Bohrung (mm) | Länge (mm)
D-3 | 13,2 | 8,9 | 25
`, "D-1 for .370 parallel D-2 for .370 parallel D-3 for .355 konisch"},
		"of other tips alone": {`
Ferrules .370 parallel, page 1 of 2
Code | Base OD (mm) | Bore (mm) | Length (mm)
D-1 | 13.5 | 9.3 | 25
Ferrules .350 parallel, page 2 of 2
Code | Base OD (mm) | Bore (mm) | Length (mm)
D-2 | 12.2 | 8.8 | 25
`, "D-1 for .370 parallel D-2 for .350 parallel"},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("List", test.sheet))
			defer show(t, c)
			if len(c.Tables) != 1 {
				t.Errorf("%d tables", len(c.Tables))
			}
			var got []string
			for _, f := range c.Ferrules {
				got = append(got, f.Part)
				if tip := f.Fields.Text(catalog.TipTaken); tip != "" {
					got = append(got, "for", tip)
				}
			}
			if diff := cmp.Diff(test.want, strings.Join(got, " ")); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
		})
	}
}
