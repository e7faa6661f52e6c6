package columns

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/phrase"
)

// Several columns give money: what the public pays and what dealers do, with tax and without, for one piece, for ten and for a bag. Which of them
// a buyer pays their headings say, taken together. Where they do not, somebody is told.

// money is a column of money, and what its heading says of it.
type money struct {
	*Column
	words.Paid
	// known is set where the heading says that it gives prices, whatever stands beside.
	known bool
	// home is set where the heading names the currency of a country where the language of the list is spoken.
	home bool
	// from is the quantity from which the price holds, zero where it is not said.
	from float64
	// year is the one that the heading names, zero where it names none.
	year int
	// age is how old the price is: −1 old, 1 present, 0 where that is not said.
	age int
	// limited is set where a note says that an offer is for a time or a place only.
	limited bool
}

// tellPaid lets only that one of several columns of money count that a buyer pays for one piece.
func (t *Table) tellPaid() {
	if t.pricesRuled() {
		return
	}
	all := t.takeBases(t.money())
	prices := slices.DeleteFunc(slices.Clone(all), func(m money) bool { return m.Apart || m.Sum })
	if !t.arePrices(all, prices) {
		return
	}
	at, note := t.tellByNotes(prices)
	best := slices.MaxFunc(prices, func(a, b money) int { return cmp.Or(a.before(b), a.likelier(b)) })
	if at >= 0 {
		best = prices[at]
	}
	best.paidBy = note
	if best.saysBoth() || note != "" {
		best.Matches = [4][]words.RoleMatch{}
	}
	best.headPrices()
	best.byAge = best.OnlyAge && !t.saidToBeMoney(prices)
	for _, m := range all {
		if m.Column == best.Column || m.Column.age(t.Lex) != best.Column.age(t.Lex) && !m.Apart && !m.Sum && m.Payer == best.Payer {
			continue // what is old is found out elsewhere
		}
		why := "is not what a note says that a buyer pays"
		if note == "" || m.Apart || m.Sum || m.before(best) < 0 {
			why = m.worse(best)
		}
		limited := slices.ContainsFunc(prices, func(one money) bool { return one.Column == m.Column && one.limited }) && note == ""
		if m.tied = why == "" || limited; m.tied {
			best.tied, why = true, "may be what a buyer pays as well"
		}
		m.irrelevant, m.paidIn = fmt.Sprintf("it %s; column %s gives the price", why, t.Region.Grid.ColumnName(best.Col)), best.Column
	}
}

// tellCoins takes headings that name a currency in a word which means something else in other languages for what they are: beside a word for
// prices or for what these are for, and alone in a list in its language, or below a title that speaks of prices in it.
func (t *Table) tellCoins() {
	spoken := languageOf(t.Columns, catalog.UnknownKind)
	for _, c := range t.Columns {
		coin, found := t.Lex.Words.CoinIn(spoken, c.Text)
		if !found || t.ruledOut(c) || c.irrelevant != "" && !c.aside || !c.amounts(t.Lex) {
			continue
		}
		if coin.Rest == "" && len(c.Text) > 1 && (coin.Spoken || t.titledIn(coin.Currency)) || coin.Rest != "" && t.Lex.SpeaksOfPrice(coin.Rest) {
			c.Matches, c.HeadingUnit = [4][]words.RoleMatch{}, cmp.Or(coin.Currency, c.HeadingUnit)
			c.headPrices()
		}
	}
}

// titledIn reports whether a title speaks of prices and names a currency, by a word like that of a heading.
func (t *Table) titledIn(currency string) bool {
	return slices.ContainsFunc(t.TextTitles(), func(title string) bool {
		for word := range strings.FieldsSeq(title) {
			if coin, found := t.Lex.Words.CoinIn("", word); found && coin.Currency == currency && coin.Rest == "" {
				return t.Lex.Words.SpeaksOfPrices(title)
			}
		}
		return false
	})
}

