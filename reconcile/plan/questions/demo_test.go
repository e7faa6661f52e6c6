package questions_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/examples/shop/shoptest"
	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/questions"
	"example.com/seatline/reconcile/sheet"
)

func decide(inputs []reader.Input, m catalog.Mapping) *matrix.Result {
	return matrix.Decide(reader.Read(inputs, reader.Options{Map: m}), fitcalc.DefaultShop())
}

// returned is a sheet of questions as it comes back, with answers by key.
func returned(list questions.List, answers map[string]string) *sheet.Book {
	text := func(s string) *sheet.Cell {
		if s == "" {
			return sheet.BlankCell
		}
		return &sheet.Cell{Kind: sheet.Text, Raw: s, Shown: s}
	}
	s := &sheet.Sheet{Name: "Questions", Rows: [][]*sheet.Cell{{text("For the supplier")}, {text("Part"), text("Answer"), text("Our reference")}}}
	for _, q := range list.Questions {
		s.Rows = append(s.Rows, []*sheet.Cell{text(q.Part), text(answers[q.Key]), text(q.Key)})
	}
	return &sheet.Book{File: "back.xlsx", Sheets: []*sheet.Sheet{s}}
}

// plausible is what a supplier may answer.
func plausible(q questions.Question) string {
	switch q.Role {
	case catalog.HoselOD, catalog.AdapterOD:
		return "13.2 mm"
	case catalog.BaseOD:
		return ".525 in"
	case catalog.Length:
		return "1/2 in"
	case catalog.Bore:
		return ".368 in"
	case catalog.TipTaken:
		return ".370 in"
	case catalog.BoreDepth:
		return "1-3/8 in"
	case catalog.Top:
		return "flat"
	case catalog.Style:
		return "plain"
	}
	return ""
}

func asks(r *matrix.Result) map[[2]string]bool {
	pairs := map[[2]string]bool{}
	for p := range matrix.DecideAll(r.Catalogue, r.Shop).Pairs() {
		if p.Verdict == fitcalc.Ask {
			h, f := r.Catalogue.Heads[p.Head], r.Catalogue.Ferrules[p.Ferrule]
			pairs[[2]string{fmt.Sprint(h.Part, h.Source), fmt.Sprint(f.Part, f.Source)}] = true
		}
	}
	return pairs
}

// TestEachAnswerSettlesWhatItSays answers every question of the demo by itself, reads everything again, and counts.
func TestEachAnswerSettlesWhatItSays(t *testing.T) {
	inputs := shoptest.Inputs(t)
	before := decide(inputs, catalog.Mapping{})
	list, undecided := questions.Ask(before), asks(before)
	if list.Undecided != len(undecided) || list.Pairs != before.InReachCount() {
		t.Fatalf("%d undecided of %d pairs, want %d of %d", list.Undecided, list.Pairs, len(undecided), before.InReachCount())
	}
	tried := 0
	for _, q := range list.Questions {
		if q.Settles+q.Helps == 0 {
			continue
		}
		tried++
		back := questions.Answers(returned(list, map[string]string{q.Key: plausible(q)}))
		if back.Ledger.Answered != 1 || len(back.Findings) > 0 {
			t.Fatalf("%s: %+v %+v", q.Key, back.Ledger, back.Findings)
		}
		left := asks(decide(inputs, back.Map))
		settled := 0
		for pair := range undecided {
			if !left[pair] {
				settled++
			}
		}
		// Of the pairs that lack something else too, the answer may rule out some. Two sources of a part that contradict each other
		// have to be answered both.
		if q.Part == "HP-2204" {
			continue
		}
		if settled < q.Settles || settled > q.Settles+q.Helps {
			t.Errorf("%s: %d pairs settled, %d were promised, %d more were said to be helped", q.Key, settled, q.Settles, q.Helps)
		}
	}
	if tried < 8 {
		t.Errorf("only %d questions of the demo settle anything", tried)
	}
}

// TestAllAnswersLeaveNothingToAsk answers everything.
func TestAllAnswersLeaveNothingToAsk(t *testing.T) {
	inputs := shoptest.Inputs(t)
	list := questions.Ask(decide(inputs, catalog.Mapping{}))
	answers := map[string]string{}
	for _, q := range list.Questions {
		answers[q.Key] = plausible(q)
	}
	back := questions.Answers(returned(list, answers))
	if back.Ledger.Refused > 0 {
		t.Errorf("refused: %+v", back.Findings)
	}
	after := decide(inputs, back.Map)
	if left := questions.Ask(after); left.Undecided != 0 {
		t.Errorf("%d pairs are still undecided: %+v", left.Undecided, left.Questions[0])
	}
	for _, table := range after.Catalogue.Tables {
		if table.Ledger.Held > 0 {
			t.Errorf("%s %s: %+v", table.File, table.Sheet, table.Ledger)
		}
	}
}

// TestNoSupplierHearsOfAnother looks for the names of other suppliers' files in what is sent.
func TestNoSupplierHearsOfAnother(t *testing.T) {
	conflicts := 0
	for _, q := range questions.Ask(decide(shoptest.Inputs(t), catalog.Mapping{})).Questions {
		if q.Kind != questions.Contradictory || q.Part != "HP-2204" {
			continue
		}
		conflicts++
		if q.WhySent != "another source states another value for this part" || q.Why == q.WhySent {
			t.Errorf("%s: %s", q.Key, q.WhySent)
		}
	}
	if conflicts != 2 {
		t.Errorf("%d questions about HP-2204, want 2", conflicts)
	}
}

// TestOrderAndGroups: what settles most comes first, and no question is lost in grouping.
func TestOrderAndGroups(t *testing.T) {
	list := questions.Ask(decide(shoptest.Inputs(t), catalog.Mapping{}))
	if !slices.IsSortedFunc(list.Questions, func(a, b questions.Question) int { return b.Settles - a.Settles }) {
		t.Error("the questions are not in order")
	}
	keys := map[string]bool{}
	total := 0
	for _, g := range list.BySupplier() {
		total += len(g.Questions)
		for _, q := range g.Questions {
			if keys[q.Key] || q.Supplier != g.Supplier.Key {
				t.Errorf("%s stands twice or in the wrong group", q.Key)
			}
			keys[q.Key] = true
			if q.Asks == "" || q.Why == "" || q.Kind.String() == "" || q.Place.File == "" {
				t.Errorf("%+v is not complete", q)
			}
		}
	}
	if total != len(list.Questions) {
		t.Errorf("%d questions in groups, %d in all", total, len(list.Questions))
	}
	if diff := cmp.Diff(list, questions.Ask(decide(shoptest.Inputs(t), catalog.Mapping{}))); diff != "" {
		t.Errorf("the same catalogue asks otherwise: %s", diff)
	}
}
