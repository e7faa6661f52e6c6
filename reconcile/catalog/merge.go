package catalog

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
)

// listed is an entry with its part number as numbers are compared.
type listed struct {
	*entry
	folded string
}

// key returns what makes the entry the same part as another.
func (e *listed) key() partKey { return partKeyOf(e.table.kind, e.folded, e.table.supplier) }

// merge joins entries of the same part that agree, and holds those that do not. Entries that are held stay by themselves:
// what they lack is still to be asked. The order of the entries stays. Of those that are left, it suggests those that may be one part.
func merge(entries []*entry) []*entry {
	all := make([]listed, len(entries))
	for i, e := range entries {
		all[i] = listed{e, words.Fold(e.part)}
	}
	all = join(all)
	similar(all)
	kept := entries[:0]
	for i := range all {
		kept = append(kept, all[i].entry)
	}
	return kept
}

// join drops the entries that another one of the same part took in.
func join(entries []listed) []listed {
	// Entries of one part are strung together, each with the place of the next one; most are alone.
	const end = -1
	first, last := make(map[partKey]int, len(entries)), map[int]int{}
	next := make([]int, len(entries))
	for i := range entries {
		next[i] = end
		key := entries[i].key()
		head, known := first[key]
		if !known {
			first[key] = i
			continue
		}
		tail, several := last[head]
		if !several {
			tail = head
		}
		next[tail], last[head] = i, i
	}
	dropped := map[*entry]bool{}
	for _, head := range slices.Sorted(maps.Keys(last)) {
		var group []*entry
		for i := head; i != end; i = next[i] {
			group = append(group, entries[i].entry)
		}
		mergeGroup(group, dropped)
	}
	if len(dropped) == 0 {
		return entries
	}
	kept := entries[:0]
	for _, e := range entries {
		if !dropped[e.entry] {
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
			f := original(e, role)
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
			take(first, e)
			dropped[e] = true
		}
	}
}

// original returns the field as the row has it, before a conflict took its value away.
func original(e *entry, role Role) Field { return e.table.out.Rows[e.row].Fields.Get(role) }

// disagree reports whether two entries give different sizes, beyond the last digits that they are written with.
func disagree(a, b *entry, role Role) bool {
	switch traits[role].want {
	case wantLength:
		x, y := original(a, role), original(b, role)
		slack := a.fields.Get(role).Fine.Add(b.fields.Get(role).Fine)
		for _, f := range [...]Field{x, y} {
			if f.Measured != nil { // pieces differ from what is stated
				slack = slack.Add(f.Dim.Width().Half())
			}
		}
		return x.Dim.Given() && y.Dim.Given() && apart(x.Dim.Nominal(), y.Dim.Nominal(), slack)
	case wantAngle:
		x, y := original(a, role).Angle, original(b, role).Angle
		return !x.IsZero() && !y.IsZero() && x != y
	}
	return false
}

// conflict reports two values of one part that disagree, holds both rows, and takes the value from both.
func conflict(a, b *entry, role Role) {
	x, y := original(a, role), original(b, role)
	message := fmt.Sprintf("%s: %s is %s (%s) by %s but %s (%s) by %s%s", a.part, role, x.Text, sayField(x), whereStated(a, role), y.Text, sayField(y), whereStated(b, role),
		ratio(x.Dim, y.Dim))
	for _, pair := range [][2]*entry{{a, b}, {b, a}} {
		e, other := pair[0], pair[1]
		if told := hold(e, role, message); told {
			continue
		}
		e.table.findings.Add(finding.Finding{
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
		if math.Abs(r/m.factor-1) < 0.02 {
			return fmt.Sprintf("; the one is %s times the other, as with %s", trimFloat(max(m.factor, 1/m.factor)), m.why)
		}
	}
	return ""
}

func whereStated(e *entry, role Role) string {
	place := e.place(role)
	if e.table.supplier != "" {
		return e.table.supplier + " (" + place.String() + ")"
	}
	return place.String()
}

// hold takes a value from the entry and holds its row. It reports whether the value was gone already.
func hold(e *entry, role Role, why string) bool {
	f := e.fields.Get(role)
	if !f.Dim.Given() && f.Angle.IsZero() {
		return true
	}
	f.clear()
	e.fields = e.fields.With(role, f)
	row := &e.table.out.Rows[e.row]
	if row.Outcome != Held {
		row.Outcome, row.Why = Held, why
	}
	return false
}

// take fills what the entry lacks from another of the same part, and says so where that is a size.
func take(e *entry, other *entry) {
	for role, f := range other.fields.Sorted() {
		own, known := e.fields.Lookup(role)
		if f.Measured != nil && own.Measured == nil && own.Dim.Given() {
			measured := *f.Measured
			measured.Stated = own.Dim
			f.Measured, f.Text, f.Cell, f.Fine = &measured, own.Text, own.Cell, own.Fine
			e.fields = e.fields.With(role, f)
			continue
		}
		aTip := role == Bore && e.table.bores == BoresAreTips // what stands for the bore says nothing of its size
		if known && (own.Text != "" && !aTip || own.Dim.Given()) {
			continue
		}
		if f.Dim.Given() || !f.Angle.IsZero() {
			e.assume(fmt.Sprintf("%s taken from the same part in %s", role, other.place(role)))
		}
		e.fields = e.fields.With(role, f)
	}
	if !e.hasPrice {
		e.price, e.hasPrice = other.price, other.hasPrice
	}
	if e.category == "" {
		e.category = other.category
	}
	if e.table == other.table {
		e.table.add(finding.Note, "data.repeated", other.line, 0, fmt.Sprintf("%s stands in row %d and in row %d, which agree", e.part, e.line, other.line), "")
	}
}

// similar suggests part numbers that differ only in what people mistype: separators, letters for digits, leading zeros.
func similar(entries []listed) {
	type likeness struct {
		kind Kind
		part string
	}
	first := make(map[likeness]*listed, len(entries))
	for i := range entries {
		e := &entries[i]
		key := likeness{e.table.kind, skeleton(e.folded)}
		other, known := first[key]
		if !known {
			first[key] = e
			continue
		}
		if other.folded == e.folded || key.part == "" {
			continue
		}
		e.table.add(finding.Note, "data.similar", e.line, 0, fmt.Sprintf("%s and %s (%s) are nearly the same part number; they are kept apart",
			e.part, other.part, other.place(Part)), "")
	}
}

// skeleton brings folded part numbers that are easily taken for one another to one form.
func skeleton(folded string) string {
	var room [64]byte
	b := room[:0]
	zeros := true
	for _, r := range folded {
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
		b = utf8.AppendRune(b, r)
	}
	return string(b)
}
