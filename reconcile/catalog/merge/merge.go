// Package merge joins the rows of one part that agree, and holds those that do not.
package merge

import (
	"cmp"
	"fmt"
	"hash/maphash"
	"maps"
	"math"
	"slices"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/rows"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
)

// listed is an entry with its part number as numbers are compared.
type listed struct {
	*rows.Entry
	folded string
}

// key returns what makes the entry the same part as another.
func (e *listed) key() catalog.PartKey {
	return catalog.PartKeyOf(e.Table.Kind, e.folded, e.Table.Supplier.Key)
}

// Entries joins entries of the same part that agree, and holds those that do not. Entries that are held, or leave a value open, stay by themselves:
// what they lack is still to be asked. The order of the entries stays. Of those that are left, it suggests those that may be one part.
func Entries(entries []*rows.Entry) []*rows.Entry {
	entries = addToSets(entries)
	if some := alike(entries); len(some) > 0 {
		left, dropped := join(some)
		similar(left)
		if len(dropped) > 0 {
			entries = slices.DeleteFunc(entries, func(e *rows.Entry) bool { return dropped[e] })
		}
	}
	return withoutStrays(entries)
}

// alike returns the entries that may have something to do with another one: nearly all part numbers are unlike any other, and only those
// that are not are looked at more closely. By chance, there may be a few more.
func alike(entries []*rows.Entry) []listed {
	all := make([]listed, len(entries))
	hashes, times := make([]uint64, len(entries)), make(map[uint64]uint8, len(entries))
	seed := maphash.MakeSeed()
	var room [64]byte
	for i, e := range entries {
		all[i] = listed{e, words.Fold(e.Part)}
		hashes[i] = maphash.Bytes(seed, appendSkeleton(append(room[:0], byte(e.Table.Kind)), all[i].folded))
		times[hashes[i]] = min(times[hashes[i]]+1, 2)
	}
	some := all[:0]
	for i := range all {
		if times[hashes[i]] > 1 {
			some = append(some, all[i])
		}
	}
	return some
}

// join returns the entries without those that another one of the same part took in, and these.
func join(entries []listed) ([]listed, map[*rows.Entry]bool) {
	// Entries of one part are strung together, each with the place of the next one; most are alone.
	const end = -1
	first, last := make(map[catalog.PartKey]int, len(entries)), map[int]int{}
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
	dropped := map[*rows.Entry]bool{}
	for _, head := range slices.Sorted(maps.Keys(last)) {
		var group []*rows.Entry
		for i := head; i != end; i = next[i] {
			group = append(group, entries[i].Entry)
		}
		mergeGroup(group, dropped)
	}
	return slices.DeleteFunc(entries, func(e listed) bool { return dropped[e.Entry] }), dropped
}

// mergeGroup compares every entry of a part, size by size, with the first that gives the size.
func mergeGroup(group []*rows.Entry, dropped map[*rows.Entry]bool) {
	slices.SortStableFunc(group, func(a, b *rows.Entry) int { return cmp.Compare(added(a), added(b)) })
	disagreements := map[[2]*rows.Entry]int{}
	for _, role := range traits.OfKind[group[0].Table.Kind] {
		var first *rows.Entry
		for _, e := range group {
			f := original(e, role)
			switch {
			case !f.Dim.Given() && f.Angle.IsZero():
			case first == nil:
				first = e
			case disagree(first, e, role):
				conflict(first, e, role)
				if pair := [2]*rows.Entry{first, e}; first.Table == e.Table {
					if disagreements[pair]++; disagreements[pair] == fewestOfTwo {
						sayTwoParts(first, e, "with several sizes of its own")
					}
				}
			}
		}
	}
	for _, e := range group[1:] {
		if club, other := soleClub(group[0]), soleClub(e); club != "" && other != "" && club != other && group[0].Table == e.Table && disagreements[[2]*rows.Entry{group[0], e}] < fewestOfTwo {
			sayTwoParts(group[0], e, fmt.Sprintf("with the clubs %s and %s", club, other))
		}
	}
	var first *rows.Entry
	for _, e := range group {
		switch {
		case e.Table.Adds:
			if !group[0].Table.Adds {
				add(group[0], e)
				dropped[e] = true
			}
		case e.Held() || e.Refused():
		case first == nil:
			first = e
		default:
			take(first, e)
			dropped[e] = true
		}
	}
}

// fewestOfTwo is in how many sizes two rows of one number differ that are two parts rather than one with a slip of the pen.
const fewestOfTwo = 2

