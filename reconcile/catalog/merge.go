package catalog

import (
	"fmt"
	"maps"
	"strings"
	"unicode"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
)

// partKey is what makes two entries the same part: what they list and their part number, however it is written.
type partKey struct {
	kind Kind
	part string
	// supplier is only set for short numbers, which every supplier gives to parts of his own.
	supplier string
}

// key returns what makes the entry the same part as another.
func (e *entry) key() partKey {
	key := partKey{kind: e.table.kind, part: words.Fold(e.item.Part)}
	if len(key.part) <= 3 && isDigits(key.part) {
		key.supplier = e.item.Supplier
	}
	return key
}

// merge joins entries of the same part that agree, and holds those that do not. Entries that are held stay by themselves:
// what they lack is still to be asked. The order of the entries stays.
func merge(entries []*entry) []*entry {
	groups := map[partKey][]*entry{}
	for _, e := range entries {
		key := e.key()
		groups[key] = append(groups[key], e)
	}
	dropped := map[*entry]bool{}
	done := map[partKey]bool{}
	for _, e := range entries {
		key := e.key()
		if group := groups[key]; len(group) > 1 && !done[key] {
			done[key] = true
			mergeGroup(group, dropped)
		}
	}
	kept := entries[:0]
	for _, e := range entries {
		if !dropped[e] {
			kept = append(kept, e)
		}
	}
	return kept
}

// mergeGroup compares every entry of a part, size by size, with the first that gives the size.
func mergeGroup(group []*entry, dropped map[*entry]bool) {
	for _, role := range kindRoles[group[0].table.kind] {
		var first *entry
		for _, e := range group {
			f := e.original(role)
			switch {
			case !f.Dim.Given() && f.Angle.IsZero():
			case first == nil:
				first = e
			case disagree(first, e, role):
				conflict(first, e, role)
			}
		}
	}
	var first *entry
	for _, e := range group {
		switch {
		case e.held():
		case first == nil:
			first = e
		default:
			first.take(e)
			dropped[e] = true
		}
	}
}

// held reports whether the entry's row is held.
func (e *entry) held() bool { return e.table.table.Rows[e.rows[0]].Outcome == Held }

// original returns the field as the row has it, before a conflict took its value away.
func (e *entry) original(role Role) Field { return e.table.table.Rows[e.rows[0]].Fields[role] }

// disagree reports whether two entries give different sizes, beyond the last digits that they are written with.
func disagree(a, b *entry, role Role) bool {
	switch traits[role].want {
	case wantLength:
		x, y := a.original(role).Dim, b.original(role).Dim
		return x.Given() && y.Given() && apart(x.Nominal(), y.Nominal(), a.fine[role].Add(b.fine[role]))
	case wantAngle:
		x, y := a.original(role).Angle, b.original(role).Angle
		return !x.IsZero() && !y.IsZero() && x != y
	}
	return false
}

// apart reports whether two sizes differ by more than their rounding explains; slack is half of the last digit of each, so
// that sizes one digit apart are just too far: .367 and .368.
func apart(a, b, slack measure.Length) bool {
	return a != b && !a.Sub(b).Abs().Less(slack)
}

// conflict reports two values of one part that disagree, holds both rows, and takes the value from both.
func conflict(a, b *entry, role Role) {
	x, y := a.original(role), b.original(role)
	message := fmt.Sprintf("%s: %s is %s (%s) by %s but %s (%s) by %s%s", a.item.Part, role, x.Text, sayField(x), a.where(role), y.Text, sayField(y), b.where(role),
		ratio(x.Dim, y.Dim))
	for _, pair := range [][2]*entry{{a, b}, {b, a}} {
		e, other := pair[0], pair[1]
		if told := e.hold(role, message); told {
			continue
		}
		e.table.table.Findings.Add(finding.Finding{
			Severity: finding.Error, Code: "data.conflict", Place: e.place(role), Related: []finding.Place{other.place(role)}, Message: message,
			Settle: e.table.settle("rows", lineName(e.line), string(role)),
		})
	}
}

