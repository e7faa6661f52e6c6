package catalog

import (
	"maps"
	"slices"
	"strings"
)

// Mapping is what a person has decided about sheets: the answers to findings. It is the content of a mapping file.
type Mapping struct {
	// Sheets are the rules by the name of a sheet, or by file and sheet (irons.xlsx!Heads), which comes first. A table
	// that is one of several on its sheet has its range after the name (Heads!A20:F40).
	Sheets map[string]SheetRules
	// Categories say which kind of club a word of the sheets means.
	Categories map[string]string
}

// SheetRules is what is decided about one table.
type SheetRules struct {
	// Kind is heads, ferrules or tips, or none for a sheet that is not to be read.
	Kind string
	// Supplier is whose sheet it is.
	Supplier string
	// FerruleBores is [BoresAreTips] where the bores of ferrules are the names of tips, and [BoresAreBores] where they are true.
	FerruleBores string
	// HeadingRows are the rows that hold the heading.
	HeadingRows []int
	// Unit is the unit of bare numbers wherever the column does not say.
	Unit string
	// Tolerance holds for dimensions that state none.
	Tolerance string
	// Columns are the rules by the letters of a column.
	Columns map[string]ColumnRule
	// Rows are the rules by the name of a row, see [Row.Name].
	Rows map[string]RowRule
}

// ColumnRule is what is decided about a column.
type ColumnRule struct {
	// Heading is the heading that the column had when the rule was made; a rule whose column has another heading now is
	// reported and not used.
	Heading string
	// Role is the role, or none for a column that is not to be read.
	Role string
	// Unit is the unit of bare numbers.
	Unit string
	// Tolerance holds for dimensions of the column that state none.
	Tolerance string
	// Radius is set where the values are radii.
	Radius bool
}

// RowRule is what is decided about a row.
type RowRule struct {
	// For is the part number that the row had when the rule was made; a rule whose row has another part number now is
	// reported and not used. Empty: the row is not compared.
	For string
	// SetAside is set for a row that is not to be read.
	SetAside bool
	// Values are values by role, with their unit, in place of those of the sheet.
	Values map[Role]string
}

// NoRole is what a mapping file writes for a column or sheet that is not to be read.
const NoRole = "none"

// Without returns the rules without those of a column.
func (s SheetRules) Without(column string) SheetRules {
	columns := map[string]ColumnRule{}
	for name, rule := range s.Columns {
		if name != column {
			columns[name] = rule
		}
	}
	s.Columns = columns
	return s
}

// What a supplier's bores of ferrules are, in a mapping file and in shop.toml.
const (
	BoresAreTips  = "tip"  // the names of the tips that the ferrules are for
	BoresAreBores = "bore" // the true bores
)

// IsFerruleBores reports whether a word says what bores of ferrules are.
func IsFerruleBores(word string) bool { return word == BoresAreTips || word == BoresAreBores }

// Empty reports whether the rules decide nothing.
func (s SheetRules) Empty() bool {
	return s.Kind == "" && s.Supplier == "" && s.FerruleBores == "" && s.Unit == "" && s.Tolerance == "" && len(s.HeadingRows) == 0 && len(s.Columns) == 0 && len(s.Rows) == 0
}

// Governing returns the name of the rules for a table that goes by some names: those under one of its own names, the first before the
// second, and then those under a name with stars.
func (m Mapping) Governing(names ...string) (rules string, found bool) {
	for _, name := range names {
		if _, found := m.Sheets[name]; found {
			return name, true
		}
	}
	for _, pattern := range slices.Sorted(maps.Keys(m.Sheets)) {
		if strings.Contains(pattern, "*") && slices.ContainsFunc(names, func(name string) bool { return matches(pattern, name) }) {
			return pattern, true
		}
	}
	return "", false
}

// matches reports whether a name is that of a pattern, in which a star stands for anything.
func matches(pattern, name string) bool {
	head, rest, found := strings.Cut(pattern, "*")
	if !found {
		return pattern == name
	}
	name, found = strings.CutPrefix(name, head)
	if !found {
		return false
	}
	for {
		piece, more, again := strings.Cut(rest, "*")
		if !again {
			return strings.HasSuffix(name, piece)
		}
		at := strings.Index(name, piece)
		if at < 0 {
			return false
		}
		name, rest = name[at+len(piece):], more
	}
}
