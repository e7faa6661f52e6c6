// Package mapping reads and writes mapping files: what a person has decided about a supplier's sheets, so that the same
// supplier's next sheet is understood at once. A mapping file is TOML:
//
//	[categories]
//	"Bladework" = "iron"
//
//	[sheets."Heads"]
//	kind = "heads"                     # heads, ferrules, tips, or none
//	supplier = "Orrin"
//	ferrule_bores = "tip"              # bores of ferrules are the names of tips; "bore" where they are true
//	heading_rows = [3, 4]
//	unit = "mm"                        # of bare numbers, where a column says nothing else, or what they cannot be in
//	tolerance = "±0.05 mm"             # of sizes that state none
//
//	[sheets."Heads".columns.C]
//	heading = "Hosel"                  # the rule is reported and not used once the heading is another
//	role = "hosel_od"                  # or none
//	unit = "in"
//	radius = true                      # the column gives radii
//
//	[sheets."Heads".rows.17]
//	for = "KR-20"                      # the rule is reported and not used once the row is of another part
//	hosel_od = "13.6 mm"
//
//	[sheets."Heads".rows.18]
//	set_aside = true
//
//	[sheets."Cards".rows.E4]           # of parts side by side: the one that begins in cell E4, where others begin in row 4 as well
//	bore = "9.4 mm"
//
// A sheet is called by its name, by file and sheet (irons.xlsx!Heads), or with the range of one of its tables
// (Heads!A20:F40). A sheet of a text file has no name and is called by its file. A star stands for anything, so that
// "koepfe_*.csv" is also next year's file. A finding names the key that answers it.
package mapping

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
)

// FormatError reports a mapping file that cannot be used.
type FormatError struct {
	// Key is the key in question, empty where the file is no TOML at all.
	Key string
	// Line is the line of the file, 0 where it is not known.
	Line int
	Err  error
}

func (e *FormatError) Error() string {
	var b strings.Builder
	b.WriteString("the mapping file cannot be used")
	if e.Line > 0 {
		fmt.Fprintf(&b, ", line %d", e.Line)
	}
	if e.Key != "" {
		fmt.Fprintf(&b, ", %s", e.Key)
	}
	fmt.Fprintf(&b, ": %v", e.Err)
	return b.String()
}

// Unwrap returns the cause.
func (e *FormatError) Unwrap() error { return e.Err }

// file is a mapping file as it is written.
type file struct {
	Sheets     map[string]table  `toml:"sheets"`
	Categories map[string]string `toml:"categories"`
}

type table struct {
	Kind         string                    `toml:"kind"`
	Supplier     string                    `toml:"supplier"`
	FerruleBores string                    `toml:"ferrule_bores"`
	HeadingRows  []int                     `toml:"heading_rows"`
	Unit         string                    `toml:"unit"`
	Tolerance    string                    `toml:"tolerance"`
	Columns      map[string]column         `toml:"columns"`
	Rows         map[string]map[string]any `toml:"rows"`
}

type column struct {
	Heading   string `toml:"heading"`
	Role      string `toml:"role"`
	Unit      string `toml:"unit"`
	Tolerance string `toml:"tolerance"`
	Radius    bool   `toml:"radius"`
}

// Parse reads a mapping file. Keys and words that mean nothing are errors, so that a slip of the pen is not taken for
// an answer. The error is a [*FormatError].
func Parse(data []byte) (catalog.Mapping, error) {
	var f file
	if err := unknownKey(data); err != nil {
		return catalog.Mapping{}, err
	}
	if err := toml.Unmarshal(data, &f); err != nil {
		return catalog.Mapping{}, decodeError(err)
	}
	m := catalog.Mapping{Sheets: map[string]catalog.SheetRules{}, Categories: f.Categories}
	for _, word := range slices.Sorted(maps.Keys(f.Categories)) {
		if !slices.Contains(categories, f.Categories[word]) {
			return catalog.Mapping{}, wrong("categories."+word, "%q is no kind of club; write one of %s", f.Categories[word], strings.Join(categories, " "))
		}
	}
	for _, name := range slices.Sorted(maps.Keys(f.Sheets)) {
		rules, err := f.Sheets[name].rules(fmt.Sprintf("sheets.%q", name))
		if err != nil {
			return catalog.Mapping{}, err
		}
		m.Sheets[name] = rules
	}
	return m, nil
}

