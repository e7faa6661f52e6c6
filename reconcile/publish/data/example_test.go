package data_test

import (
	"fmt"
	"strings"

	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/publish/data"
)

// Text from a supplier's sheet that a spreadsheet program would run as a formula gets an apostrophe.
func ExampleWriteFindingsCSV() {
	findings := finding.List{{
		Severity: finding.Warning,
		Code:     "data.unreadable",
		Place:    finding.Place{File: "heads.csv", Row: 7, Cell: "C7"},
		Message:  "=1+1 is no size",
		Settle:   "columns.C.role",
	}}
	var out strings.Builder
	if err := data.WriteFindingsCSV(&out, findings); err != nil {
		fmt.Println(err)
	}
	fmt.Print(strings.ReplaceAll(out.String(), "\r\n", "\n"))
	// Output:
	// severity,code,file,sheet,row,cell,message,settle,related
	// warning,data.unreadable,heads.csv,,7,C7,'=1+1 is no size,columns.C.role,
}
