package questions_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/plan/questions"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/sheettest"
)

func book(lines ...string) *sheet.Book { return sheettest.Book("back.csv", "Q", lines...) }

// named is a book of one sheet that is called as its file is.
func named(file string, lines ...string) *sheet.Book {
	b := book(lines...)
	b.File, b.Sheets[0].Name = file, strings.TrimSuffix(file, ".csv")
	return b
}

func TestAnswers(t *testing.T) {
	got := questions.Answers(book(
		"Dear supplier, please fill in the empty column",
		"Our reference | part | ANSWER",
		`sheets."Heads".rows.17.hosel_od | KR-20 | .535"`,
		`sheets."Heads".rows.18.top | KR-21 | flat`,
		`sheets."Heads".rows.19.part | | set aside`,
		`sheets."Heads".columns.C.unit | | MM`,
		`sheets."Heads".columns.C.tolerance | | ±0.05 mm`,
		`sheets."a \"b\".csv".columns | | d = hosel_od`,
		`sheets."Heads".heading_rows | | 3, 4`,
		`sheets."Heads".kind | | Heads`,
		`sheets."Trim".ferrule_bores | | Tip`,
		`sheets."Heads".rows.20.bore | KR-22 | `,
		" | | ",
	))
	want := catalog.Mapping{Categories: map[string]string{}, Sheets: map[string]catalog.SheetRules{
		"Heads": {
			Kind: "heads", HeadingRows: []int{3, 4},
			Columns: map[string]catalog.ColumnRule{"C": {Unit: "mm", Tolerance: "±0.05 mm"}},
			Rows: map[string]catalog.RowRule{
				"17": {For: "KR-20", Values: map[catalog.Role]string{catalog.HoselOD: "13.589 mm"}},
				"18": {For: "KR-21", Values: map[catalog.Role]string{catalog.Top: "flat"}},
				"19": {SetAside: true},
			},
		},
		"Trim":      {FerruleBores: "tip"},
		`a "b".csv`: {Columns: map[string]catalog.ColumnRule{"D": {Role: "hosel_od"}}},
	}}
	if diff := cmp.Diff(want, got.Map, cmpopts.EquateEmpty()); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(questions.Ledger{Rows: 13, Answered: 9, Open: 1, SetAside: 3}, got.Ledger); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if len(got.Findings) > 0 {
		t.Errorf("findings %+v", got.Findings)
	}
}

func TestAnswersRefuses(t *testing.T) {
	for name, test := range map[string]struct{ row, code string }{
		"no unit":         {`sheets."H".rows.2.hosel_od | P | 13.6`, "data.unit"},
		"two sizes":       {`sheets."H".rows.2.hosel_od | P | .370 (9.9 mm)`, "answer.value"},
		"a word":          {`sheets."H".rows.2.hosel_od | P | as always`, "answer.value"},
		"a radius":        {`sheets."H".rows.2.hosel_od | P | R6.8 mm`, "answer.value"},
		"nothing left":    {`sheets."H".rows.2.hosel_od | P | 0 mm`, "answer.value"},
		"no key":          {` | P | 13.6 mm`, "answer.key"},
		"a changed key":   {`heads row 2 | P | 13.6 mm`, "answer.key"},
		"half a key":      {`sheets."H | P | 13.6 mm`, "answer.key"},
		"unknown role":    {`sheets."H".rows.2.colour_of_day | P | red`, "answer.value"},
		"unknown unit":    {`sheets."H".columns.C.unit | | furlong`, "answer.value"},
		"no bores":        {`sheets."H".ferrule_bores | | both`, "answer.value"},
		"unknown kind":    {`sheets."H".kind | | spoons`, "answer.value"},
		"rows as words":   {`sheets."H".heading_rows | | the third`, "answer.value"},
		"no column named": {`sheets."H".columns | | hosel_od`, "answer.value"},
		"no tolerance":    {`sheets."H".columns.C.tolerance | | good`, "answer.value"},
		"no angle":        {`sheets."H".rows.2.countersink_angle | P | 60`, "answer.value"},
		"not asked here":  {`sheets."H".columns.C.radius | | yes`, "answer.key"},
	} {
		t.Run(name, func(t *testing.T) {
			got := questions.Answers(book("Our reference | Part | Answer", test.row))
			if len(got.Findings) != 1 || got.Findings[0].Code != test.code || got.Findings[0].Place.Cell != "C2" || got.Ledger.Refused != 1 {
				t.Errorf("findings %+v, ledger %+v", got.Findings, got.Ledger)
			}
			if len(got.Map.Sheets) > 0 {
				t.Errorf("rules %+v", got.Map)
			}
		})
	}
}

