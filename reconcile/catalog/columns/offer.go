package columns

import (
	"fmt"
	"math"
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/phrase"
)

// An offer or an invoice has the quantity of each part, its price, and the two multiplied. That quantity is no stock, and what is multiplied
// nothing that a joint or an order needs. Only the numbers tell: a heading such as "Qty" is over stocks elsewhere.

// mostOfEach is how many columns of prices and of quantities are looked at: tables have two or three.
const mostOfEach = 5

// findTotals finds the column of what a quantity and a price come to, multiplied, and sees what that says of the quantities.
func (t *Table) findTotals() {
	for _, price := range t.headed(catalog.Price) {
		for _, quantity := range t.headed(catalog.Stock, catalog.Pack) {
			if quantity == price {
				continue
			}
			if total, mark := t.totalOf(quantity, price); total != nil {
				t.setAsideTotals(quantity, price, total)
				t.totals = &totals{quantity, price, total, mark}
				return
			}
		}
	}
	t.setAsideQuoted()
}

// setAsideQuoted takes from the quantities below the title of a quotation or an invoice any role, where nothing but the word for a quantity is over
// them.
func (t *Table) setAsideQuoted() {
	title := t.offerTitle()
	if title == "" {
		return
	}
	for _, c := range t.headed(catalog.Stock, catalog.Pack) {
		if t.countsOnly(c) && c.Profile.Filled > 0 {
			c.irrelevant, c.offered = fmt.Sprintf("a quantity of what %q is about", phrase.Brief(title)), true
		}
	}
}

// offerTitle returns the title that says that the table is a quotation, an invoice or an order, empty where none does.
func (t *Table) offerTitle() string {
	if at := slices.IndexFunc(t.Titles, t.Lex.Words.NamesOffer); at >= 0 {
		return t.Titles[at]
	}
	return ""
}

// headed returns the first columns whose headings may say one of some roles, whatever the table lists.
func (t *Table) headed(roles ...catalog.Role) (all []*Column) {
	for _, c := range t.Columns {
		if c.irrelevant == "" && len(all) < mostOfEach && slices.ContainsFunc(roles, func(role catalog.Role) bool {
			return c.headed(catalog.UnknownKind, role) >= lexicon.LeastHeading
		}) {
			all = append(all, c)
		}
	}
	return all
}

// says reports whether the heading of a column says a role and no other.
func (c *Column) says(role catalog.Role) bool {
	return c.headed(catalog.UnknownKind, role) >= lexicon.SpecificHeading
}

// setAsideTotals takes from a column of totals any role, and from the quantities too where nothing but the word for a quantity is over them.
func (t *Table) setAsideTotals(quantity, price, total *Column) {
	g := t.Region.Grid
	if total.irrelevant == "" {
		total.irrelevant = fmt.Sprintf("column %s times column %s", g.ColumnName(quantity.Col), g.ColumnName(price.Col))
	}
	if !t.countsOnly(quantity) || t.Lex.Words.SpeaksOfStock(total.Text) || t.offerTitle() == "" && slices.ContainsFunc(t.Titles, t.Lex.Words.SpeaksOfStock) {
		return
	}
	quantity.irrelevant = fmt.Sprintf("a quantity of an offer or an order: times column %s it is column %s", g.ColumnName(price.Col), g.ColumnName(total.Col))
	quantity.offered = true
}

// countsOnly reports whether the heading of a column may be that of a stock or a pack for a word for a count alone: "Quantity (pcs)".
func (t *Table) countsOnly(c *Column) bool {
	return !t.Lex.Words.SpeaksOfStock(c.Text) && !(c.says(catalog.Pack) && len(t.Lex.Words.Packs(c.Text)) > 0)
}

// reportOffered says which column of quantities is taken for no stock.
func (t *Table) reportOffered() {
	for _, c := range t.Columns {
		if c.offered && c.Role == "" {
			name := t.Region.Grid.ColumnName(c.Col)
			t.AddColumn(finding.Note, "layout.column", c.Col, fmt.Sprintf("column %s %q is no stock: %s", name, c.Text, c.irrelevant), t.Settle("columns", name, "role"))
		}
	}
}

// A column is one of totals where leastTotals lines at least with a quantity of more than one come out, and of all lines that have the three
// numbers the share leastRight, or in a short list all but one: sums and slips stand among them.
const (
	leastTotals = 2
	leastRight  = 0.8
)

// totalOf returns the column that has the quantities times the prices, and the decimal mark of their numbers; nil where none does.
func (t *Table) totalOf(quantity, price *Column) (*Column, value.Mark) {
	for _, total := range t.Columns {
		if total == quantity || total == price || total.irrelevant != "" && !total.aside || total.says(catalog.Part) {
			continue
		}
		for _, mark := range []value.Mark{value.MarkPoint, value.MarkComma} {
			if t.comesTo(quantity, price, total, mark) {
				return total, mark
			}
		}
	}
	return nil, value.MarkUnknown
}

// comesTo reports whether the lines of a column are the quantities times the prices, all numbers read with a decimal mark.
func (t *Table) comesTo(quantity, price, total *Column, mark value.Mark) bool {
	compared, right, several := 0, 0, 0
	lines := t.Region.SampleLines()
	for _, line := range lines {
		n, p, sum := t.numberIn(quantity, line, mark), t.numberIn(price, line, mark), t.numberIn(total, line, mark)
		if n <= 0 || p <= 0 || sum <= 0 {
			continue
		}
		compared++
		if math.Abs(n*p/price.Per-sum) > max(leastCoin, roundedShare*sum) {
			if float64(compared-right) > max(1, (1-leastRight)*float64(len(lines))) {
				return false
			}
			continue
		}
		right++
		if n > 1 {
			several++
		}
	}
	return several >= leastTotals && (float64(right) >= leastRight*float64(compared) || compared-right == 1 && several > leastTotals)
}

// A total may be off by leastCoin or by roundedShare of it, as people and programs round.
const (
	leastCoin    = 0.011
	roundedShare = 0.0005
)

// numberIn returns the number that a cell gives, zero where it gives none.
func (t *Table) numberIn(c *Column, line int, mark value.Mark) float64 {
	text := t.Region.Grid.Filled(line, c.Col)
	if text == "" {
		return 0
	}
	if number, plain := plainNumber(text, mark); plain {
		return number
	}
	if reading := t.Lex.Read(text, value.Context{Want: value.WantPrice, Mark: mark}); reading.Kind == value.Number {
		return reading.Number
	}
	return 0
}

// plainNumber reads a number of a few digits with no sign among them but the decimal mark, as nearly all are.
func plainNumber(text string, mark value.Mark) (number float64, plain bool) {
	const mostDigits = 15
	if len(text) > mostDigits {
		return 0, false
	}
	divide := 0.0
	for i := range len(text) {
		switch b := text[i]; {
		case b >= '0' && b <= '9':
			number, divide = 10*number+float64(b-'0'), 10*divide
		case divide == 0 && i > 0 && i+1 < len(text) && (b == '.' && mark == value.MarkPoint || b == ',' && mark == value.MarkComma):
			divide = 1
		default:
			return 0, false
		}
	}
	return number / max(divide, 1), true
}
