// Package compare sets two readings of a supplier's catalogue side by side: what was added, what was dropped, and which sizes changed,
// each with both cells.
//
// # Which parts are the same
//
// Parts are matched by what they list and by part number, however it is written; where a number stands several times in a reading, by
// supplier and otherwise in the order of the rows. What is left over on both sides and differs only in what people mistype
// (separators, O for 0, leading zeros) or in one character is suggested as a pair, never taken for one.
//
// # What counts as changed
//
// Values are compared as they were read, so that 12.7 mm, 12.70 mm and 1/2 in are the same. Limits count, and so does whether a
// value could be used at all. Texts are compared without regard to case and spaces.
//
// Swapping the readings swaps added and dropped and changes nothing else.
package compare

import (
	"cmp"
	"slices"
	"strings"

	"github.com/samber/lo"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/near"
)

// Reading is where one reading has a part.
type Reading struct {
	Part string
	// Place is the row of the sheet.
	Place finding.Place
	// Outcome is what became of the row.
	Outcome catalog.Outcome
}

// Value is one value of a part.
type Value struct {
	// Text is the value as its sheet shows it; empty where there is none.
	Text string
	// Dim is the size as it was read, not given where the value is none or could not be used.
	Dim   measure.Dim
	Place finding.Place
}

// Change is a field with another value than before.
type Change struct {
	Role     catalog.Role
	Old, New Value
}

// Difference returns by how much the nominal size has grown, and false where not both are sizes.
func (c Change) Difference() (measure.Length, bool) {
	if !c.Old.Dim.Given() || !c.New.Dim.Given() {
		return measure.Length{}, false
	}
	return c.New.Dim.Nominal().Sub(c.Old.Dim.Nominal()), true
}

// Changed is a part that both readings have and that is not the same.
type Changed struct {
	Kind     catalog.Kind
	Old, New Reading
	Changes  []Change
}

// Single is a part that one reading has.
type Single struct {
	Kind catalog.Kind
	Reading
}

// Alike is a dropped and an added part with nearly the same number.
type Alike struct {
	Kind     catalog.Kind
	Old, New Reading
	// Same and Other count the fields that agree and differ.
	Same, Other int
}

// Result is what two readings have in common and what not. Unchanged, the Changed and the Dropped are all rows of the old reading that
// have a part number; Unchanged, the Changed and the Added are all of the new.
type Result struct {
	Unchanged int
	Changed   []Changed
	Added     []Single
	Dropped   []Single
	// Alike suggests which of the dropped may have become which of the added.
	Alike []Alike
}

// Same reports whether nothing differs.
func (r Result) Same() bool { return len(r.Changed)+len(r.Added)+len(r.Dropped) == 0 }

// Catalogues compares two readings.
func Catalogues(old, now *catalog.Catalogue) Result {
	before, after := rowsOf(old), rowsOf(now)
	var result Result
	pairs := match(before, after)
	for _, pair := range pairs {
		changes := changesOf(pair[0], pair[1])
		if len(changes) == 0 && pair[0].row.Outcome == pair[1].row.Outcome {
			result.Unchanged++
			continue
		}
		result.Changed = append(result.Changed, Changed{Kind: pair[0].kind, Old: pair[0].reading(), New: pair[1].reading(), Changes: changes})
	}
	dropped, added := left(before), left(after)
	result.Dropped, result.Added = singles(dropped), singles(added)
	result.Alike = alike(dropped, added)
	return result
}

// entry is a row with a part number.
type entry struct {
	kind     catalog.Kind
	table    *catalog.Table
	row      *catalog.Row
	supplier string
	key      string
	matched  bool
}

func (e *entry) reading() Reading {
	return Reading{Part: e.row.Part, Place: e.place(""), Outcome: e.row.Outcome}
}

func (e *entry) place(cell string) finding.Place {
	place := finding.Place{File: e.table.File, Sheet: e.table.Sheet, Row: e.row.Row, Cell: cell}
	if e.table.Range != "" && cell == "" && turned(e.table) {
		place.Row, place.Cell = 0, e.row.Fields.Cell(catalog.Part)
	}
	return place
}

// turned reports whether a table stands on its side: its columns are rows of the sheet then, and have numbers for names.
func turned(t *catalog.Table) bool {
	return len(t.Columns) > 0 && strings.Trim(t.Columns[0].Column, "0123456789") == ""
}

// rowsOf are the rows of a reading that have a part number, in order.
func rowsOf(c *catalog.Catalogue) []*entry {
	suppliers := map[string]string{}
	note := func(item *catalog.Item) { suppliers[item.Source.File+"\x00"+item.Source.Sheet] = item.Supplier }
	for i := range c.Heads {
		note(&c.Heads[i].Item)
	}
	for i := range c.Ferrules {
		note(&c.Ferrules[i].Item)
	}
	for i := range c.Tips {
		note(&c.Tips[i].Item)
	}
	var rows []*entry
	for i := range c.Tables {
		t := &c.Tables[i]
		for j := range t.Rows {
			if row := &t.Rows[j]; row.Outcome != catalog.SetAside && row.Part != "" {
				rows = append(rows, &entry{kind: t.Kind, table: t, row: row, supplier: suppliers[t.File+"\x00"+t.Sheet], key: words.Fold(row.Part)})
			}
		}
	}
	return rows
}

