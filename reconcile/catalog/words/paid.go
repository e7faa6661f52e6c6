package words

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// Payer is whom the prices under a heading are for. What a buyer pays is looked for among the last of those that stand side by side.
type Payer uint8

const (
	// Itself is the firm whose list it is: "Our cost", 原価.
	Itself Payer = iota
	// Public are those who buy in a shop: "RRP", "Ladenpreis", 上代.
	Public
	// Listed is said of prices in lists, of which something is taken off, and of what things are sold at.
	Listed
	// Chain are those who stand between the maker and the dealer, or whom the parts cost that much without a word who that is.
	Chain
	// Anyone is not said.
	Anyone
	// Trade are dealers, workshops, members, and whoever else is called the buyer: "Dealer", "HEK", "You pay", 下代.
	Trade
)

// Paid is what the heading of a column of money says beside that it is one.
type Paid struct {
	Payer Payer
	// Age is −1 where it is an old price, 1 where it is the present one, and 0 where that is not said.
	Age int
	// Net is greater the more it says that no tax is in a price and that a discount is off it, and less where it says the contrary.
	Net int
	// Offer is set where the price is one for a while.
	Offer bool
	// Apart is set where the money is paid beside the price of a part, or is a share of one: freight, a deposit, a discount, the tax.
	Apart bool
	// Sum is set where it is that of several pieces.
	Sum bool
	// Single is set where it is that of one.
	Single bool
	// Basis is set where the column may say for how many pieces prices are: it names both.
	Basis bool
	// Alone is set where all its words are such or for numbers of pieces, and one says what sort of price it is. OnlyAge and OnlyPieces are where
	// nothing but how old it is does, or for how many pieces.
	Alone, OnlyAge, OnlyPieces bool
}

// The values of the class of words.
const (
	paidOld    = "old"
	paidNew    = "new"
	paidOwn    = "own"
	paidPublic = "public"
	paidList   = "list"
	paidChain  = "chain"
	paidTrade  = "trade"
	paidNet    = "net"
	paidGross  = "gross"
	paidOffer  = "offer"
	paidApart  = "apart"
	paidSum    = "sum"
	paidSingle = "single"
	paidBasis  = "basis"
	paidPrice  = "price"
)

// Paid reads the heading of a column of money. Words that mean another thing in each of several languages mean what they do in the one that is given,
// that of the other headings, or in English.
func (v *Vocabulary) Paid(language string, parts ...string) Paid {
	text := strings.NewReplacer("_", " ", "+", " plus ").Replace(splitCamel(strings.Join(parts, " ")))
	said := map[string]bool{}
	all, lot, net := true, false, 0
	segments := v.segmentsOf(classPriceWord, text)
	beside := languagesOfLong(segments)
	for _, s := range segments {
		if isNumber(s.text) {
			continue
		}
		meant := ofLanguage(s, language)
		for i := 0; len(meant) == 0 && i < len(beside); i++ {
			meant = ofLanguage(s, beside[i])
		}
		if len(meant) == 0 && len(v.lookup(v.classes[classPieces], s.text)) > 0 {
			lot = true
			continue
		}
		all = all && len(meant) > 0
		for value := range meant {
			said[value] = true
		}
		switch {
		case meant[paidNet]:
			net++
		case meant[paidGross]:
			net--
		}
	}
	p := Paid{Payer: Anyone, Net: net, Offer: said[paidOffer], Apart: said[paidApart], Sum: said[paidSum], Single: said[paidSingle], Basis: all && said[paidBasis] && said[paidPrice]}
	switch {
	case said[paidOwn] && !said[paidTrade]:
		p.Payer = Itself
	case said[paidPublic]:
		p.Payer = Public
	case said[paidTrade]:
		p.Payer = Trade
	case said[paidList]:
		p.Payer = Listed
	case said[paidChain]:
		p.Payer = Chain
	}
	switch {
	case said[paidOld] == said[paidNew]:
	case said[paidOld]:
		p.Age = -1
	default:
		p.Age = 1
	}
	if p.Offer && p.Payer == Anyone { // it is made to the buyer
		p.Payer = Trade
	}
	says := p.Payer != Anyone || p.Apart || p.Sum || said[paidNet] || said[paidGross]
	p.OnlyPieces = all && !says && (lot || p.Single)
	p.OnlyAge = all && !says && !lot && !p.Single && !said[paidPrice] && p.Age != 0
	p.Alone = all && (says || lot || p.Single || p.Age != 0)
	return p
}

// ofLanguage returns what a word means in a language, where it is none of it in English, and where it is neither in any. A short word is
// one of too many languages to be taken for one of another.
func ofLanguage(word segment, language string) map[string]bool {
	for _, of := range []string{language, "en", signs, ""} {
		if of == "" && language != "" && utf8.RuneCountInString(word.text) <= mostSlight && isLatin(word.text) {
			break
		}
		meant := map[string]bool{}
		for _, e := range word.options {
			if of == "" || e.language == of {
				meant[e.value] = true
			}
		}
		if len(meant) > 0 {
			return meant
		}
	}
	return nil
}

// languagesOfLong returns the languages in which all words of a text mean something that are long enough to be of few: "Atelier HT" is French whatever the
// other headings are, and its HT no height.
func languagesOfLong(all []segment) (common []string) {
	first := true
	for _, s := range all {
		if utf8.RuneCountInString(s.text) <= mostSlight || !isLatin(s.text) || len(s.options) == 0 {
			continue
		}
		spoken := func(language string) bool {
			return slices.ContainsFunc(s.options, func(e entry) bool { return e.language == language })
		}
		if first {
			for _, e := range s.options {
				if !slices.Contains(common, e.language) {
					common = append(common, e.language)
				}
			}
		}
		first = false
		common = slices.DeleteFunc(common, func(language string) bool { return !spoken(language) })
	}
	return common
}

// mostSlight is how many letters such a word has at most.
const mostSlight = 3

// Coin is a word for a currency that means something else in other languages.
type Coin struct {
	// Currency is empty where the word is one for several, as kr is in Danish and Norwegian.
	Currency string
	// Rest is what else the text says.
	Rest string
	// Spoken is set where the word is one for a currency in the language that was given.
	Spoken bool
}

// CoinIn finds a word for a currency that means something else in other languages: "Rand" is an edge in German, and a ring in Dutch. One that
// ends others in writing without blanks has to come first: 元/包, and not 美元.
func (v *Vocabulary) CoinIn(language, text string) (coin Coin, found bool) {
	var others []string
	for _, token := range tokensOf(text) {
		entries := v.classes[classCoin].words[token]
		if first, _ := utf8.DecodeRuneInString(token); len(entries) == 0 || found || isWide(first) && len(others) > 0 {
			others = append(others, token)
			continue
		}
		own := slices.DeleteFunc(slices.Clone(entries), func(e entry) bool { return e.language != language })
		if coin.Spoken = len(own) > 0; coin.Spoken {
			entries = own
		}
		found = true
		if !slices.ContainsFunc(entries, func(e entry) bool { return e.value != entries[0].value }) {
			coin.Currency = entries[0].value
		}
	}
	coin.Rest = strings.Join(others, " ")
	return coin, found
}
