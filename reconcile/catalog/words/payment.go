package words

import (
	"slices"
	"strings"
)

// Payment is what a clause of a note says of who pays prices, beside the name of their column.
type Payment struct {
	// Payer is whom it names.
	Payer Payer
	// Pays is set where a word says that somebody pays, or that prices apply, and Behind is what stands behind it.
	Pays   bool
	Behind string
	// Limited is set where it holds for a time or a place only, or says that something is not so.
	Limited bool
}

// The values of the class of words.
const (
	paymentPays     = "pays"
	paymentLimited  = "limited"
	paymentDiscount = "discount"
	paymentOffer    = "offer"
)

// Payment reads a clause: "Clubmakers with an account pay", "Nos clients ateliers règlent la colonne".
func (v *Vocabulary) Payment(language, text string) Payment {
	p := Payment{Payer: v.Paid(language, text).Payer}
	letters, starts := plainLetters(text)
	for _, s := range v.segmentsOf(classPayment, text) {
		switch means := func(value string) bool { return s.says(value) }; {
		case means(paymentLimited):
			p.Limited = true
		case means(paymentPays) && !p.Pays:
			p.Pays = true
			if at := strings.Index(letters, s.text); at >= 0 {
				p.Behind = text[starts[at+len(s.text)]:]
			}
		}
	}
	return p
}

func (s segment) says(value string) bool {
	return slices.ContainsFunc(s.options, func(e entry) bool { return e.value == value && e.weight >= sureWord })
}

// SpeaksOfDiscount reports whether a text has a word for what is taken off prices.
func (v *Vocabulary) SpeaksOfDiscount(text string) bool {
	return slices.ContainsFunc(v.segmentsOf(classPayment, text), func(s segment) bool { return s.says(paymentDiscount) })
}

// longestOfferTitle is how many words the title of a quotation has at most where the word for one stands within it: in longer texts it may be about
// how one pays.
const longestOfferTitle = 5

// NamesOffer reports whether a title is that of a quotation, an invoice or an order of somebody: "QUOTATION Q/2617", "Pro-forma invoice", 御見積書.
func (v *Vocabulary) NamesOffer(title string) bool {
	found := v.segments(classPayment, tokensOf(title))
	at := slices.IndexFunc(found, func(s segment) bool { return s.says(paymentOffer) })
	return at == 0 || at > 0 && len(found) <= longestOfferTitle
}