// match pairs the rows of the same part: first those of the same supplier that agree in everything, then of the same supplier, then the
// others.
func match(before, after []*entry) [][2]*entry {
	type key struct {
		kind catalog.Kind
		part string
	}
	groups := lo.GroupBy(after, func(e *entry) key { return key{e.kind, e.key} })
	partner := map[*entry]*entry{}
	passes := []func(a, b *entry) bool{
		func(a, b *entry) bool {
			return a.supplier == b.supplier && a.row.Outcome == b.row.Outcome && len(changesOf(a, b)) == 0
		},
		func(a, b *entry) bool { return a.supplier == b.supplier },
		func(a, b *entry) bool { return len(changesOf(a, b)) == 0 },
		func(*entry, *entry) bool { return true },
	}
	for _, fits := range passes {
		for _, a := range before {
			if a.matched {
				continue
			}
			for _, b := range groups[key{a.kind, a.key}] {
				if !b.matched && fits(a, b) {
					a.matched, b.matched, partner[a] = true, true, b
					break
				}
			}
		}
	}
	var pairs [][2]*entry
	for _, a := range before {
		if b := partner[a]; b != nil {
			pairs = append(pairs, [2]*entry{a, b})
		}
	}
	return pairs
}

func left(entries []*entry) []*entry {
	var rest []*entry
	for _, e := range entries {
		if !e.matched {
			rest = append(rest, e)
		}
	}
	return rest
}

func singles(entries []*entry) []Single {
	var list []Single
	for _, e := range entries {
		list = append(list, Single{Kind: e.kind, Reading: e.reading()})
	}
	return list
}

// changesOf are the fields of two rows that differ, in the order of their names. The number and club of a part are what it is matched by.
func changesOf(a, b *entry) []Change {
	var roles []catalog.Role
	for _, fields := range []catalog.Fields{a.row.Fields, b.row.Fields} {
		for role := range fields.All() {
			if role != catalog.Part && role != catalog.Club && !slices.Contains(roles, role) {
				roles = append(roles, role)
			}
		}
	}
	slices.Sort(roles)
	var changes []Change
	for _, role := range roles {
		x, y := a.row.Fields.Get(role), b.row.Fields.Get(role)
		if !sameField(x, y) {
			changes = append(changes, Change{Role: role, Old: a.value(role), New: b.value(role)})
		}
	}
	return changes
}

func (e *entry) value(role catalog.Role) Value {
	f := e.row.Fields.Get(role)
	return Value{Text: f.Text, Dim: f.Dim, Place: e.place(f.Cell)}
}

func sameField(x, y catalog.Field) bool {
	switch {
	case x.Dim.Given() || y.Dim.Given():
		return sameDim(x.Dim, y.Dim)
	case !x.Angle.IsZero() || !y.Angle.IsZero():
		return x.Angle == y.Angle
	case x.IsNumber || y.IsNumber:
		return x.IsNumber == y.IsNumber && x.Number == y.Number
	}
	return folded(x.Text) == folded(y.Text)
}

func sameDim(x, y measure.Dim) bool {
	return x.Given() == y.Given() && x.HasLimits() == y.HasLimits() && x.Nominal() == y.Nominal() && x.Lower() == y.Lower() && x.Upper() == y.Upper()
}

func folded(text string) string { return strings.ToLower(strings.Join(strings.Fields(text), " ")) }

// alike suggests pairs of dropped and added parts. What is nearest is taken first, and the order does not depend on which reading is
// the old one.
func alike(dropped, added []*entry) []Alike {
	type candidate struct {
		a, b     *entry
		distance int
		low, up  string
	}
	var candidates []candidate
	for _, a := range dropped {
		for _, b := range added {
			if d := distance(a.key, b.key); a.kind == b.kind && d <= farthest {
				candidates = append(candidates, candidate{a, b, d, min(a.key, b.key), max(a.key, b.key)})
			}
		}
	}
	slices.SortStableFunc(candidates, func(x, y candidate) int {
		return cmp.Or(cmp.Compare(x.distance, y.distance), strings.Compare(x.low, y.low), strings.Compare(x.up, y.up))
	})
	taken := map[*entry]bool{}
	var pairs []Alike
	for _, c := range candidates {
		if taken[c.a] || taken[c.b] {
			continue
		}
		taken[c.a], taken[c.b] = true, true
		pair := Alike{Kind: c.a.kind, Old: c.a.reading(), New: c.b.reading(), Other: len(changesOf(c.a, c.b))}
		pair.Same = fieldsOf(c.a, c.b) - pair.Other
		pairs = append(pairs, pair)
	}
	return pairs
}

// fieldsOf is how many fields either row has, besides part and club.
func fieldsOf(a, b *entry) int {
	roles := map[catalog.Role]bool{}
	for _, e := range []*entry{a, b} {
		for role, f := range e.row.Fields.All() {
			if role != catalog.Part && role != catalog.Club && (f.Text != "" || f.Dim.Given()) {
				roles[role] = true
			}
		}
	}
	return len(roles)
}

// farthest is the distance up to which two part numbers are alike, and leastLength how long they must be to differ in a character.
const (
	farthest    = 1
	leastLength = 4
)

// distance is 0 for part numbers that only differ in what is easily mistyped, 1 for one character more, less or other, and otherwise
// beyond farthest.
func distance(a, b string) int {
	x, y := []rune(skeleton(a)), []rune(skeleton(b))
	switch {
	case len(x) == 0 || len(y) == 0:
		return farthest + 1
	case string(x) == string(y):
		return 0
	case len(x) < leastLength || len(y) < leastLength || !near.WithinOne(x, y):
		return farthest + 1
	}
	return 1
}

// skeleton brings part numbers that are easily taken for one another to one form.
func skeleton(part string) string {
	part = strings.Map(func(r rune) rune {
		switch {
		case r == 'o':
			return '0'
		case r == 'i' || r == 'l':
			return '1'
		case r < 0x80 && (r < '0' || r > '9') && (r < 'a' || r > 'z'):
			return -1
		}
		return r
	}, part)
	return strings.TrimLeft(part, "0")
}