// soleClub is the club of an entry as it is written, empty where the club belongs to its number.
func soleClub(e *rows.Entry) string {
	if e.Set != "" {
		return ""
	}
	return e.Fields.Text(catalog.Club)
}

// sayTwoParts says of two rows of a table with one number that the number may be what is wrong.
func sayTwoParts(a, b *rows.Entry, with string) {
	b.Table.Findings.Add(finding.Finding{
		Severity: finding.Warning, Code: "data.conflict", Place: b.Place(catalog.Part), Related: []finding.Place{a.Place(catalog.Part)},
		Message: fmt.Sprintf("%s stands twice %s: these may be two parts, and one of the numbers wrong", b.Part, with),
	})
}

// original returns the field as the row has it, before a conflict took its value away.
func original(e *rows.Entry, role catalog.Role) catalog.Field {
	return e.Table.Out.Rows[e.Row].Fields.Get(role)
}

// disagree reports whether two entries give different sizes, beyond the last digits that they are written with.
func disagree(a, b *rows.Entry, role catalog.Role) bool {
	switch traits.Of[role].Want {
	case traits.Length:
		x, y := original(a, role), original(b, role)
		fine, other := a.Fields.Get(role).Fine, b.Fields.Get(role).Fine
		slack := fine.Add(other)
		if !fine.IsZero() && !other.IsZero() && oneHand(a, b, x, y) { // 13 beside 12.5 is no rounding of it
			slack = measure.Min(fine, other).MulInt(2)
		}
		for _, f := range [...]catalog.Field{x, y} {
			if f.Measured != nil { // pieces differ from what is stated
				slack = slack.Add(f.Dim.Width().Half())
			}
		}
		return x.Dim.Given() && y.Dim.Given() && cells.Apart(x.Dim.Nominal(), y.Dim.Nominal(), slack)
	case traits.Angle:
		x, y := original(a, role).Angle, original(b, role).Angle
		return !x.IsZero() && !y.IsZero() && x != y
	}
	return false
}

// oneHand reports whether two sizes stand in one table, or on one sheet in one unit: who wrote both rounds alike.
func oneHand(a, b *rows.Entry, x, y catalog.Field) bool {
	if a.Table == b.Table {
		return true
	}
	written, other := cells.NumberOf(x.Text), cells.NumberOf(y.Text)
	if a.Table.Region.Grid.Sheet != b.Table.Region.Grid.Sheet || written == 0 || other == 0 {
		return false
	}
	unit := traits.MM(x.Dim.Nominal()) / written
	return math.Abs(traits.MM(y.Dim.Nominal())/other/unit-1) < 0.01
}

// conflict reports two values of one part that disagree, and takes the value from both.
func conflict(a, b *rows.Entry, role catalog.Role) {
	x, y := original(a, role), original(b, role)
	message := fmt.Sprintf("%s: %s is %s by %s but %s by %s%s", a.Part, catalog.RoleName(a.Table.Kind, role), asWritten(x), whereStated(a, role), asWritten(y), whereStated(b, role),
		ratio(x.Dim, y.Dim))
	for _, pair := range [][2]*rows.Entry{{a, b}, {b, a}} {
		e, other := pair[0], pair[1]
		if told := hold(e, role, message); told {
			continue
		}
		e.Table.Findings.Add(finding.Finding{
			Severity: finding.Error, Code: "data.conflict", Place: e.Place(role), Related: []finding.Place{other.Place(role)}, Message: message,
			Settle: e.Table.Settle("rows", e.Table.LineName(e.Line), string(role)),
		})
	}
}

// asWritten is a value as the cell has it, and in millimetres where that is not the same.
func asWritten(f catalog.Field) string {
	if size := sayField(f); size != f.Text && size != f.Text+" mm" {
		return f.Text + " (" + size + ")"
	}
	return sayField(f)
}

func sayField(f catalog.Field) string {
	if f.Dim.Given() {
		return traits.SayMM(traits.MM(f.Dim.Nominal()))
	}
	return fmt.Sprintf("%g degrees", f.Angle.Degrees())
}

// ratio says what a usual mistake would explain the difference of two sizes.
func ratio(a, b measure.Dim) string {
	if !a.Given() || !b.Given() || a.Nominal().Sign() <= 0 || b.Nominal().Sign() <= 0 {
		return ""
	}
	r := traits.MM(b.Nominal()) / traits.MM(a.Nominal())
	for _, m := range cells.Mistakes {
		if math.Abs(r/m.Factor-1) < 0.02 {
			return fmt.Sprintf("; the one is %s times the other, as with %s", traits.TrimFloat(max(m.Factor, 1/m.Factor)), m.Why)
		}
	}
	return ""
}

