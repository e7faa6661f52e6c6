package merge

import (
	"fmt"
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/rows"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
)

// added is 1 for an entry of a table that adds to the parts of others, and 0 for any other.
func added(e *rows.Entry) int {
	if e.Table.Adds {
		return 1
	}
	return 0
}

// add gives a part what another sheet says of it. Two prices are none until someone says which.
func add(e, other *rows.Entry) {
	if e.HasPrice && other.HasPrice && e.Price != other.Price {
		own, theirs := e.Fields.Get(catalog.Price), other.Fields.Get(catalog.Price)
		other.Table.Findings.Add(finding.Finding{
			Severity: finding.Warning, Code: "data.conflict", Place: other.Place(catalog.Price), Related: []finding.Place{e.Place(catalog.Price)},
			Message: fmt.Sprintf("%s has two prices, %s and %s; neither is used", e.Part, own.Text, theirs.Text),
		})
		own.Clear()
		own.Number, own.IsNumber = 0, false
		e.Fields = e.Fields.With(catalog.Price, own)
		e.Price = 0
	}
	take(e, other)
}

// addToSets gives what a table says of the number of a set to each club of the set, and returns the entries without those that it came from.
func addToSets(entries []*rows.Entry) []*rows.Entry {
	if !slices.ContainsFunc(entries, func(e *rows.Entry) bool { return e.Table.Adds }) || !slices.ContainsFunc(entries, func(e *rows.Entry) bool { return e.Set != "" }) {
		return entries
	}
	clubs, parts := map[catalog.PartKey][]*rows.Entry{}, map[catalog.PartKey]bool{}
	keyOf := func(e *rows.Entry, number string) catalog.PartKey {
		return catalog.PartKeyOf(e.Table.Kind, words.Fold(number), e.Table.Supplier.Key)
	}
	for _, e := range entries {
		switch {
		case e.Table.Adds:
		case e.Set != "":
			key := keyOf(e, e.Set)
			clubs[key] = append(clubs[key], e)
		default:
			parts[keyOf(e, e.Part)] = true
		}
	}
	return slices.DeleteFunc(entries, func(e *rows.Entry) bool {
		if !e.Table.Adds {
			return false
		}
		key := keyOf(e, e.Part)
		if parts[key] {
			return false
		}
		for _, club := range clubs[key] {
			add(club, e)
		}
		return len(clubs[key]) > 0
	})
}

// withoutStrays drops what tables that add to the parts of others say of parts that none of those has, and says so. Where it is sizes, the
// part stays and is held: what it lacks is to be asked.
func withoutStrays(entries []*rows.Entry) []*rows.Entry {
	told := map[*rows.Table]int{} // the place of its finding, counted from 1
	return slices.DeleteFunc(entries, func(e *rows.Entry) bool {
		if !e.Table.Adds {
			return false
		}
		row := &e.Table.Out.Rows[e.Row]
		sized := slices.ContainsFunc(traits.OfKind[e.Table.Kind], func(role catalog.Role) bool {
			return traits.Of[role].Want == traits.Length && e.Table.ByRole[role] != nil
		})
		if sized {
			row.Outcome, row.Why = catalog.Held, "no other sheet gives the sizes that this part lacks"
		} else {
			row.Outcome, row.Why = catalog.SetAside, "no sheet of sizes has this number"
		}
		tell(e, row.Why, told)
		return !sized
	})
}

// tell reports an entry that adds to no part, with all others of its table.
func tell(e *rows.Entry, why string, told map[*rows.Table]int) {
	t, place := e.Table, finding.Place{File: e.Table.File, Sheet: e.Table.Sheet.Name, Row: e.Table.RowOf(e.Line)}
	if at := told[t]; at > 0 {
		f := &t.Findings[at-1]
		f.Related = append(f.Related, place)
		return
	}
	t.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "data.unknown-part", Place: place, Message: fmt.Sprintf("%s: %s", e.Part, why)})
	told[t] = len(t.Findings)
}