func sayField(f Field) string {
	if f.Dim.Given() {
		return sayMM(mm(f.Dim.Nominal()))
	}
	return fmt.Sprintf("%g degrees", f.Angle.Degrees())
}

// ratio says what a usual mistake would explain the difference of two sizes.
func ratio(a, b measure.Dim) string {
	if !a.Given() || !b.Given() || a.Nominal().Sign() <= 0 || b.Nominal().Sign() <= 0 {
		return ""
	}
	r := mm(b.Nominal()) / mm(a.Nominal())
	for _, m := range mistakes {
		if abs(r/m.factor-1) < 0.02 {
			return fmt.Sprintf("; the one is %s times the other, as with %s", trimFloat(max(m.factor, 1/m.factor)), m.why)
		}
	}
	return ""
}

func (e *entry) place(role Role) finding.Place {
	return finding.Place{File: e.table.file, Sheet: e.table.sheet.Name, Row: e.item.Source.Row, Cell: e.item.Fields[role].Cell}
}

func (e *entry) where(role Role) string {
	place := e.place(role)
	if e.item.Supplier != "" {
		return e.item.Supplier + " (" + place.String() + ")"
	}
	return place.String()
}

// hold takes a value from the entry and holds its row. It reports whether the value was gone already.
func (e *entry) hold(role Role, why string) bool {
	f := e.item.Fields[role]
	if !f.Dim.Given() && f.Angle.IsZero() {
		return true
	}
	fields := maps.Clone(e.item.Fields)
	f.Dim, f.Angle = measure.Dim{}, measure.Angle{}
	fields[role] = f
	e.item.Fields = fields
	for _, at := range e.rows {
		row := &e.table.table.Rows[at]
		if row.Outcome != Held {
			row.Outcome, row.Why = Held, why
		}
	}
	return false
}

// take fills what the entry lacks from another of the same part, and says so where that is a size.
func (e *entry) take(other *entry) {
	fields := maps.Clone(e.item.Fields)
	for _, role := range sortedKeys(other.item.Fields) {
		f := other.item.Fields[role]
		own, known := fields[role]
		if known && (own.Text != "" || own.Dim.Given()) {
			continue
		}
		fields[role] = f
		if f.Dim.Given() || !f.Angle.IsZero() {
			e.assume(fmt.Sprintf("%s taken from the same part in %s", role, other.place(role)))
			e.fine[role] = other.fine[role]
		}
	}
	e.item.Fields = fields
	if !e.item.HasPrice {
		e.item.Price, e.item.HasPrice = other.item.Price, other.item.HasPrice
	}
	if e.item.Description == "" {
		e.item.Description = other.item.Description
	}
	if e.category == "" {
		e.category = other.category
	}
	if e.table == other.table {
		e.table.add(finding.Note, "data.repeated", other.line, 0, fmt.Sprintf("%s stands in row %d and in row %d, which agree", e.item.Part, e.line, other.line), "")
	}
}

// similar suggests part numbers that differ only in what people mistype: separators, letters for digits, leading zeros.
func similar(entries []*entry) {
	first := map[partKey]*entry{}
	for _, e := range entries {
		key := partKey{kind: e.table.kind, part: skeleton(e.item.Part)}
		other, known := first[key]
		if !known {
			first[key] = e
			continue
		}
		if words.Fold(other.item.Part) == words.Fold(e.item.Part) || key.part == "" {
			continue
		}
		e.table.add(finding.Note, "data.similar", e.line, 0, fmt.Sprintf("%s and %s (%s) are nearly the same part number; they are kept apart",
			e.item.Part, other.item.Part, other.place(Part)), "")
	}
}

// skeleton brings part numbers that are easily taken for one another to one form.
func skeleton(part string) string {
	var b strings.Builder
	zeros := true
	for _, r := range words.Fold(part) {
		switch {
		case r == 'o':
			r = '0'
		case r == 'i' || r == 'l':
			r = '1'
		case !unicode.IsLetter(r) && !unicode.IsDigit(r):
			continue
		}
		if r == '0' && zeros {
			continue
		}
		zeros = false
		b.WriteRune(r)
	}
	return b.String()
}