var categories = []string{"driver", "fairway", "hybrid", "iron", "wedge", "putter", "chipper"}

var kinds = map[string]catalog.Kind{"heads": catalog.Heads, "ferrules": catalog.Ferrules, "tips": catalog.Tips}

const none = "none"

func wrong(key, format string, args ...any) error {
	return &FormatError{Key: key, Err: fmt.Errorf(format, args...)}
}

func decodeError(err error) error {
	var decode *toml.DecodeError
	if errors.As(err, &decode) {
		line, _ := decode.Position()
		return &FormatError{Line: line, Err: err}
	}
	return &FormatError{Err: err}
}

func (t table) rules(key string) (catalog.SheetRules, error) {
	rules := catalog.SheetRules{Kind: t.Kind, Supplier: t.Supplier, FerruleBores: t.FerruleBores, HeadingRows: t.HeadingRows, Unit: t.Unit, Tolerance: t.Tolerance}
	kind, known := kinds[t.Kind]
	if t.Kind != "" && t.Kind != none && !known {
		return rules, wrong(key+".kind", "%q is no kind of table; write heads, ferrules, tips or none", t.Kind)
	}
	if t.FerruleBores != "" && !catalog.IsFerruleBores(t.FerruleBores) {
		return rules, wrong(key+".ferrule_bores", "%q does not say what the bores are; write tip where they are the names of tips, or bore where they are true", t.FerruleBores)
	}
	if err := checkUnit(key+".unit", t.Unit); err != nil {
		return rules, err
	}
	rules.Columns = map[string]catalog.ColumnRule{}
	for _, name := range slices.Sorted(maps.Keys(t.Columns)) {
		c, at := t.Columns[name], fmt.Sprintf("%s.columns.%s", key, name)
		if c.Role != "" && c.Role != none && !traits.IsRole(kind, catalog.Role(c.Role)) {
			return rules, wrong(at+".role", "%q is no role of a column here", c.Role)
		}
		if err := checkUnit(at+".unit", c.Unit); err != nil {
			return rules, err
		}
		rules.Columns[strings.ToUpper(name)] = catalog.ColumnRule(c)
	}
	rules.Rows = map[string]catalog.RowRule{}
	for _, name := range slices.Sorted(maps.Keys(t.Rows)) {
		rule, err := rowRule(fmt.Sprintf("%s.rows.%s", key, name), kind, t.Rows[name])
		if err != nil {
			return rules, err
		}
		rules.Rows[strings.ToUpper(name)] = rule
	}
	return rules, nil
}

func checkUnit(key, unit string) error {
	if unit == "" || traits.IsLengthUnit(unit) {
		return nil
	}
	return wrong(key, "%q is no unit of sizes; write mm, cm, m, um, in or thou", unit)
}

func rowRule(key string, kind catalog.Kind, values map[string]any) (catalog.RowRule, error) {
	rule := catalog.RowRule{Values: map[catalog.Role]string{}}
	for _, name := range slices.Sorted(maps.Keys(values)) {
		at := key + "." + name
		switch value := values[name].(type) {
		case bool:
			if name != "set_aside" {
				return rule, wrong(at, "only set_aside is true or false")
			}
			rule.SetAside = value
		case string:
			switch {
			case name == "for":
				rule.For = value
			case traits.IsRole(kind, catalog.Role(name)):
				rule.Values[catalog.Role(name)] = value
			default:
				return rule, wrong(at, "there is no such role")
			}
		default:
			return rule, wrong(at, "%v is no text; write the value in quotes, with its unit", value)
		}
	}
	return rule, nil
}