// pricesRuled reports whether a person has said which column gives the prices.
func (t *Table) pricesRuled() bool {
	for _, rule := range t.Rules.Columns {
		if rule.Role == string(catalog.Price) {
			return true
		}
	}
	return false
}

// money returns the columns that give amounts of money, or may.
func (t *Table) money() (all []money) {
	language := languageOf(t.Columns, catalog.UnknownKind)
	var vague, aged []money
	for _, c := range t.Columns {
		if c.Deviation != 0 || c.follower() || c.limitWith != nil || c.TickedIn > 0 || c.Text == "" || t.ruledOut(c) || c.irrelevant != "" && !c.breaks && !c.aside || !c.amounts(t.Lex) {
			continue
		}
		m := money{Column: c, Paid: t.Lex.Words.Paid(language, c.Parts...), from: lexicon.QuantityFrom(c.Text), year: lexicon.YearIn(c.Text)}
		m.age = cmp.Or(c.age(t.Lex), m.Paid.Age)
		m.known = !c.breaks && (c.pricedByHeading(t.Lex, m.Paid) || m.saysBoth())
		m.home = t.Lex.Words.IsHome(language, c.HeadingUnit)
		switch {
		case m.OnlyPieces && !m.known && !c.breaks && !c.Profile.MostlyDecimal():
		case m.known || c.breaks:
			all = append(all, m)
		case m.OnlyAge:
			aged = append(aged, m)
		case m.Alone:
			vague = append(vague, m)
		}
	}
	known := slices.DeleteFunc(slices.Clone(all), func(m money) bool { return !m.known })
	for _, m := range vague {
		if !m.saysNumber() && (len(known) == 0 || m.says() && slices.ContainsFunc(known, func(price money) bool { return t.isLike(m.Column, price.Column) })) ||
			slices.ContainsFunc(known, func(price money) bool { return t.goesWith(m.Column, price.Column) }) {
			all = append(all, m)
		}
	}
	if len(known) == 0 {
		all = append(all, aged...)
	}
	if seen := slices.DeleteFunc(slices.Clone(all), func(m money) bool { return m.hidden }); len(seen) > 0 {
		return seen
	}
	return all
}

// says reports whether the heading says who pays, or that the money is no price.
func (m money) says() bool { return m.Payer != words.Anyone || m.Apart || m.Sum }

// saysBoth reports whether the heading says nothing else than who pays, and with or without tax, as that of no other column does: "Atelier HT", in which HT
// is no height.
func (m money) saysBoth() bool { return m.Alone && m.Payer != words.Anyone && m.Net != 0 }

// isLike reports whether the amounts of a column could be another sort of price beside one: written as fine, and none much greater or less.
func (t *Table) isLike(c, price *Column) bool {
	if c.Profile.MostlyDecimal() != price.Profile.MostlyDecimal() {
		return false
	}
	return !slices.ContainsFunc(t.Region.SampleLines(), func(line int) bool {
		a, b := t.AmountIn(c, line), t.AmountIn(price, line)
		return a > 0 && b > 0 && (a > mostUnlike*b || b > mostUnlike*a)
	})
}

// mostUnlike is how many times as much one sort of price is as another at most.
const mostUnlike = 10

// pricedByHeading reports whether the heading of a column says that it gives prices: in a word for them, or by a currency where it says nothing else.
func (c *Column) pricedByHeading(lex *lexicon.Lexicon, said words.Paid) bool {
	h := c.headed(catalog.UnknownKind, catalog.Price)
	switch {
	case c.headed(catalog.UnknownKind, catalog.Stock) >= max(h, lexicon.LeastHeading) && !c.Profile.MostlyDecimal():
		return false // QTY_AVAIL_EA
	case h >= lexicon.LeastHeading && h >= c.bestHeading()-0.2, lex.OnlyPer(c.Text), c.pricesPack():
		return true
	}
	if before, _, found := lexicon.CutBrackets(c.Text); c.aside && found { // "Price (10% off 100+)"
		if found := lex.Match(before); len(found) > 0 && catalog.Role(found[0].Role) == catalog.Price && found[0].Score >= lexicon.SpecificHeading {
			return true
		}
	}
	return words.IsCurrency(c.HeadingUnit) && (said.Alone || !c.aside && c.bestHeading() < lexicon.SpecificHeading)
}

