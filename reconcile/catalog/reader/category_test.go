package reader_test

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
)

// A plain number of a club says nothing of its kind: categories, descriptions, titles within the table and the sheet's own title
// come first, and only where none of them speaks is it an iron's. A club that names its kind itself (3W, PW) is heard before
// descriptions and titles. The first of the woods is the driver in every language.
func TestCategoryOfNumberedClubs(t *testing.T) {
	const (
		driver, fairway, hybrid, iron, wedge = fitcalc.Driver, fitcalc.Fairway, fitcalc.Hybrid, fitcalc.Iron, fitcalc.Wedge
	)
	for _, c := range []struct {
		what, sheet, text string
		want              []fitcalc.Category
	}{
		{"titles within, English", "Sheet1", `
Part | Club | Description | Hosel OD (mm) | Bore (mm)
WOODS
W-1 | #1 | driver | 13.6 | 8.6
W-2 | #1 | | 13.6 | 8.6
W-3 | #3 | | 13.5 | 8.6
W-4 | #5 | fairway | 13.5 | 8.6
HYBRIDS
H-1 | 3 | | 13.5 | 9.5
H-2 | 4 | utility | 13.5 | 9.5
IRONS
I-1 | #3 | | 12.7 | 9.5
I-2 | 7 | forged | 12.7 | 9.5
I-3 | PW | forged | 12.7 | 9.5`,
			[]fitcalc.Category{driver, driver, fairway, fairway, hybrid, hybrid, iron, iron, wedge}},
		{"titles within, German", "Tabelle1", `
Artikel-Nr. | Schläger | Bezeichnung | Hosel Außendurchmesser (mm) | Bohrung (mm)
HÖLZER
W-1 | 1 | Driver | 13,6 | 8,6
W-2 | 1 | | 13,6 | 8,6
W-3 | 3 | | 13,5 | 8,6
EISEN
I-1 | 3 | geschmiedet | 12,7 | 9,5`,
			[]fitcalc.Category{driver, driver, fairway, iron}},
		{"titles within, Japanese", "Sheet1", `
品番 | 番手 | 品名 | ホーゼル外径 (mm) | ホーゼル内径 (mm)
ウッド
W-1 | 1 | ドライバー | 13.6 | 8.6
W-3 | 3 | | 13.5 | 8.6
アイアン
I-1 | 7 | 鍛造 | 12.7 | 9.5`,
			[]fitcalc.Category{driver, fairway, iron}},
		{"descriptions alone, French", "Feuil1", `
Référence | Club | Désignation | Diamètre extérieur hosel (mm) | Alésage (mm)
K-1 | 1 | Décocheur | 13,6 | 8,6
K-2 | 3 | Bois de parcours | 13,5 | 8,6
K-3 | 3 | Fer forgé | 12,7 | 9,5
K-4 | 5 | | 12,7 | 9,5`,
			[]fitcalc.Category{driver, fairway, iron, iron}},
		{"a column of categories", "Sheet1", `
Part | Club | Type | Hosel OD (mm) | Bore (mm)
K-1 | 1 | Driver | 13.6 | 8.6
K-2 | #3 | Fairway wood | 13.5 | 8.6
K-3 | #4 | Hybrid | 13.5 | 9.5
K-4 | #4 | Iron | 12.7 | 9.5`,
			[]fitcalc.Category{driver, fairway, hybrid, iron}},
		{"the sheet's title", "Woods", `
Part | Club | Hosel OD (mm) | Bore (mm)
K-1 | #1 | 13.6 | 8.6
K-2 | #3 | 13.5 | 8.6
K-3 | #4H | 13.5 | 9.5`,
			[]fitcalc.Category{driver, fairway, hybrid}},
		{"nothing but numbers", "Sheet1", `
Part | Club | Hosel OD (mm) | Bore (mm)
K-1 | #3 | 12.7 | 9.5
K-2 | #5 | 12.7 | 9.5
K-3 | 3W | 13.5 | 8.6`,
			[]fitcalc.Category{iron, iron, fairway}},
		{"a set under a title", "Sheet1", `
Part | Club | Hosel OD (mm) | Bore (mm)
WOODS
K-1 | 1,3,5 | 13.6 | 8.6
IRONS
K-2 | 4-6 | 12.7 | 9.5`,
			[]fitcalc.Category{driver, fairway, fairway, iron, iron, iron}},
	} {
		t.Run(c.what, func(t *testing.T) {
			var got []fitcalc.Category
			for _, h := range read(t, grid(c.sheet, c.text)).Heads {
				got = append(got, h.Category)
				if h.Head.Category != h.Category {
					t.Errorf("%s: %v, and %v for the joint", h.Part, h.Category, h.Head.Category)
				}
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

// TestClubsThatComeTwice takes clubs by their numbers for clubs, although some come twice and the heading may speak of kinds, too; and kinds for kinds.
func TestClubsThatComeTwice(t *testing.T) {
	for name, test := range map[string]struct {
		heading string
		cells   [4]string
		role    catalog.Role
		kinds   []fitcalc.Category
	}{
		"en":       {"Club", [4]string{"driver", "3 wood", "5 wood", "3 wood"}, catalog.Club, []fitcalc.Category{fitcalc.Driver, fitcalc.Fairway, fitcalc.Fairway, fitcalc.Fairway}},
		"de":       {"Schläger", [4]string{"Driver", "Holz 3", "Holz 5", "Holz 3"}, catalog.Club, []fitcalc.Category{fitcalc.Driver, fitcalc.Fairway, fitcalc.Fairway, fitcalc.Fairway}},
		"es":       {"Palo", [4]string{"hierro 5", "hierro 6", "hierro 7", "hierro 5"}, catalog.Club, []fitcalc.Category{fitcalc.Iron, fitcalc.Iron, fitcalc.Iron, fitcalc.Iron}},
		"ja":       {"クラブ", [4]string{"ドライバー", "3番ウッド", "5番ウッド", "3番ウッド"}, catalog.Club, []fitcalc.Category{fitcalc.Driver, fitcalc.Fairway, fitcalc.Fairway, fitcalc.Fairway}},
		"kinds":    {"Club", [4]string{"Driver", "Wood", "Iron", "Wood"}, catalog.Category, []fitcalc.Category{fitcalc.Driver, fitcalc.Fairway, fitcalc.Iron, fitcalc.Fairway}},
		"headings": {"Club type", [4]string{"driver", "3 wood", "5 wood", "3 wood"}, catalog.Category, []fitcalc.Category{fitcalc.Driver, fitcalc.Fairway, fitcalc.Fairway, fitcalc.Fairway}},
	} {
		t.Run(name, func(t *testing.T) {
			text := "All sizes in mm\nCode | " + test.heading + " | Hosel OD | Bore"
			for i, cell := range test.cells {
				text += fmt.Sprintf("\nCW-1%d | %s | 12.%d | 8.6", i, cell, i)
			}
			c := read(t, grid("Heads", text))
			defer show(t, c)
			if got := c.Tables[0].Columns[1].Role; got != test.role {
				t.Errorf("%s is taken for %s, want %s", test.heading, got, test.role)
			}
			var kinds []fitcalc.Category
			for _, h := range c.Heads {
				kinds = append(kinds, h.Head.Category)
			}
			if diff := cmp.Diff(test.kinds, kinds); diff != "" {
				t.Errorf("kinds (-want +got):\n%s", diff)
			}
		})
	}
}
