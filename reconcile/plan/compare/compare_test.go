package compare_test

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/seatline/examples/shop"
	"example.com/seatline/examples/shop/shoptest"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/plan/compare"
	"example.com/seatline/reconcile/sheet/sheettest"
)

func read(file string, lines ...string) *catalog.Catalogue {
	return reader.Read([]reader.Input{{Book: sheettest.Book(file, "Heads", lines...), Kind: catalog.Heads}}, reader.Options{})
}

const heading = "Part | Description | Hosel OD | Bore (mm) | Price"

var (
	last = read("2025.xlsx", heading,
		"KR-20 | seven | 12.7 mm | 9.5 | 20", "KR-21 | eight | 13.2 mm | 9.5 | 20", "KR-22 | nine | 13.2 mm | 9.5 | 20", "KR-O5 | wedge | 13.4 mm | 9.5 | 20",
		"KR-30 | chipper | 13.4 mm | 9.5 | 20", "KR-40 | hybrid | 13.0 mm | 9.5 | 20")
	this = read("2026.xlsx", heading,
		"KR-20 | Seven | 1/2 in | 9.50 | 20.00", "KR 22 | nine | 13.2 ±0.1 mm | 9.5 | 22", "KR-21 | eight | 13.3 mm | 9.5 | 20", "KR-05 | wedge | 13.4 mm | 9.5 | 20",
		"KR-41 | hybrid | 13.0 mm | 9.5 | 25", "KR-77 | new one | 13.0 mm | 9.5 | 25")
)

func TestCatalogues(t *testing.T) {
	got := compare.Catalogues(last, this)
	var told []string
	for _, c := range got.Changed {
		for _, change := range c.Changes {
			by := ""
			if d, ok := change.Difference(); ok {
				by = d.String()
			}
			told = append(told, fmt.Sprintf("%s %s: %q in %s, now %q in %s, by %s", c.Old.Part, change.Role, change.Old.Text, change.Old.Place, change.New.Text, change.New.Place, by))
		}
	}
	for _, s := range got.Dropped {
		told = append(told, fmt.Sprintf("dropped %s, %s", s.Part, s.Place))
	}
	for _, s := range got.Added {
		told = append(told, fmt.Sprintf("added %s, %s", s.Part, s.Place))
	}
	for _, a := range got.Alike {
		told = append(told, fmt.Sprintf("%s may be %s: %d the same, %d other", a.New.Part, a.Old.Part, a.Same, a.Other))
	}
	want := []string{
		`KR-21 hosel_od: "13.2 mm" in 2025.xlsx, Heads!C3, now "13.3 mm" in 2026.xlsx, Heads!C4, by 0.1 mm`,
		`KR-22 hosel_od: "13.2 mm" in 2025.xlsx, Heads!C4, now "13.2 ±0.1 mm" in 2026.xlsx, Heads!C3, by 0 mm`,
		`KR-22 price: "20" in 2025.xlsx, Heads!E4, now "22" in 2026.xlsx, Heads!E3, by `,
		"dropped KR-O5, 2025.xlsx, Heads, row 5",
		"dropped KR-30, 2025.xlsx, Heads, row 6",
		"dropped KR-40, 2025.xlsx, Heads, row 7",
		"added KR-05, 2026.xlsx, Heads, row 5",
		"added KR-41, 2026.xlsx, Heads, row 6",
		"added KR-77, 2026.xlsx, Heads, row 7",
		"KR-05 may be KR-O5: 4 the same, 0 other",
		"KR-41 may be KR-40: 3 the same, 1 other",
	}
	if diff := cmp.Diff(want, told); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if got.Unchanged != 1 || got.Same() {
		t.Errorf("%d unchanged, same %v", got.Unchanged, got.Same())
	}
}

// swapped is the result with the readings exchanged, without regard to order.
func swapped(r compare.Result) map[string]int {
	told := map[string]int{"unchanged": r.Unchanged}
	for _, c := range r.Changed {
		for _, change := range c.Changes {
			told[fmt.Sprintln(c.Kind, c.New, c.Old, change.Role, change.New.Text, change.Old.Text)]++
		}
		told[fmt.Sprintln(c.Kind, c.New, c.Old)]++
	}
	for _, s := range r.Dropped {
		told[fmt.Sprintln("added", s)]++
	}
	for _, s := range r.Added {
		told[fmt.Sprintln("dropped", s)]++
	}
	for _, a := range r.Alike {
		told[fmt.Sprintln("alike", a.New, a.Old, a.Same, a.Other)]++
	}
	return told
}