func whereStated(e *rows.Entry, role catalog.Role) string {
	place := e.Place(role).Short()
	if e.Table.Supplier.Name != "" {
		return e.Table.Supplier.Name + " (" + place + ")"
	}
	return place
}

// hold takes a value from the entry and leaves it open, or holds its row where everything hangs on it. It reports whether the value was gone already.
func hold(e *rows.Entry, role catalog.Role, why string) bool {
	f := e.Fields.Get(role)
	if !f.Dim.Given() && f.Angle.IsZero() {
		return true
	}
	f.Clear()
	e.Fields = e.Fields.With(role, f)
	row := &e.Table.Out.Rows[e.Row]
	switch {
	case row.Outcome == catalog.Held:
	case slices.Contains(traits.Keys[e.Table.Kind], role):
		row.Outcome, row.Why = catalog.Held, why
	case !slices.Contains(row.Open, role):
		row.Open = append(slices.Clip(row.Open), role)
	}
	return false
}

// take fills what the entry lacks from another of the same part, and says so where that is a size.
func take(e *rows.Entry, other *rows.Entry) {
	for role, f := range other.Fields.Sorted() {
		own, known := e.Fields.Lookup(role)
		if f.Measured != nil && own.Measured == nil && own.Dim.Given() {
			measured := *f.Measured
			measured.Stated = own.Dim
			f.Measured, f.Text, f.Cell, f.Fine = &measured, own.Text, own.Cell, own.Fine
			e.Fields = e.Fields.With(role, f)
			continue
		}
		aTip := role == catalog.Bore && e.Table.Bores == catalog.BoresAreTips // what stands for the bore says nothing of its size
		sized := f.Dim.Given() || !f.Angle.IsZero()
		if known && (own.Text != "" && !aTip && !(e.Unknown(role) && sized) || own.Dim.Given()) {
			continue
		}
		if sized {
			e.Know(role)
			e.Assume(fmt.Sprintf("%s taken from the same part in %s", catalog.RoleName(e.Table.Kind, role), other.Place(role).Short()))
		}
		e.Fields = e.Fields.With(role, f)
	}
	for role, f := range e.Fields.All() {
		if f.Dim.Given() || !f.Angle.IsZero() {
			other.Know(role)
		}
	}
	if !e.HasPrice {
		e.Price, e.HasPrice, e.PerPiece = other.Price, other.HasPrice, other.PerPiece
	}
	if e.Category == "" {
		e.Category = other.Category
	}
	if e.Table == other.Table && !comparePrices(e, other) {
		e.Table.Add(finding.Note, "data.repeated", other.Line, 0, fmt.Sprintf("%s stands in row %d and in row %d, which agree", e.Part, e.Table.RowOf(e.Line), e.Table.RowOf(other.Line)), "")
	}
}

// similar suggests part numbers that differ only in what people mistype: separators, letters for digits, leading zeros.
func similar(entries []listed) {
	type likeness struct {
		kind catalog.Kind
		part string
	}
	first := make(map[likeness]*listed, len(entries))
	for i := range entries {
		e := &entries[i]
		key := likeness{e.Table.Kind, skeleton(e.folded)}
		other, known := first[key]
		if !known {
			first[key] = e
			continue
		}
		if other.folded == e.folded || key.part == "" {
			continue
		}
		e.Table.Add(finding.Note, "data.similar", e.Line, 0, fmt.Sprintf("%s and %s (%s) are nearly the same part number; they are kept apart",
			e.Part, other.Part, other.Place(catalog.Part)), "")
	}
}

// skeleton brings folded part numbers that are easily taken for one another to one form.
func skeleton(folded string) string { return string(appendSkeleton(nil, folded)) }

// appendSkeleton appends the skeleton of a folded part number.
func appendSkeleton(b []byte, folded string) []byte {
	zeros := true
	for _, r := range folded {
		switch {
		case r == 'o':
			r = '0'
		case r == 'i' || r == 'l':
			r = '1'
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
		case !unicode.IsLetter(r) && !unicode.IsDigit(r):
			continue
		}
		if r == '0' && zeros {
			continue
		}
		zeros = false
		b = utf8.AppendRune(b, r)
	}
	return b
}
