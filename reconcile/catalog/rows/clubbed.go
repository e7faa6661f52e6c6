package rows

import (
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/columns"
)

// The number of a family of heads comes back in a row for each of its clubs, and only both together name a part. Where nearly all numbers stand once, one
// that stands in two rows with two clubs names no family: one of the two is wrong.

// clubbed are the part numbers to which the clubs of their rows belong.
type clubbed struct {
	// all is set where that is the habit of the list.
	all bool
	// some are those that run through clubs where it is not.
	some map[string]bool
}

// leastRun is through how many clubs a number runs at least that names a family by itself.
const leastRun = 3

func (c clubbed) has(part string) bool { return c.all || c.some[part] }

// findClubbed finds out which part numbers come back with other clubs by habit: in most rows, or through several clubs.
func (t *Table) findClubbed() clubbed {
	if t.TitlePart != "" {
		return clubbed{all: true}
	}
	if t.Kind != catalog.Heads || t.ByRole[catalog.Part] == nil || t.ByRole[catalog.Club] == nil {
		return clubbed{}
	}
	rows := 0
	first, clubs := map[string]string{}, map[string]map[string]bool{} // most numbers have one club
	for i, kind := range t.Lines {
		if kind != columns.LineData {
			continue
		}
		part, club := t.TextOf(t.Region.From+i, catalog.Part), t.TextOf(t.Region.From+i, catalog.Club)
		if part == "" || club == "" {
			continue
		}
		rows++
		known, again := first[part]
		switch {
		case !again:
			first[part] = club
		case known == club:
		case clubs[part] == nil:
			clubs[part] = map[string]bool{known: true, club: true}
		default:
			clubs[part][club] = true
		}
	}
	repeated, some := 0, map[string]bool{}
	for part, all := range clubs {
		repeated += len(all)
		if t.clubsIn(all) >= leastRun {
			some[part] = true
		}
	}
	return clubbed{2*repeated > rows, some}
}

// clubsIn returns how many clubs some texts name, those of sets among them.
func (t *Table) clubsIn(texts map[string]bool) (n int) {
	for text := range texts {
		n += max(1, len(t.Lex.SetOf("iron", text)))
	}
	return n
}