func asIs(r compare.Result) map[string]int {
	told := map[string]int{"unchanged": r.Unchanged}
	for _, c := range r.Changed {
		for _, change := range c.Changes {
			told[fmt.Sprintln(c.Kind, c.Old, c.New, change.Role, change.Old.Text, change.New.Text)]++
		}
		told[fmt.Sprintln(c.Kind, c.Old, c.New)]++
	}
	for _, s := range r.Dropped {
		told[fmt.Sprintln("dropped", s)]++
	}
	for _, s := range r.Added {
		told[fmt.Sprintln("added", s)]++
	}
	for _, a := range r.Alike {
		told[fmt.Sprintln("alike", a.Old, a.New, a.Same, a.Other)]++
	}
	return told
}

// parts counts the rows of a reading that have a part number.
func parts(c *catalog.Catalogue) int {
	count := 0
	for _, t := range c.Tables {
		for _, r := range t.Rows {
			if r.Outcome != catalog.SetAside && r.Part != "" {
				count++
			}
		}
	}
	return count
}

// TestAnyTwoReadings: a reading does not differ from itself, exchanging the readings exchanges the answer, and every row is counted.
func TestAnyTwoReadings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(file string) *catalog.Catalogue {
			lines := []string{heading}
			for range rapid.IntRange(1, 8).Draw(t, "rows") {
				lines = append(lines, fmt.Sprintf("%s | seven | %s mm | %s | %d", rapid.SampledFrom([]string{"KR-20", "KR20", "KR-2O", "KR-21", "KR-210", "QQ-1"}).Draw(t, "part"),
					rapid.SampledFrom([]string{"12.7", "13.2", "345"}).Draw(t, "od"), rapid.SampledFrom([]string{"9.5", "9.6"}).Draw(t, "bore"), rapid.IntRange(1, 2).Draw(t, "price")))
			}
			return read(file, lines...)
		}
		a, b := draw("a.csv"), draw("b.csv")
		if self := compare.Catalogues(a, a); !self.Same() || self.Unchanged != parts(a) || len(self.Alike) > 0 {
			t.Errorf("a reading differs from itself: %+v", self)
		}
		there, back := compare.Catalogues(a, b), compare.Catalogues(b, a)
		if there.Unchanged+len(there.Changed)+len(there.Dropped) != parts(a) || there.Unchanged+len(there.Changed)+len(there.Added) != parts(b) {
			t.Errorf("%d unchanged, %d changed, %d dropped, %d added, of %d and %d", there.Unchanged, len(there.Changed), len(there.Dropped), len(there.Added), parts(a), parts(b))
		}
		if len(there.Dropped) != len(back.Added) || len(there.Added) != len(back.Dropped) || len(there.Alike) != len(back.Alike) {
			t.Errorf("there %+v\nback %+v", there, back)
		}
	})
}

// TestExchanged compares everything, for readings that name no part twice.
func TestExchanged(t *testing.T) {
	if diff := cmp.Diff(asIs(compare.Catalogues(last, this)), swapped(compare.Catalogues(this, last))); diff != "" {
		t.Errorf("(-there +back):\n%s", diff)
	}
}

// TestTheDemoDoesNotDifferFromItself reads every sheet of the demo twice.
func TestTheDemoDoesNotDifferFromItself(t *testing.T) {
	for _, name := range append(append(shop.Heads(), shop.Ferrules()...), shop.Tips()...) {
		var readings [2]*catalog.Catalogue
		for i := range readings {
			readings[i] = reader.Read([]reader.Input{{Book: shoptest.Book(t, name)}}, reader.Options{})
		}
		if r := compare.Catalogues(readings[0], readings[1]); !r.Same() || r.Unchanged == 0 {
			t.Errorf("%s: %+v", name, r)
		}
	}
}
