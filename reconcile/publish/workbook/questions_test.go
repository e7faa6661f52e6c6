package workbook

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/questions"
	"example.com/seatline/reconcile/publish/supplier"
	"example.com/seatline/reconcile/publish/tell/telltest"
	"example.com/seatline/reconcile/sheet"
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
			matters := 0
			for _, g := range list.BySupplier() {
				matters += len(g.Matters())
			}
			if len(list.Questions) > 0 && (back.Ledger.Open != matters || len(back.Findings) > 0) {
				t.Errorf("%d matters, but %+v %+v", matters, back.Ledger, back.Findings)
			}
		})
	}
}

// TestLettersComeBack: in every language a letter asks for nine bores at once, by the names of the parts and without words of the program,
// and one answer, or one for each part, is taken as it comes back.
func TestLettersComeBack(t *testing.T) {
	for _, tag := range append(say.Languages(), "") {
		g := questions.Group{Supplier: catalog.Supplier{Key: "trim_2026", Language: tag}}
		for i := range 9 {
			g.Questions = append(g.Questions, questions.Question{
				Key: fmt.Sprintf(`sheets."trim 2026.csv".rows.%d.bore`, i+2), Kind: questions.Missing, Lists: catalog.Ferrules, Role: catalog.Bore, Part: fmt.Sprintf("F-%d", i+1),
				Asks: "asked", Why: "why", WhySent: "no bore",
			})
		}
		var out bytes.Buffer
		if err := WriteReport(&out, supplier.Letter(g), Options{Units: fitcalc.Metric}); err != nil {
			t.Fatal(err)
		}
		for answer, want := range map[string]map[string]string{"9.35 mm": {"2": "9.35 mm", "10": "9.35 mm"}, "F-1 = 9.35 mm; f-9 = .366 in": {"2": "9.35 mm", "10": "9.2964 mm"}} {
			book, err := opener.Bytes("letter.xlsx", out.Bytes())
			if err != nil {
				t.Fatal(err)
			}
			all, rows := answerLetter(book.Sheets[0], questions.LetterLanguage(tag).Words()["letter.answer"], answer)
			if rows != 1 || !strings.Contains(all, "F-9") || strings.Contains(strings.Split(all, "sheets.")[0], "trim_2026") {
				t.Errorf("%s: %d questions in %q", tag, rows, all)
			}
			back := questions.Answers(book)
			if back.Ledger.Answered != 1 || len(back.Findings) > 0 {
				t.Errorf("%s: %+v %+v", tag, back.Ledger, back.Findings)
			}
			for line, size := range want {
				if got := back.Map.Sheets["trim 2026.csv"].Rows[line].Values[catalog.Bore]; got != size {
					t.Errorf("%s, %s: row %s is answered %q, want %q", tag, answer, line, got, size)
				}
			}
			if got := len(back.Map.Sheets["trim 2026.csv"].Rows); answer != "9.35 mm" && got != 2 {
				t.Errorf("%s: %d rows are answered", tag, got)
			}
		}
	}
}

// answerLetter writes an answer to each question of a letter, and returns its texts and how many questions it has.
func answerLetter(s *sheet.Sheet, heading, answer string) (all string, questions int) {
	column := -1
	for i, row := range s.Rows {
		for col, c := range row {
			all += c.Shown + "\n"
			if c.Shown == heading {
				column = col
			}
		}
		if column >= 0 && len(row) > column && row[column].Shown == "" {
			row[column] = &sheet.Cell{Kind: sheet.Text, Raw: answer, Shown: answer}
			questions++
		}
		s.Rows[i] = row
	}
	return all, questions
}

// TestLetterSaysNothingOfTheShop: what goes to a supplier has no counts, no kinds and no questions for the shop itself.
func TestLetterSaysNothingOfTheShop(t *testing.T) {
	g := questions.Group{Supplier: catalog.Supplier{Key: "Tarrow Foundry", Name: "Tarrow Foundry"}, Questions: []questions.Question{
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
