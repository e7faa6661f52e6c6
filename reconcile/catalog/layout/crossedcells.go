package layout

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/spoken"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/sheet"
)

// A cell in the field of a cross table may have the price of the part or its stock behind the part number, and so may the column behind it,
// which then has no heading of its own.

// fieldCell is what a cell of the field says: a part number, and the amount behind it with the cell of that. The amount has no role where
// nothing says whether it is a price.
type fieldCell struct {
	number string
	amount entry
}

// dividesCell are the signs between a part number and what stands behind it.
const dividesCell = " /;|([,=:–—\u00a0"

// cutFieldCell cuts a text of the field into a part number and the amount behind it; without one, it is all a part number.
func cutFieldCell(lex *lexicon.Lexicon, text string) (c fieldCell, ok bool) {
	for at, sign := range text {
		if at == 0 || !strings.ContainsRune(dividesCell, sign) {
			continue
		}
		number := strings.TrimRight(text[:at], dividesCell)
		behind := strings.Trim(text[at:], dividesCell+")]")
		if behind == "" || !isCode(lex, number) {
			continue
		}
		if amount, known := spoken.AmountIn(lex, behind); known {
			return fieldCell{number, entryOf(amount, sheet.Ref{})}, true
		}
		if isCount(lex, behind) && (sign != ' ' && !isInNumber(text, at) || strings.ContainsAny(behind, sizetext.DecimalMarks)) {
			return fieldCell{number, entry{value: behind}}, true
		}
	}
	return fieldCell{number: text}, isCode(lex, text)
}

// isInNumber reports whether no blank stands about a sign, so that it may belong to the part number: "A-101/12".
func isInNumber(text string, at int) bool {
	sign, size := utf8.DecodeRuneInString(text[at:])
	next, _ := utf8.DecodeRuneInString(text[at+size:])
	before, _ := utf8.DecodeLastRuneInString(text[:at])
	return strings.ContainsRune("/,:=–—", sign) && !unicode.IsSpace(next) && !unicode.IsSpace(before)
}

// isCount reports whether a text is a number, perhaps of pieces.
func isCount(lex *lexicon.Lexicon, text string) bool {
	if lexicon.IsBare(text) {
		return true
	}
	count := spoken.CountFirst(text)
	if count == "" {
		return false
	}
	hit, known := lex.Words.Unit(strings.TrimSpace(text[len(count):]))
	return known && hit.Value == "pcs"
}

// readCells reads the cells of the field. It counts those with part numbers and those with numbers alone, and keeps the odd ones.
func (x *crossed) readCells(lex *lexicon.Lexicon) (codes, numbers int, plain map[string]bool) {
	plain = map[string]bool{} // those of digits alone, as many in each as in the first
	x.cells = map[sheet.Ref]fieldCell{}
	for _, line := range x.lines {
		for _, col := range x.columns {
			text, at := x.g.At(line, col), x.g.Ref(line, col)
			if text == "" || isNone(lex, text) {
				continue
			}
			cell, isPart := cutFieldCell(lex, text)
			switch {
			case isPart:
				codes++
			case lexicon.LooksNumeric(text):
				if numbers++; len(text) >= leastDigits && lexicon.IsDigits(text) {
					plain[text] = true
				}
			default:
				x.odd = append(x.odd, at)
				continue
			}
			if behind := x.behind[col]; behind > 0 && cell.amount.value == "" {
				cell.amount = x.amountBehind(lex, line, behind)
			}
			x.cells[at] = cell
		}
	}
	return codes, numbers, plain
}

// amountBehind returns the amount in the column behind that of a part number.
func (x *crossed) amountBehind(lex *lexicon.Lexicon, line, col int) entry {
	text := x.g.At(line, col)
	if text == "" || isNone(lex, text) {
		return entry{}
	}
	amount := entry{value: text}
	if said, known := spoken.AmountIn(lex, text); known {
		amount = entryOf(said, sheet.Ref{})
	}
	amount.valueAt = x.g.Ref(line, col)
	return amount
}