// saysNumber reports whether the heading of a column says a size, or a count that its values may be.
func (c *Column) saysNumber() bool {
	return slices.ContainsFunc(c.Matches[catalog.UnknownKind], func(m words.RoleMatch) bool {
		switch traits.Of[catalog.Role(m.Role)].Want {
		case traits.Length, traits.Angle:
			return m.Score >= lexicon.LeastHeading
		case traits.Count:
			return m.Score >= lexicon.LeastHeading && !c.Profile.MostlyDecimal()
		}
		return false
	})
}

// amounts reports whether most cells of a column that say anything are amounts of money: no set of a single head is sold, so that "-" stands there.
func (c *Column) amounts(lex *lexicon.Lexicon) bool {
	amounts, others := 0, 0
	for _, text := range c.Profile.Texts {
		if c.amountOf(lex, text) > 0 {
			amounts++
		} else if !lex.SaysNoNumber(text) {
			others++
		}
	}
	return amounts > 0 && amounts >= others
}

// givesMoney reports whether the heading of a column names a currency and its cells are amounts, so that it gives no texts: "Single head £".
func (c *Column) givesMoney(lex *lexicon.Lexicon) bool {
	return words.IsCurrency(c.HeadingUnit) && c.amounts(lex)
}

// amountOf returns the amount of money that a cell of a column gives, zero where it gives none: a number, with the sign of a currency before it
// perhaps.
func (c *Column) amountOf(lex *lexicon.Lexicon, text string) float64 {
	if text == "" {
		return 0
	}
	mark := value.MarkPoint
	if c.Profile.Commas > c.Profile.Points {
		mark = value.MarkComma
	}
	price := lex.Read(text, value.Context{Want: value.WantPrice, Mark: mark})
	if price.Kind != value.Number || !lexicon.LooksNumeric(text) && !words.IsCurrency(price.Unit) && !lexicon.FewLetters(text) {
		return 0
	}
	return price.Number
}

// AmountIn returns the amount that a cell gives, zero where it gives none.
func (t *Table) AmountIn(c *Column, line int) float64 {
	return c.amountOf(t.Lex, t.Region.Grid.Filled(line, c.Col))
}

// MiddlePrice returns the middle one of the amounts of a column, zero where it gives none.
func (t *Table) MiddlePrice(c *Column) float64 {
	var amounts []float64
	for _, line := range t.Region.SampleLines() {
		if amount := t.AmountIn(c, line); amount > 0 {
			amounts = append(amounts, amount)
		}
	}
	if len(amounts) == 0 {
		return 0
	}
	return traits.Middle(amounts)
}

// takeBases takes columns whose headings speak of prices and of their number out of those of money, where they give nothing but numbers of
// pieces for which prices are quoted: PRC_PER beside PRC_NET.
func (t *Table) takeBases(all []money) (rest []money) {
	for _, m := range all {
		if m.Basis && m.Column.givesPieces() && slices.ContainsFunc(all, func(other money) bool { return other.known && !other.givesPieces() }) {
			m.irrelevant, m.GivesPieces = givesPieces, true
			continue
		}
		rest = append(rest, m)
	}
	return rest
}

// givesPieces is said of a column of numbers of pieces.
const givesPieces = "says for how many pieces the prices are"

// givesPieces reports whether all cells of a column are numbers of pieces for which prices are quoted.
func (c *Column) givesPieces() bool {
	return c.Profile.Filled > 0 && !slices.ContainsFunc(c.Profile.Texts, func(text string) bool { return lexicon.PiecesOf(text) == 0 })
}

