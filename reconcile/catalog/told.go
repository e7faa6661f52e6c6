package catalog

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"example.com/seatline/reconcile/finding"
)

// toldKey is what a finding that is told once is about: something of a column, or of the table where the column is zero.
type toldKey struct {
	what string
	col  int
}

// told is a finding that is reported once, where it stands first, with how often it occurs.
type told struct {
	severity  finding.Severity
	code      string
	line, col int
	message   string
	count     int
}

// tell notes something that is to be told once for each key. The message is only made for the first.
func (t *tableReader) tell(key toldKey, severity finding.Severity, code string, line, col int, message func() string) {
	one := t.told[key]
	if one == nil {
		if t.told == nil {
			t.told = map[toldKey]*told{}
		}
		one = &told{severity: severity, code: code, line: line, col: col, message: message()}
		t.told[key] = one
	}
	one.count++
	if t.recording {
		t.recorded = append(t.recorded, one)
	}
}

// reportTold adds the findings of what is told once.
func (t *tableReader) reportTold() {
	keys := slices.SortedFunc(maps.Keys(t.told), func(a, b toldKey) int {
		return cmp.Or(cmp.Compare(a.col, b.col), cmp.Compare(a.what, b.what))
	})
	for _, key := range keys {
		one := t.told[key]
		message := one.message
		if one.count > 1 {
			message = fmt.Sprintf("%s; %d in all", message, one.count)
		}
		t.add(one.severity, one.code, one.line, one.col, message, "")
	}
}
