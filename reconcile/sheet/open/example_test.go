package open_test

import (
	"fmt"

	"example.com/seatline/reconcile/sheet/open"
)

func ExampleBytes() {
	// A text that someone called a workbook, with decimal commas.
	book, err := open.Bytes("ferrules.xlsx", []byte("part;outside;bore\nKW-12;13,6;9,4\n"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(book.Format)
	for _, cell := range book.Sheets[0].Rows[1] {
		fmt.Println(cell.Raw)
	}
	fmt.Println(book.Notes[len(book.Notes)-1].Message)
	// Output:
	// text, semicolons, UTF-8
	// KW-12
	// 13,6
	// 9,4
	// the name ends in .xlsx, but the content is a text file and was read as that
}

func ExampleBytes_refused() {
	_, err := open.Bytes("prices.xls", []byte("<html><p>Please sign in</p></html>"))
	fmt.Println(err)
	// Output:
	// prices.xls: it is a web page without a table in it, also if its name says otherwise; look at it in a browser: it may ask to sign in; ask for the data as a workbook (xlsx) or as CSV
}