// arePrices reports whether some columns give prices: a heading says so, or several say who pays what, or quantities from which amounts hold that
// fall as these grow.
func (t *Table) arePrices(all, prices []money) bool {
	switch {
	case len(prices) == 0:
		return false
	case slices.ContainsFunc(prices, func(m money) bool { return m.known }), t.saidToBeMoney(prices):
		return true
	case slices.ContainsFunc(prices, func(m money) bool { return m.breaks }) && !t.fall(prices):
		return false
	case slices.ContainsFunc(prices, func(m money) bool { return m.OnlyAge }):
		return len(prices) == 2 && t.goesWith(prices[0].Column, prices[1].Column) && t.sizesHeaded()
	}
	return len(all) > 1
}

// saidToBeMoney reports whether a title speaks of prices, or the cells of a column name a currency.
func (t *Table) saidToBeMoney(prices []money) bool {
	return slices.ContainsFunc(t.TextTitles(), t.speaksOfMoney) || prices[0].namesCurrency(t.Lex)
}

// sizesHeaded reports whether several columns are clearly headed as sizes, so that what others give is hardly one.
func (t *Table) sizesHeaded() bool {
	headed := 0
	for _, c := range t.Columns {
		if found := c.Matches[catalog.UnknownKind]; len(found) > 0 && found[0].Score >= lexicon.SpecificHeading && traits.Of[catalog.Role(found[0].Role)].Want == traits.Length {
			headed++
		}
	}
	return headed > 1
}

// fall reports whether the amounts of a line are the smaller the greater the quantity is from which they hold.
func (t *Table) fall(prices []money) bool {
	tiers := slices.DeleteFunc(slices.Clone(prices), func(m money) bool { return !m.breaks })
	slices.SortStableFunc(tiers, func(a, b money) int { return cmp.Compare(a.from, b.from) })
	pairs, falling := 0, 0
	for i := 1; i < len(tiers); i++ {
		for _, line := range t.Region.SampleLines() {
			few, many := t.AmountIn(tiers[i-1].Column, line), t.AmountIn(tiers[i].Column, line)
			if few > 0 && many > 0 {
				pairs++
				if many <= few {
					falling++
				}
			}
		}
	}
	return pairs > 0 && float64(falling) >= 0.9*float64(pairs)
}

// pieces is for how many pieces the amounts are, more than any number for a pack or a set.
func (m money) pieces() float64 {
	if m.Lot.Bundles() {
		return math.Inf(1)
	}
	return m.Per
}

// single reports whether the heading says that the amounts are for one piece.
func (m money) single() bool { return m.Single || m.Lot == lexicon.OfPieces && m.Per == 1 }

// before compares two columns by what a buyer pays: more than zero where the first is that rather than the other.
func (m money) before(other money) int {
	return cmp.Or(
		boolean(other.limited, m.limited), cmp.Compare(m.Payer, other.Payer), cmp.Compare(m.age, other.age), cmp.Compare(m.year, other.year), boolean(m.Offer, other.Offer),
		cmp.Compare(other.pieces(), m.pieces()), cmp.Compare(other.from, m.from), boolean(m.single(), other.single()), cmp.Compare(m.Net, other.Net))
}

// likelier compares two columns of which nothing says which one a buyer pays.
func (m money) likelier(other money) int {
	return cmp.Or(boolean(m.known, other.known), boolean(m.home, other.home), cmp.Compare(m.headed(catalog.UnknownKind, catalog.Price), other.headed(catalog.UnknownKind, catalog.Price)),
		cmp.Compare(other.Col, m.Col))
}

func boolean(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}

// worse says what speaks against a column beside the one that a buyer pays, empty where nothing does.
func (m money) worse(best money) string {
	switch {
	case m.Apart || m.Sum:
		return "is no price of a piece"
	case m.Payer != best.Payer:
		return [...]string{
			words.Itself: "is what the firm pays", words.Public: "is what others pay", words.Listed: "is what is listed", words.Chain: "is what others pay",
			words.Anyone: "does not say who pays it", words.Trade: "is not for this buyer, by what else is said of it",
		}[m.Payer]
	case m.age != best.age || m.year != best.year:
		return "is older"
	case m.Offer != best.Offer:
		return "is paid where there is no offer"
	case m.pieces() != best.pieces():
		return "is for more than one piece"
	case m.from != best.from:
		return "is for larger quantities"
	case m.single() != best.single():
		return "does not say that it is for one piece"
	case m.Net != best.Net:
		return "is not what is left after discount and tax"
	}
	return ""
}

