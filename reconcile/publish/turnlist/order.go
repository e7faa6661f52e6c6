package turnlist

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/demand"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/open"
)

// Wanted is one row of an order.
type Wanted struct {
	// Head is a part number, and Ferrule that of the ferrule to take, empty for the best one.
	Head, Ferrule string
	// Count is how many joints are to be made, 1 or more.
	Count int
	// Note goes on the list as it is.
	Note string
	// Place is the row it comes from.
	Place finding.Place
}

// Order is what an order asks for.
type Order struct {
	Wanted []Wanted
	// Unread are the rows that cannot be read.
	Unread []Unread
}

// Unread is a row of an order that is not made, because it cannot be read or names a part that is not known. [List.Leave] puts it at
// the end of a list.
type Unread struct {
	Wanted
	// Code is that of the finding, and Why its sentence.
	Code, Why string
}

// Finding says what is wrong with the row, and where.
func (u Unread) Finding() finding.Finding {
	return finding.Finding{Severity: finding.Error, Code: u.Code, Place: u.Place, Message: u.Why}
}

// OrderError is an order in which nothing can be read.
type OrderError struct {
	Place finding.Place
	// Reason says what is wrong and what to write.
	Reason string
}

func (e *OrderError) Error() string { return e.Place.String() + ": " + e.Reason }

// mostJoints is how many joints one row of an order may ask for: each gets a line to write on.
const mostJoints = 500

// use is what a column of an order is for.
type use uint8

const (
	unused use = iota
	forHead
	forFerrule
	forQuantity
	forNote
)

// customers are the headings of a column that says who it is for, which goes on the list as a note.
var customers = []string{"customer", "client", "kunde", "cliente", "お客様", "顧客", "客户", "客戶", "고객"}

// clear is from where a heading says for certain what its column holds.
const clear = 0.6

// useOf is what a heading says of its column, and how plainly. A column of part numbers that does not say whose is that of heads.
func useOf(heading string) (use, float64) {
	v := words.Load()
	matches := v.Match(heading)
	is := func(role catalog.Role, least float64) bool {
		return len(matches) > 0 && matches[0].Role == string(role) && matches[0].Score >= least
	}
	kind, named := v.Kind(heading)
	switch {
	case heading == "":
		return unused, 0
	case is("note", clear), slices.Contains(customers, words.Fold(heading)):
		return forNote, 1
	case named && kind.Value == catalog.Ferrules.String():
		return forFerrule, plainness(is(catalog.Part, clear))
	case named && kind.Value == catalog.Heads.String():
		return forHead, 1 + plainness(is(catalog.Part, clear))
	case is(catalog.Part, clear):
		return forHead, matches[0].Score
	case is(catalog.Stock, 0), demand.Counts(heading):
		return forQuantity, 1
	}
	return unused, 0
}

// plainness is more for a heading that says that it is the number of what it names.
func plainness(number bool) float64 {
	if number {
		return 1
	}
	return 0.9
}

// ParseOrder reads an order, a workbook or a text file: a row of headings, in any of the nine languages, that has one for heads, or
// for part numbers, and if wanted for ferrules, quantities and notes, in any order, and a row for each kind of joint. Without a ferrule
// the best one is meant, without a quantity one joint. Rows without anything in these columns are passed over, and rows that cannot
// be read are named.
//
// The error is that of a file that cannot be read, or an [*OrderError] where no row can.
func ParseOrder(name string, data []byte) (Order, error) {
	return ParseOrderWithin(name, data, sheet.Limits{})
}

// ParseOrderWithin is ParseOrder within limits that are not the default.
func ParseOrderWithin(name string, data []byte, limits sheet.Limits) (Order, error) {
	book, err := open.Within(name, data, limits)
	if err != nil {
		return Order{}, err
	}
	for _, s := range book.Sheets {
		if columns, row := orderHeadings(s); row > 0 {
			return orderRows(name, s, columns, row)
		}
	}
	return Order{}, &OrderError{finding.Place{File: name}, "there is no row of headings with head in it; write head, ferrule, quantity and note above the rows"}
}

// orderHeadings finds the row of headings, counted from 1, and the column of each use: the plainest, and of those the first.
func orderHeadings(s *sheet.Sheet) (columns map[use]int, row int) {
	for i, cells := range s.Rows {
		columns, best := map[use]int{}, map[use]float64{}
		for c, cell := range cells {
			if cell.Kind != sheet.Text {
				continue
			}
			u, score := useOf(strings.TrimSpace(cell.Shown))
			if u != unused && score > best[u] {
				columns[u], best[u] = c+1, score
			}
		}
		if _, is := columns[forHead]; is {
			return columns, i + 1
		}
	}
	return nil, 0
}

func orderRows(name string, s *sheet.Sheet, columns map[use]int, heading int) (Order, error) {
	var o Order
	for row := heading + 1; row <= len(s.Rows); row++ {
		cell := func(u use) string {
			column, there := columns[u]
			if !there {
				return ""
			}
			return strings.TrimSpace(s.Cell(sheet.Ref{Row: row, Col: column}).Shown)
		}
		w := Wanted{
			Head: cell(forHead), Ferrule: cell(forFerrule), Count: 1, Note: cell(forNote),
			Place: finding.Place{File: name, Sheet: s.Name, Row: row},
		}
		quantity := cell(forQuantity)
		if w.Head+w.Ferrule+w.Note+quantity == "" {
			continue
		}
		if w.Head == "" {
			o.Unread = append(o.Unread, Unread{w, "data.missing", "the row names no head"})
			continue
		}
		count, err := countOf(quantity)
		if err != nil {
			o.Unread = append(o.Unread, Unread{w, "data.unreadable", err.Error()})
			continue
		}
		w.Count = count
		o.Wanted = append(o.Wanted, w)
	}
	if len(o.Wanted) == 0 {
		if len(o.Unread) > 0 {
			return Order{}, &OrderError{o.Unread[0].Place, o.Unread[0].Why}
		}
		return Order{}, &OrderError{finding.Place{File: name, Sheet: s.Name}, "there is no row below the headings"}
	}
	return o, nil
}

// errCount says what may stand in a column of quantities.
var errCount = errors.New("write a whole number from 1 to " + strconv.Itoa(mostJoints))

func countOf(quantity string) (int, error) {
	if quantity == "" {
		return 1, nil
	}
	n, err := strconv.Atoi(quantity)
	if err != nil || n < 1 || n > mostJoints {
		return 0, fmt.Errorf("quantity %q: %w", quantity, errCount)
	}
	return n, nil
}
