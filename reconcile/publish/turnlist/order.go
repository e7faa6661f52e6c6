package turnlist

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

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

// OrderError is a row of an order, or a whole order, that cannot be read.
type OrderError struct {
	Place finding.Place
	// Reason says what is wrong and what to write.
	Reason string
}

func (e *OrderError) Error() string { return e.Place.String() + ": " + e.Reason }

// mostJoints is how many joints one row of an order may ask for: each gets a line to write on.
const mostJoints = 500

// headings are the words by which the columns of an order are known, all in small letters.
var headings = map[string][]string{
	"head":     {"head", "head part", "part"},
	"ferrule":  {"ferrule", "ferrule part"},
	"quantity": {"quantity", "qty", "count", "pieces", "number"},
	"note":     {"note", "notes", "remark", "customer"},
}

// ParseOrder reads an order, a workbook or a text file: a row of headings with head, and if wanted ferrule, quantity and note, in any
// order, and a row for each kind of joint. Without a ferrule the best one is meant, without a quantity one joint. Rows without
// anything in these columns are passed over.
//
// The error is that of a file that cannot be read, or joins an [*OrderError] for each row that cannot.
func ParseOrder(name string, data []byte) ([]Wanted, error) {
	book, err := open.Bytes(name, data)
	if err != nil {
		return nil, err
	}
	for _, s := range book.Sheets {
		if columns, row := orderHeadings(s); row > 0 {
			return orderRows(name, s, columns, row)
		}
	}
	return nil, &OrderError{finding.Place{File: name}, "there is no row of headings with head in it; write head, ferrule, quantity and note above the rows"}
}

// orderHeadings finds the row of headings, counted from 1, and the column of each kind.
func orderHeadings(s *sheet.Sheet) (columns map[string]int, row int) {
	for i, cells := range s.Rows {
		found := map[string]int{}
		for c, cell := range cells {
			text := strings.ToLower(strings.TrimSpace(cell.Shown))
			for kind, words := range headings {
				for _, word := range words {
					if _, taken := found[kind]; text == word && !taken {
						found[kind] = c + 1
					}
				}
			}
		}
		if _, is := found["head"]; is {
			return found, i + 1
		}
	}
	return nil, 0
}

func orderRows(name string, s *sheet.Sheet, columns map[string]int, heading int) ([]Wanted, error) {
	var all []Wanted
	var errs []error
	for row := heading + 1; row <= len(s.Rows); row++ {
		cell := func(kind string) string {
			column, there := columns[kind]
			if !there {
				return ""
			}
			return strings.TrimSpace(s.Cell(sheet.Ref{Row: row, Col: column}).Shown)
		}
		w := Wanted{
			Head: cell("head"), Ferrule: cell("ferrule"), Count: 1, Note: cell("note"),
			Place: finding.Place{File: name, Sheet: s.Name, Row: row},
		}
		quantity := cell("quantity")
		if w.Head+w.Ferrule+w.Note+quantity == "" {
			continue
		}
		if w.Head == "" {
			errs = append(errs, &OrderError{w.Place, "the row names no head"})
			continue
		}
		if quantity != "" {
			n, err := strconv.Atoi(quantity)
			if err != nil || n < 1 || n > mostJoints {
				errs = append(errs, &OrderError{w.Place, fmt.Sprintf("quantity %q: write a whole number from 1 to %d", quantity, mostJoints)})
				continue
			}
			w.Count = n
		}
		all = append(all, w)
	}
	if len(errs) == 0 && len(all) == 0 {
		return nil, &OrderError{finding.Place{File: name, Sheet: s.Name}, "there is no row below the headings"}
	}
	return all, errors.Join(errs...)
}