// sayAmounts gives the amounts without a role the one that a text above the field speaks of, and forgets them where none does; it returns what is to be
// said of that.
func (x *crossed) sayAmounts(lex *lexicon.Lexicon) (why string) {
	open := 0
	for _, cell := range x.cells {
		if cell.amount.value != "" && cell.amount.role == "" {
			open++
		}
	}
	if open == 0 {
		return ""
	}
	role, said := x.amountsSaid(lex)
	for at, cell := range x.cells {
		if cell.amount.value == "" || cell.amount.role != "" {
			continue
		}
		if cell.amount.role = role; role == "" {
			cell.amount = entry{}
		}
		x.cells[at] = cell
	}
	if role == "" {
		x.unsaid = fmt.Sprintf("what stands behind the part numbers of the cross table is not read: nothing says whether it is prices or stock (%d in all)", open)
		return ""
	}
	return fmt.Sprintf("what stands behind the part numbers taken for the %s of which %q speaks", role, said)
}

// amountsSaid returns what the texts above the field say that the amounts are, with the text; nothing where they speak of both.
func (x *crossed) amountsSaid(lex *lexicon.Lexicon) (role catalog.Role, said string) {
	for line := x.head; line >= x.from; line-- {
		for _, id := range x.g.Row(line, 1, x.g.Width) {
			text := x.g.Text(id)
			prices, stock := text != "" && lex.Words.SpeaksOfPrices(text), text != "" && lex.Words.SpeaksOfStock(text)
			own := catalog.Role("")
			switch {
			case prices && stock:
				return "", ""
			case prices:
				own = catalog.Price
			case stock:
				own = catalog.Stock
			default:
				continue
			}
			if role != "" && role != own {
				return "", ""
			}
			role, said = own, text
		}
	}
	return role, said
}

// amountRoles are the roles of the amounts in some lines of a column.
func (x *crossed) amountRoles(lines []int, col int) []catalog.Role {
	var roles []catalog.Role
	for _, line := range lines {
		if role := x.cells[x.g.Ref(line, col)].amount.role; role != "" && !slices.Contains(roles, role) {
			roles = append(roles, role)
		}
	}
	return roles
}

// isSize reports whether a text is one size, with words beside it at most.
func isSize(lex *lexicon.Lexicon, text string) bool {
	_, ok := sizeOf(lex, text)
	return ok
}

// sizeOf returns the size of a text without the words that name it: "内径 8.85 mm", "3/4 long". That of a tip is the text as it stands.
func sizeOf(lex *lexicon.Lexicon, text string) (string, bool) {
	if text == "" || len(text) > 40 || !strings.ContainsFunc(text, unicode.IsNumber) {
		return "", false
	}
	if named, ok := namedSize(lex, text); ok {
		return named.Text, true
	}
	if tips, _ := lex.TipsIn(text, true); len(tips) == 1 {
		return text, true
	}
	switch reading := lex.Read(text, value.Context{Want: value.WantDiameter}); reading.Kind {
	case value.Length, value.Number:
		return text, true
	}
	return "", false
}

// namedSize returns the one size that a text gives with a name before it, or behind it and nothing else: "8.85 bore", "3/4 long". What is said
// of a tip beside its size belongs to it.
func namedSize(lex *lexicon.Lexicon, text string) (sizetext.Size, bool) {
	tips, _ := lex.TipsIn(text, true)
	if named := sizetext.In(lex, text, false); len(named) == 1 {
		if len(tips) == 1 && catalog.Role(named[0].Role) == catalog.TipTaken {
			named[0].Text = text
		}
		return named[0], true
	}
	named := sizetext.In(lex, text, true)
	if len(named) != 1 || len(tips) > 0 || strings.Trim(strings.Replace(strings.Replace(text, named[0].Name, "", 1), named[0].Text, "", 1), sizetext.AroundNames) != "" {
		return sizetext.Size{}, false
	}
	return named[0], true
}

// isCode reports whether a text of the field is a part number and no value.
func isCode(lex *lexicon.Lexicon, text string) bool {
	return lexicon.LooksLikeCode(text) && strings.ContainsFunc(text, unicode.IsLetter) && strings.ContainsFunc(text, unicode.IsNumber) && !isSize(lex, text)
}

// isNone reports whether a text of the field says that there is no such part.
func isNone(lex *lexicon.Lexicon, text string) bool {
	if strings.Trim(text, "-–—/.xX×* ") == "" {
		return true
	}
	_, none := lex.Ask("not applicable", text, lex.Words.IsNotApplicable)
	return none || notMade(lex, text)
}

// notMade reports whether a text says in words that there is no such part.
func notMade(lex *lexicon.Lexicon, text string) bool {
	_, not := lex.Ask("not made", text, lex.Words.IsNotMade)
	return not
}
