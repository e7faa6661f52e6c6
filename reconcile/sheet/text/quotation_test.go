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
