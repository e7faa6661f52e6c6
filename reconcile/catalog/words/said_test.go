package words

import "testing"

// TestCorrects looks at words by which people put right what they have said, and at others between two numbers.
func TestCorrects(t *testing.T) {
	v := Load()
	for text, want := range map[string]bool{
		"no, sorry": true, "No.": false, "no": false, "make that": true, "or rather": true, "I mean": true, "ach nein": true, "besser gesagt": true, "non pardon": true, "ou plutôt": true,
		"anzi no scusa": true, "o meglio": true, "perdón": true, "mejor dicho": true, "nee sorry": true, "of eigenlijk": true,
		"and": false, "to": false, "or": false, "was": false, "mm": false, "hole": false, "": false, "the old one was": false, "oder": false, "fino a": false,
	} {
		if got := v.Corrects(text); got != want {
			t.Errorf("%q: %t, want %t", text, got, want)
		}
	}
}

// TestCountSaid looks at how many pieces texts say that there are, and at such as say something else.
func TestCountSaid(t *testing.T) {
	v := Load()
	for text, want := range map[string]int{
		"Four of them": 4, "Six left": 6, "Just the two": 2, "One only": 1, "There are five": 5, "we have 12": 12, "I have three of these": 3, "Three at": 3, "twenty left": 20,
		"Vier Stück": 4, "nur noch zwei": 2, "davon sind noch sechs da": 6, "es sind zwölf": 12, "il en reste trois": 3, "plus que deux": 2,
		"ce ne sono quattro": 4, "solo due": 2, "quedan ocho": 8, "tengo 5": 5, "nog drie over": 3, "maar twee": 2,
		"20 of them": 20, "only 3": 3, "I count 14 of them": 14, "davon 12": 12, "nur noch 3": 3, "plus que 3": 3, "j'en compte 14": 14, "sólo 3": 3, "quedan 8 de ellos": 8, "ne conto 14": 14, "nog maar 3": 3,
		"bara 3": 3, "kun 3": 3, "tylko 3": 3, "5": 0, "the 5": 0, "5 each": 0, "5 pieces": 0, "two for": 0, "two or three": 0, "the long one": 0, "four weeks": 0, "only": 0, "no four": 0, "": 0, "2 3 left": 0,
	} {
		if got := v.CountSaid(text); got != want {
			t.Errorf("%q: %d, want %d", text, got, want)
		}
	}
}

// TestCents looks at words for hundredths of currencies.
func TestCents(t *testing.T) {
	v := Load()
	for word, want := range map[string]bool{"p": true, "pence": true, "Cent": true, "centimes": true, "céntimos": true, "centesimi": true, "¢": true, "pcs": false, "€": false, "each": false, "": false} {
		if got := v.Cents(word); got != want {
			t.Errorf("%q: %t, want %t", word, got, want)
		}
	}
}

// TestJoinsNames looks at words between two names; one that goes with names in another language does not tell.
func TestJoinsNames(t *testing.T) {
	v := Load()
	for word, want := range map[string]bool{"and": true, "und": true, "et": true, "y": true, "of": false, "the": false, "od": false, "hole": false} {
		if got := v.JoinsNames(word); got != want {
			t.Errorf("%q: %t, want %t", word, got, want)
		}
	}
}

// TestLeadsToPrice looks at words beside prices; those of other things do not lead to one.
func TestLeadsToPrice(t *testing.T) {
	v := Load()
	for text, want := range map[string]bool{
		"it costs": true, "you can have it at": true, "comptez": true, "rechnen Sie mit": true, "costa": true, "se lo dejo en": true, "fica a": true, "reken op": true, "räkna med": true, "kosztuje": true,
		"at": false, "for": false, "tooling costs": false, "you can have two at": false, "it costs 5": false, "each": false, "": false,
	} {
		if got := v.LeadsToPrice(text); got != want {
			t.Errorf("%q: %t, want %t", text, got, want)
		}
	}
}

// TestAsksForCount tells who asks how many there are from who asks how many are wanted.
func TestAsksForCount(t *testing.T) {
	v := Load()
	for text, want := range map[string]bool{
		"Hosel outside first then the hole and how many there are": true, "Dis-moi combien il y en a": true, "und wie viele es sind": true, "e quante ce ne sono": true, "y cuántas quedan": true,
		"e quantas há": true, "en hoeveel er zijn": true, "och hur många det finns": true, "i ile ich jest": true, "Stocktake, shelf 4": true,
		"Let me know how many you want": false, "Combien en voulez-vous ?": false, "Wie viele brauchen Sie?": false, "Mindeststückzahl 10": false, "ile kosztuje": false, "8 pcs": false, "": false,
	} {
		if got := v.AsksForCount(text); got != want {
			t.Errorf("%q: %t, want %t", text, got, want)
		}
	}
}
