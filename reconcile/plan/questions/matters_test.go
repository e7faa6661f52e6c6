package questions_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/plan/questions"
)

// TestOneMatter: the bores of nine ferrules, of which a sheet gives none, are one question that names the parts, and one answer settles them.
func TestOneMatter(t *testing.T) {
	heads := reader.Input{Kind: catalog.Heads, Book: named("heads.csv", "Supplier: Orrin Vale", "Part | Hosel OD (mm) | Bore (mm) | Category", "H-1 | 13.6 | 9.51 | iron", "H-2 | 13.4 | 9.51 | iron")}
	lines := []string{"Part | Bore (mm) | Base OD (mm) | Length (mm)", "F-0 | 9.3 | 13.8 | 20"}
	for i := 1; i <= 9; i++ {
		lines = append(lines, fmt.Sprintf("F-%d | | 13.7%d | 20", i, i))
	}
	trim := reader.Input{Kind: catalog.Ferrules, Book: named("trim.csv", lines...)}
	bores := func(list questions.List) (found []questions.Matter) {
		for _, g := range list.BySupplier() {
			for _, m := range g.Matters() {
				if m.First().Role == catalog.Bore && m.First().Part != "" {
					found = append(found, m)
				}
			}
		}
		return found
	}
	list, _ := asked(reader.Options{}, heads, trim)
	matters := bores(list)
	if len(matters) != 1 || len(matters[0].Questions) != 9 {
		t.Fatalf("matters %+v", matters)
	}
	m := matters[0]
	if text := m.Asks(questions.LetterLanguage("")); !strings.Contains(text, "F-1, F-2") || !strings.Contains(text, "F-9") || m.Settles() == 0 {
		t.Errorf("asked is %q, which settles %d", text, m.Settles())
	}
	back := questions.Answers(named("back.csv", "Part | Answer", "x | y")) // not what was sent
	if back.Ledger.Answered != 0 {
		t.Errorf("%+v", back.Ledger)
	}
	back = questions.Answers(book("Part | Answer | Our reference", "F-1 and others | 9.35 mm | "+m.Key()))
	again, _ := asked(reader.Options{Map: back.Map}, heads, trim)
	if left := bores(again); len(left) != 0 || back.Ledger.Answered != 1 {
		t.Errorf("%+v, and still asked are %+v", back, left)
	}
}

// TestAnswersOfAMatterRefused: an answer for a part that is not asked about, or without a value, is used for none.
func TestAnswersOfAMatterRefused(t *testing.T) {
	const key = "sheets.\"T\".rows.2.bore for \"F-1\"\nsheets.\"T\".rows.3.bore for \"F-2\""
	for _, answer := range []string{"F-3 = 9.3 mm", "F-1 = ; F-2 = 9.3 mm", "F-1 = 9.3", "9.3", "= 9.3 mm"} {
		back := questions.Answers(book("Part | Answer | Our reference", "F-1 | "+answer+" | "+key))
		if back.Ledger.Refused != 1 || len(back.Findings) != 1 || len(back.Map.Sheets) != 0 {
			t.Errorf("%q: %+v", answer, back)
		}
	}
}

// TestGaps: a supplier known by its file alone, and prices without a currency, are asked for once; what the shop says fills both.
func TestGaps(t *testing.T) {
	trim := reader.Input{Kind: catalog.Ferrules, Book: named("trim.csv", "Part | Bore (mm) | Base OD (mm) | Price", "F-0 | 9.3 | 13.8 | 14.40", "F-1 | 9.3 | 13.6 | 12")}
	named := reader.Input{Kind: catalog.Ferrules, Book: named("more.csv", "Supplier: Hollin Mouldings", "Part | Bore (mm) | Base OD (mm) | Price (EUR)", "G-0 | 9.3 | 13.8 | 0.5")}
	c := reader.Read([]reader.Input{trim, named}, reader.Options{})
	want := []questions.Gap{{Supplier: "trim", Name: true, Currency: true}}
	if diff := cmp.Diff(want, questions.Gaps(c)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	c = reader.Read([]reader.Input{trim, named}, reader.Options{Suppliers: map[string]catalog.Supplier{"Trim": {Name: "Quill & Co.", Currency: "USD", PricedBy: 12}}})
	if gaps := questions.Gaps(c); len(gaps) != 0 {
		t.Errorf("still asked for: %+v", gaps)
	}
	if f := c.Ferrules[0]; f.Price != 1.2 || f.Currency != "USD" || c.Tables[0].Supplier.Name != "Quill & Co." { // 14.40 a dozen
		t.Errorf("price %v %s of %+v", f.Price, f.Currency, c.Tables[0].Supplier)
	}
}