// headPrices lets the heading of a column say that it gives prices.
func (c *Column) headPrices() {
	c.irrelevant = ""
	for kind := range c.Matches {
		if c.headed(catalog.Kind(kind), catalog.Price) < repeatHeading {
			c.Matches[kind] = append(slices.DeleteFunc(slices.Clone(c.Matches[kind]), func(m words.RoleMatch) bool { return m.Role == string(catalog.Price) }),
				words.RoleMatch{Role: string(catalog.Price), Score: repeatHeading, Words: c.Text})
		}
	}
}

// reportPaid says which columns of money are not used, and where nothing says that the one is what a buyer pays.
func (t *Table) reportPaid() {
	price := t.first(catalog.Price)
	if price == nil || t.ruled(price) {
		return
	}
	name := fmt.Sprintf("column %s %q is taken for the prices", t.Region.Grid.ColumnName(price.Col), price.Text)
	if price.paidBy != "" {
		t.AddColumn(finding.Note, "layout.column", price.Col, fmt.Sprintf("%s, by the note %q", name, phrase.Brief(price.paidBy)), t.Settle("columns", t.Region.Grid.ColumnName(price.Col), "role"))
	}
	if price.byAge {
		t.AddColumn(finding.Warning, "layout.column", price.Col, name+", and says of them only how old they are", t.Settle("columns", t.Region.Grid.ColumnName(price.Col), "role"))
	}
	for _, c := range t.Columns {
		if c == price || c.Role != "" || t.ruledOut(c) || c.reported {
			continue
		}
		own := t.Region.Grid.ColumnName(c.Col)
		key := t.Settle("columns", own, "role")
		switch {
		case c.tied:
			t.AddColumn(finding.Warning, "layout.column", price.Col, fmt.Sprintf("%s, and column %s %q gives money as well; nothing says which a buyer pays", name, own, c.Text), key)
		case c.paidIn != nil:
			t.AddColumn(finding.Note, "layout.column", c.Col, fmt.Sprintf("column %s %q is not used: %s", own, c.Text, c.irrelevant), key)
		case strings.ContainsAny(c.Text, "%％") && t.goesWith(c, price) && t.isLike(c, price):
			t.AddColumn(finding.Warning, "layout.column", price.Col, fmt.Sprintf("%s; the amounts of column %s %q go with them, and could be what is left of them", name, own, c.Text), key)
		case c.irrelevant == "" && c.bestHeading() < lexicon.LeastHeading && c.Deviation == 0 && t.goesWith(c, price):
			t.AddColumn(finding.Warning, "layout.column", price.Col, fmt.Sprintf("%s; the amounts of column %s %q, which was not understood, go with them, and could be what a buyer pays", name, own, c.Text), key)
		}
	}
}

// goesWith reports whether the amounts of a column rise and fall with prices, as those of another sort of price do.
func (t *Table) goesWith(c, price *Column) bool {
	least, most, low, high, n := math.Inf(1), 0.0, math.Inf(1), 0.0, 0
	for _, line := range t.Region.SampleLines() {
		a, b := t.AmountIn(c, line), t.AmountIn(price, line)
		if a <= 0 || b <= 0 {
			continue
		}
		n++
		least, most = min(least, a/b), max(most, a/b)
		low, high = min(low, b), max(high, b)
	}
	return n >= 3 && high >= 1.15*low && math.Log(most/least) <= alongside*math.Log(high/low)
}

// alongside is the share of the spread of prices by which the ratio of other amounts to them may spread.
const alongside = 0.3
