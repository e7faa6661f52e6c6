package workbook

import (
	"bytes"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/questions"
	"example.com/seatline/reconcile/publish/supplier"
	"example.com/seatline/reconcile/publish/tell/telltest"
	opener "example.com/seatline/reconcile/sheet/open"
)

// TestQuestionsComeBack writes the questions, reads what was written as it would come back, and finds every question open.
func TestQuestionsComeBack(t *testing.T) {
	for name, r := range map[string]*matrix.Result{"small": telltest.Small(t), "awkward": telltest.Awkward(t), "empty": telltest.Empty()} {
		t.Run(name, func(t *testing.T) {
			list := questions.Ask(r)
			var out, again bytes.Buffer
			if err := WriteReport(&out, supplier.QuestionsReport(list, questions.Assumptions(r)), Options{ShopName: "Harrow Lane"}); err != nil {
				t.Fatal(err)
			}
			if err := WriteReport(&again, supplier.QuestionsReport(list, questions.Assumptions(r)), Options{ShopName: "Harrow Lane"}); err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(out.Bytes(), again.Bytes()) {
				t.Error("the same questions give other bytes")
			}
			book, err := opener.Bytes("questions.xlsx", out.Bytes())
			if err != nil {
				t.Fatal(err)
			}
			back := questions.Answers(book)
			if len(list.Questions) > 0 && (back.Ledger.Open != len(list.Questions) || len(back.Findings) > 0) {
				t.Errorf("%d questions, but %+v %+v", len(list.Questions), back.Ledger, back.Findings)
			}
		})
	}
}

// TestLetterSaysNothingOfTheShop: what goes to a supplier has no counts, no kinds and no questions for the shop itself.
func TestLetterSaysNothingOfTheShop(t *testing.T) {
	g := questions.Group{Supplier: "Tarrow Foundry", Questions: []questions.Question{
		{Key: `sheets."H".rows.2.hosel_od`, Part: "T-1", Asks: "T-1: what is the hosel?", Why: "Obrist says otherwise", WhySent: "another source differs", Settles: 4711, Kind: questions.Contradictory},
		{Key: `sheets."H".kind`, Asks: "What does it list?", Why: "unclear", WhySent: "unclear", Ours: true},
	}}
	g.Questions[0].Place.File = "private/folder/heads.xlsx"
	var out bytes.Buffer
	if err := WriteReport(&out, supplier.Letter(g), Options{Units: fitcalc.Metric}); err != nil {
		t.Fatal(err)
	}
	book, err := opener.Bytes("letter.xlsx", out.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	var texts []string
	for _, row := range book.Sheets[0].Rows {
		for _, c := range row {
			texts = append(texts, c.Shown)
		}
	}
	all := strings.Join(texts, "\n")
	for _, word := range []string{"Obrist", "4711", "4,711", "contradictory", "What does it list?", "private"} {
		if strings.Contains(all, word) {
			t.Errorf("the letter says %q", word)
		}
	}
	if !strings.Contains(all, "another source differs") || len(book.Sheets) != 1 {
		t.Errorf("the letter is %q", all)
	}
}

func TestSheetNames(t *testing.T) {
	n := sheetNames{taken: map[string]bool{}}
	var got []string
	for _, text := range []string{"Tarrow: Foundry", "tarrow  foundry", "'", "", "History", strings.Repeat("澜", 40), strings.Repeat("澜", 40), strings.Repeat("😀", 20)} {
		got = append(got, n.of(text))
	}
	want := []string{"Tarrow  Foundry", "tarrow  foundry 2", "Supplier", "Supplier 2", "Supplier 3", strings.Repeat("澜", 31), strings.Repeat("澜", 29) + " 2", strings.Repeat("😀", 15)}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
