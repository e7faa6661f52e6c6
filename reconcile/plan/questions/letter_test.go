package questions_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/plan/questions"
)

// Every language has every word of letters, and fills in the same.
func TestLetterLanguagesAreComplete(t *testing.T) {
	english := questions.LetterLanguage("en").Words()
	for _, tag := range say.Languages() {
		w := questions.LetterLanguage(tag).Words()
		for key, text := range english {
			if !strings.HasPrefix(key, "letter.") {
				continue
			}
			want, got := say.Blanks(text), say.Blanks(w[key])
			slices.Sort(want)
			slices.Sort(got)
			if strings.TrimSpace(w[key]) == "" || !slices.Equal(want, got) {
				t.Errorf("%s: %s is %q, which fills in %v, want %v", tag, key, w[key], got, want)
			}
		}
		for key := range w {
			if _, known := english[key]; !known && strings.HasPrefix(key, "letter.") {
				t.Errorf("%s has %s, which nothing uses", tag, key)
			}
		}
	}
}

// No line of French begins with a mark: the spaces before them are narrow ones that do not break.
func TestFrenchSpaces(t *testing.T) {
	for key, text := range questions.LetterLanguage("fr").Words() {
		for _, broken := range []string{" ;", " :", " !", " ?", " »", "« ", " %"} {
			if strings.Contains(text, broken) {
				t.Errorf("%s has %q: %q", key, broken, text)
			}
		}
	}
}

// What a supplier can be asked is asked in its language, whatever it is about: nothing is left as it was written for the shop.
func TestNothingIsAskedInEnglishElsewhere(t *testing.T) {
	const english = "as the shop reads it"
	place := finding.Place{File: "f.csv", Cell: "D7"}
	all := []questions.Question{
		{Key: `sheets."f".columns.D.unit`, Says: "Ø", Lists: catalog.Heads},
		{Key: `sheets."f".columns.D.tolerance`, Says: "Ø", Lists: catalog.Heads},
		{Key: `sheets."f".columns.D.role`, Says: "Ø", Lists: catalog.Heads},
		{Key: `sheets."f".columns`, Lists: catalog.Ferrules},
		{Key: `sheets."f".ferrule_bores`, Says: "Ø", Lists: catalog.Ferrules},
		{Key: `sheets."f".ferrule_bores`, Says: "Ø", Lists: catalog.Ferrules, ByTip: true},
		{Key: `sheets."f".rows.7.part`, Part: "A-1", Role: catalog.Part, Lists: catalog.Heads},
		{Key: `sheets."f".rows.7.hosel_od`, Part: "A-1", Role: catalog.HoselOD, Lists: catalog.Heads},
		{Key: `sheets."f".rows.7.top`, Part: "A-1", Role: catalog.Top, Lists: catalog.Heads},
		{Key: `sheets."f".rows.7.style`, Part: "A-1", Role: catalog.Style, Lists: catalog.Ferrules},
		{Key: `sheets."f".rows.7.price`, Part: "A-1", Role: catalog.Price, Lists: catalog.Ferrules},
	}
	for _, tag := range say.Languages() {
		if tag == "en" {
			continue
		}
		l := questions.LetterLanguage(tag)
		seen := map[string]string{}
		for _, q := range all {
			q.Asks, q.Place = english, place
			m := questions.Matter{Questions: []questions.Question{q}}
			text := m.Asks(l)
			if text == english || text == "" || strings.ContainsAny(text, "{}") || seen[text] != "" {
				t.Errorf("%s: %s is asked as %q", tag, q.Key, text)
			}
			seen[text] = q.Key
		}
	}
}

// Sizes and tolerances are answered as the letter's own examples have them.
func TestLettersExamplesAreTaken(t *testing.T) {
	for _, row := range []string{
		`sheets."H".rows.2.hosel_od | 13,6 mm`, `sheets."H".rows.2.hosel_od | 13.6 mm`, `sheets."H".rows.2.hosel_od | .535 in`,
		`sheets."H".columns.D.tolerance | ±0,05 mm`, `sheets."H".columns.D.tolerance | ±0.05 mm`,
	} {
		if back := questions.Answers(book("Our reference | Answer", row)); back.Ledger.Answered != 1 || len(back.Findings) > 0 {
			t.Errorf("%s: %+v %+v", row, back.Ledger, back.Findings)
		}
	}
	for _, between := range []string{" = ", "=", " ＝ ", "＝"} {
		const key = "sheets.\"T\".rows.2.bore for \"F-1\"\nsheets.\"T\".rows.3.bore for \"F-2\""
		back := questions.Answers(book("Our reference | Answer", key+" | F-1"+between+"9.3 mm；F-2"+between+"9.4 mm"))
		if back.Ledger.Answered != 1 || len(back.Map.Sheets["T"].Rows) != 2 {
			t.Errorf("%q: %+v", between, back)
		}
	}
}
