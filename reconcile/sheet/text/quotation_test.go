package text_test

import (
	"strings"
	"testing"
)

// TestQuotedLines reads a table in a letter that another one quotes, and leaves alone what begins with the same sign by itself.
func TestQuotedLines(t *testing.T) {
	for data, want := range map[string]string{
		"see below\n> ref | base\n> K12 | 13.5\n> K13 | 13.6\n":   "K12",
		"> > ref;base\n> > K12;13.5\n>> K13;13.6\n> > K14;13,7\n": "K12",
		">\tref\tbase\n>\tK12\t13.5\n>\tK13\t13.6\n":              "\tK12",
		"ref,base\n> K12,13.5\nK13,13.6\n":                        "> K12",
		">5,base\n>6,13.5\n>7,13.6\n>8,13.6\n":                    ">6",
	} {
		rows, _ := grid(t, data)
		found := false
		for _, row := range rows {
			found = found || strings.TrimRight(row[0], " ") == want || row[0] == "" && len(row) > 1 && "\t"+row[1] == want
		}
		if !found {
			t.Errorf("%q: %q, want a row with %q", data, rows, want)
		}
	}
}

// TestDittosAmongProse takes marks for cells by themselves in a table with more lines of prose about it than it has rows.
func TestDittosAmongProse(t *testing.T) {
	rows, _ := grid(t, "From: A\nTo: B\n\nDear B,\nwe confirm:\n\nPos\tNo.\tBase\tTop\tBore\tQty\n1\tZR-1\t13,4\t10,2\t9,3\t300\n2\tZR-2\t13,6\t\"\t\"\t200\n3\tZR-3\t13,8\t10,2\t9,3\t100\n\nAll net.\nPlease check.\n\nYours\nC\n")
	for _, row := range rows {
		if len(row) > 1 && row[1] == "ZR-2" && (len(row) != 6 || row[3] != `"` || row[4] != `"` || row[5] != "200") {
			t.Errorf("%q", row)
		}
	}
}