func TestAnsweredTwice(t *testing.T) {
	got := questions.Answers(book("Our reference | Answer", `sheets."H".rows.2.hosel_od | 13.6 mm`, `sheets."H".rows.2.hosel_od | 13.6 mm`, `sheets."H".rows.2.hosel_od | 13.7 mm`))
	if got.Ledger.Answered != 2 || len(got.Findings) != 1 || got.Findings[0].Code != "answer.conflict" {
		t.Errorf("findings %+v, ledger %+v", got.Findings, got.Ledger)
	}
	if value := got.Map.Sheets["H"].Rows["2"].Values[catalog.HoselOD]; value != "13.6 mm" {
		t.Errorf("hosel OD %q", value)
	}
}

func TestAnswersOfAnotherSheet(t *testing.T) {
	got := questions.Answers(book("Part | Hosel OD", "KR-20 | 13.6"))
	if len(got.Findings) != 1 || got.Findings[0].Code != "answer.no-sheet" || got.Ledger.SetAside != 2 {
		t.Errorf("findings %+v, ledger %+v", got.Findings, got.Ledger)
	}
}

// TestADateIsNoSize: a spreadsheet program makes a date of 3/8.
func TestADateIsNoSize(t *testing.T) {
	b := book("Our reference | Answer", `sheets."F".rows.2.length | 3/8`)
	b.Sheets[0].Rows[1][1] = &sheet.Cell{Kind: sheet.Date, Raw: "46089", Shown: "8-Mar", Format: "d-mmm"}
	got := questions.Answers(b)
	if len(got.Findings) != 1 || got.Findings[0].Code != "data.damaged" || !strings.Contains(got.Findings[0].Message, "3/8") {
		t.Errorf("findings %+v", got.Findings)
	}
}

func TestMerge(t *testing.T) {
	under := catalog.Mapping{Categories: map[string]string{"a": "iron"}, Sheets: map[string]catalog.SheetRules{"H": {
		Kind: "heads", Unit: "mm", Columns: map[string]catalog.ColumnRule{"C": {Heading: "Hosel", Role: "hosel_od"}},
		Rows: map[string]catalog.RowRule{"2": {For: "P", Values: map[catalog.Role]string{catalog.HoselOD: "1 mm", catalog.Bore: "9 mm"}}},
	}}}
	over := catalog.Mapping{Sheets: map[string]catalog.SheetRules{"H": {
		Unit: "in", Columns: map[string]catalog.ColumnRule{"C": {Unit: "in"}},
		Rows: map[string]catalog.RowRule{"2": {Values: map[catalog.Role]string{catalog.HoselOD: "13 mm"}}},
	}}}
	want := catalog.Mapping{Categories: map[string]string{"a": "iron"}, Sheets: map[string]catalog.SheetRules{"H": {
		Kind: "heads", Unit: "in", Columns: map[string]catalog.ColumnRule{"C": {Heading: "Hosel", Role: "hosel_od", Unit: "in"}},
		Rows: map[string]catalog.RowRule{"2": {For: "P", Values: map[catalog.Role]string{catalog.HoselOD: "13 mm", catalog.Bore: "9 mm"}}},
	}}}
	if diff := cmp.Diff(want, questions.Merge(under, over)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func FuzzAnswers(f *testing.F) {
	f.Add(`sheets."H".rows.2.hosel_od`, "13.6 mm", "P")
	f.Add(`sheets."H".columns`, "D = bore", "")
	f.Add(`sheets."\x00".heading_rows`, "3]\nkind = [", "")
	f.Add(`sheets."H".kind`, "heads\"\n[x]", "\"")
	f.Fuzz(func(t *testing.T, key, answer, part string) {
		cell := func(s string) *sheet.Cell { return &sheet.Cell{Kind: sheet.Text, Raw: s, Shown: s} }
		b := &sheet.Book{Sheets: []*sheet.Sheet{{Rows: [][]*sheet.Cell{
			{cell("Our reference"), cell("Answer"), cell("Part")}, {cell(key), cell(answer), cell(part)},
		}}}}
		got := questions.Answers(b)
		l := got.Ledger
		if l.Rows != 2 || l.Rows != l.Answered+l.Open+l.Refused+l.SetAside || l.Refused != len(got.Findings) {
			t.Errorf("ledger %+v, findings %+v", l, got.Findings)
		}
		if l.Answered == 0 && len(got.Map.Sheets) > 0 {
			t.Errorf("rules %+v without an answer", got.Map)
		}
	})
}
