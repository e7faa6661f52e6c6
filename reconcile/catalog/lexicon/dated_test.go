package lexicon

import (
	"testing"
)

// TestDated looks at which headings say that their sizes hold until a day, or from one on, and of which it is sure that they speak of a day.
func TestDated(t *testing.T) {
	lex := New(nil)
	type dated struct {
		said string
		age  int
		sure bool
	}
	for text, want := range map[string]dated{
		"Średnica otworu do 31.03":        {"do 31.03", -1, true},
		"Średnica otworu od 1.04":         {"od 1.04", 1, true},
		"Bohrung bis 31.3.":               {"bis 31.3.", -1, true},
		"Bohrung ab 1.4.":                 {"ab 1.4.", 1, true},
		"Bohrung ab 1. April 2025":        {"ab 1. April 2025", 1, true},
		"Bore until 31 March":             {"until 31 March", -1, true},
		"Bore (from 1 April)":             {"(from 1 April)", 1, true},
		"Bore thru 3/31":                  {"thru 3/31", -1, true},
		"Bore from 4/1":                   {"from 4/1", 1, false},
		"Bore from 2025":                  {"from 2025", 1, true},
		"Alésage jusqu'au 31/03":          {"jusqu'au 31/03", -1, true},
		"Alésage à partir du 01/04":       {"à partir du 01/04", 1, true},
		"Foro fino al 31/03":              {"fino al 31/03", -1, true},
		"Foro dal 01/04":                  {"dal 01/04", 1, true},
		"Interior hasta el 31-03":         {"hasta el 31-03", -1, true},
		"Interior desde el 01-04":         {"desde el 01-04", 1, true},
		"Boring t/m 31-03":                {"t/m 31-03", -1, true},
		"Boring vanaf 01-04":              {"vanaf 01-04", 1, true},
		"Hål t.o.m. 31/3":                 {"t.o.m. 31/3", -1, true},
		"Hål fr.o.m. 1/4":                 {"fr.o.m. 1/4", 1, false},
		"Furo até 31/03":                  {"até 31/03", -1, true},
		"Furo a partir de 01/04":          {"a partir de 01/04", 1, true},
		"Otvor do 31.03.2025":             {"do 31.03.2025", -1, true},
		"Reikä 31.3. asti":                {"31.3. asti", -1, true},
		"Reikä 1.4. alkaen":               {"1.4. alkaen", 1, true},
		"Rs. per head to 31 March":        {"to 31 March", -1, true},
		"Price from 1st of April":         {"from 1st of April", 1, true},
		"Prix à partir du 1er janvier":    {"à partir du 1er janvier", 1, true},
		"Precio hasta el 31 de marzo":     {"hasta el 31 de marzo", -1, true},
		"Preço a partir de 1º de abril":   {"a partir de 1º de abril", 1, true},
		"Prezzo dal 1° aprile 2027":       {"dal 1° aprile 2027", 1, true},
		"Preis bis März":                  {"bis März", -1, true},
		"Preis ab Mai":                    {"ab Mai", 1, false},
		"Bore to 9.5":                     {"to 9.5", -1, false},
		"内径 3月31日まで":                      {"3月31日まで", -1, true},
		"内径4月1日から":                        {"4月1日から", 1, true},
		"内径（2025年4月1日起）":                  {"2025年4月1日起", 1, true},
		"내경 3/31까지":                       {"3/31까지", -1, true},
		"Bore from 9.5":                   {"from 9.5", 1, false},
		"Bore up to 9.35":                 {"", 0, false},
		"Bore 31.03":                      {"", 0, false},
		"Length over 20 mm":               {"", 0, false},
		"Length from 13.5 mm":             {"from 13.5", 1, false},
		"Hosel OD measured 40 from the 2": {"", 0, false},
	} {
		said, age, sure := lex.Dated(text)
		if got := (dated{said, age, sure}); got != want {
			t.Errorf("%q: %+v, want %+v", text, got, want)
		}
	}
}
